/** What the Day can say of orders: of someone's rides, of what shares a person, of what does not fit into a drive. */
import { wordList } from "../../findings/figures.ts";
import { define, names } from "../../findings/finding.ts";

export const rideOrderOpen = define<{ who: string; beds: readonly string[] }>({
  code: "ride-order-open",
  level: "error",
  title: "someone's rides fit together in more than one order",
  why: "The order of rides decides every time; it is not guessed.",
  cure: "Write `after: [id of a stop or activity]` on the stop that comes later; or, where the rides could begin at more than one place, `slept: place`.",
  example: `
    rides:
      ferry:
        from: lodge
        to: lodge
        leave: "14:00"
        arrive: "15:00"
        who: [bea]
  `,
  sentence: (f, say) =>
    f.beds.length > 1
      ? `${say.name(f.who)}'s rides could begin at ${names(f.beds, say)}; the plan does not say where ${say.name(f.who)} slept`
      : `${say.name(f.who)}'s rides can follow each other in more than one order`,
  hint: (f) =>
    f.beds.length > 1
      ? `write ${wordList(
          f.beds.map((bed) => `\`slept: ${bed}\``),
          "or",
        )} on \`${f.who}\``
      : "write `after: […]` on the stop that is left later",
});

export const twoVehiclesAtOnce = define<{
  who: string;
  first: string;
  second: string;
  from: string | null;
  to: string;
  activity: string | null;
  drives: boolean;
}>({
  code: "two-vehicles-at-once",
  level: "error",
  title: "someone is listed in two vehicles at the same time",
  why: "A person rides one vehicle on a drive, and comes with one of them to a hit.",
  cure: "Take them out of `aboard` of one vehicle; or, where they ride both one after the other, write `after: [id of a stop or activity]` on the stop that is left later.",
  example: `
    crew:
      tomas: { role: engineer, drives: truck }
    vehicles:
      truck: {}
    runs:
      wagon: { driver: wren, aboard: [wren, ilse], stops: [lodge, pier, lodge] }
      truck: { driver: tomas, aboard: [tomas, ilse], stops: [lodge, pier, lodge] }
  `,
  sentence: (f, say) => {
    const drive = f.from === null ? `to ${say.name(f.to)}` : `from ${say.name(f.from)} to ${say.name(f.to)}`;
    const what = f.activity === null ? "" : ` for ${f.activity}`;
    return `${say.name(f.who)} is in two vehicles at once: ${say.name(f.first)} and ${say.name(f.second)}, both ${drive}${what}`;
  },
  hint: (f) =>
    (f.drives ? `name another driver for \`${f.second}\`` : `take \`${f.who}\` out of \`aboard\` of one of the two`) +
    (f.activity === null ? "; or write `after: […]` on the stop that is left later, to ride one after the other" : ""),
});

export const driverElsewhere = define<{
  who: string;
  stop: string;
  vehicle: string;
  leg: string | null;
  planned: string | null;
  drives: boolean;
}>({
  code: "driver-elsewhere",
  level: "error",
  title: "someone is logged at the wheel of one vehicle and planned in another",
  why: "A person is in one vehicle at a time. The log stands: someone else drove the other vehicle, or it did not leave; the plan does not say which.",
  cure: "Log who drove the other vehicle, or change its `driver` and `aboard`.",
  example: `
    crew:
      tomas: { role: engineer, drives: [truck, wagon] }
    actual:     # he is planned at the wheel of the truck
      wagon.1: { driver: tomas }
  `,
  sentence: (f, say) => {
    const logged = `${say.name(f.who)} is logged at the wheel of ${say.name(f.vehicle)} from ${f.stop}`;
    if (f.leg === null || f.planned === null)
      return `${logged}, and the plan does not say how ${say.name(f.who)} goes on from there`;
    if (f.drives) return `${logged}, but is to drive ${say.name(f.planned)} from ${f.leg}`;
    return `${logged}, but is to ride in ${say.name(f.planned)} from ${f.leg}`;
  },
  hint: (f) =>
    f.leg === null
      ? `write \`${f.who}\` into \`aboard\` of the stops after \`${f.stop}\``
      : f.drives
        ? `log who drove \`${f.leg}\``
        : `take \`${f.who}\` out of \`aboard\` of \`${f.planned ?? ""}\``,
});

export const rideMissing = define<{ who: string; at: string; next: string; from: string }>({
  code: "ride-missing",
  level: "error",
  title: "someone must ride from a place they are not at",
  why: "People move only by the rides that the plan states.",
  cure: "Add the ride that brings them there, or correct `slept` or `aboard`.",
  example: `
    crew:     # and the wagon takes her from the lodge
      ilse: { role: reporter, slept: pier }
  `,
  sentence: (f, say) => `${say.name(f.who)} is to leave ${say.name(f.from)} in ${f.next}, but is at ${say.name(f.at)}`,
  hint: (f) => `add the ride from \`${f.at}\` to \`${f.from}\`, or correct \`slept\` or \`aboard\``,
});

export const orderOpen = define<{ who: string; first: string; second: string }>({
  code: "order-open",
  level: "error",
  title: "two activities share someone and have no order",
  why: "Two activities of one person need an order before any time is computed.",
  cure: "Write `after:` on the later one, or put both into `do` of one stop.",
  example: `
    tasks:     # ilse rides the wagon
      talk: { place: pier, for: 20 min, who: [ilse, tomas] }
    runs:
      truck:
        driver: tomas
        aboard: [tomas, bea]
        stops: [lodge, { place: pier, do: [talk] }, lodge]
  `,
  sentence: (f, say) =>
    `${say.name(f.who)} does both ${f.first} and ${f.second}; the plan does not say which comes first`,
  hint: (f) => `write \`after: [${f.first}]\` on ${f.second}, or the other way round`,
});

export const orderUnstated = define<{
  tasks: readonly string[];
  stop: string | null;
  order: readonly string[];
  missed: string | null;
}>({
  code: "order-unstated",
  level: "note",
  title: "the order of the file decided what comes first",
  why: "Two things need the same person or path and nothing says which comes first: they were taken as they stand in the file, and in another order the times would differ.",
  cure: "List them in `do` of the stop, or write `after:` on the later one.",
  example: `
    tasks:     # ilse does both
      talk: { place: pier, for: 20 min }
      sound: { place: pier, for: 10 min }
  `,
  sentence: (f, say) =>
    f.missed === null
      ? `nothing says which of ${names(f.tasks, say)} comes first; the order of the file decided`
      : `${names(f.tasks, say)} do not fit together; the order of the file decided that ${f.missed} is missed`,
  hint: (f) =>
    f.missed !== null
      ? `drop one of them, or give ${f.missed} another time`
      : f.stop === null
        ? `write \`after: [${f.tasks[0] ?? ""}]\` on ${f.tasks[1] ?? ""}, or the other way round`
        : `write \`do: [${f.order.join(", ")}]\` on ${f.stop}, in the order that is meant`,
});

export const driveTooShort = define<{
  tasks: readonly string[];
  takes: number;
  from: string;
  to: string;
  drive: number;
}>({
  code: "drive-too-short",
  level: "error",
  title: "what is to be done during a drive lasts longer than the drive",
  why: "A task `aboard` begins after departure and ends before arrival.",
  cure: "Shorten it, give it to a longer drive, or do it at a place.",
  example: `
    tasks:
      write: { place: aboard wagon, for: 60 min, who: ilse }
    runs:
      wagon: [{ place: lodge, do: [write] }, pier, lodge]
  `,
  sentence: (f, say) =>
    `${wordList(f.tasks, "and")} ${f.tasks.length === 1 ? "takes" : "take"} ${say.length(f.takes)}; the drive from ${say.name(f.from)} to ${say.name(f.to)} is planned at ${say.length(f.drive)}`,
  hint: (f, say) => `make it ${say.length(f.drive)} or less, or do it at a place`,
});
