/** Mistakes in an edit of a plan that is given on the command line. */
import { mistake } from "./mistake.ts";

export const editNowhere = mistake<{ path: string; at: string; near: string | null; known: readonly string[] }>({
  code: "edit-nowhere",
  title: "an edit of something that is not in the plan",
  why: "An edit changes a value where it stands, or writes a whole new entry; otherwise its path must lead to what is there.",
  cure: "Write the path as the keys of the plan, with dots between, as in `hits.noon.at`; a new entry whole, as in `tasks.lunch={ kind: meal, … }`.",
  example: "daywright check --set hits.none.at=12:30 day.yaml     # the hit is called noon",
  sentence: ({ path, at }) => `the plan has no \`${at}\` for the edit \`${path}\``,
  hint: ({ near, known }) => {
    if (near !== null) return `\`${near}\``;
    return known.length > 0
      ? `one of: ${known.join(", ")}`
      : "name keys of the plan, with dots between, as in `hits.noon.at`";
  },
});

export const editPathBad = mistake<{ path: string; near: string | null }>({
  code: "edit-path-bad",
  title: "the path of an edit that cannot be read",
  why: "A path is made of keys, with dots between; items of a list have numbers from 0 in brackets.",
  cure: 'Write it as in `hits.noon.at` or `runs.truck.stops[1].leave`; a key with a dot in quotes: `actual."brick.1"`.',
  example: "daywright check --set hits..at=12:30 day.yaml",
  sentence: ({ path }) => `\`${path}\` is not a path of keys`,
  hint: ({ near }) => (near === null ? 'as in `hits.noon.at`, `roads[0].drive` or `actual."brick.1"`' : `\`${near}\``),
});

export const editValueBad = mistake<{ value: string }>({
  code: "edit-value-bad",
  title: "the value of an edit that is not YAML",
  why: "The value stands in the plan as it is typed, so it must be readable there.",
  cure: "Put text in quotes, and lists in brackets.",
  example: "daywright check --set hits.noon.at=[12:30 day.yaml",
  sentence: ({ value }) => `\`${value}\` cannot stand as a value in a plan`,
  hint: () => "put text in quotes, lists in brackets",
});
