/** The pages on the plan: its sections, each with its keys, from the declarations that the reader works with. */
import { type KeyReference, planReference, type SectionReference } from "../../plan/reference.ts";
import {
  type DeclaredPage,
  heading,
  type PageBlock,
  type PageText,
  pageTerm,
  terms,
  textBlock,
  yaml,
} from "../page.ts";

const SMALLEST = `daywright: 1
date: 2027-01-20
clock: America/New_York            # the control room's clock: a time with no zone is on this one
zone: America/Chicago              # where the places are, unless a place says otherwise
crew:
  wren: { role: camera, drives: wagon }
  ilse: { role: reporter }
vehicles:
  wagon: {}
places:
  lodge: { at: [46.60, -90.88] }
  pier:  { at: [46.81, -90.82] }
roads:
  - { link: [lodge, pier], drive: 35 min, bad: 50 min }
hits:
  dawn: { at: "07:00", for: 3 min, place: pier }
runs:
  wagon: [lodge, pier, lodge]
`;

const VALUES = [
  pageTerm(
    "a time",
    '`"05:00"`, `0500`, `05:00 local` (the zone of the place; with no place that of all places, if they share one), `05:00 CT` (a label), `05:00 America/Chicago`, `01:30 +1d`, `22:00 -1d`, `24:00`, `UTC`, `Z`, `01:30 UTC-05:00`, or ISO 8601 with an offset, also `20270120T0500Z` and `-06`; seconds are cut. `--now`, `--at` and `log` also take `now` and epoch seconds. A time that the clocks skip or repeat is an error that shows both readings. Quote times: other YAML tools turn `12:00` into 720.',
  ),
  pageTerm(
    "a length",
    "`35 min`, `1h20`, `1 h 20 min`, `1.5 h`, `90 minutes`, `PT35M`. A bare number is an error that asks for the unit.",
  ),
  pageTerm(
    "quantities",
    "`km` `mi` `m` `ft` `cm`, `kg` `lb` `t`, `W` `kW`, `Wh` `kWh`, `C` `F`, `%`, `km/h` `mph` `m/s`, `MB`, `Mbit/s`, `GHz`; degrees as numbers; coordinates also as `46°48'36\"N`; a satellite as `101 west`. A bare number is taken if the key says the unit: `km`, `watts`, `total`, `wh`, `odometer`.",
  ),
  pageTerm("people", "ids, a role, `all`, `aboard`"),
  pageTerm(
    "ids",
    "short words of letters, digits and inner hyphens, unique in the whole plan. Not `all`, `aboard`, `none`, `here`, `local`, `hits`, `tasks`, `dark` or `off`, nor `yes`, `no`, `on`, `true`, `false` or `null`.",
  ),
  pageTerm(
    "YAML",
    "a ` #` begins a comment (`note: stage #3` is `stage`): quote text with `#` or `: `. No anchors, tags or several documents; at most 256 KiB.",
  ),
];

/** All sections, a line each. */
const planPage = (): PageText => ({
  title: "The plan: one YAML file a day",
  blocks: [
    textBlock("The smallest useful plan:"),
    yaml(SMALLEST),
    textBlock(
      "For help while typing, save the schema beside your plans (`daywright schema plan -o plan.schema.json`) and begin each plan with `# yaml-language-server: $schema=./plan.schema.json`.",
    ),
    heading("Sections"),
    textBlock("`daywright help plan SECTION` has every key of one, `daywright help plan rules` the house rules."),
    terms(planReference().map((section) => pageTerm(section.section, sectionLine(section)))),
    heading("Values"),
    terms(VALUES),
    heading("Files together"),
    textBlock(
      "`uses` names files with what all days share, in the same folder or below: merged entry by entry and key by key, lists replaced whole; the day's file wins, and `id: off` removes an entry. `follows` names the day before: rest, totals of 7, 8 and 14 days, and where people, packs, gear and vehicles ended; at most 40 days back.",
    ),
  ],
});

const sentence = (said: string): string => `${said.charAt(0).toUpperCase()}${said.slice(1)}.`;

const sectionLine = ({ says, required, example }: SectionReference): string =>
  [sentence(says), required ? "Required." : "", example === null ? "" : `Example: \`${example}\``]
    .filter((part) => part !== "")
    .join(" ");

/** The words after `plan` that have a page. */
const planSections = (): readonly string[] => planReference().map(({ section }) => section);

/** One section with its keys; null for a word that is none. */
export function sectionPage(name: string): PageText | null {
  const found = planReference().find(({ section }) => section === name);
  if (found === undefined) return null;
  const blocks: PageBlock[] = [textBlock(sectionLine(found))];
  for (const entry of found.entries) {
    blocks.push(heading(entry.takes), terms(entry.keys.map((key) => pageTerm(key.key, keyLine(key)))));
  }
  if (name === "rules")
    blocks.push(textBlock("House rules are common practice of the trade without a source, unless one is given."));
  return { title: `The plan: ${name}`, blocks };
}

/** What a key takes says it by an example already. */
const HAS_EXAMPLE = /such as|as in|: [{[]/;

function keyLine({ takes, says, required, byDefault, example }: KeyReference): string {
  const value = `${takes.charAt(0).toUpperCase()}${takes.slice(1)}`;
  return [
    sentence(says),
    required ? "Required." : "",
    `${value}${example === null || HAS_EXAMPLE.test(takes) || takes.includes(example) ? "" : `, such as \`${example}\``}.`,
    byDefault === null ? "" : `Default: \`${byDefault}\`.`,
  ]
    .filter((part) => part !== "")
    .join(" ");
}

/** The page for the table. */
export const planEntry: DeclaredPage = {
  name: "plan",
  place: 20,
  about: "the plan's sections and values; `help plan SECTION` has each key",
  page: planPage,
  below: { names: planSections, page: sectionPage },
};
