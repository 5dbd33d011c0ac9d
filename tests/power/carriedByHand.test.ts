/** What the day before leaves: from when on a day's account runs, and where each pack starts and with how much. By hand. */
import { describe, expect, it } from "vitest";
import { buildModel, type PacksLeft } from "../../src/power/day/build.ts";
import { type Instant, instant } from "../../src/time/units.ts";
import { daysOf } from "./plans.ts";

/** Called 06:10 or so on 20 January in Chicago; nobody's release before is known. */
const plan = (packs: string) => `
daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew: { wren: { drives: wagon } }
vehicles: { wagon: {} }
places: { lodge: { kind: lodging, mains: true }, pier: {} }
roads: [{ link: [lodge, pier], drive: 35 min, bad: 50 min }]
hits: { dawn: { at: "07:00", for: 3 min, place: pier } }
kit: { camera: { in: wagon, watts: 40, mount: v, during: hits } }
packs: { ${packs} }
chargers: { bench: { mount: v, slots: 2, watts: 50, in: wagon }, post: { mount: w, watts: 50, in: lodge } }
runs: { wagon: { driver: wren, aboard: [wren], stops: [lodge, pier, lodge] } }
`;
const FOUR = "a: { wh: 100, mount: v, in: wagon, count: 4 }";

async function built(
  packs: string,
  left: Readonly<Record<string, readonly [number, string]>>,
  settled: number | null = null,
) {
  const [day] = await daysOf(plan(packs));
  if (day === undefined) throw new RangeError("no day");
  const known: PacksLeft = new Map(Object.entries(left).map(([id, [share, at]]) => [id, { share, at }]));
  const asked: Instant[] = [];
  const carried = {
    settled: settled === null ? null : instant(day.span.from + settled),
    packsAt: (at: Instant) => {
      asked.push(at);
      return known;
    },
  };
  const made = buildModel(day, { sky: null, carried, bounds: new Map(), gear: null });
  return { ...made, day, asked, starts: made.model.packs.map(({ at, startWh }) => [at, startWh]) };
}

describe("where packs start", () => {
  it("is where they were left, if that is still there, takes their mount and has room, else their own bay", async () => {
    const { starts, unstated } = await built(FOUR, {
      "a.1": [0.5, "bench"],
      "a.2": [0.25, "bench"],
      "a.3": [1, "bench"],
    });
    // Two slots: the third is in its bay; of the fourth nothing is known, so it counts as empty.
    expect(starts).toEqual([
      ["bench", 50],
      ["bench", 25],
      ["wagon", 100],
      ["wagon", 0],
    ]);
    expect(unstated).toEqual(["a.4"]);
    const other = await built(FOUR, {
      "a.1": [0.5, "camera"],
      "a.2": [0.25, "camera"],
      "a.3": [1, "post"],
      "a.4": [0.1, "gone"],
    });
    expect(other.starts.map(([at]) => at)).toEqual(["camera", "wagon", "wagon", "wagon"]);
    expect(other.unstated).toEqual([]);
  });

  it("with a charge of its own is that charge, and told where the day before leaves another", async () => {
    const packs = "a: { wh: 100, mount: v, in: wagon, count: 3, charge: [50%, 60%, 70%] }";
    const { starts, restated } = await built(packs, {
      "a.1": [0.5, "wagon"],
      "a.2": [0.609, "wagon"],
      "a.3": [0.711, "wagon"],
    });
    expect(starts.map(([, wh]) => wh)).toEqual([50, 60, 70]);
    // Up to a hundredth more is the same.
    expect([...restated]).toEqual([["a.3", 0.711]]);
  });
});

describe("the account of a day", () => {
  it("begins no sooner than the day before has settled, unless its own file states every charge", async () => {
    const stated = "a: { wh: 100, mount: v, in: wagon, charge: 50% }";
    const begin = (await built(FOUR, {})).model.from;
    const from = async (packs: string, settled: number | null) => (await built(packs, {}, settled)).model.from - begin;
    expect([await from(FOUR, null), await from(stated, null)]).toEqual([0, 0]);
    const { day } = await built(FOUR, {});
    const late = begin - day.span.from + 30;
    expect([await from(FOUR, late), await from(stated, late)]).toEqual([30, 0]);
    expect([await from(FOUR, late - 60), await from(stated, late - 60)]).toEqual([0, 0]);
    // One that is not stated is enough.
    expect(await from(`${stated}, b: { wh: 100, mount: v, in: wagon }`, late)).toBe(30);
    // No later than the day's last release.
    const { model } = await built(FOUR, {}, 100_000);
    expect(model.from).toBe(model.to);
  });
});
