/** What there is to say besides the topics: of a plan's own list of accepted findings, and of a plan that is not there. */
import { define } from "../../findings/finding.ts";

export const acceptOfLaw = define<{ code: string }>({
  code: "accept-of-law",
  level: "warning",
  title: "the plan accepts a breach of law",
  why: "`accept` is for what the lead takes knowingly. A legal limit is not the lead's to waive, so the finding stays an error.",
  cure: "Change the plan until the limit holds; if an exception applies, claim it on the vehicle with its conditions.",
  example:
    "accept:\n  - { code: rest-too-short, who: tomas, why: it is only once }\nvehicles:\n  truck: { gross: 16000 lb, rules: us-property }\nhistory:\n  tomas: { released: 2027-01-19T20:00-06:00, asleep: 8 h }     # under 10 h",
  sentence: ({ code }) => `\`${code}\` is a breach of law here, which \`accept\` does not silence`,
  hint: () => "change the plan until the limit holds, and remove the entry",
});

export const acceptIdle = define<{ code: string }>({
  code: "accept-idle",
  level: "note",
  title: "the plan accepts a finding that is not there",
  why: "An entry that nothing needs would silence the next finding of this code unseen.",
  cure: "Remove the entry, or correct its code or `who`.",
  example: "accept:\n  - { code: rest-too-short, why: agreed with wren }",
  sentence: ({ code }) => `nothing in this plan raises \`${code}\` as accepted here`,
  hint: () => "remove the entry",
});

export const planUnreadable = define<{ file: string; reason: string; near: readonly string[] }>({
  code: "plan-unreadable",
  level: "error",
  title: "a plan that cannot be read from where it should be",
  why: "Nothing is known of the day.",
  cure: "Check the name, and that you may read the file.",
  example: "daywright check dya.yaml     # the file is called day.yaml",
  sentence: ({ file, reason }) => `cannot read \`${file}\`: ${reason}`,
  hint: ({ near }) => (near.length > 0 ? near.join(" or ") : null),
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
