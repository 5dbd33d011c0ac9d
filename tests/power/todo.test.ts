/** Hand moves name those who may do them; `--fly` tells what may fly. Expected values by hand. */
import { expect, it } from "vitest";
import { assess } from "../../src/power/index.ts";
import { crewFor } from "../../src/power/rested.ts";
import { todoOf } from "../../src/power/todo.ts";
import { flyReport } from "../../src/reports/power/fly.ts";
import { instant } from "../../src/time/units.ts";
import { inputFor } from "../reports/inputFor.ts";
import { daysOf } from "./plans.ts";

const plan = (hands: string, wh = 100): string => `
daywright: 1
date: 2027-01-20
clock: America/New_York
zone: America/Chicago
crew:
  wren: { role: camera, drives: wagon }
  ilse: { role: reporter }
vehicles: { wagon: {} }
places: { lodge: { kind: lodging, mains: true }, pier: {}, airport: {} }
roads: [{ link: [lodge, pier], drive: 35 min, bad: 50 min }]
hits: { dawn: { at: "07:00", for: 3 min, place: pier } }
kit: { camera: { in: wagon, watts: 40, mount: wedge, during: hits } }
packs: { brick: { count: 3, wh: ${wh}, mount: wedge, charge: 100%, in: wagon } }
chargers: { bench: { mount: wedge, slots: 3, watts: 60, in: wagon${hands} } }
runs: { wagon: { aboard: [wren, ilse], stops: [lodge, pier, lodge] } }
rides: { flight: { from: lodge, to: airport, leave: "12:00", arrive: "14:00", who: [wren], lead: 1 h, by: air } }
`;

/** Who is named where a pack is put into the charger, at every moment at which both are there. */
async function namedFor(hands: string): Promise<readonly string[]> {
  const { result } = await assess({ days: await daysOf(plan(hands)), patience: 1, now: null }, null);
  const named = result.built.touches.flatMap((touch) => {
    if (!["wren", "ilse"].every((id) => touch.hands.some(({ who }) => who === id))) return [];
    const move = { touch: touch.id, pack: "brick.1", from: "wagon", to: "bench" };
    const crewing = crewFor(result.built, [move]);
    const chores = crewing.kind === "crewed" ? crewing.chores : [];
    const rotation = { covered: [], moves: [move], chores };
    return todoOf(result.built, { rotation }).flatMap((task) => [...task.who, ...task.others]);
  });
  return [...new Set(named)].sort();
}

it("names both where both may touch the charger, and one where only she may", async () => {
  expect(await namedFor("")).toEqual(["ilse", "wren"]);
  expect(await namedFor(", hands: [ilse]")).toEqual(["ilse"]);
});

// Over 100 Wh: with the airline's approval, two spares a person (tests/world/batteries.json, air carriage).
it("lets two of three packs over 100 Wh fly with one person, and all three at 100 Wh", async () => {
  const told = async (wh: number): Promise<unknown> => {
    const [day] = await daysOf(plan("", wh));
    return day === undefined ? null : flyReport(inputFor(day)).data;
  };
  expect(await told(100.1)).toMatchObject({
    people: ["wren"],
    packs: [{ id: "brick", count: 3, allowed: 2, perPerson: 2 }],
  });
  expect(await told(100)).toMatchObject({ people: ["wren"], packs: [{ id: "brick", count: 3, allowed: 3 }] });
});

it("names as one who could as well only who would work from the same minute to the same minute, and minds it no more", async () => {
  const { result } = await assess({ days: await daysOf(plan("")), patience: 1, now: null }, null);
  const { built } = result;
  const [touch] = built.touches;
  if (touch === undefined) throw new RangeError("no touch");
  const { at } = touch;
  const move = { touch: touch.id, pack: "brick.1", from: "wagon", to: "bench" };
  const hand = (who: string, from: number, to: number, doing = "wait") => ({
    ...{ who, doing, from: instant(at + from), to: instant(at + to) },
  });
  // A swap takes 2 min: wren works from two minutes before the moment until the moment.
  const chores = [{ touch: touch.id, begins: instant(at - 2), ends: at, who: ["wren"] }];
  const others = (other: ReturnType<typeof hand>) => {
    const touches = [{ ...touch, hands: [hand("wren", -60, 60), other] }];
    const rests = { ...built.rests, restAt: () => null };
    return todoOf({ ...built, touches, rests }, { rotation: { covered: [], moves: [move], chores } })[0]?.others;
  };
  expect(others(hand("ilse", -60, 60))).toEqual(["ilse"]);
  expect(others(hand("ilse", -2, 0))).toEqual(["ilse"]);
  // There a minute later she ends with it, or a minute after it.
  expect(others(hand("ilse", -1, 0))).toEqual([]);
  expect(others(hand("ilse", -1, 60))).toEqual([]);
  // Gear in hand is worse than a wait.
  expect(others(hand("ilse", -60, 60, "strike"))).toEqual([]);
});

it("numbers the slots of a charger: each pack takes the first that is free, and leaves the one it took", async () => {
  const { result } = await assess({ days: await daysOf(plan("")), patience: 1, now: null }, null);
  const touches = result.built.touches
    .slice(0, 3)
    .map(({ id, at }) => ({ touch: id, begins: at, ends: at, who: ["wren"] }));
  const [first, second, third] = touches.map(({ touch }) => touch);
  const move = (touch = "", pack = "", from = "", to = "") => ({ touch, pack, from, to });
  const moves = [
    ...[move(first, "brick.1", "wagon", "bench"), move(first, "brick.2", "wagon", "bench")],
    ...[move(second, "brick.1", "bench", "camera"), move(second, "brick.3", "wagon", "bench")],
    move(third, "brick.2", "bench", "wagon"),
  ];
  const steps = todoOf(result.built, { rotation: { covered: [], moves, chores: touches } }).flatMap(
    (task) => task.steps,
  );
  expect(steps.map(({ pack, fromSlot, toSlot }) => [pack, fromSlot, toSlot])).toEqual([
    ["brick.1", null, 1],
    ["brick.2", null, 2],
    ["brick.1", 1, null],
    ["brick.3", null, 1],
    ["brick.2", 2, null],
  ]);
});
