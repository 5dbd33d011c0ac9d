/**
 * Repairs repair. On random days broken in one place the undoing is found or something smaller; each repair that
 * is printed there, and over all fixtures and cases, applied and read again from the file, is free of what it clears and of
 * new errors.
 */
import { describe, expect, it } from "vitest";
import { repairable } from "../../src/repair/index.ts";
import { isOpenError } from "../../src/repair/likeness.ts";
import { runs } from "../fuzz.ts";
import { faultsOf, judgedBroken, search } from "../repair/broken.ts";
import { PLANS, posed } from "../repair/posed.ts";

describe("repairs", () => {
  it("of random days broken in one place are the undoing or smaller", { timeout: 14_400_000 }, async () => {
    const from = Number(process.env["DAYWRIGHT_SEED"] ?? 1);
    const most = runs(50, 5000);
    const faults: string[] = [];
    let judged = 0;
    for (let seed = from; judged < most; seed++) {
      const found = await judgedBroken(seed);
      if (found === null) continue;
      judged += 1;
      faults.push(...found);
    }
    expect(faults).toEqual([]);
  });

  it("of the fixtures and cases clear what they say and bring no error", { timeout: 600_000 }, async () => {
    const faults: string[] = [];
    let found = 0;
    for (const file of PLANS) {
      const plan = await posed(file);
      const targets = plan === null ? [] : repairable(plan.now.findings.filter(isOpenError));
      if (plan === null || targets.length === 0) continue;
      const { repairs } = await search(plan, targets);
      found += repairs.length;
      faults.push(...(await faultsOf(plan, repairs)));
    }
    expect(faults).toEqual([]);
    expect(found).toBeGreaterThan(20);
  });
});
