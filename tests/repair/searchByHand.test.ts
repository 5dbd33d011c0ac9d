/** Which versions the search judges, in which order and by whom, counted on paper; what of them it shows. */
import { describe, expect, it } from "vitest";
import type { Finding } from "../../src/findings/finding.ts";
import { workOf } from "../../src/repair/calm.ts";
import type { SearchOptions } from "../../src/repair/search.ts";
import { finding } from "./finding.ts";
import { A, B, C, clearing, house, packedDay, QUIET, searched, step, steps, type World, wrong } from "./played.ts";

describe("a search among few", () => {
  it("judges every one and every pair, and no three if a pair clears everything", async () => {
    const world = { now: [A, B], candidates: steps(3), after: clearing([A, B], { 0: [A], 1: [B] }) };
    const { brief, asked, found, repairs, proof, progress } = await searched(world);
    expect(brief).toEqual(["0", "1", "2", "0+1", "0+2", "1+2"]);
    expect(asked.length).toBe(6);
    expect(proof).toEqual({ candidates: 3, judged: 6, completeTo: 2, never: [], nearest: null });
    // 0+2 and 1+2 clear no more than 0 and 1.
    expect(found).toEqual(["0+1", "0", "1"]);
    expect(repairs.map(({ clears, left, open }) => [clears, left, open])).toEqual([
      [[A, B], 0, 0],
      [[A], 1, 1],
      [[B], 1, 1],
    ]);
    // How many were judged and what the best leaves; then the three that are shown.
    expect(progress.slice(0, 6)).toEqual([
      ...([1, 2, 3] as const).map((n) => [n, 1]),
      ...([4, 5, 6] as const).map((n) => [n, 0]),
    ]);
    expect(progress.slice(6)).toEqual([6, 6, 6].map((n) => [n, 0]));
  });

  it("has no best version before one helps", async () => {
    const world = { now: [A], candidates: steps(2), after: clearing([A], { 1: [A] }) };
    expect((await searched(world)).progress.slice(0, 3)).toEqual([
      [1, null],
      [2, 0],
      [3, 0],
    ]);
  });

  it("goes on to threes that promise more than one step does: 3 + 3 + 1", async () => {
    const now = [A, B, C];
    const world = { now, candidates: steps(3), after: clearing(now, { 0: [A], 1: [B], 2: [C] }) };
    const { brief, found, proof } = await searched(world);
    expect(brief).toEqual(["0", "1", "2", "0+1", "0+2", "1+2", "0+1+2"]);
    expect(found[0]).toBe("0+1+2");
    expect(proof).toMatchObject({ judged: 7, completeTo: 2, never: [] });
    expect((await searched(world, { deepest: 2 })).brief.length).toBe(6);
    expect((await searched(world, { deepest: 1 })).proof).toMatchObject({ judged: 3, completeTo: 1 });
  });

  it("judges 24 threes of 35 at most: 7 + 21 + 24", async () => {
    const now = Array.from({ length: 7 }, (_, n) => wrong(`w${n}`));
    const own = Object.fromEntries(now.map((one, n) => [n, [one]]));
    const { proof } = await searched({ now, candidates: steps(7), after: clearing(now, own) });
    expect(proof).toMatchObject({ judged: 52, completeTo: 2 });
  });

  it("says how deep it came if the budget ends", async () => {
    const world = { now: [A, B], candidates: steps(3), after: clearing([A, B], { 0: [A], 1: [B] }) };
    const depth = async (budget: number) => {
      const { proof } = await searched(world, { budget });
      return [proof.judged, proof.completeTo];
    };
    expect(await depth(2)).toEqual([2, 0]);
    expect(await depth(3)).toEqual([3, 1]);
    expect(await depth(5)).toEqual([5, 1]);
    expect(await depth(6)).toEqual([6, 2]);
  });

  it("tries every pair of 12, and of 13 none that promises nothing", async () => {
    const nothing = async (count: number) =>
      (await searched({ now: [A], candidates: steps(count), after: () => [A] })).proof;
    // 12 + 12 · 11 / 2.
    expect(await nothing(12)).toEqual({ candidates: 12, judged: 78, completeTo: 2, never: [A], nearest: null });
    expect(await nothing(13)).toEqual({ candidates: 13, judged: 13, completeTo: 1, never: [A], nearest: null });
  });

  it("names what comes nearest where nothing helps without an error of the house, the least of it first; law is not offered", async () => {
    const long = (n: number, law = false): Finding => ({ ...house(n), level: "error", path: ["crew", `p${n}`], law });
    const after = (brings: Readonly<Record<number, Finding>>) => (used: readonly number[]) => {
      const brought = used.flatMap((n) => brings[n] ?? []);
      return brought.length === 0 ? [A] : brought;
    };
    const nearest = async (brings: Readonly<Record<number, Finding>>) => {
      const { proof } = await searched({ now: [A], candidates: steps(3), after: after(brings) }, { deepest: 1 });
      return proof.nearest === null
        ? null
        : [...proof.nearest.edits.map(({ value }) => value), ...proof.nearest.brings.map((one) => one.shortMinutes)];
    };
    expect(await nearest({ 0: long(40), 2: long(20) })).toEqual(["2", 20]);
    expect(await nearest({ 0: long(40), 2: long(20, true) })).toEqual(["0", 40]);
    expect(await nearest({ 2: long(20, true) })).toBeNull();
    expect(await nearest({ 1: wrong("lost") })).toBeNull();
    // A repair that helps says it all.
    const warned = { ...long(20), level: "warning" } as const;
    expect(await nearest({ 0: long(40), 1: warned })).toBeNull();
  });

  it("does not write one value twice", async () => {
    const twice = [step(0), { ...step(1), edits: [{ path: ["tasks", "t0", "for"], value: "1" }] }, step(2)];
    const { asked } = await searched({ now: [A], candidates: twice, after: () => [A] });
    // 0, 1, 2; 0 with 2 and 1 with 2, not 0 with 1.
    expect(asked.length).toBe(5);
  });

  it("leaves out what is no plan, what brings an error and what breaks more law", async () => {
    const law = (minutes: number) => wrong("rest", { law: true, shortMinutes: minutes });
    const results: Readonly<Record<number, readonly Finding[] | null>> = {
      0: null,
      1: [B, law(10)],
      2: [law(11)],
      3: [law(10)],
      4: [law(10), wrong("warned", { level: "warning" }), wrong("known", { level: "warning", accepted: "yes" })],
      5: [law(10), wrong("packs", { code: "power-undecided", level: "warning" })],
      6: [A, law(10)],
    };
    const { repairs, found } = await searched(
      { now: [A, law(10)], targets: [A], candidates: steps(7), after: ([n = 0]) => results[n] ?? null },
      { deepest: 1, most: 9 },
    );
    expect(found).toEqual(["3"]);
    const { repairs: others } = await searched(
      {
        now: [A, law(10)],
        targets: [A],
        candidates: [step(0), step(4)],
        after: ([n = 0]) => results[n === 1 ? 4 : 0] ?? null,
      },
      { deepest: 1 },
    );
    expect(others.map(({ brings }) => brings.map(({ facts }) => facts["what"]))).toEqual([["warned"]]);
    expect(repairs[0]?.brings).toEqual([]);
  });

  it("shows what leaves least first, then what the ranking prefers", async () => {
    const after: World["after"] = ([n = 0]) => [house([30, 10, 20][n] ?? 0)];
    const { found } = await searched({ now: [A], candidates: steps(3), after }, { deepest: 1 });
    // All clear the same with one edit each: the least of the house is enough.
    expect(found).toEqual(["1"]);
    const two = await searched(
      { now: [A, B], candidates: steps(2), after: ([n]) => (n === 0 ? [B, house(30)] : [A, house(10)]) },
      { deepest: 1, most: 1 },
    );
    expect(two.found).toEqual(["1"]);
  });

  it("names what goes with it, and what it makes less", async () => {
    const out = (lost: readonly string[], level: Finding["level"] = "error") =>
      finding({ code: "out-of-service", path: ["vehicles", "truck"], facts: { vehicle: "truck", lost }, level });
    const [all, note, known] = [
      out(["dawn", "noon"]),
      wrong("note", { level: "note" }),
      wrong("known", { accepted: "yes" }),
    ];
    const warned = wrong("warned", { level: "warning" });
    const after: World["after"] = (used) => {
      if (used.length > 1) return [out([], "note")];
      return [out(used[0] === 0 ? ["noon"] : ["dawn"])];
    };
    const { repairs, proof } = await searched({
      ...{ now: [all, note, known, warned], targets: [all], candidates: steps(2, ["out-of-service"]), after },
    });
    // Both steps: nothing is lost any more, and the finding is a note; what was a note or accepted is not counted.
    expect(repairs.map(({ clears, eases, left, open }) => [clears, eases, left, open])).toEqual([
      [[warned, all], [], 0, 0],
      [[warned], [all], 1, 1],
      [[warned], [all], 1, 1],
    ]);
    expect(proof.never).toEqual([]);
  });
});

describe("a search among many", () => {
  const kit = wrong("a", { code: "kit-missing" });
  const wheel = wrong("b", { code: "driving-too-long" });
  const now = [kit, wheel];
  const candidates = [...steps(6, ["kit-missing"]), ...steps(13, ["driving-too-long"]).slice(6)];
  const bad = wrong("worse");

  it("asks the engine that finds it, then all about what helps, then pairs of what does no harm", async () => {
    const after: World["after"] = (used) => {
      const left = clearing(now, { 2: [kit], 7: [wheel], 8: [wheel] })(used, [], undefined) ?? [];
      return used.includes(8) ? [...left, bad] : left;
    };
    const { asked, found, proof } = await searched({ now, candidates, after });
    const part = (n: number) => `${n} part:${n < 6 ? "kit" : "hours"}`;
    expect(asked).toEqual([
      // The plan as it is, once, by both engines: then each step by its own; the first that helps at once by all.
      ...[" part:kit,hours", part(0), part(1), part(2), "2 brief", part(3), part(4), part(5)],
      ...[part(6), part(7), part(8), part(9), part(10), part(11), part(12)],
      // 2+7 and 2+8 promise both, 7+8 no more than each; 8 does harm.
      ...["7 brief", "8 brief", "2+7 brief"],
    ]);
    // 13 by one engine and 4 by all; the plan as it is does not count.
    expect(proof).toEqual({ candidates: 13, judged: 17, completeTo: 1, never: [], nearest: null });
    expect(found).toEqual(["2+7", "2", "7"]);
  });

  it("asks all engines about what no engine finds alone", async () => {
    const after: World["after"] = (used, _, scope) =>
      (clearing(now, { 2: [kit] })(used, [], undefined) ?? []).filter(
        (one) => one !== kit || scope?.topics === undefined,
      );
    const { asked, brief, found } = await searched({ now, candidates, after });
    expect(brief).toEqual(["0", "1", "2", "3", "4", "5"]);
    expect(asked.filter((one) => one.endsWith("part:kit,hours"))).toEqual([" part:kit,hours"]);
    expect(asked.length).toBe(6 + 7 + 1);
    expect(found).toEqual(["2"]);
  });

  it("asks all engines if one of what a step is aimed at is found by all alone", async () => {
    const other = wrong("c", { code: "kit-missing" });
    const three = [...now, other];
    const after: World["after"] = (_, __, scope) => three.filter((one) => one !== other || scope?.topics === undefined);
    expect((await searched({ now: three, candidates, after })).brief).toEqual(["0", "1", "2", "3", "4", "5"]);
  });

  it("leaves the packs out of the base unless a step is aimed at them", async () => {
    const unpowered = wrong("c", { code: "hit-unpowered" });
    const three = [...now, unpowered];
    const all = [...candidates, { ...step(13), codes: ["hit-unpowered"] }];
    const { asked } = await searched({ now: three, candidates: all, after: () => three });
    expect(asked.filter((one) => one.startsWith(" "))).toEqual([" part:kit,hours", " part:kit,hours,power"]);
    expect(asked.at(-1)).toBe("13 part:power");
  });

  it("takes those that clear less if none that clears more is sound", async () => {
    const both = [wrong("a"), wrong("b")];
    const played =
      (isHarmful: boolean): World["after"] =>
      (used) => {
        const left = clearing(both, { 0: both, 1: [both[0] ?? A], 2: [both[1] ?? B] })(used, [], undefined) ?? [];
        return isHarmful && used.includes(0) ? [...left, bad] : left;
      };
    const harmful = await searched({ now: both, candidates: steps(13), after: played(true) });
    // 0 clears both and does harm; 1 and 2, alone and together.
    expect(harmful.brief).toEqual(["0", "1", "2", "1+2"]);
    expect(harmful.found[0]).toBe("1+2");
    // Without the harm 0 is enough, and 1 and 2, which clear the same, are not judged by all.
    const same = clearing(both, { 0: both, 1: both.slice(0, 1), 2: both.slice(0, 1) });
    const sound = await searched({ now: both, candidates: steps(13), after: same });
    expect([sound.brief, sound.found]).toEqual([["0"], ["0"]]);
  });

  it("puts no more than 16 steps together, as often as it may", async () => {
    const many = Array.from({ length: 20 }, (_, n) => wrong(`w${n}`));
    const own = Object.fromEntries(many.map((one, n) => [n, [one]]));
    const world = { now: many, candidates: steps(20), after: clearing(many, own) };
    const together = async (options: Partial<SearchOptions>) =>
      (await searched(world, options)).brief.filter((one) => one.includes("+")).map((one) => one.split("+").length);
    // 16 · 15 / 2.
    expect(await together({ deepest: 2, together: 1000 })).toEqual(Array.from({ length: 120 }, () => 2));
    // Threes promise more than pairs.
    expect(await together({ together: 5 })).toEqual([3, 3, 3, 3, 3]);
    expect(await together({ deepest: 1, together: 5 })).toEqual([]);
  });

  it("stops at the budget: 0 deep within the single steps", async () => {
    const world = { now, candidates, after: clearing(now, { 2: [kit], 7: [wheel] }) };
    expect((await searched(world, { budget: 13 })).proof).toMatchObject({ judged: 13, completeTo: 0 });
    // 13 by one engine, one of them by all at once; none is left for the second or for both.
    const tight = await searched(world, { budget: 14 });
    expect([tight.proof.judged, tight.proof.completeTo, tight.brief]).toEqual([14, 1, ["2"]]);
    expect((await searched(world, { budget: 15 })).brief).toEqual(["2", "7"]);
    expect((await searched(world, { budget: 16 })).brief).toEqual(["2", "7", "2+7"]);
  });
});

describe("what is shown", () => {
  it("was judged as `check` does if there are packs: what does not hold then gives way to the next", async () => {
    const packed = await packedDay();
    // In brief 0, 1 and 2 break the house by 1, 2 and 3 min; as `check` judges, 0 clears nothing and 1 breaks it by 9.
    const world: World = {
      ...{ now: [A, B, C], candidates: steps(3), own: packed },
      after: ([n = 0], _, scope) => {
        const left = [A, B, C].filter((_target, at) => at !== n || (n === 0 && scope === undefined));
        return [...left, house(n === 1 && scope === undefined ? 9 : n + 1)];
      },
    };
    const two = await searched(world, { deepest: 1, most: 2 });
    expect(two.asked).toEqual(["0 brief", "1 brief", "2 brief", "0 whole", "1 whole", "2 whole"]);
    expect([two.found, two.proof.judged]).toEqual([["2", "1"], 6]);
    expect(two.progress.slice(3)).toEqual([4, 5, 6].map((n) => [n, n === 4 ? null : 2]));
    const one = await searched(world, { deepest: 1, most: 1 });
    expect([one.found, one.proof.judged]).toEqual([["1"], 5]);
  });

  it("may be what another that fails by its packs had kept back: it clears as much", async () => {
    const packed = await packedDay();
    // Both clear A in brief, 1 with 2 min of the house broken where 0 breaks 1; as `check` judges, 0 clears nothing.
    const world: World = {
      ...{ now: [A], candidates: steps(2), own: packed },
      after: ([n = 0], _, scope) => [...(n === 0 && scope === undefined ? [A] : []), house(n + 1)],
    };
    const { asked, found } = await searched(world, { deepest: 1 });
    expect(asked).toEqual(["0 brief", "1 brief", "0 whole", "1 whole"]);
    expect(found).toEqual(["1"]);
  });

  it("is given up after twelve that fail so", async () => {
    const packed = await packedDay();
    // All of 12 and all their pairs (12 + 66) clear A in brief, and none does as `check` judges.
    const world: World = {
      ...{ now: [A], candidates: steps(12), own: packed },
      after: (used, _, scope) => [...(scope === undefined ? [A] : []), house(used.length)],
    };
    const { asked, found, proof } = await searched(world);
    expect([found, asked.filter((one) => one.endsWith(" whole")).length]).toEqual([[], 12]);
    expect(proof.judged).toBe(12 + 66 + 12);
  });
});

describe("work without a gain", () => {
  // A text that is no plan counts 5,000.
  const refused = (count: number, calm: number) =>
    searched({ now: [A], candidates: steps(count), after: () => null }, { calm });

  it("ends the search after the judgement with which it is spent", async () => {
    const { proof } = await refused(4, 12_000);
    expect([proof.judged, proof.completeTo]).toEqual([3, 0]);
  });

  it("leaves out pairs that nothing speaks for, where all of them would be too many", async () => {
    // Three alone and three pairs: the last pair begins after 25,000.
    expect((await refused(3, 25_001)).proof).toMatchObject({ judged: 6, completeTo: 2 });
    expect((await refused(3, 25_000)).proof).toMatchObject({ judged: 3, completeTo: 1 });
  });

  it("begins anew with whatever is cleared", async () => {
    const day = { now: [A, B], candidates: steps(3), after: clearing([A, B], { 1: [A] }) };
    const each = workOf({ day: QUIET, findings: [] }, { day: QUIET, findings: [] });
    // The second clears something, so the third is still tried; three pairs would be too many.
    expect((await searched(day, { calm: 2 * each })).proof).toMatchObject({ judged: 3, completeTo: 1 });
    expect((await searched({ ...day, after: clearing([A, B], {}) }, { calm: 2 * each })).proof.judged).toBe(2);
  });
});
