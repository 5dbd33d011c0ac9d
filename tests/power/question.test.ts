/** What the search says of a set of uses, against every joint state of all packs: quickly it may not know, exactly it does. */
import { beforeAll, expect, it } from "vitest";
import { type Effort, searchWork } from "../../src/power/fast/effort.ts";
import type { Model } from "../../src/power/model.ts";
import { solve } from "../../src/power/proof/solve.ts";
import { ask, askQuickly, caseOf } from "../../src/power/question.ts";
import { instant } from "../../src/time/units.ts";
import { randomModel, TINY } from "./days.ts";
import { truth } from "./oracle.ts";

const days: { readonly told: string; readonly model: Model; readonly can: boolean; readonly margin: number }[] = [];
beforeAll(() => {
  for (let seed = 1; seed <= 80; seed++) {
    const model = randomModel(seed, { ...TINY, packs: [2, 3], touches: [2, 4] });
    const best = truth(model, 800);
    if (best !== null && model.demands.length > 0)
      days.push({
        told: `day ${seed}`,
        model,
        can: best.covered.length === model.demands.length,
        margin: best.margin ?? 0,
      });
  }
});

const answers = async (effort: Effort, marginOf: (best: number) => number) =>
  Promise.all(
    days.map(async ({ told, model, can, margin }) => {
      const wh = marginOf(margin);
      const { kind } = await ask(caseOf(model, model.demands), wh, { ...effort, left: searchWork(effort) });
      return { told, kind, can: can && wh <= margin };
    }),
  );

it("exactly it knows what can be covered, with no margin and with the best one, and not with more", async () => {
  for (const wanted of [() => 0, (best: number) => best - 1e-6, (best: number) => best + 0.01]) {
    const all = await answers({ patience: 2 }, wanted);
    for (const { told, kind, can } of all)
      if (kind !== "unknown") expect([told, kind]).toEqual([told, can ? "yes" : "no"]);
    expect(all.filter(({ kind }) => kind === "unknown").length).toBeLessThanOrEqual(all.length / 50);
  }
});

it("quickly it says nothing that is wrong, and of some it does not know", async () => {
  const all = await answers({ patience: 1, quick: true }, () => 0);
  for (const { told, kind, can } of all)
    if (kind !== "unknown") expect([told, kind]).toEqual([told, can ? "yes" : "no"]);
  expect(all.some(({ kind }) => kind === "unknown")).toBe(true);
  expect(all.filter(({ kind }) => kind === "yes").length).toBe(all.filter(({ can }) => can).length);
});

it("takes what it looked at off what it may still look at, and no more than it is given", () => {
  for (const { model } of days.slice(0, 20)) {
    const one = caseOf(model, model.demands);
    const left = { labels: 5000, chores: 0, margin: 0 };
    askQuickly(one, 0, { patience: 1, left });
    expect(left.labels).toBe(5000 - one.paths.desk.work);
    const none = caseOf(model, model.demands);
    askQuickly(none, 0, { patience: 1, left: { labels: 0, chores: 0, margin: 0 } });
    expect(none.paths.desk.work).toBeLessThanOrEqual(one.paths.desk.work);
  }
});

it("proves that not all can be covered only where it proves it of each use that is left out", async () => {
  let [mixed, proved] = [0, 0];
  for (const { model, told } of days) {
    // One more use at the end that no pack is large enough for.
    const last = model.loads[0]?.id ?? "";
    const hours = { from: instant(model.to - 60), to: model.to };
    const free = model.demands.every(({ watts, to }) => !watts.has(last) || to <= hours.from);
    if (!free) continue;
    const beyond = { id: "beyond", kind: "standby", ...hours, watts: new Map([[last, 5000]]) } as const;
    const { dropped, proof } = await solve(
      { ...model, demands: [...model.demands, beyond] },
      { patience: 1, quick: true, left: searchWork({ patience: 1 }) },
    );
    expect(dropped.find(({ demand }) => demand.id === "beyond")?.proved, told).toBe(true);
    const all = dropped.every((one) => one.proved);
    if (all) proved++;
    else mixed++;
    expect(proof.coverage, told).toBe(all ? "impossible" : "simulated");
  }
  expect(Math.min(mixed, proved)).toBeGreaterThan(0);
});
