/**
 * Chores are given to people who are there: checked against the day's own spans, call, release and house rules, which are
 * read here once more and not asked of the presence that the touches come from.
 */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Day, PersonDay } from "../../src/day/day.ts";
import type { Id } from "../../src/plan/plan.ts";
import { assess, type PowerResult } from "../../src/power/index.ts";
import { todoOf } from "../../src/power/todo.ts";
import { daysOfFile } from "../day/read.ts";
import { daysOf, demoDays } from "./plans.ts";

/** Minutes from a release to bed and from getting up to the call: 90; 45, on camera 75 (README, house rules). */
const BED_AFTER = 90;
const upBefore = (day: Day, who: Id): number => (day.plan.crew.get(who)?.roles.includes("reporter") === true ? 75 : 45);
/** Spans in which hands are free, and those in which gear is in hand anyway (a touch is offered there). */
const HANDS_FREE = new Set(["wait", "loading", "set-up", "strike", "unload", "ride", "halt"]);

/** Where a person is at a minute with hands for packs; null where they are not there, asleep, at the wheel or busy. */
function handsAt(day: Day, person: PersonDay, minute: number): Id | null {
  const { call, release, previousRelease: before, id } = person;
  if (call === null || release === null)
    return before !== null && before <= minute && minute < before + BED_AFTER ? person.slept : null;
  const nights = [
    ...(before === null ? [{ from: Number.NEGATIVE_INFINITY, to: call, place: person.slept }] : []),
    ...person.spans
      .filter((span) => span.is === "off" && day.plan.tasks.get(span.activity ?? "")?.kind !== "rest")
      .map(({ from, to, place }) => ({ from: Number(from), to, place })),
    { from: release, to: Number.POSITIVE_INFINITY, place: person.sleeps },
  ];
  const night = nights.find(({ from, to }) => from <= minute && minute < to);
  if (night !== undefined) {
    const up = night.to - upBefore(day, id) <= minute;
    return up || minute < night.from + BED_AFTER ? night.place : null;
  }
  const span = person.spans.find(({ from, to }) => from <= minute && minute < to);
  if (span === undefined || !HANDS_FREE.has(span.doing)) return null;
  const sleeps = day.moves.some((move) => move.asleep.includes(id) && move.leave <= minute && minute < move.arrive);
  return sleeps || span.is === "berth" ? null : (span.place ?? span.vehicle);
}

/** Every minute of every chore at which one who is named for it is not there, as `who minute where`. */
function absences(day: Day, result: PowerResult): readonly string[] {
  return todoOf(result.built, result.solution).flatMap(({ from, to, where, who, others }) =>
    [...who, ...others].flatMap((id) => {
      const person = day.people.find((one) => one.id === id);
      const minutes = Array.from({ length: to - from }, (_, n) => from + n);
      return minutes
        .filter((minute) => person === undefined || handsAt(day, person, minute) !== where)
        .map((minute) => `${id} ${new Date(minute * 60_000).toISOString()} ${where}`);
    }),
  );
}

/** The same of every moment that a search may use: the swap before it. */
function emptyTouches(day: Day, { built }: PowerResult): readonly string[] {
  return built.touches.flatMap(({ at, where, hands }) =>
    hands.flatMap(({ who }) => {
      const person = day.people.find((one) => one.id === who);
      const missed = [at - 2, at - 1].filter(
        (minute) => person === undefined || handsAt(day, person, minute) !== where,
      );
      return missed.map((minute) => `${who} ${new Date(minute * 60_000).toISOString()} ${where}`);
    }),
  );
}

async function judged(days: readonly Day[]): Promise<readonly [Day, PowerResult]> {
  const day = days.at(-1);
  if (day === undefined) throw new Error("no day");
  return [day, (await assess({ days, patience: 1, now: null }, null)).result];
}

describe("hands", () => {
  it.each(["2027-01-19", "2027-01-20", "2027-01-21"])("are there all the time of a chore on %s", async (date) => {
    const [day, result] = await judged(await demoDays(date));
    expect(absences(day, result)).toEqual([]);
    expect(emptyTouches(day, result)).toEqual([]);
    expect(todoOf(result.built, result.solution).every(({ who }) => who.length === 1)).toBe(true);
  });

  // With a pack in the first vehicle of each: it is its hands that are asked for.
  it.each(readdirSync("fixtures/edges").filter((name) => name !== "nothing-to-do.yaml"))(
    "are there in %s",
    async (name) => {
      const file = `fixtures/edges/${name}`;
      const text = readFileSync(file, "utf8");
      const [, vehicle] = /^vehicles:\s+(?:\{ )?(\w+):/m.exec(text) ?? [];
      const packs = `packs: { brick: { wh: 98, mount: wedge, charge: 100%, in: ${vehicle} } }`;
      const [day, result] = await judged(await daysOfFile(file, `${text}\n${packs}\n`));
      expect(result.built.touches.length).toBeGreaterThan(0);
      expect(emptyTouches(day, result)).toEqual([]);
    },
  );

  // Released 20:00, in bed 21:30; one camera, packs at 40 % in a wagon on the lodge's mains, one slot.
  // ilse and wren stand down from 18:00 to 06:00, bea is off all day, and wren rests from 12:00 to 13:00.
  const two = `
daywright: 1
date: 2027-01-20
until: +1d
clock: America/Chicago
zone: America/Chicago
history:
  wren: { released: 2027-01-19T20:00-06:00 }
  ilse: { released: 2027-01-19T20:00-06:00 }
  bea: { released: 2027-01-19T20:00-06:00 }
crew:
  wren: { role: camera, drives: wagon, slept: lodge, sleeps: lodge }
  ilse: { role: reporter, slept: lodge, sleeps: lodge }
  bea: { role: producer, slept: lodge }
vehicles: { wagon: {} }
places: { lodge: { kind: lodging, mains: true }, pier: {} }
roads: [{ link: [lodge, pier], drive: 35 min, bad: 50 min }]
hits:
  dusk: { at: "16:00", for: 3 min, place: pier }
  dawn: { at: "08:00 +1d", for: 3 min, place: pier }
tasks:
  nap: { kind: rest, place: lodge, window: ["12:00", "13:00"], for: 60 min, who: [wren] }
  night: { what: off, kind: standdown, place: lodge, window: ["18:00", "06:00 +1d"], who: [wren, ilse] }
kit: { camera: { in: wagon, watts: 40, mount: wedge, during: hits } }
packs: { brick: { count: 2, wh: 100, mount: wedge, charge: 40%, in: wagon } }
chargers: { bench: { mount: wedge, slots: 1, watts: 60, in: wagon } }
runs:
  wagon:
    aboard: [wren, ilse]
    stops: [{ place: lodge, do: [nap] }, { place: pier, do: [dusk] }, { place: lodge, do: [night] }, { place: pier, do: [dawn] }, lodge]
`;

  it("are nobody's who sleeps in a stand-down, rests, or is off all day", async () => {
    const [day, result] = await judged(await daysOf(two));
    expect(emptyTouches(day, result)).toEqual([]);
    const at = (time: string): number => Date.parse(`${time}-06:00`) / 60_000;
    const within = (from: string, to: string): readonly Id[] =>
      result.built.touches
        .filter((touch) => at(from) < touch.at && touch.at <= at(to))
        .flatMap(({ hands }) => hands.map(({ who }) => who));
    expect(within("2027-01-19T21:30", "2027-01-20T10:00")).toEqual([]);
    expect(within("2027-01-20T19:30", "2027-01-21T04:45")).toEqual([]);
    expect(within("2027-01-20T18:00", "2027-01-20T19:30")).toContain("wren");
    expect(within("2027-01-20T12:00", "2027-01-20T13:00")).not.toContain("wren");
  });
});
