/** Packs that were seen somewhere: until then the rotation stands, move for move; from then on they lie where they were seen. */
import { describe, expect, it } from "vitest";
import { had } from "../../src/reports/shared/judged.ts";
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
