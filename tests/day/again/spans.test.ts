/** What two people in one vehicle do from minute to minute on random days, read again from the day's instants alone. */
import { expect, it } from "vitest";
import { computeDay, type Day, NOTHING_BEFORE } from "../../../src/day/index.ts";
import { runs } from "../../fuzz.ts";
import { legsOf, makePlan } from "../make.ts";
import { randomDay } from "../randomDay.ts";

interface Part {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly weight: number;
  readonly place: string | null;
}

/** Hits before what prepares them, that before tasks, roads, gear in hand, the visit's own preparation. */
const WEIGHTS = { hit: 6, held: 5, task: 4.5, road: 4, gear: 3, visit: 2 } as const;

function partsOf(day: Day, drives: boolean): readonly Part[] {
  const parts: Part[] = [];
  const add = (name: string, weight: keyof typeof WEIGHTS, place: string | null, from: string, to: string): void => {
    const [begin, end] = [day.instants.get(from), day.instants.get(to)];
    if (begin !== undefined && end !== undefined && begin < end)
      parts.push({ name, from: begin, to: end, weight: WEIGHTS[weight], place });
  };
  for (const { id } of day.moves) {
    const move = day.moves.find((one) => one.id === id);
    if (move !== undefined)
      parts.push({
        name: drives ? "drive" : "ride",
        from: move.leave,
        to: move.arrive,
        weight: WEIGHTS.road,
        place: null,
      });
  }
  const stops = day.stops.map(({ stop, place }) => ({ id: stop.id, place }));
  for (const [n, { id, place }] of stops.entries()) {
    if (n === 0) add("loading", "gear", place, `${id}.loading`, `${id}.leave`);
    if (n === stops.length - 1) add("unload", "gear", place, `${id}.unload`, `${id}.unloaded`);
    if (n === 0) continue;
    add("park", "visit", place, `${id}.arrive`, `${id}.parked`);
    add("set-up", "visit", place, `${id}.parked`, `${id}.setUp`);
    add("dish-up", "visit", place, `${id}.setUp`, `${id}.ready`);
    const clears = day.activities.filter(
      ({ stops: own, state, activity }) => own.includes(id) && state !== "missed" && activity.kind === "hit",
    );
    const last = clears.toSorted((a, b) => (b.clearEnd ?? 0) - (a.clearEnd ?? 0))[0];
    const from = last?.clearEnd ?? null;
    const { strike } = day.plan.rules;
    if (from !== null) parts.push({ name: "strike", from, to: from + strike, weight: WEIGHTS.visit, place });
  }
  for (const { id, place, activity, state } of day.activities) {
    if (state === "missed") continue;
    add("line check", "held", place, `${id}.lineCheck`, `${id}.inPosition`);
    add("in position", "held", place, `${id}.inPosition`, `${id}.start`);
    add(id, activity.kind === "hit" ? "hit" : "task", place, `${id}.start`, `${id}.end`);
    add("clear", "held", place, `${id}.end`, `${id}.clear`);
  }
  return parts;
}

const over = (a: Part, b: Part): number =>
  b.weight - a.weight || b.from - a.from || a.to - b.to || (a.name < b.name ? -1 : 1);

it("is the weightiest of what they take part in, and a wait where there is nothing", () => {
  const names = new Set<string>();
  for (let seed = 1; seed <= Math.max(40, runs(60, 20_000)); seed++) {
    const plan = makePlan(randomDay(seed));
    const { day } = computeDay(plan, legsOf(plan), NOTHING_BEFORE);
    if (day === null) continue;
    for (const { id, spans } of day.people) {
      const parts = partsOf(day, id === "wren");
      const [first, last] = [Math.min(...parts.map(({ from }) => from)), Math.max(...parts.map(({ to }) => to))];
      for (let at = first; at < last; at++) {
        const [top] = parts.filter(({ from, to }) => from <= at && at < to).toSorted(over);
        const found = spans.find(({ from, to }) => from <= at && at < to);
        names.add(top?.name ?? "wait");
        expect(found?.doing, `seed ${seed} ${id} at ${at - first}`).toBe(top?.name ?? "wait");
        if (top !== undefined) expect(found?.place, `seed ${seed} ${id} at ${at - first}`).toBe(top.place);
      }
    }
  }
  for (const name of ["drive", "ride", "loading", "unload", "park", "set-up", "strike", "line check", "clear", "wait"])
    expect(names).toContain(name);
});
