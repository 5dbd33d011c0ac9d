/** A day that is cut in two files at a rest is the day with `until`: calls, drives, hours; in power what is covered. */
import { describe, expect, it } from "vitest";
import { type Judged, judge, readPlan, solveDay } from "../../src/index.ts";
import { runs } from "../fuzz.ts";
import { same } from "./days.ts";
import { DATE, type Entries } from "./randomPlan.ts";
import { type TwoDays, twoDays } from "./twoDays.ts";

const FIRST = Number(process.env["DAYWRIGHT_FUZZ_SEED"] ?? 1);
/** Midnight of the date in Chicago. */
const MIDNIGHT = Date.parse(`${DATE}T05:00Z`) / 60_000;

async function judgedOf(entries: Entries, before: Entries | null): Promise<Judged> {
  const read = () =>
    before === null
      ? ({ kind: "missing", near: [] } as const)
      : ({ kind: "text", text: JSON.stringify(before) } as const);
  const reading = await readPlan(JSON.stringify(entries), { file: "day.yaml", files: { read } });
  if (!reading.ok) throw new Error(reading.findings.map(({ code }) => code).join());
  const made = await solveDay(reading);
  if (!made.ok) throw new Error(made.findings.map(({ code }) => code).join());
  return judge(made, { topics: ["power", "hours"] });
}

const dutiesOf = ({ day }: Judged) =>
  day.people.map(({ id, duties }) => ({ id, duties: duties.map(({ call, release }) => [call, release]) }));

const drivesOf = ({ day }: Judged) =>
  day.moves.map(({ vehicle, from, to, leave, arrive, driver, riders }) => ({
    ...{ vehicle, from, to, leave, arrive, driver, riders },
  }));

const doneIn = ({ day }: Judged) =>
  day.activities
    .filter(({ activity }) => activity.kind !== "standdown")
    .map(({ id, start, end, lineCheck, state }) => ({ id, start, end, lineCheck, state }));

const byId = <T>(all: readonly T[]): readonly string[] => all.map((one) => JSON.stringify(one)).toSorted();

/** From everyone's release of the first day to their call of the second, in minutes of the first date. */
function nightsOf({ crews }: TwoDays, first: Judged, second: Judged): ReadonlyMap<string, readonly [number, number]> {
  const person = ({ day }: Judged, id: string) => day.people.find((one) => one.id === id);
  return new Map(
    crews.flatMap(({ people }) =>
      people.map((id) => {
        const [from, to] = [Number(person(first, id)?.release), Number(person(second, id)?.call)];
        return [id, [from - MIDNIGHT, to - MIDNIGHT] as const] as const;
      }),
    ),
  );
}

async function cutAt(seed: number, packs: boolean) {
  const made = twoDays(seed, packs);
  const first = await judgedOf(made.first, null);
  const second = await judgedOf(made.second, made.first);
  const whole = await judgedOf(made.whole(nightsOf(made, first, second)), null);
  return { first, second, whole };
}

/** Out and back twice, 30 min at `drive` and 45 at `bad`, with a stand-down at the bed between. */
const twice = (until: string): Entries => ({
  ...{ daywright: 1, date: DATE, until: "+1d", clock: "America/Chicago", zone: "America/Chicago" },
  crew: { wren: { drives: ["wagon"], slept: "lodge", sleeps: "lodge" } },
  history: { wren: { released: "2027-05-09T18:00-05:00" } },
  vehicles: { wagon: {} },
  places: { lodge: { kind: "lodging" }, pier: { shelter: true } },
  roads: [{ link: ["lodge", "pier"], drive: "30 min", bad: "45 min" }],
  hits: {
    dusk: { at: "19:00", for: "3 min", place: "pier" },
    noon: { at: "12:00 +1d", for: "3 min", place: "pier" },
  },
  tasks: { night: { kind: "standdown", place: "lodge", window: ["20:30", until] } },
  runs: {
    wagon: [
      "lodge",
      { place: "pier", do: ["dusk"] },
      { place: "lodge", do: ["night"] },
      { place: "pier", do: ["noon"] },
      "lodge",
    ],
  },
});

describe("a stand-down", () => {
  it("is driven to as to a bed, not as to the hit after it", async () => {
    const { day } = await judgedOf(twice("06:30 +1d"), null);
    // Out into a firm hit at `bad`, back to the stand-down at `drive`: 19:03 + 10 clear + 20 strike + 30 is 20:03.
    expect(day.moves.map(({ plannedMinutes }) => plannedMinutes)).toEqual([45, 30, 45, 30]);
    expect(Number(day.moves[1]?.arrive) - MIDNIGHT).toBe(20 * 60 + 3);
  });

  it("of the turnaround of 10 h parts two working days of the house, and of a minute less does not", async () => {
    const tooLong = async (until: string) =>
      (await judgedOf(twice(until), null)).findings.filter(({ code }) => code === "duty-too-long").length;
    // From 17:05 to 20:30 and from 06:30 to 13:13: 10 h 8 in all, in two of under 7 h.
    const rules = { dutyDay: "8 h" };
    const both = async (until: string) =>
      (await judgedOf({ ...twice(until), rules }, null)).findings.filter(({ code }) => code === "duty-too-long").length;
    expect([await tooLong("06:30 +1d"), await both("06:30 +1d"), await both("06:29 +1d")]).toEqual([0, 0, 1]);
  });
});

const seeds = (count: number): readonly number[] => Array.from({ length: count }, (_, index) => FIRST + index);

describe("a day cut in two files at a rest", () => {
  it("has the calls, the drives and the times of the day in one", async () => {
    for (const seed of seeds(runs(30, 1000))) {
      const { first, second, whole } = await cutAt(seed, false);
      const duties = dutiesOf(first).map(({ id, duties: own }, n) => ({
        id,
        duties: [...own, ...(dutiesOf(second)[n]?.duties ?? [])],
      }));
      same(dutiesOf(whole), duties, `calls of seed ${seed}`);
      same(byId(drivesOf(whole)), byId([...drivesOf(first), ...drivesOf(second)]), `drives of seed ${seed}`);
      same(byId(doneIn(whole)), byId([...doneIn(first), ...doneIn(second)]), `times of seed ${seed}`);
    }
  });

  it("breaks the same limits of hours", async () => {
    /** One finding is said for each person and cause: the first of them. */
    const said = (...all: readonly Judged[]) => {
      const first = new Map<string, number>();
      for (const { code, who, at } of all.flatMap(({ findings }) => findings)) {
        const key = `${code} ${who}`;
        if (!/^(rest|duty|driving|wheel|break|window|week|meal)-/.test(code) || first.has(key)) continue;
        first.set(key, Number(at));
      }
      return [...first].map(([key, at]) => `${key} ${at}`).toSorted();
    };
    let total = 0;
    for (const seed of seeds(runs(20, 500))) {
      const { first, second, whole } = await cutAt(seed, false);
      same(said(whole), said(first, second), `hours of seed ${seed}`);
      total += said(whole).length;
    }
    expect(total).toBeGreaterThan(10);
  });

  it("has the same hits powered", async () => {
    const lit = ({ results }: Judged) => (results.power?.solution.rotation.covered ?? []).map(String);
    let total = 0;
    for (const seed of seeds(runs(10, 200))) {
      const { first, second, whole } = await cutAt(seed, true);
      const both = [...lit(first), ...lit(second)];
      total += both.length;
      same(lit(whole).toSorted(), both.toSorted(), `power of seed ${seed}`);
    }
    expect(total).toBeGreaterThan(10);
  });
});
