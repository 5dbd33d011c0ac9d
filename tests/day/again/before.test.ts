/** What is known of the time before the first call, from random spans of `history`: a look back from the call, minute by minute. */
import { expect, it } from "vitest";
import { computeDay, NOTHING_BEFORE } from "../../../src/day/index.ts";
import type { HistorySpan } from "../../../src/plan/plan.ts";
import { instant } from "../../../src/time/units.ts";
import { runs } from "../../fuzz.ts";
import { legsOf, makePlan } from "../make.ts";
import { random } from "../random.ts";
import { CREW, HIT, ROADS } from "../wagon.ts";

const PLAN = makePlan({
  crew: CREW,
  roads: ROADS,
  hits: { dawn: HIT("08:00") },
  runs: { wagon: { stops: ["home", "pier", "home"] } },
});

const isFree = ({ is, bunk }: HistorySpan): boolean => is === "off" || is === "berth" || (is === "ferry" && bunk);

it("is off since the work that was last, if that reaches up to the call, and late if work goes on beyond it", () => {
  const legs = legsOf(PLAN);
  const call = computeDay(PLAN, legs, NOTHING_BEFORE).day?.people[0]?.call ?? null;
  if (call === null) throw new Error("no call");
  const told = new Set<string>();
  for (let seed = 1; seed <= Math.max(150, runs(200, 5000)); seed++) {
    const dice = random(seed);
    let to: number = call + ([0, 0, 1, -1, dice(300) - 150][dice(5)] ?? 0);
    const spans: HistorySpan[] = [];
    for (let n = 1 + dice(6); n > 0; n--) {
      const from = to - 30 - dice(400);
      const is = (["off", "berth", "duty", "driving", "ferry", "off"] as const)[dice(6)] ?? "off";
      spans.push({
        from: instant(from),
        to: instant(to),
        is,
        in: "commercial",
        path: [],
        bunk: is === "ferry" && dice(2) === 0,
      });
      to = from - (dice(3) === 0 ? 1 + dice(60) : 0);
    }
    const at = (minute: number): HistorySpan | undefined => spans.find((one) => one.from <= minute && minute < one.to);
    const worked = spans.filter((one) => !isFree(one)).map((one) => one.to);
    const end = Math.max(...spans.map((one) => one.to));
    let since = end;
    for (let one = at(since - 1); one !== undefined && isFree(one); one = at(since - 1)) since--;
    const late = worked.some((one) => one > call) ? Math.max(...worked) : null;
    const known = late === null && end >= call && since < end ? since : null;
    const history = new Map([
      ["wren", { path: ["history", "wren"], released: null, asleepMinutes: null, spans, totals: [] }],
    ]);
    const { day } = computeDay({ ...PLAN, history }, legs, NOTHING_BEFORE);
    const wren = day?.people.find(({ id }) => id === "wren");
    expect([wren?.previousRelease, wren?.lateRelease], `seed ${seed}`).toEqual([known, late]);
    if (known !== null && known < call)
      expect(wren?.spans[0], `seed ${seed}`).toMatchObject({ from: known, to: call, is: "off" });
    told.add(late !== null ? "late" : known !== null ? "known" : "unknown");
  }
  expect([...told].toSorted()).toEqual(["known", "late", "unknown"]);
});
