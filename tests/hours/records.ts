/** Records of one person as a line of text (`off 10, driving 4:30`), judged by one rule set; days and clocks are UTC. */
import { calendarOf } from "../../src/hours/count/calendar.ts";
import type { LogSpan } from "../../src/hours/count/spans.ts";
import { judgeRecord, type Verdict } from "../../src/hours/judge/judge.ts";
import { ruleSet } from "../../src/hours/rules/index.ts";
import { NO_OPTIONS } from "../../src/hours/rules/options.ts";
import { SPAN_KINDS } from "../../src/hours/rules/rule.ts";
import type { RuleSetId } from "../../src/hours/rules/table.ts";
import { houseDefaults } from "../../src/plan/houseRules.ts";
import { type Instant, instant } from "../../src/time/units.ts";
import { zoneNamed } from "../day/parts.ts";

/** The instant of a day and an hour of January or February 2027: `18 06:00`, `02-01 00:00`. */
export function utc(text: string): Instant {
  const [day = "", clock = ""] = text.split(" ");
  return instant(Date.parse(`2027-${day.includes("-") ? day : `01-${day}`}T${clock}Z`) / 60_000);
}

/** Whole days, in UTC. */
export const DAYS = calendarOf(zoneNamed("UTC"), 0);

/** One span after the other, each a kind and its hours and minutes. */
export function spansFrom(from: string, text: string): readonly LogSpan[] {
  let at = utc(from);
  return text.split(", ").map((part): LogSpan => {
    const [word = "", length = ""] = part.split(" ");
    const is = SPAN_KINDS.find((kind) => kind === word);
    if (is === undefined) throw new Error(`no kind of span: ${word}`);
    const [hours = 0, minutes = 0] = length.split(":").map(Number);
    const begin = at;
    at = instant(at + hours * 60 + minutes);
    return { from: begin, to: at, is, in: "commercial", pause: false };
  });
}

/** The rules of a set with exceptions claimed, and the house rules where they matter. */
export const rulesOf = (set: RuleSetId, claims: readonly string[] = [], house = houseDefaults()) =>
  ruleSet(set, { ...NO_OPTIONS, claims }, house);

/** What a rule set says of a record at its end. */
export const judged = (set: RuleSetId, from: string, text: string, claims: readonly string[] = []): Verdict =>
  judgeRecord({ spans: spansFrom(from, text), before: [] }, rulesOf(set, claims), DAYS);

/** The breaches of a limit, as pairs of instants. */
export const breachesOf = ({ breaches }: Pick<Verdict, "breaches">, id: string): readonly (readonly Instant[])[] =>
  breaches.filter(({ limit }) => limit.id === id).map(({ from, to }) => [from, to]);
