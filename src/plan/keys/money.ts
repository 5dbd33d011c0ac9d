/** `contracts` and `accept`: what a timecard pays by, and what the lead takes knowingly, if it exists. */
import type { AnyEntry, Finding } from "../../findings/finding.ts";
import { nearest } from "../../findings/nearest.ts";
import { PEOPLE_SETS } from "../../hours/rules/index.ts";
import { acceptUnknown } from "../findings.ts";
import type { Acceptance, Contract, Id, Plan } from "../plan.ts";
import { Fields, type FieldsOf, type Item, itemsOf } from "../read/fields.ts";
import type { Reading } from "../read/reading.ts";
import { entry, listOf, oneOrManyValues, scalar, word } from "../shape/form.ts";
import { length, numberOf, text, who } from "../shape/leaves.ts";
import { PATTERNS } from "../shape/patterns.ts";
import type { NumberRange } from "../values/quantity.ts";

const MONEY: NumberRange = { what: "an amount of money", least: 0, most: 1_000_000, example: "25" };

/** A contract of the section `contracts`. */
export const contractForm = entry(
  "a contract: { overtimeAfter: 10 h, doubleAfter: 12 h }",
  {},
  {
    overtimeAfter: [length, "hours a day after which overtime is paid"],
    doubleAfter: [length, "hours a day after which double time is paid"],
    dayRate: [length, "the hours that a day rate pays"],
    mealPenalty: [numberOf(MONEY), "money for each meal missed, in the contract's own currency", { example: "25" }],
    shortTurnaround: [
      numberOf(MONEY),
      "money for each turnaround that is too short, in the contract's own currency",
      { example: "50" },
    ],
    turnaround: [length, "release to next call, by the contract"],
    perDiem: [numberOf(MONEY), "money for each day worked, in the contract's own currency", { example: "60" }],
    rules: [oneOrManyValues(word(PEOPLE_SETS)), "labour law that holds besides: it binds without driving, and pays"],
  },
);

/** Reads a contract. */
export function readContract(fields: FieldsOf<typeof contractForm>, contractId: Id): Contract {
  return {
    id: contractId,
    path: fields.path,
    overtimeAfterMinutes: fields.get("overtimeAfter"),
    doubleAfterMinutes: fields.get("doubleAfter"),
    dayRateMinutes: fields.get("dayRate"),
    mealPenalty: fields.get("mealPenalty"),
    shortTurnaround: fields.get("shortTurnaround"),
    turnaroundMinutes: fields.get("turnaround"),
    perDiem: fields.get("perDiem"),
    rules: fields.all("rules"),
  };
}

const acceptanceForm = entry(
  "an acceptance: { code: rest-too-short, why: agreed }",
  {
    code: [
      scalar("a code such as rest-too-short", ["string"], { pattern: PATTERNS.code }),
      "the finding's code, as `check` prints it",
      { example: "rest-too-short" },
    ],
    why: [text, "why it is taken", { example: "agreed with the crew" }],
  },
  { who: [who, "whom it concerns", { byDefault: "everyone" }] },
);

/** The section `accept`. */
export const acceptForm = listOf("a list: - { code: rest-too-short, who: wren, why: agreed }", acceptanceForm);

/** Reads the section `accept`. */
export function readAccept(reading: Reading, section: Item | null): readonly Acceptance[] {
  return itemsOf(section).flatMap((item) => {
    const fields = new Fields(acceptanceForm, reading, item);
    const [code, why, persons] = [fields.text("code"), fields.text("why"), fields.who("who") ?? []];
    return code === null || why === null ? [] : [{ code, why, who: persons, path: item.path }];
  });
}

/** The mistakes in `accept`. `catalogue` holds all codes (`findings/catalogue.ts`). */
export function acceptMistakes(plan: Plan, catalogue: ReadonlyMap<string, AnyEntry>): readonly Finding[] {
  return plan.accept.flatMap(({ code: named, path }) => {
    if (catalogue.has(named)) return [];
    const at = { path: [...path, "code"], span: plan.source.locate([...path, "code"]) };
    return [acceptUnknown.raise({ named, near: nearest(named, catalogue.keys()) }, at)];
  });
}
