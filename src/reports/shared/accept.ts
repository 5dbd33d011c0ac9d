/** Applies the plan's `accept`: what the lead takes knowingly is still printed but no longer an error; never for law. */
import type { Finding } from "../../findings/finding.ts";
import type { Acceptance, Plan } from "../../plan/plan.ts";
import { acceptIdle, acceptOfLaw } from "./findings.ts";

const concerns = (acceptance: Acceptance, finding: Finding): boolean =>
  acceptance.code === finding.code &&
  (acceptance.who.length === 0 || (finding.who !== null && acceptance.who.includes(finding.who)));

/** The findings with those accepted marked. `complete` where every topic was judged: only then is an entry idle. */
export function accepted(plan: Plan, findings: readonly Finding[], complete: boolean): readonly Finding[] {
  const told = findings.map((finding) => {
    const acceptance = finding.law ? undefined : plan.accept.find((one) => concerns(one, finding));
    return acceptance ? { ...finding, accepted: acceptance.why, level: "note" as const } : finding;
  });
  return [...told, ...plan.accept.flatMap((acceptance) => remark(acceptance, findings, complete))];
}

function remark(acceptance: Acceptance, findings: readonly Finding[], complete: boolean): readonly Finding[] {
  const { code, path } = acceptance;
  const meant = findings.filter((finding) => concerns(acceptance, finding));
  if (meant.some((finding) => finding.law)) return [acceptOfLaw.raise({ code }, { path })];
  return meant.length === 0 && complete ? [acceptIdle.raise({ code }, { path })] : [];
}
