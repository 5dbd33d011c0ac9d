/** What reading a plan asks besides its text: whether it is a log, and whether what it accepts exists. */
import type { Finding } from "../findings/finding.ts";
import type { Plan } from "../plan/plan.ts";

/** Only a plan that accepts findings needs the catalogue, which is large. */
export async function acceptMistakesOf(plans: readonly Plan[]): Promise<readonly Finding[]> {
  const accepting = plans.filter((plan) => plan.accept.length > 0);
  if (accepting.length === 0) return [];
  const [{ acceptMistakes }, { catalogue }] = await Promise.all([
    import("../plan/index.ts"),
    import("../findings/catalogue.ts"),
  ]);
  const known = await catalogue();
  return accepting.flatMap((plan) => acceptMistakes(plan, known));
}

/** One finding in place of all that a log lacks as a plan; null for what is no log. */
export async function logFinding(text: string, file: string | null): Promise<readonly Finding[] | null> {
  if (!(await isLog(text))) return null;
  const { planUnreadable } = await import("../reports/shared/findings.ts");
  const reason = "it is a log, which `hours` and `timecard` read";
  return [planUnreadable.raise({ file: file ?? "standard input", reason, near: [] })];
}

/** Whether a text is a log file (`log: 1`) and no plan. */
export const isLog = async (text: string): Promise<boolean> => (await import("../plan/log/read.ts")).looksLikeLog(text);
