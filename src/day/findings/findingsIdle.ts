/** What the Day can say of stops, people and hits that something was forgotten for. */
import { define } from "../../findings/finding.ts";
import type { Instant } from "../../time/units.ts";

export const stopIdle = define<{ vehicle: string; place: string; back: boolean }>({
  code: "stop-idle",
  level: "warning",
  title: "a vehicle stops somewhere for nothing",
  why: "No hit or task is done there, no one gets in or out or sleeps there, and no gear changes over: a hit or task was forgotten, or the way is a detour.",
  cure: "Take the stop out, or say what it is for: a task, `stay: 10 min`; `do: []` if the stop is only passed.",
  example: `
    runs:
      wagon: [lodge, { place: pier, do: [dawn] }, lodge, pier, lodge]
  `,
  sentence: (f, say) =>
    f.back
      ? `${say.name(f.vehicle)} drives to ${say.name(f.place)} and back for nothing`
      : `${say.name(f.vehicle)} stops at ${say.name(f.place)} for nothing, and a road leads past it`,
  hint: () => "take it out, or add what is done there; `do: []` if the stop is only passed",
});

export const departureMissing = define<{ vehicle: string; place: string; keys: readonly string[] }>({
  code: "departure-missing",
  level: "note",
  title: "a stop says how the vehicle goes on from it, and it does not go on",
  why: "`driver`, `asleep`, `relieve` and `ferry` of a stop hold from its departure on. The last stop of a run has none.",
  cure: "State it at the stop before, from where the leg to this one starts.",
  example: `
    runs:
      wagon:
        - lodge
        - { place: pier, do: [dawn] }
        - { place: lodge, driver: wren }
  `,
  sentence: (f, say) =>
    `${say.name(f.vehicle)} does not leave ${say.name(f.place)}: ${f.keys.map((key) => `\`${key}\``).join(", ")} there ${f.keys.length === 1 ? "has" : "have"} no effect`,
  hint: () => "state it at the stop from which that drive starts",
});

export const setUpUnplanned = define<{
  hits: readonly string[];
  place: string;
  setUp: number;
  who: readonly string[];
}>({
  code: "set-up-unplanned",
  level: "warning",
  title: "a hit is made without a vehicle, and nothing says when its gear is set up",
  why: "Park, set-up and strike belong to the visit of a vehicle. People who are there without one are called for the line check.",
  cure: "Add a run of the vehicle that stands there, `wagon: [lodge]`; or a task for the set-up, with `before: dawn`.",
  example: `
    crew:
      odo: { slept: inn }
    places:
      inn: { at: [46.6, -90.9] }
    hits:
      early: { at: 06:30, for: 3 min, place: inn, who: odo }
    runs:
      wagon: { aboard: [wren, ilse], stops: [lodge, pier, lodge] }
  `,
  sentence: (f, say) =>
    `${f.hits.join(", ")} at ${say.name(f.place)} ${f.hits.length === 1 ? "has" : "have"} no vehicle and no set-up: people are called for the line check`,
  hint: (f, say) =>
    `add a task \`{ place: ${f.place}, for: ${say.length(f.setUp)}, who: [${f.who.join(", ")}], before: ${f.hits[0] ?? "…"} }\`, or the run of a vehicle that stands there: \`[${f.place}]\``,
});

export const nothingToDo = define<{ who: string }>({
  code: "nothing-to-do",
  level: "note",
  title: "someone of the crew has no ride, hit or task",
  why: "They get no call. That is right on a day off, and wrong where a name was left out of `aboard` or `who`.",
  cure: "Add them to `aboard` of a run or to `who`; leave it on a day off.",
  example: `
    crew:
      odo: { slept: lodge }
    runs:
      wagon: { aboard: [wren, ilse], stops: [lodge, pier, lodge] }
  `,
  sentence: (f, say) => `${say.name(f.who)} has no call: no vehicle, hit or task in the plan needs them`,
  hint: (f) => `add \`${f.who}\` to \`aboard\` of a run or to \`who\`; leave it on a day off`,
});

export const hitBeforeDate = define<{ hit: string; at: { at: Instant }; date: string }>({
  code: "hit-before-date",
  level: "warning",
  title: "a hit is before the plan's date in the control room",
  why: "`date` is the day on the control room's clock, and `local` reads a time on that date at the place: far to the east of the control room it is then still the day before.",
  cure: "Write `06:00 local +1d` where the place's next day is meant, or put the hit into the plan of the day before.",
  example: `
    hits:
      dawn: { at: 22:00 -1d, for: 3 min, place: pier }
  `,
  sentence: (f, say) => `${f.hit} is at ${say.time(f.at.at)}, before ${f.date} begins in the control room`,
  hint: () => "add `+1d` to the time if the next day is meant",
});
