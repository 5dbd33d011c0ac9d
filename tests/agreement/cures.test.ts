/**
 * Every suggestion that names an edit, followed and read again from the file, clears the finding and brings no
 * error: over all fixtures and cases, and over the example of every code.
 */
import { describe, expect, it } from "vitest";
import { withSoundHints } from "../../src/repair/cures.ts";
import { suggestedEdits } from "../../src/repair/suggested.ts";
import { editText, examples, failings, PLANS, posed } from "../repair/posed.ts";

interface Source {
  readonly file: string;
  readonly text?: string;
}

/** What goes wrong where suggestions are followed, and how often each code had one. */
async function followed(sources: readonly Source[]) {
  const faults: string[] = [];
  const counts = new Map<string, number>();
  for (const { file, text } of sources) {
    const plan = await posed(file, text);
    if (plan === null) continue;
    for (const finding of await withSoundHints(plan.now, plan.text, plan.judgeEdits, true)) {
      // One that was tried and does not help is printed without it, as another object.
      if (finding.accepted !== null || !plan.now.findings.includes(finding)) continue;
      for (const edits of suggestedEdits(plan.now, plan.text, finding) ?? []) {
        counts.set(finding.code, (counts.get(finding.code) ?? 0) + 1);
        for (const fault of await failings(plan, edits, [finding]))
          faults.push(`${file} ${finding.code} ${editText(edits)}: ${fault}`);
      }
    }
  }
  return { faults, counts };
}

describe("suggestions that name an edit clear what they stand at and bring no error", () => {
  it("in the fixtures and cases", { timeout: 600_000 }, async () => {
    const { faults, counts } = await followed(PLANS.map((file) => ({ file })));
    expect(faults).toEqual([]);
    for (const code of ["fuel-short", "hit-unpowered", "kit-missing", "kit-too-few", "meal-late", "task-missed"])
      expect([code, (counts.get(code) ?? 0) > 0]).toEqual([code, true]);
  });

  it("in the examples of the codes", { timeout: 600_000 }, async () => {
    const { faults, counts } = await followed(await examples());
    expect(faults).toEqual([]);
    for (const code of ["cable-too-short", "feed-too-slow", "window-missing", "window-too-short", "order-unstated"])
      expect([code, (counts.get(code) ?? 0) > 0]).toEqual([code, true]);
  });
});
