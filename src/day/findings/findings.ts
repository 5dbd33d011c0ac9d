/**
 * The catalogue of what the Day can say: mistakes of order in a plan, and what contradicts an instant fixed earlier; rides
 * and rings are in `findingsOrder.ts`, what does not fit in `findingsMissed.ts`, what something was forgotten for in `findingsIdle.ts`.
 */
import { wordList } from "../../findings/figures.ts";
import { define, names } from "../../findings/finding.ts";
import type { Instant } from "../../time/units.ts";

/** `may`: who may drive it. `stops`: its places, in order; `bare`: nothing else is stated of them. */
export const aboardMissing = define<{
  vehicle: string;
  may: readonly string[];
  stops: readonly string[];
  bare: boolean;
}>({
  code: "aboard-missing",
  level: "error",
  title: "no one is listed aboard a vehicle",
  why: "With more than one vehicle, who sits where is not guessed: a wrong guess leaves somebody at the hotel.",
  cure: "Write `aboard: [ids]` on the run, or `driver: id` if one person drives alone.",
  example: `
    runs:
      truck: [lodge, pier, lodge]     # and the wagon runs as well
  `,
  sentence: (f, say) => `no one is listed aboard ${say.name(f.vehicle)}`,
  hint({ vehicle, may, stops, bare }) {
    const [driver, ...others] = may;
    const run =
      driver === undefined || others.length > 0 ? "driver: …, aboard: […]" : `driver: ${driver}, aboard: [${driver}]`;
    const rest =
      others.length > 0 ? `; ${may.join(", ")} may drive it` : driver === undefined ? "" : ", with all who ride";
    // What a stop states besides its place would be lost if only the places were offered.
    const kept = bare ? "" : ", the stops as they are";
    return `write \`${vehicle}: { ${run}, stops: [${bare ? stops.join(", ") : "…"}] }\`${kept}${rest}`;
  },
});

export const driverMissing = define<{ vehicle: string; leg: string; may: readonly string[] }>({
  code: "driver-missing",
  level: "error",
  title: "a leg has no driver, or more than one could be meant",
  why: "Hours at the wheel belong to one person at a time; the driver is taken from the people aboard only if just one may drive.",
  cure: "Write `driver: id` on the run or on the stop the leg leaves from, or add the vehicle to someone's `drives`.",
  example: `
    crew:
      ilse: { role: reporter, drives: wagon }     # and so does wren
  `,
  sentence: (f, say) =>
    f.may.length === 0
      ? `no one aboard ${say.name(f.vehicle)} may drive it`
      : `${names(f.may, say)} may all drive ${say.name(f.vehicle)}; the plan does not say who does`,
  hint: (f) =>
    f.may.length === 0
      ? `add \`drives: [${f.vehicle}]\` to one of the people aboard`
      : `write \`driver: ${f.may[0] ?? "…"}\``,
});

export const driverAsleep = define<{
  who: string;
  leg: string;
  /** Who else aboard may drive and does not sleep. */
  awake: readonly string[];
  /** Who else sleeps there. */
  others: readonly string[];
}>({
  code: "driver-asleep",
  level: "error",
  title: "someone is at the wheel and asleep on the same leg",
  why: "One person cannot do both.",
  cure: "Name another driver for the leg or take the person out of `asleep`.",
  example: `
    runs:
      wagon: [lodge, { place: pier, asleep: [wren] }, lodge]     # wren drives
  `,
  sentence: (f, say) => `${say.name(f.who)} drives from ${f.leg} and is stated asleep there`,
  hint: (f) => {
    const [other] = f.awake;
    return `write ${other === undefined ? "" : `\`driver: ${other}\` at ${f.leg}, or `}\`asleep: [${f.others.join(", ")}]\``;
  },
});

export const riderNotAboard = define<{ who: string; leg: string }>({
  code: "rider-not-aboard",
  level: "error",
  title: "someone sleeps in a vehicle they do not ride",
  why: "Only people aboard can sleep on the way.",
  cure: "Add them to `aboard` of that stop.",
  example: `
    runs:
      wagon:
        driver: wren
        aboard: [wren, ilse]
        stops: [lodge, { place: pier, asleep: [bea] }, dock, lodge]
  `,
  sentence: (f, say) => `${say.name(f.who)} is named asleep on the leg from ${f.leg} but is not aboard`,
});

export const visitOpen = define<{
  activity: string;
  place: string;
  who: string | null;
  stops: readonly string[];
}>({
  code: "visit-open",
  level: "error",
  title: "an activity fits several visits of its place",
  why: "Which visit is meant decides every time of the day; it is not guessed.",
  cure: "Write the activity into `do` of the stop that is meant.",
  example: `
    runs:
      wagon: [lodge, pier, lodge, pier, lodge]     # which visit is dawn's?
  `,
  sentence: (f, say) =>
    f.who === null
      ? `${f.activity} fits ${f.stops.length} visits of ${say.name(f.place)}: ${f.stops.join(", ")}`
      : `${say.name(f.who)} is at ${say.name(f.place)} ${f.stops.length} times, and ${f.activity} fits each: ${f.stops.join(", ")}`,
  hint: (f) => `write \`do: [${f.activity}]\` on the stop that is meant`,
});

export const placeNotVisited = define<{ activity: string; place: string; there: readonly string[] }>({
  code: "place-not-visited",
  level: "error",
  title: "no vehicle stops at the place of a hit or task",
  why: "A hit or task needs people who are there, and people move only with a ride.",
  cure: "Add the place to a run, or name who is there in `who`.",
  example: `
    tasks:
      pictures: { place: cove, for: 35 min }     # and no run stops at the cove
  `,
  sentence: (f, say) => `no vehicle stops at ${say.name(f.place)} for ${f.activity}`,
  hint: (f) =>
    f.there.length > 0
      ? `write \`who: [${f.there.join(", ")}]\`, who are there without one, or add a stop at \`${f.place}\` to a run`
      : `add a stop at \`${f.place}\` to a run, or say \`who\` is there`,
});

export const listedTwice = define<{ activity: string; stops: readonly string[] }>({
  code: "listed-twice",
  level: "error",
  title: "one vehicle lists an activity at two of its stops",
  why: "An activity is done once.",
  cure: "Leave it in one `do`.",
  example: `
    runs:
      wagon:
        - lodge
        - { place: pier, do: [dawn] }
        - lodge
        - { place: pier, do: [dawn] }
  `,
  sentence: (f) => `${f.activity} stands in \`do\` of ${wordList(f.stops, "and")}`,
});

export const cannotAttend = define<{ activity: string; who: string; place: string; by: readonly string[] }>({
  code: "cannot-attend",
  level: "error",
  title: "someone is needed where they cannot be",
  why: "People move only by the rides that the plan states.",
  cure: "Bring them there with a run or a ride, or take them out of `who`.",
  example: `
    hits:     # bea rides the truck, which does not go to the dock
      noon: { at: "12:00", for: 3 min, place: dock, who: [wren, bea] }
  `,
  sentence: (f, say) => `${say.name(f.who)} is needed for ${f.activity} at ${say.name(f.place)} and never comes there`,
  hint: (f) =>
    f.by.length > 0
      ? `add \`${f.who}\` to \`aboard\` of \`${f.by.join("` or `")}\`, which stops there, or take \`${f.who}\` out of \`who\``
      : `bring \`${f.who}\` to \`${f.place}\` with a run or a ride, or take \`${f.who}\` out of \`who\``,
});

export const nobodyAttends = define<{ activity: string }>({
  code: "nobody-attends",
  level: "error",
  title: "no one is there for a hit or task",
  why: "A hit or task needs at least one person.",
  cure: "Name `who`, or let a vehicle with people aboard list it.",
  example: `
    tasks:
      pictures: { place: dock, for: 35 min, who: [] }
  `,
  sentence: (f) => `no one is there for ${f.activity}`,
});

export const twoWaits = define<{ vehicle: string; stops: readonly string[]; before: string }>({
  code: "two-waits",
  level: "error",
  title: "two stops say `wait: here` before the same fixed instant",
  why: "The wait before one fixed instant can stand at one place only.",
  cure: "Leave `wait: here` on one of them.",
  example: `
    hits:
      noon: { at: "12:00", for: 3 min, place: pier }
    runs:
      wagon:
        - lodge
        - { place: pier, do: [dawn], wait: here }
        - { place: lodge, wait: here }
        - { place: pier, do: [noon] }
  `,
  sentence: (f) => `${wordList(f.stops, "and")} both say \`wait: here\` before ${f.before}`,
});

export const runUnfixed = define<{ vehicle: string; serves: readonly string[]; at: string | null }>({
  code: "run-unfixed",
  level: "error",
  title: "nothing says when a vehicle runs",
  why: "Without a hit, a time or a window there is no instant to work back from.",
  cure: "Write `leave` or `arriveBy` on a stop, or a `window` on a task.",
  example: `
    runs:
      truck:
        driver: tomas
        aboard: [tomas, bea]
        stops: [lodge, cove, lodge]     # nothing to do at the cove
  `,
  sentence: (f, say) => `nothing says when ${say.name(f.vehicle)} runs`,
  hint: ({ serves, at }) =>
    at === null
      ? "write `leave: …` or `arriveBy: …` on a stop, or `window: […]` on a task"
      : `its path is for ${serves.join(", ")}: write \`{ place: ${at}, do: [${serves.join(", ")}] }\` for that stop`,
});

export const leftAwayFromBed = define<{ who: string; at: string; sleeps: string }>({
  code: "left-away-from-bed",
  level: "error",
  title: "someone ends the day away from their bed",
  why: "A release counts where the bed is.",
  cure: "Add the ride to `sleeps`, or correct `sleeps`.",
  example: `
    crew:
      ilse: { role: reporter, sleeps: inn }     # and the wagon ends at the lodge
  `,
  sentence: (f, say) => `${say.name(f.who)} ends at ${say.name(f.at)} and is to sleep at ${say.name(f.sleeps)}`,
});

export const lengthMissing = define<{ task: string }>({
  code: "length-missing",
  level: "error",
  title: "a task has no length",
  why: "A length is needed to place it; none is assumed.",
  cure: "Write `for: 40 min`; a standby or stand-down may take its `window` instead.",
  example: `
    tasks:     # and net has no \`rate\`
      send: { kind: feed, path: net, size: 900 MB, place: dock }
  `,
  sentence: (f) => `${f.task} does not say how long it takes`,
  hint: () => "write `for: …`",
});

export const legOpen = define<{ activity: string; legs: readonly string[] }>({
  code: "leg-open",
  level: "error",
  title: "an activity on the way fits no leg, or several",
  why: "What is done while driving belongs to one leg.",
  cure: "Write it into `do` of the stop that leg leaves from.",
  example: `
    tasks:     # on which of the wagon's legs?
      fill: { kind: fuel, place: aboard wagon, for: 10 min }
  `,
  sentence: (f) =>
    f.legs.length === 0 ? `no leg fits ${f.activity}` : `${f.activity} fits the legs from ${f.legs.join(", ")}`,
  hint: (f) => `write \`do: [${f.activity}]\` on the stop that leg leaves from`,
});

export const wentBackwards = define<{
  what: string;
  at: { readonly at: Instant };
  place: string | null;
  first: string;
  firstAt: { readonly at: Instant };
  firstPlace: string | null;
}>({
  code: "went-backwards",
  level: "error",
  title: "what is logged contradicts itself",
  why: "A vehicle arrives before it leaves, a hit begins before it ends, and a release comes after its call. If the log says otherwise, one of the two times is wrong, and so is every time that follows from it.",
  cure: "Correct the time that is wrong: after midnight it takes `+1d`; without a clock it is the control room's.",
  example: `
    actual:
      wagon.2: { arrived: "06:30", left: "06:10" }
  `,
  sentence: (f, say) =>
    `${f.what} at ${say.time(f.at.at, f.place)} contradicts ${f.first} at ${say.time(f.firstAt.at, f.firstPlace)}, which comes first`,
  hint: () =>
    "a time after midnight takes `+1d`, one on the local clock `local`; log what comes first before the other",
});

export const vehicleElsewhere = define<{ vehicle: string; at: string; from: string }>({
  code: "vehicle-elsewhere",
  level: "error",
  title: "a vehicle sets off from a place where it did not end the day before",
  why: "A vehicle is where the day before left it.",
  cure: "Begin the run where the vehicle stands, or log where it really is.",
  example: `
    follows: 2027-01-19.yaml     # where the wagon ends at the inn
    runs:
      wagon:
        driver: wren
        aboard: [wren, ilse]
        stops: [lodge, { place: pier, do: [dawn, breakfast] }, dock, lodge]
  `,
  sentence: (f, say) => `${say.name(f.vehicle)} sets off from ${say.name(f.from)}, but ended at ${say.name(f.at)}`,
});

export const bedElsewhere = define<{ who: string; at: string; slept: string }>({
  code: "bed-elsewhere",
  level: "error",
  title: "someone is stated to have slept away from where the day before ended",
  why: "Rest and the first ride are counted from the bed.",
  cure: "Correct `slept`, or `sleeps` of the day before.",
  example: `
    follows: 2027-01-19.yaml     # where bea goes to the inn at the end
    crew:
      bea: { role: producer, slept: lodge }
  `,
  sentence: (f, say) =>
    `${say.name(f.who)} is stated to have slept at ${say.name(f.slept)}; the day before ends at ${say.name(f.at)}`,
});

export const inBedAtWork = define<{
  who: string;
  from: { readonly at: Instant };
  to: { readonly at: Instant };
  doing: string;
  begins: { readonly at: Instant };
}>({
  code: "in-bed-at-work",
  level: "warning",
  title: "someone is stated to sleep while they work",
  why: "Sleep counts for how rested somebody is at the wheel. The part that falls into their work is not counted.",
  cure: "Correct `inBed`, or give that work to somebody else.",
  example: `
    crew:     # wren is called before eight
      wren: { role: camera, drives: wagon, inBed: [["21:00 -1d", "08:00"]] }
  `,
  sentence: (f, say) =>
    `${say.name(f.who)} is stated in bed ${say.time(f.from.at)} to ${say.time(f.to.at)}, but works at ${say.time(f.begins.at)} (${f.doing}); sleep does not count there`,
  hint: (f) => `correct \`inBed\` of \`${f.who}\``,
});

export const slipTooLong = define<{ hit: string; late: number; slack: number; next: string }>({
  code: "slip-too-long",
  level: "warning",
  title: "a hit that slips as the desk may let it breaks what follows",
  why: "`late` is how long the desk may slip a hit; what is fixed after it must leave that much room.",
  cure: "Ask for a smaller slip, or move what follows.",
  example: `
    hits:
      noon:
        at: "12:00"
        for: 3 min
        late: 30 min
        place: dock
        path: cell
        spare: net
      again: { at: "12:20", for: 3 min, place: dock, path: cell, spare: net }
  `,
  sentence: (f, say) =>
    `${f.hit} may slip ${say.length(f.late)}, but only ${say.length(f.slack)} are free before ${f.next}`,
});
