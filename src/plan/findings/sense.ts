/** Mistakes that show only when several values of a plan are read together. */
import { counted, wordList } from "../../findings/figures.ts";
import { mistake } from "./mistake.ts";

export const zoneMissing = mistake<{ place: string; clock: string }>({
  code: "zone-missing",
  title: "a place without a time zone",
  why: "A zone is never guessed: a wrong guess is a missed hit.",
  cure: "State `zone` for the plan, or for each place.",
  example: `
    daywright: 1
    date: 2027-01-20
    clock: America/New_York     # the control room's
    places:
      pier: { at: [46.81, -90.82] }     # and no \`zone\` for the places
  `,
  sentence: ({ place }) => `\`${place}\` has no zone, and the plan has none either`,
  hint: ({ clock }) => `zone: ${clock} at the top of the plan, or the zone where the places are`,
});

export const zoneDoubtful = mistake<{
  zone: string;
  places: readonly string[];
  /** Where the first of them would be right, if the zone is. */
  near: string | null;
}>({
  code: "zone-doubtful",
  level: "warning",
  title: "a zone on the other side of the globe from its places",
  why: "Clocks follow the sun within five hours. If every place with a zone contradicts it, the zone is wrong.",
  cure: "Write the zone in which the places are. If the zone is right, correct the signs of their coordinates.",
  example: `
    zone: Asia/Tokyo
    places:
      lodge: { at: [46.60, -90.88] }
      pier: { at: [46.81, -90.82] }
  `,
  sentence: ({ zone, places }) =>
    `${zone} is in another part of the world than ${places.length === 2 ? "both its places" : `all its ${places.length} places`} (${places.slice(0, 3).join(", ")}${places.length > 3 ? ", …" : ""})`,
  hint: ({ places, near }) =>
    `write the zone in which the places are${near === null ? "" : `; if the zone is right, correct the coordinates, as in ${places[0]}: ${near}`}`,
});

export const offsetDoubtful = mistake<{ text: string; offset: string; clocks: readonly string[] }>({
  code: "offset-doubtful",
  level: "warning",
  title: "an offset that no clock in the plan has at that time",
  why: "A time with an offset is read as written. In summer, a winter offset makes it an hour wrong.",
  cure: "Write the offset that the clock has then, or the time with the name of its clock.",
  example: `
    hits:
      dawn: { at: 2027-01-20T07:00-04:00 }     # New York is at -05:00 in January
  `,
  sentence: ({ text, offset, clocks }) =>
    `no clock in this plan is at ${offset} at that time (\`${text}\`): ${clocks.join(", ")}`,
  hint: ({ clocks }) => `use the offset of its clock: ${clocks[0] ?? ""}`,
});

export const windowBackwards = mistake<{ from: string; to: string; fix: string | null }>({
  code: "window-backwards",
  title: "a window that ends before it begins",
  why: "A window past midnight must say so, so that a slip is not read as a whole night.",
  cure: "Swap the ends, or mark the second with `+1d`.",
  example: `
    tasks:
      pictures: { for: 40 min, place: pier, window: [22:00, 01:00] }
  `,
  sentence: ({ from, to }) => `the window ends (${to}) no later than it begins (${from})`,
  hint: ({ from, to, fix }) =>
    from === to ? "let it end later" : fix === null ? "swap the two" : `\`${fix}\`, if that is meant`,
});

export const badBeforeDrive = mistake<{ drive: string; bad: string }>({
  code: "bad-before-drive",
  title: "a bad drive that is shorter than the likely one",
  why: "`drive` is the likely time, `bad` the one that 19 of 20 drives beat; the second cannot be the shorter.",
  cure: "Swap the two.",
  example: `
    roads:
      - { link: [lodge, pier], drive: 50 min, bad: 35 min }
  `,
  sentence: ({ drive, bad }) => `the bad time (${bad}) is shorter than the likely one (${drive})`,
  hint: () => "swap the two",
});

export const roadTwice = mistake<{ link: string }>({
  code: "road-twice",
  title: "a road that is stated twice",
  why: "Two times for one drive cannot both be planned.",
  cure: "Remove one, or make both `oneWay`.",
  example: `
    roads:
      - { link: [lodge, pier], drive: 35 min }
      - { link: [pier, lodge], drive: 40 min }
  `,
  sentence: ({ link }) => `the road ${link} is stated a second time`,
  hint: () => "remove one, or make both `oneWay: true`",
});

export const roadMissing = mistake<{ from: string; to: string; without: string; vehicle: string; stated: boolean }>({
  code: "road-missing",
  title: "no road between two stops, and no coordinates to estimate it",
  why: "A drive needs a road with its `drive` or its `km`, or coordinates at both ends; a `bad` time alone is not enough.",
  cure: "State the road, or give the place its coordinates.",
  example: `
    places:
      mole: {}     # no \`at\`, and no road to it in \`roads\`
    runs:
      wagon: [lodge, pier, mole]
  `,
  sentence: ({ from, to, without, stated }) =>
    stated
      ? `the road from ${from} to ${to} has neither \`drive\` nor \`km\`, and ${without} has no coordinates`
      : `no road from ${from} to ${to} is stated, and ${without} has no coordinates`,
  hint: ({ from, to, without, stated }) =>
    stated
      ? `\`drive: 35 min\` on that road, or \`at: [lat, lon]\` for ${without}`
      : `- { link: [${from}, ${to}], drive: 35 min } under \`roads\`, or \`at: [lat, lon]\` for ${without}`,
});

export const coordinatesDoubtful = mistake<{ place: string; at: string; why: string; near: string | null }>({
  code: "coordinates-doubtful",
  level: "warning",
  title: "coordinates that cannot be right",
  why: "Light, dish angles and estimated drives come from the coordinates. West and south are negative, and latitude stands first; with a wrong sign the place is on another continent.",
  cure: "Correct the sign or the order of the coordinates, or the road or zone that contradicts them.",
  example: `
    places:
      pier: { at: [46.81, 90.82] }      # west of Greenwich it is -90.82
  `,
  sentence: ({ place, at, why }) => `\`${place}\` cannot be at ${at}: ${why}`,
  hint: ({ near }) => near ?? "check the coordinates, and the road or zone that contradicts them",
});

export const coordinatesSwapped = mistake<{ at: string; near: string }>({
  code: "coordinates-swapped",
  title: "longitude and latitude are swapped",
  why: "Coordinates are latitude, then longitude; no latitude is beyond 90 degrees.",
  cure: "Swap the two.",
  example: `
    places:
      pier: { at: [-90.82, 46.81] }
  `,
  sentence: ({ at }) => `\`${at}\` begins with a longitude; latitude comes first`,
  hint: ({ near }) => near,
});

export const commercialWithoutRules = mistake<{ vehicle: string; because: string; rules: readonly string[] }>({
  code: "commercial-without-rules",
  title: "a commercial vehicle without rules",
  why: "Which hours-of-service rules bind the driver depends on where and why the vehicle is driven. The plan must say.",
  cure: "State `rules` for the vehicle.",
  example: `
    vehicles:
      truck: { gross: 16000 lb }
  `,
  sentence: ({ vehicle, because }) => `\`${vehicle}\` is a commercial vehicle (${because}) and states no rules`,
  hint: ({ rules }) => `add \`rules:\` with one of ${rules.join(", ")}`,
});

export const seatsTooFew = mistake<{ vehicle: string; seats: number; aboard: readonly string[] }>({
  code: "seats-too-few",
  title: "more people aboard than seats",
  why: "Two people cannot have one seat.",
  cure: "Put someone into another vehicle.",
  example: `
    vehicles:
      truck: { seats: 1 }
    runs:
      truck: { aboard: [tomas, bea], stops: [lodge, pier] }
  `,
  sentence: ({ vehicle, seats, aboard }) =>
    `${aboard.length} people have ${counted(seats, "seat")} in \`${vehicle}\`: ${aboard.join(", ")}`,
  hint: () => "put someone into another vehicle, or correct `seats`",
});

export const driverMayNot = mistake<{ driver: string; vehicle: string; may: readonly string[] }>({
  code: "driver-may-not",
  title: "a driver who may not drive the vehicle",
  why: "`drives` in `crew` says who may drive which vehicle. By default a person drives none.",
  cure: "Name another driver, or add the vehicle to their `drives`.",
  example: `
    crew:
      bea: { role: producer }
    runs:
      truck: { driver: bea, stops: [lodge, pier] }
  `,
  sentence: ({ driver, vehicle }) => `\`${driver}\` may not drive \`${vehicle}\``,
  hint: ({ driver, vehicle, may }) =>
    may.length > 0
      ? `${wordList(may, "or")} may; else add \`${vehicle}\` to \`drives\` of ${driver}`
      : `add \`${vehicle}\` to \`drives\` of ${driver}`,
});

export const driverNotAboard = mistake<{ driver: string; vehicle: string; aboard: readonly string[] }>({
  code: "driver-not-aboard",
  title: "a driver who is not aboard",
  why: "The driver must be aboard.",
  cure: "Add the driver to `aboard`, or name another.",
  example: `
    runs:
      truck: { driver: tomas, aboard: [bea], stops: [lodge, pier] }
  `,
  sentence: ({ driver, vehicle }) => `\`${driver}\` drives \`${vehicle}\` but is not aboard`,
  hint: ({ driver, aboard }) => `aboard: [${[driver, ...aboard].join(", ")}]`,
});

export const driversTooFew = mistake<{ vehicle: string; may: readonly string[]; others: readonly string[] }>({
  code: "drivers-too-few",
  title: "two drivers are claimed, but fewer may drive the vehicle",
  why: "`drivers: 2` changes what the law asks of everyone at the wheel (561/2006 Art 8(5), SOR/2005-313 s. 19); it needs two people who may drive.",
  cure: "Add the vehicle to the `drives` of a second person, or drop the claim.",
  example: `
    crew:
      tomas: { drives: truck }
    vehicles:
      truck: { gross: 5 t, rules: eu, drivers: 2 }
  `,
  sentence: ({ vehicle, may }) =>
    `\`${vehicle}\` claims two drivers, but ${may.length === 0 ? "no one" : `only ${may.join(", ")}`} may drive it`,
  hint: ({ vehicle, others }) =>
    others.length === 0
      ? "drop `drivers: 2`"
      : `add \`${vehicle}\` to \`drives\` of ${wordList(others, "or")}, or drop \`drivers: 2\``,
});

export const teamWithoutBerth = mistake<{ vehicle: string }>({
  code: "team-without-berth",
  title: "a team is claimed in a vehicle without a sleeper berth",
  why: "The team's split of the daily rest is spent in the berth (SOR/2005-313 s. 19); a vehicle has no berth unless the plan says so.",
  cure: "State `berth: true` if it has one, or drop the claim.",
  example: `
    crew:
      bea: { role: producer, drives: truck }
    vehicles:
      truck: { gross: 12 t, rules: ca-south, drivers: 2 }
  `,
  sentence: ({ vehicle }) => `\`${vehicle}\` claims a team of two drivers, but has no berth`,
  hint: () => "add `berth: true` if it has one, or drop `drivers: 2`",
});

export const hitUnattended = mistake<{ hit: string; place: string; runs: number }>({
  code: "hit-unattended",
  title: "a hit at a place that no one goes to",
  why: "No run stops there, no one sleeps there and no ride ends there, so the hit cannot be made.",
  cure: "Add the place to a run or to the end of a ride (also on foot), state `slept` for people who are already there, or move the hit.",
  example: `
    hits:
      noon: { at: 12:00, for: 3 min, place: dock }
    runs:
      wagon: [lodge, pier, lodge]
  `,
  sentence: ({ hit, place, runs }) =>
    runs === 0
      ? `no one can attend \`${hit}\`: the plan has no runs, and no one sleeps at \`${place}\` or rides there`
      : `no one can attend \`${hit}\`: no run stops at \`${place}\``,
  hint: ({ place, runs }) =>
    runs === 0
      ? `add \`runs\` with a vehicle that stops at \`${place}\`, \`rides\` that end there, or \`slept: ${place}\` for people who are already there`
      : `add \`${place}\` to the stops of a run`,
});

export const doneElsewhere = mistake<{ activity: string; place: string; stop: string }>({
  code: "done-elsewhere",
  title: "a stop lists what happens at another place",
  why: "A stop's `do` lists what is done at that stop.",
  cure: "List it at a stop of its own place.",
  example: `
    runs:     # noon is at the dock
      wagon:
        driver: wren
        aboard: [wren, ilse]
        stops: [lodge, { place: pier, do: [dawn, noon] }, dock, lodge]
  `,
  sentence: ({ activity, place, stop }) => `\`${activity}\` is at \`${place}\`, and this stop is at \`${stop}\``,
  hint: ({ activity, place }) => `list \`${activity}\` at a stop at \`${place}\``,
});

export const stopsTooFew = mistake<{ vehicle: string }>({
  code: "stops-too-few",
  title: "a run with no stops",
  why: "A run lists the places where a vehicle stops, beginning with the first.",
  cure: "List at least the place where it stands.",
  example: `
    runs:
      wagon: []
  `,
  sentence: ({ vehicle }) => `the run of \`${vehicle}\` has no stops`,
  hint: () => "list the places in the order of the day",
});

export const countWrong = mistake<{ what: string; found: number; wanted: number }>({
  code: "count-wrong",
  title: "a list that is longer or shorter than what it belongs to",
  why: "Each item of the list belongs to one thing; one too many or too few shifts them all.",
  cure: "List one for each.",
  example: `
    packs:
      brick: { count: 5, wh: 98, mount: wedge, charge: [100%, 60%], in: wagon }
  `,
  sentence: ({ what, found, wanted }) => `${what}: ${found} listed for ${wanted}`,
  hint: ({ wanted }) => `list ${wanted}, or one value for all`,
});

export const eitherMissing = mistake<{ where: string; keys: readonly string[]; example: string }>({
  code: "either-missing",
  title: "one of several keys is needed",
  why: "Without one of them the entry means nothing.",
  cure: "Add one of the keys.",
  example: `
    tasks:
      pictures: { for: 40 min }
  `,
  sentence: ({ where, keys }) =>
    `${where} needs ${wordList(
      keys.map((key) => `\`${key}\``),
      "or",
    )}`,
  hint: ({ example }) => `add \`${example}\``,
});

export const keysTogether = mistake<{ where: string; keys: readonly string[] }>({
  code: "keys-together",
  title: "two keys that exclude each other",
  why: "The two contradict each other. A vehicle leaves a stop with a ferry when the ferry sails: `leave` at another time cannot hold as well.",
  cure: "Keep one of them.",
  example: `
    tasks:
      pictures: { for: 40 min, place: pier, onRoad: [lodge, pier] }
  `,
  sentence: ({ where, keys }) =>
    `${where} has both ${wordList(
      keys.map((key) => `\`${key}\``),
      "and",
    )}`,
  hint: () => "keep one of them",
});

export const acceptUnknown = mistake<{ named: string; near: string | null }>({
  code: "accept-unknown",
  title: "`accept` names a finding that does not exist",
  why: "A mistyped code would accept nothing, and the finding would come as a surprise.",
  cure: "Use the code as `check` prints it.",
  example: `
    accept:
      - { code: rest-to-short, why: agreed with wren }
  `,
  sentence: ({ named }) => `no finding is called \`${named}\``,
  hint: ({ near }) => (near === null ? "use the code that `check` prints behind a finding" : `\`${near}\``),
});

export const offNothing = mistake<{ key: string; section: string; near: string | null }>({
  code: "off-nothing",
  title: "`off` names an entry that no shared file defines",
  why: "`off` drops an entry that comes from a file in `uses`. This entry comes from none, so it is probably mistyped.",
  cure: "Name the entry as the shared file does, or remove the line.",
  example: `
    kit:
      odo: off
  `,
  sentence: ({ key, section }) => `\`${key}: off\` drops nothing: no shared \`${section}\` has it`,
  hint: ({ near }) => (near === null ? "remove the line" : `\`${near}: off\``),
});

export const leadUnstated = mistake<{ ride: string }>({
  code: "lead-unstated",
  level: "note",
  title: "a flight for which nobody says how long before it one must be there",
  why: "Bags, security and a rented car's return take their time. Without `lead` people are planned to come at the minute at which it leaves.",
  cure: "State `lead`, as the airline and the airport ask.",
  example: `
    rides:
      flight:
        from: lodge
        to: home
        leave: "14:00"
        arrive: "17:00"
        by: air           # and no \`lead\`
        who: [wren]
  `,
  sentence: ({ ride }) => `${ride} states no \`lead\`: its people are planned to come as it leaves`,
  hint: () => "lead: 90 min, or what the airline asks",
});
