/** The kinds and keys of a log file. */
import type * as zod from "zod";
import { ALL_SETS, ALL_WEEKS, CLAIMS } from "../../hours/rules/index.ts";
import { SPAN_KINDS } from "../../hours/rules/rule.ts";
import { recordKeys } from "../keys/record.ts";
import { entry } from "../shape/entry.ts";
import { either, flag, listOf, mapOf, oneOrManyValues, scalar, word } from "../shape/form.ts";
import type { Form, Zod } from "../shape/kind.ts";
import { numberOf, oneOrTwo, text, zoneForm } from "../shape/leaves.ts";
import { time } from "../shape/spans.ts";
import type { NumberRange } from "../values/quantity.ts";

/** Whether a vehicle of a log is under the rules. */
export const VEHICLE_KINDS = ["commercial", "light"] as const;

/** A span of a log. */
export const spanForm = entry(
  "a span such as { from: 2027-01-19T22:00, to: 2027-01-20T08:00, is: off }",
  {
    from: [time, "when it begins, a date and a time"],
    to: [time, "when it ends; the next span begins then"],
    is: [word(SPAN_KINDS), "what the person did"],
  },
  {
    in: [word(VEHICLE_KINDS), "the vehicle: `light` where the rules are not for it", { byDefault: "commercial" }],
    bunk: [flag, "of a ferry: whether a bunk or couchette was at hand", { byDefault: "false" }],
  },
);

/** The bounds of minutes on duty before a log. */
export const DUTY_MINUTES: NumberRange = {
  what: "minutes on duty",
  least: 0,
  most: 60_000,
  whole: true,
  example: "1800",
};

/** What lies before a log. */
export const beforeForm = entry(
  "a map such as { dutyMinutes: 1800, releasedAt: 2027-01-18T21:00 }",
  {},
  {
    dutyMinutes: [
      numberOf(DUTY_MINUTES),
      "minutes on duty before the log that a limit over several days still counts",
      { as: "dutyMinutesBefore" },
    ],
    releasedAt: [time, "when the person was released before the log begins"],
  },
);

/** The same as an item of the list of spans. */
export const beforeItemForm = entry(
  "an item such as { before: { dutyMinutes: 1800 } }",
  { before: [beforeForm, "what lies before the log"] },
  {},
);

const spansForm = listOf("a list of spans", either(spanForm.wanted, spanForm, beforeItemForm));

/** A person of a log with what lies before. */
export const logPersonForm = entry(
  "a map such as { before, spans }",
  { spans: [spansForm, "the spans, in order"] },
  { before: [beforeForm, "what lies before the log"] },
);

/** A flag for each exception that some rule set knows. */
export const claimsForm = entry(
  "exceptions that are claimed",
  {},
  Object.fromEntries([...CLAIMS].map(([name, what]) => [name, [flag, what, { byDefault: "false" }] as const])),
);

const week = [word(ALL_WEEKS), "60 h in 7 days or 70 h in 8 (49 CFR 395.3(b)); 70/8 where none is stated"] as const;
const cycle = [oneOrTwo("a cycle"), "1 or 2, SOR/2005-313 ss. 26, 27"] as const;
const OPTIONS = "a map such as { week: 70/8 }";

/** The options that are no claims. */
export const variantForm = entry(OPTIONS, {}, { week, ...recordKeys, cycle });

/** The options of a log. */
export const optionsForm = entry(OPTIONS, {}, { week, ...claimsForm.declarations, ...recordKeys, cycle });

const version: Form = {
  wanted: "the version of the format, such as 1",
  fits: (node) => node.kind === "scalar" && node.value !== null,
  schema: (z: Zod, described: boolean): zod.ZodType => scalar("1", ["number"]).schema(z, described),
};

/** A log file. */
export const logForm = entry(
  "a log",
  {
    log: [version, "the version of the format: 1"],
    zone: [zoneForm, "the clock of times without an offset, and of the days that are counted"],
    rules: [oneOrManyValues(word(ALL_SETS)), "the rule sets to judge by"],
    people: [
      mapOf(
        "a map from people to their spans",
        either("a list of spans, or { before, spans }", spansForm, logPersonForm),
      ),
      "what each person did",
    ],
  },
  {
    title: [text, "a title for the report"],
    options: [optionsForm, "which variant of the rules holds, and which exceptions are claimed"],
    fill: [word(["off"]), "`off`: what no span covers was off duty"],
  },
);
