/** What the roads can have wrong: codes, sentences and cures. */
import { type AnyEntry, define } from "../findings/finding.ts";

export const roadMissing = define<{ from: string; to: string }>({
  code: "road-missing",
  level: "error",
  title: "Two stops in a row have neither a road between them nor coordinates for both",
  why: "Without a time for the drive nothing before or after it can be placed.",
  cure: "State the road under `roads`, or give both places `at: [latitude, longitude]` so that it can be estimated.",
  example: "roads:\n  - { link: [lodge, pier], drive: 35 min, bad: 50 min }",
  sentence: ({ from, to }) => `no road is known between ${from} and ${to}`,
  label: ({ from }) => `driven to from ${from}`,
  hint: ({ from, to }) => `add to roads: { link: [${from}, ${to}], drive: 35 min, bad: 50 min }`,
});

export const codes: readonly AnyEntry[] = [roadMissing.entry];
