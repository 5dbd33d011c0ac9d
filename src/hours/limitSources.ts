/** Behind each code of hours: the rule sets, clauses and limits that raise it, for whoever asks what a finding rests on. */
import { HOUSE_DEFAULTS } from "../plan/houseRules.ts";
import { breachFindingOf } from "./judge/limitFindings.ts";
import { ALL_SETS, ALL_WEEKS, CLAIMS, declarationOf, ruleSet } from "./rules/index.ts";
import { NO_OPTIONS, type RuleOptions } from "./rules/options.ts";
import type { Limit, RuleSet } from "./rules/rule.ts";

/** One limit, claim or question of a rule set. */
export interface LimitSource {
  /** The name of the rule set, as plans and logs write it. */
  readonly set: string;
  readonly clause: string | null;
  /** In a few words. */
  readonly limit: string;
  /** The text that was read. */
  readonly source: string;
}

const REST = ["rest-too-short", "rest-not-stated", "release-after-call"];

/** The codes that a limit can raise. */
function codesOf(limit: Limit, rules: RuleSet): readonly string[] {
  const asked = limit.defer === undefined ? [] : ["hours-review"];
  if (limit.kind === "rest") return limit.breach === "aboard" ? ["weekly-rest-aboard"] : [...REST, ...asked];
  if (limit.kind === "max" && limit.meal === true && !rules.legallyBinding) return ["meal-late"];
  const looksBack = limit.kind === "max" && limit.since.some(({ kind }) => kind === "calendar");
  return [breachFindingOf(limit).entry.code, ...asked, ...(looksBack ? ["hours-gap"] : [])];
}

/** The variants of a set that differ in their limits: each week, one driver and two, each claim alone. */
const VARIANTS: readonly RuleOptions[] = [
  NO_OPTIONS,
  ...ALL_WEEKS.map((week) => ({ ...NO_OPTIONS, weeks: [week] })),
  { ...NO_OPTIONS, drivers: 2 },
  ...[...CLAIMS.keys()].map((claim) => ({ ...NO_OPTIONS, claims: [claim] })),
];

/** What of a rule set raises a code. */
function ofSet(code: string, id: (typeof ALL_SETS)[number]): readonly LimitSource[] {
  const { team } = declarationOf(id);
  const variants = VARIANTS.map((options) => ruleSet(id, options, HOUSE_DEFAULTS));
  const row = (clause: string | null, limit: string, source: string): LimitSource => ({
    set: id,
    clause,
    limit,
    source,
  });
  return variants.flatMap((rules) => {
    const { source, asks } = rules;
    const rows = rules.limits
      .filter((limit) => codesOf(limit, rules).includes(code))
      .map(({ clause, title }) => row(clause, title, source));
    if (code === "exception-claimed") rows.push(...rules.conditions.map((condition) => row(null, condition, source)));
    if (code === "second-driver-missing" && team !== null)
      rows.push(row(team.clause, "two drivers, both there", source));
    if (code === "hours-review") rows.push(...(asks.always ?? []).map((question) => row(null, question, source)));
    if (code === "law-open-review" && asks.vehicle !== undefined)
      rows.push(row(asks.vehicle.clause, asks.vehicle.question, source));
    return rows;
  });
}

/** The limits behind a code, in the order of the rule sets, each once; none where no rule set decides it. */
export function limitSourcesOf(code: string): readonly LimitSource[] {
  const rows = ALL_SETS.flatMap((id) => ofSet(code, id));
  const keyOf = ({ set, clause, limit }: LimitSource): string => `${set} ${clause} ${limit}`;
  return [...new Map(rows.toReversed().map((row) => [keyOf(row), row])).values()].toReversed();
}
