/** What the search for drivers finds with a budget that ends before it can try everything: by count of the verdicts it needs. */
import { describe, expect, it } from "vitest";
import type { DrivingStretch, PersonVerdict, ReliefProblem } from "../../src/roads/relief/problem.ts";
import { bestAssignment } from "../../src/roads/relief/search.ts";

/** Whose stretch each is, in no pattern of equal blocks: with 1 for tomas. */
const WHOSE = "110100010110";
const OWN = [...WHOSE].map((one) => (one === "1" ? "tomas" : "bea"));
const stretches: readonly DrivingStretch[] = OWN.map(() => ({ vehicle: "truck", drivers: ["tomas", "bea"] }));

/** Ten minutes of a kind for each stretch of the other's that one drives. */
const problemOf = (kind: (wrong: number) => Partial<PersonVerdict>): ReliefProblem => ({
  stretches,
  verdict: (who, driven) => ({
    ...{ lawMinutes: 0, houseMinutes: 0, sleepMinutes: 0, breaches: [] },
    ...kind(10 * [...driven].filter((one, index) => one === "1" && OWN[index] !== who).length),
  }),
});

/**
 * Equal blocks of 12 lengths from 2 drivers on are 24 assignments of 2 verdicts each; handing the wheel on stretch by
 * stretch is 12 steps of 2 choices, of 2 verdicts each: 96 in all. A changed block tried after that has none left to use.
 */
const BLOCKS_AND_STEPS = { verdicts: 96, nodes: 1_000_000 };

describe("the wheel goes to whoever breaks least with it", () => {
  it.each([
    ["of law", (wrong: number) => ({ lawMinutes: wrong })],
    ["of the house's rules", (wrong: number) => ({ houseMinutes: wrong })],
  ])("%s", (_, kind) => {
    expect(bestAssignment(problemOf(kind), BLOCKS_AND_STEPS).assignment).toEqual(OWN);
  });

  it("law before house: a minute of law weighs more than an hour of the house", () => {
    const both = problemOf((wrong) => ({ lawMinutes: wrong, houseMinutes: -100 * wrong }));
    expect(bestAssignment(both, BLOCKS_AND_STEPS).assignment).toEqual(OWN);
  });

  it("and stays with who has it where both are as good", () => {
    expect(
      bestAssignment(
        problemOf(() => ({})),
        BLOCKS_AND_STEPS,
      ),
    ).toMatchObject({
      assignment: OWN.map(() => "tomas"),
      score: { changes: 0 },
    });
  });
});

describe("what is left when the budget ends", () => {
  const HOUSE = problemOf((wrong) => ({ houseMinutes: wrong }));

  it("is not proven, however deep the search was; nothing beats the bound", () => {
    // Beyond four stretches ten minutes each: twelve stretches of two people are four beyond, 40 min, however they are shared.
    const four: ReliefProblem = {
      stretches,
      verdict: (who, driven) => {
        const lawMinutes = 10 * Math.max(0, [...driven].filter((one) => one === "1").length - 4);
        return { lawMinutes, houseMinutes: 0, sleepMinutes: who === "bea" ? 0 : 1, breaches: [] };
      },
    };
    for (const nodes of [1, 2, 3, 5, 8, 13]) {
      const found = bestAssignment(four, { verdicts: 1e9, nodes });
      expect([nodes, found.proven, found.score.lawMinutes]).toEqual([nodes, false, 40]);
      expect(found.bound.lawMinutes).toBeLessThanOrEqual(40);
    }
  });

  it("is the planned assignment where that is all there is time for, and proven where all was tried", () => {
    const none = bestAssignment(HOUSE, { verdicts: 0, nodes: 0 }, [OWN]);
    expect([none.assignment, none.score.houseMinutes]).toEqual([OWN, 0]);
    expect(bestAssignment(HOUSE, { verdicts: 1e9, nodes: 1e9 })).toMatchObject({ proven: true, assignment: OWN });
  });

  it("counts a verdict on more than 16 stretches as two", () => {
    const long = (count: number): ReliefProblem => ({
      ...HOUSE,
      stretches: Array.from({ length: count }, () => ({ vehicle: "truck", drivers: ["tomas", "bea"] })),
    });
    const asked = (count: number): number => {
      let verdicts = 0;
      const own = long(count);
      const verdict: ReliefProblem["verdict"] = (who, driven) => {
        verdicts++;
        return own.verdict(who, driven);
      };
      const counting: ReliefProblem = { ...own, verdict };
      bestAssignment(counting, { verdicts: 200, nodes: 1e9 });
      return verdicts;
    };
    // 200 units; the last assignment that is begun ends, and a node's two children are asked together.
    expect(asked(16)).toBeGreaterThanOrEqual(200);
    expect(asked(17)).toBeLessThan(150);
  });
});
