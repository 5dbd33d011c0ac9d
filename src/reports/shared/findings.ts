/** What is found besides the topics: by a plan's `accept`, which is applied here, and where a plan or a file is not there. */
import { wordList } from "../../findings/figures.ts";
import { define, type Finding } from "../../findings/finding.ts";
import type { Acceptance, Plan } from "../../plan/plan.ts";

export const acceptOfLaw = define<{ code: string }>({
  code: "accept-of-law",
  level: "warning",
  title: "the plan accepts a breach of law",
  why: "`accept` is for what the lead takes knowingly. A legal limit is not the lead's to waive, so the finding stays an error.",
  cure: "Change the plan until the limit holds; if an exception applies, claim it on the vehicle with its conditions.",
  example: `
    accept:
      - { code: rest-too-short, who: tomas, why: it is only once }
    vehicles:
      truck: { gross: 16000 lb, rules: us-property }
    history:
      tomas: { released: 2027-01-19T20:00-06:00, asleep: 8 h }     # under 10 h
  `,
  sentence: ({ code }) => `\`${code}\` is a breach of law here, which \`accept\` does not silence`,
  hint: () => "change the plan until the limit holds, and remove the entry",
});

export const acceptIdle = define<{ code: string }>({
  code: "accept-idle",
  level: "note",
  title: "the plan accepts a finding that is not there",
  why: "An entry that nothing needs would silence the next finding of this code unseen.",
  cure: "Remove the entry, or correct its code or `who`.",
  example: `
    accept:
      - { code: rest-too-short, why: agreed with wren }
  `,
  sentence: ({ code }) => `nothing in this plan raises \`${code}\` as accepted here`,
  hint: () => "remove the entry",
});

export const planUnreadable = define<{ file: string; reason: string; near: readonly string[] }>({
  code: "plan-unreadable",
  level: "error",
  title: "a plan that cannot be read from where it should be",
  why: "Without its text nothing about the day can be computed.",
  cure: "Check the name, and that you may read the file.",
  example: "daywright check dya.yaml     # the file is called day.yaml",
  sentence: ({ file, reason }) => `cannot read \`${file}\`: ${reason}`,
  hint: ({ near }) => (near.length > 0 ? wordList(near, "or") : null),
});

export const wrongUsage = define<{ message: string; hint: string | null }>({
  code: "wrong-usage",
  level: "error",
  title: "a command line that the program does not take",
  why: "Nothing was computed. In JSON this finding is what standard error says, so that a script always has an answer.",
  cure: "Correct the flag or the word that the message names.",
  example: "daywright calls day.yaml --for wern --json     # the id is wren",
  sentence: ({ message }) => message,
  hint: ({ hint }) => hint,
});

export const commandFailed = define<{ message: string; hint: string | null }>({
  code: "command-failed",
  level: "error",
  title: "a file or a stream that cannot be read or written",
  why: "The command has no answer, or nowhere to put it.",
  cure: "Check the name, the permissions and the free space.",
  example: "daywright calls day.yaml --json -o no/calls.json     # there is no such folder",
  sentence: ({ message }) => message,
  hint: ({ hint }) => hint,
});

const concerns = (acceptance: Acceptance, finding: Finding): boolean =>
  acceptance.code === finding.code &&
  (acceptance.who.length === 0 || (finding.who !== null && acceptance.who.includes(finding.who)));

/** The findings with those accepted marked. `complete` where every topic was judged: only then is an entry idle. */
export function accepted(plan: Plan, findings: readonly Finding[], complete: boolean): readonly Finding[] {
  const marked = findings.map((finding) => {
    const acceptance = finding.law ? undefined : plan.accept.find((one) => concerns(one, finding));
    return acceptance ? { ...finding, accepted: acceptance.why, level: "note" as const } : finding;
  });
  return [...marked, ...plan.accept.flatMap((acceptance) => remark(acceptance, findings, complete))];
}

function remark(acceptance: Acceptance, findings: readonly Finding[], complete: boolean): readonly Finding[] {
  const { code, path } = acceptance;
  const meant = findings.filter((finding) => concerns(acceptance, finding));
  if (meant.some((finding) => finding.law)) return [acceptOfLaw.raise({ code }, { path })];
  return meant.length === 0 && complete ? [acceptIdle.raise({ code }, { path })] : [];
}
