/** The Day as a network against a second implementation without one, over random one-vehicle days. */
import { describe, expect, it } from "vitest";
import { computeDay } from "../../src/day/index.ts";
import { runs } from "../fuzz.ts";
import { at, legsOf, makePlan, text } from "./make.ts";
import { randomDay } from "./randomDay.ts";
import { readWithoutGraph } from "./withoutGraph.ts";

describe("the Day, written twice", () => {
  it("agrees on every instant and every refusal of random days", () => {
    let compared = 0;
    for (let seed = 1; compared < runs(2000, 100_000); seed++) {
      const description = randomDay(seed);
      if (Object.keys(description.hits ?? {}).length === 0) continue;
      const plan = makePlan(description);
      const { day, findings } = computeDay(plan, legsOf(plan));
      if (day === null) {
        expect(
          findings.map((finding) => finding.code),
          `seed ${seed}`,
        ).toEqual(findings.map(() => expect.stringMatching(/^(two-waits|run-unfixed)$/)));
        continue;
      }
      if (![...plan.hits.keys()].some((id) => day.instants.has(`${id}.start`))) continue;
      const other = readWithoutGraph(plan, true);
      const missed = day.activities.filter((activity) => activity.state === "missed").map((activity) => activity.id);
      if (missed.sort().join() !== [...other.missed].sort().join())
        expect(missed, `seed ${seed}`).toEqual(other.missed);
      const differ = [...other.instants].filter(([name, instant]) => day.instants.get(name) !== instant);
      const told = differ.map(
        ([name, instant]) =>
          `${name}: ${text(day.instants.get(name) ?? null)}, second reading ${text(at(instant - at(0)))}`,
      );
      if (told.length > 0) expect(told, `seed ${seed}`).toEqual([]);
      compared++;
    }
  }, 300_000);
});
