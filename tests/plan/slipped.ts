/** The everything-plan with one mistake in it, and what the program says of that. */
import { readFileSync } from "node:fs";
import { readOnePlan } from "../../src/plan/index.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";

export const WHOLE = readFileSync(new URL("../../fixtures/plans/everything.yaml", import.meta.url), "utf8");

/** Every finding as `code: what is marked: hint`. */
export async function findingView(text: string): Promise<readonly string[]> {
  const { findings } = await readOnePlan(text, { file: "day.yaml" });
  return findings.map((one) => {
    const { text: line = "", column = 1, length = 0 } = one.span ?? {};
    return `${one.code}: ${line.slice(column - 1, column - 1 + length)}: ${one.hint(plainWording)}`;
  });
}

/** The whole plan with `wrong` in place of the first `right`; throws where it has none. */
export const slipped = (right: string, wrong: string): string => {
  if (!WHOLE.includes(right)) throw new Error(`the plan has no ${right}`);
  return WHOLE.replace(right, () => wrong);
};
