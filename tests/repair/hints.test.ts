/** Suggestions that name an edit: which are printed, which are left out, and how many judgements that may take. */
import { describe, expect, it } from "vitest";
import type { Finding } from "../../src/findings/finding.ts";
import { withSoundHints } from "../../src/repair/cures.ts";
import type { JudgeEdits, Scope } from "../../src/repair/outcome.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import { by, packedDay, QUIET, wrong } from "./played.ts";

/** A finding whose suggestion is one edit of a task of that name. */
const suggested = (what: string, more: Partial<Finding> = {}): Finding =>
  wrong(what, { hint: () => "do so", facts: { what, edits: [`tasks.${what}.for=5 min`] }, ...more });

interface Asked {
  readonly now: readonly Finding[];
  /** What stands after edits of these entries; null if that is no plan. */
  after(entries: readonly string[], scope: Scope | undefined): readonly Finding[] | null;
  readonly isWhole?: boolean;
  readonly day?: typeof QUIET;
}

async function hinted({ now, after, isWhole = true, day = QUIET }: Asked) {
  const asked: string[] = [];
  const judge: JudgeEdits = async (edits, scope) => {
    const entries = edits.map(({ path }) => String(path[1]));
    asked.push(`${entries.join("+")} ${by(scope)}`);
    const findings = after(entries, scope);
    return findings === null ? null : { day, findings };
  };
  const told = await withSoundHints({ day, findings: now }, "", judge, isWhole);
  return { asked, told, hints: told.map((one) => one.hint(plainWording)) };
}

/** An edit of an entry clears what is wrong with it. */
const helping =
  (now: readonly Finding[]): Asked["after"] =>
  (entries) =>
    now.filter(({ facts }) => !entries.includes(String(facts["what"])));

const LOOK = (code: string) => `daywright repair day.yaml --code ${code} looks for edits that help`;

describe("a suggestion that names an edit", () => {
  it("stands if the edit clears the finding and brings no error", async () => {
    const now = [suggested("a"), wrong("b", { hint: () => "think" }), suggested("c", { accepted: "yes" })];
    const { asked, told, hints } = await hinted({ now, after: helping(now) });
    // What names no edit and what is accepted is not tried.
    expect(asked).toEqual(["a brief"]);
    expect([hints, told[0] === now[0]]).toEqual([["do so", "think", "do so"], true]);
  });

  it("gives way to the search if the edit does not help, or to nothing if no edit can", async () => {
    const shared = () => ({ sentence: "both", hint: "do so" });
    const now = [suggested("a", { shared }), suggested("b", { code: "accept-unused" })];
    const { hints, told } = await hinted({ now, after: () => now });
    expect(hints).toEqual([LOOK("hit-missed"), null]);
    expect(told.map((one) => one.shared?.([], plainWording) ?? null)).toEqual([
      { sentence: "both", hint: LOOK("hit-missed") },
      null,
    ]);
  });

  it("gives way if the edited text is no plan, or brings an error that was not there", async () => {
    const now = [suggested("a"), wrong("old")];
    const told = async (after: Asked["after"]) => (await hinted({ now, after })).hints[0];
    expect(await told(() => null)).toBe(LOOK("hit-missed"));
    expect(await told(() => [wrong("new")])).toBe(LOOK("hit-missed"));
    expect(await told(() => [wrong("new", { level: "warning" })])).toBe("do so");
    expect(await told(() => [wrong("old")])).toBe("do so");
    // The finding itself, accepted by the edit, no longer stands.
    expect(await told(() => [suggested("a", { accepted: "yes" })])).toBe("do so");
  });

  it("has to hold in each way to follow it, and needs one", async () => {
    const meal = (facts: Finding["facts"]) =>
      wrong("meal", { code: "meal-late", hint: () => "eat", who: "wren", facts });
    // Nobody waits at that moment: it cannot be followed.
    const { asked, hints } = await hinted({ now: [meal({ wait: { at: QUIET.span.from } })], after: () => [] });
    expect([asked, hints]).toEqual([[], [LOOK("meal-late")]]);
    // Tasks that nobody knows cannot be put in order.
    const order = wrong("b", { code: "order-unstated", hint: () => "say so", facts: { missed: null, tasks: [] } });
    expect((await hinted({ now: [order], after: () => [] })).hints).toEqual([null]);
    // Without a moment there is no edit to try.
    expect((await hinted({ now: [meal({})], after: () => [] })).hints).toEqual(["eat"]);
    const none = wrong("a", { hint: () => "do so", facts: { what: "a", edits: [] } });
    expect((await hinted({ now: [none], after: () => [none] })).hints).toEqual(["do so"]);
    const bad = wrong("a", { hint: () => "do so", facts: { what: "a", edits: ["nonsense"] } });
    expect((await hinted({ now: [bad], after: () => [] })).hints).toEqual([LOOK("hit-missed")]);
  });
});

describe("who judges a suggestion", () => {
  it("the engine that finds it, then all; all alone where it is the day or the packs", async () => {
    const asked = async (code: string, isCleared: boolean) => {
      const now = [suggested("a", { code })];
      return (await hinted({ now, after: isCleared ? () => [] : () => now })).asked;
    };
    expect(await asked("kit-missing", true)).toEqual(["a part:kit", "a brief"]);
    expect(await asked("kit-missing", false)).toEqual(["a part:kit"]);
    expect(await asked("hit-missed", true)).toEqual(["a brief"]);
    expect(await asked("hit-unpowered", true)).toEqual(["a brief"]);
  });

  it("against the plan as all engines see it: asked for once, if they have not all seen it", async () => {
    const now = [suggested("a"), suggested("b")];
    const old = wrong("old");
    const after: Asked["after"] = (entries) => [...(entries.length === 0 ? now : []), old];
    const part = await hinted({ now, after, isWhole: false });
    expect(part.asked).toEqual([" brief", "a brief", "b brief"]);
    // What all engines find of the plan as it is, the edit does not bring.
    expect(part.hints).toEqual(["do so", "do so"]);
    expect((await hinted({ now, after })).hints).toEqual([LOOK("hit-missed"), LOOK("hit-missed")]);
    const refused = await hinted({ now, after: (entries) => (entries.length === 0 ? null : []), isWhole: false });
    expect(refused.hints).toEqual([LOOK("hit-missed"), LOOK("hit-missed")]);
  });

  it("signal and bookings alone about windows and reels", async () => {
    const booked = (key: string) =>
      suggested("up", { code: "window-missing", facts: { what: "up", edits: [`paths.up.${key}=1`] } });
    const asked = async (...findings: readonly Finding[]) => (await hinted({ now: findings, after: () => [] })).asked;
    for (const key of ["windows", "reels"])
      expect(await asked(booked(key))).toEqual(["up part:signal", " part:signal,bookings", "up part:signal,bookings"]);
    expect(await asked(booked("kind"))).toEqual(["up part:signal", "up brief"]);
    const both = suggested("up", { facts: { what: "up", edits: ["paths.up.windows=1", "tasks.a.for=1"] } });
    expect(await asked(both)).toEqual(["up+a brief"]);
    const task = suggested("up", { facts: { what: "up", edits: ["tasks.up.windows=1"] } });
    expect(await asked(task)).toEqual(["up brief"]);
  });

  it("each version once", async () => {
    const now = [suggested("a"), suggested("a", { who: "wren" }), suggested("a", { who: "ilse" })];
    const { asked, hints } = await hinted({ now, after: () => [now[2] ?? wrong("a")] });
    expect(asked).toEqual(["a brief"]);
    expect(hints).toEqual(["do so", "do so", LOOK("hit-missed")]);
  });
});

describe("the work that suggestions may take", () => {
  const many = (code: string) => Array.from({ length: 30 }, (_, n) => suggested(`w${n}`, { code }));
  const kept = ({ hints }: { readonly hints: readonly (string | null)[] }) =>
    hints.filter((hint) => hint === "do so").length;

  it("is 18: nine by all engines at 2 each", async () => {
    const now = many("hit-missed");
    const all = await hinted({ now, after: helping(now) });
    expect([all.asked.length, kept(all)]).toEqual([9, 9]);
  });

  it("is 18 by one engine at 1 each, and six with all engines besides", async () => {
    const now = many("kit-missing");
    expect((await hinted({ now, after: () => now })).asked.length).toBe(18);
    const all = await hinted({ now, after: helping(now) });
    expect([all.asked.length, kept(all)]).toEqual([12, 6]);
  });

  it("is counted twice over with packs, but not where they stay out of it: 4 of 4, 3 of 1 + 4", async () => {
    const day = await packedDay();
    const now = many("hit-missed");
    // 4 · 4 = 16, and the fifth would make 20.
    expect((await hinted({ now, day, after: helping(now) })).asked.length).toBe(4);
    // 3 · (1 + 4) = 15 and one more engine: 16; all engines would make 20.
    const kit = many("kit-missing");
    expect((await hinted({ now: kit, day, after: helping(kit) })).asked.length).toBe(7);
  });
});
