/** Packs that were seen somewhere: until then the rotation stands, move for move; from then on they lie where they were seen. */
import { describe, expect, it } from "vitest";
import { resumed } from "../../src/power/past.ts";
import { had } from "../../src/reports/shared/judged.ts";
import { instant } from "../../src/time/units.ts";
import { type Case, judgedText } from "../cases/judged.ts";

// The camera draws 100 W from the line check at 05:40 to clear at 06:03, and again from 09:50 to 10:13: 38.3 Wh each.
const DAY = `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew:
  wren: { role: camera, drives: wagon, slept: lodge, sleeps: lodge }
  bea: { drives: car, slept: lodge, sleeps: lodge }
history: { wren: { released: 2027-01-19T15:00-06:00 }, bea: { released: 2027-01-19T15:00-06:00 } }
vehicles: { wagon: { inside: 20 C }, car: { inside: 20 C } }
places: { lodge: { kind: lodging }, pier: { shelter: true }, cove: { shelter: true } }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 30 min }, { link: [lodge, cove], drive: 30 min, bad: 30 min }]
hits:
  dawn: { at: "06:00", for: 3 min, place: pier, who: [wren] }
  ten: { at: "10:00", for: 3 min, place: pier, who: [wren] }
kit: { cam: { in: wagon, watts: 100, mount: v, during: hits } }
packs: { vl: { count: 2, wh: 98, mount: v, charge: 100%, in: wagon } }
runs:
  wagon: { driver: wren, aboard: [wren], stops: [lodge, pier, lodge] }
  car: { driver: bea, aboard: [bea], stops: [{ place: lodge, leave: "05:00" }, { place: cove, stay: 8 h }, lodge] }
`;

const seen = (id: string, entry: string): string => `${DAY}actual: { ${id}: ${entry} }\n`;

const clock = (at: number): string => new Date((at - 360) * 60_000).toISOString().slice(11, 16);

const moves = ({ results }: Case) => {
  const { solution, built } = had(results.power);
  return solution.rotation.moves.map(({ touch, pack, to }) => {
    const at = built.touches.find(({ id }) => id === touch)?.at ?? 0;
    return `${clock(at)} ${pack} ${to}`;
  });
};
const lit = ({ results }: Case) => had(results.power).solution.rotation.covered;

/** Where a pack is by the account of kit, in holders one after the other. */
const holders = ({ results }: Case, pack: string): readonly string[] => {
  const all = (had(results.kit).track?.stays(pack) ?? []).map(({ holder }) => holder);
  return all.filter((one, at) => one !== all[at - 1]);
};

describe("a pack that was seen", () => {
  it("in another vehicle counts from there on, in kit as well, and what was before stands", async () => {
    const planned = await judgedText(DAY);
    // By the plan it is on the camera for dawn, then back in the wagon: by 06:30 it is really with bea, at the cove.
    expect(moves(planned)).toEqual(["04:35 vl.1 cam", "06:05 vl.1 wagon", "06:05 vl.2 cam"]);
    const found = await judgedText(seen("vl.1", '{ in: car, at: "06:30" }'));
    expect(moves(found)).toEqual(moves(planned));
    expect([holders(planned, "vl.1"), holders(found, "vl.1")]).toEqual([["wagon"], ["wagon", "car"]]);
    expect(lit(found)).toEqual(lit(planned));
  });

  it("elsewhere before it was to be used is not used: the other one powers both, 98 - 2 x 38.3 - 14.7 above", async () => {
    const found = await judgedText(seen("vl.2", '{ in: car, at: "05:30" }'));
    expect(lit(found)).toEqual(["dawn", "ten"]);
    const { solution } = had(found.results.power);
    expect(solution.replay.uses.map(({ packs }) => packs)).toEqual([["vl.1"], ["vl.1"]]);
    expect(solution.replay.leastMarginWh).toBeCloseTo(98 - (2 * 100 * 23) / 60 - 14.7, 6);
  });

  it("where the rotation has it anyway changes nothing, on a piece of that vehicle as well", async () => {
    const planned = await judgedText(DAY);
    for (const entry of ['vl.1: { in: wagon, at: "05:50" }', 'vl.2: { in: wagon, at: "09:00" }']) {
      const same = await judgedText(`${DAY}actual: { ${entry} }\n`);
      expect(moves(same), entry).toEqual(moves(planned));
      expect(had(same.results.power).solution.model.packs.flatMap(({ seen: one = [] }) => one)).toEqual([]);
    }
  });

  it("with another charge than computed leaves what came before its moment as it was", async () => {
    // 20 % at 09:00 is 19.6 Wh, 4.9 above the reserve, and `ten` takes 38.3: vl.1, which has 59.7, goes back in before 09:50.
    const found = await judgedText(seen("vl.2", '{ charge: 20%, at: "09:00" }'));
    const planned = await judgedText(DAY);
    expect(moves(found).slice(0, 3)).toEqual(moves(planned));
    expect(moves(found).length).toBeGreaterThan(3);
    expect(lit(found)).toEqual(["dawn", "ten"]);
    expect(had(found.results.power).solution.replay.uses.map(({ packs }) => packs)).toEqual([["vl.1"], ["vl.1"]]);
  });
});

describe("a day that goes on from a moment", () => {
  const clocks = (touches: readonly { readonly at: number }[]) => touches.map(({ at }) => at);
  const resumedAt = async (clock: string, later: string) => {
    const [earlier, now] = [await judgedText(DAY), await judgedText(later)].map(({ results }) => had(results.power));
    if (earlier === undefined || now === undefined) throw new RangeError("two days were asked for");
    const from = instant(Date.parse(`2027-01-20T${clock}-06:00`) / 60_000);
    return { earlier, from, found: await resumed(now.built, earlier, from, { patience: 1 }) };
  };

  it("is the same whenever it goes on, and has all moments in time order", async () => {
    for (const clock of ["04:00", "04:33", "04:34", "04:35", "06:03", "06:04", "06:05", "07:00", "09:55", "12:00"]) {
      const { earlier, found } = await resumedAt(clock, DAY);
      expect(found?.solution.rotation, clock).toEqual(earlier.solution.rotation);
      expect(found?.solution.replay.faults, clock).toEqual([]);
      expect(clocks(found?.built.touches ?? []), clock).toEqual(clocks(earlier.built.touches));
    }
  });

  it("has the moves before as they were, and goes on with the charge that was found of each pack", async () => {
    // Vl.1 gave dawn 38.3 of its 98 Wh, vl.2 is in the camera for ten. Found at 07:00: vl.2 has 39.2 Wh, 0.9 after ten, less than
    // the reserve of 14.7. Vl.1 has 59.7, so it goes back in.
    const { earlier, from, found } = await resumedAt("07:30", seen("vl.2", '{ charge: 40%, at: "07:00" }'));
    const before = earlier.solution.rotation.moves;
    const later = found?.solution.rotation.moves.slice(before.length) ?? [];
    const touches = found?.built.model.touches ?? [];
    const timeOf = (touch: string): number => touches.find(({ id }) => id === touch)?.at ?? 0;
    expect(found?.solution.rotation.moves.slice(0, before.length).map(({ pack, to }) => [pack, to])).toEqual(
      before.map(({ pack, to }) => [pack, to]),
    );
    expect(later.map(({ pack, to }) => `${pack} ${to}`).toSorted()).toEqual(["vl.1 cam", "vl.2 wagon"]);
    expect(later.every(({ touch }) => timeOf(touch) >= from)).toBe(true);
    expect(found?.solution.rotation.covered).toEqual(["dawn", "ten"]);
    expect(found?.solution.replay.leastMarginWh).toBeCloseTo(98 - (2 * 100 * 23) / 60 - 14.7, 6);
    expect(clocks(touches)).toEqual(clocks(touches).toSorted((a, b) => a - b));
    expect(touches.map(({ id }) => id)).toEqual(touches.map((_, n) => `touch.${n + 1}`));
    // The moment of what was found cuts the day; no one reaches anything at it.
    expect(touches.filter(({ at, reach }) => at < from && reach.length === 0)).toHaveLength(1);
  });

  it("is judged anew where its past cannot have been: the pack that powered dawn was found too empty at 05:50", async () => {
    const { found } = await resumedAt("06:30", seen("vl.1", '{ charge: 1%, at: "05:50" }'));
    expect(found).toBeNull();
  });
});

describe("a day with one chore", () => {
  it("has it in its crew's time, as a day with several has", async () => {
    // One pack covers dawn alone: it is put into the camera, and stays there.
    for (const [text, count] of [
      [DAY.replace(/ {2}ten: .*\n/u, ""), 1],
      [DAY, 2],
    ] as const) {
      const { days, solution } = had((await judgedText(text)).results.power);
      expect(solution.rotation.chores.length).toBe(count);
      const chores = days.at(-1)?.people.flatMap(({ id, chores: own }) => own.map(({ from, to }) => [id, from, to]));
      expect(chores).toEqual(
        solution.rotation.chores.flatMap(({ who, begins, ends }) => who.map((id) => [id, begins, ends])),
      );
    }
  });
});

describe("a pack that a stop moves", () => {
  const moved = (id: string, to: string): string =>
    DAY.replace("[lodge, pier, lodge]", `[{ place: lodge, moves: { ${id}: ${to} } }, pier, lodge]`);

  it("elsewhere than its rotation does is named, and nothing where it is there anyway", async () => {
    expect((await judgedText(moved("vl.1", "car"))).said("pack-not-moved")).toEqual([
      "vl.1 does not move into car at lodge: the rotation keeps it in wagon",
    ]);
    expect((await judgedText(moved("vl.1", "wagon"))).said("pack-not-moved")).toEqual([]);
  });
});
