/** Mistakes with files that a plan names: missing, unreadable, outside, in a ring, or days without one. */
import { wordList } from "../../findings/figures.ts";
import { mistake } from "./mistake.ts";

export const fileMissing = mistake<{ name: string; near: readonly string[] }>({
  code: "file-missing",
  title: "a file named by the plan does not exist",
  why: "What `uses` and `follows` name is part of the plan; without it the results would be wrong.",
  cure: "Name the file as it is called, relative to the file that names it.",
  example: "uses: asignment.yaml     # the file is called assignment.yaml",
  sentence: ({ name }) => `there is no file \`${name}\``,
  hint: ({ near }) => (near.length > 0 ? wordList(near, "or") : "name the file relative to the one that names it"),
});

export const fileUnreadable = mistake<{ name: string; reason: string }>({
  code: "file-unreadable",
  title: "a file named by the plan cannot be read",
  why: "What `uses` and `follows` name is part of the plan; without it the results would be wrong.",
  cure: "Make the file readable, or name a file in place of a folder.",
  example: "uses: shared     # a folder",
  sentence: ({ name, reason }) => `\`${name}\` cannot be read: ${reason}`,
  hint: ({ reason }) => (reason.includes("folder") ? "name a file in it" : "make the file readable"),
});

export const fileOutside = mistake<{ name: string }>({
  code: "file-outside",
  title: "a file named by the plan lies outside its folder",
  why: "Plans come from other people, so a plan may only name files in its own folder or below.",
  cure: "Put the file into the plan's folder or a folder below it.",
  example: "uses: ../assignment.yaml",
  sentence: ({ name }) => `\`${name}\` lies outside the plan's folder`,
  hint: () => "put the file into the plan's folder or a folder below it",
});

export const fileLoop = mistake<{ name: string; chain: readonly string[] }>({
  code: "file-loop",
  title: "files that name each other in a loop",
  why: "A day cannot follow itself.",
  cure: "Let `follows` name the day before and `uses` a file that names no other.",
  example: "follows: day.yaml     # in day.yaml itself",
  sentence: ({ name }) => `\`${name}\` leads back to itself`,
  label: ({ chain }) => chain.join(" → "),
  hint: () => "let `follows` name the day before",
});

export const chainTooLong = mistake<{ most: number }>({
  code: "chain-too-long",
  title: "too many days follow each other",
  why: "The whole chain of days is read, and no rule looks further back.",
  cure: "Begin a new chain and state what came before in `history`.",
  example: "follows: 2027-01-19.yaml     # which follows the day before, 41 times over",
  sentence: ({ most }) => `the chain of days is longer than ${most} files`,
  hint: () => "end the chain and state what came before in `history`",
});

export const daysMissing = mistake<{ name: string; days: number; first: string; last: string }>({
  code: "days-missing",
  level: "warning",
  title: "days are missing in the chain",
  why: "Rest and totals are counted from one day to the next; the missing days are unknown: they give no rest and no restart and add no work. Figures that span them are minimums.",
  cure: "Write a plan for each day, also one without hits, and let each follow the one before; or state the days in `history`, a day off as 0 h.",
  example: "follows: 2027-01-17.yaml     # in a plan for 2027-01-20",
  sentence: ({ name, days, first, last }) =>
    `${days === 1 ? first : `${first} to ${last}`}, between ${name} and this day, ${days === 1 ? "is" : "are"} unknown: neither rest nor work is counted, and figures that span it are minimums`,
  hint: ({ name, first }) =>
    `daywright next ${name}, or state a day off in \`history\`: totals: { ${first}: { duty: 0 h, driving: 0 h } }`,
});
