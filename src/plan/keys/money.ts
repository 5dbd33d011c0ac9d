/** `contracts` and `accept`: what a timecard pays by, and what the lead takes knowingly. */
import type { PlanPath } from "../../findings/finding.ts";
import { PEOPLE_SETS } from "../../hours/rules/index.ts";
import { entry, type ModelOf, readBy } from "../shape/entry.ts";
import { listOf, oneOrManyValues, scalar, valued, word } from "../shape/form.ts";
import { length, numberOf, text } from "../shape/leaves.ts";
import { whoOrNone } from "../shape/named.ts";
import { PATTERNS } from "../shape/patterns.ts";
import type { Entity } from "../terms.ts";
import { type Parsed, parsed } from "../values/parsed.ts";
import type { NumberRange } from "../values/quantity.ts";

const MONEY: NumberRange = { what: "an amount of money", least: 0, most: 1_000_000, example: "25" };

/** A contract of the section `contracts`. */
export const contractForm = entry(
  "a contract: { overtimeAfter: 10 h, doubleAfter: 12 h }",
  {},
  {
    overtimeAfter: [length, "hours a day after which overtime is paid", { as: "overtimeAfterMinutes" }],
    doubleAfter: [length, "hours a day after which double time is paid", { as: "doubleAfterMinutes" }],
    dayRate: [length, "the hours that a day rate pays", { as: "dayRateMinutes" }],
    mealPenalty: [numberOf(MONEY), "money for each meal missed, in the contract's own currency", { example: "25" }],
    shortTurnaround: [
      numberOf(MONEY),
      "money for each turnaround that is too short, in the contract's own currency",
      { example: "50" },
    ],
    turnaround: [length, "release to next call, by the contract", { as: "turnaroundMinutes" }],
    perDiem: [numberOf(MONEY), "money for each day worked, in the contract's own currency", { example: "60" }],
    rules: [oneOrManyValues(word(PEOPLE_SETS)), "labour law that holds besides: it binds without driving, and pays"],
  },
);

/** What a timecard pays by, in the contract's own currency. */
export type Contract = Entity & ModelOf<typeof contractForm>;

const acceptanceForm = entry(
  "an acceptance: { code: rest-too-short, why: agreed }",
  {
    code: [
      valued(
        scalar("a code such as rest-too-short", ["string"], { pattern: PATTERNS.code }),
        (said): Parsed<string> => parsed(said),
      ),
      "the finding's code, as `check` prints it",
      { example: "rest-too-short" },
    ],
    why: [text, "why it is taken", { example: "agreed with the crew" }],
  },
  { who: [whoOrNone, "whom it concerns", { byDefault: "everyone" }] },
);

/** A finding that the lead takes knowingly, with the reason. */
export interface Acceptance extends ModelOf<typeof acceptanceForm> {
  readonly path: PlanPath;
}

/** The section `accept`. */
export const acceptForm = listOf(
  "a list: - { code: rest-too-short, who: wren, why: agreed }",
  readBy(acceptanceForm, (fields): Acceptance | null => fields.located()),
);
