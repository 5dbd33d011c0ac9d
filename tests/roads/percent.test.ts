import { describe, expect, it } from "vitest";
import { wordingOf } from "../../src/reports/shared/wording.ts";
import { assess } from "../../src/roads/assess.ts";
import { cutShare, percent, percentRange } from "../../src/roads/chance/percent.ts";
import { leg } from "../day/parts.ts";
import { at, day, type Trip } from "./days.ts";

describe("a share", () => {
  it("is cut, never rounded up, and never to a certainty", () => {
    expect([percent(0.8), percent(0.7999), percent(0.9999), percent(1 - 1e-12), percent(1), percent(0)]).toEqual([
      ...["80 %", "79 %", "99 %", "99 %", "100 %", "0 %"],
    ]);
    expect([cutShare(0.99996, 3), cutShare(0.99996, 4), cutShare(1, 3), cutShare(0.86394, 3)]).toEqual([
      ...[0.999, 0.9999, 1, 0.863],
    ]);
  });

  it("keeps a step that floats fall just short of: 0.29 times 100 is 28.999999999999996", () => {
    expect([percent(0.29), cutShare(0.29, 2)]).toEqual(["29 %", 0.29]);
  });

  it("between two bounds is told by both, unless they read the same", () => {
    expect([percentRange(0.436, 0.468), percentRange(0.991, 0.999), percentRange(0.436, null)]).toEqual([
      ...["43 to 46 %", "99 %", "at least 43 %"],
    ]);
  });
});

describe("the chance in a sentence", () => {
  const trip = (vehicle: string): Trip => ({
    vehicle,
    people: [vehicle],
    leave: at(300),
    way: [[leg("lodge", "pier", 35, 50), "drive", { wait: 0, hit: "dawn" }]],
  });

  it("is the one of the table: one in two for each of two vehicles on one road is 25 to 50 %", () => {
    // Planned at the median with no wait, each is in time in half of all cases; the finite cells take a little off.
    const made = day([trip("wagon"), trip("truck")]);
    const { result, findings } = assess({ days: [made], patience: 1, now: null });
    const [dawn] = result.hits;
    const shown = dawn && percentRange(dawn.printed, dawn.atMost);
    expect(shown).toMatch(/^2[45] to (?:49|50) %$/u);
    expect(findings[0]?.sentence(wordingOf(made.plan))).toBe(
      `the chance to be in position for dawn is ${shown}; at least 80 % is wanted`,
    );
  });
});
