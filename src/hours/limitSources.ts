/** Behind each code of hours: the rule sets, clauses and limits that raise it, for whoever asks what a finding rests on. */
import { houseDefaults } from "../plan/houseRules.ts";
import { lengthText } from "../time/index.ts";
import { breachFindingOf } from "./judge/limitFindings.ts";
import { ALL_SETS, ALL_WEEKS, CLAIMS, declarationOf, ruleSet } from "./rules/index.ts";
import { NO_OPTIONS, type RuleOptions } from "./rules/options.ts";
import type { Limit, Questions, RuleSet } from "./rules/rule.ts";

/** One limit, claim or question of a rule set. */
export interface LimitSource {
  /** The name of the rule set, as plans and logs write it; `fatigue` or `log` where none decides. */
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

interface Asked {
  readonly clause?: string;
  readonly question: string;
}

const questions = (...all: readonly (string | undefined)[]): readonly Asked[] =>
  all.flatMap((question) => (question === undefined ? [] : [{ question }]));

/** What a rule set asks as a warning. */
const reviewed = ({ always = [], personal, personalBreach }: Questions): readonly Asked[] =>
  questions(...always, personal, personalBreach);

/** What it asks as a note, where the day gives reason to. */
const left = (asks: Questions): readonly Asked[] => [
  ...[asks.vehicle, asks.mixedVehicles].flatMap((asked) => asked ?? []),
  ...questions(...(asks.claimed ?? []), asks.breach, asks.wayToBed, ...(asks.kinds ?? []).map((kind) => kind.question)),
  ...questions(asks.surplus?.question, asks.border, asks.shortRest, asks.night?.question, asks.shortMeal?.question),
];

/** What no rule set decides: studies of fatigue, the house's own limit beside them, and the bounds of a log. */
const WITHOUT_SET: Readonly<Record<string, LimitSource>> = {
  "short-sleep-at-wheel": {
    set: "fatigue",
    clause: null,
    limit: "less than 7 h of sleep in the 24 h before the wheel",
    source: "Tefft, AAA Foundation for Traffic Safety, December 2016; not a legal limit",
  },
  "awake-too-long-at-wheel": {
    set: "house",
    clause: "house rules",
    limit: `no wheel after ${lengthText(houseDefaults().wheelAwake)} awake`,
    source: "common practice, no source; the level of alcohol: Dawson and Reid, Nature 388:235, 1997",
  },
  "night-driving": {
    set: "fatigue",
    clause: null,
    limit: "at the wheel between midnight and 06:00",
    source: "Åkerstedt, Kecklund, Hörte, Sleep 24(4):401, 2001; not a legal limit",
  },
  "moment-outside-log": {
    set: "log",
    clause: null,
    limit: "judged at a moment inside the log",
    source: "no rule: nothing is known outside the log",
  },
};

/** What of a rule set raises a code. */
function ofSet(code: string, id: (typeof ALL_SETS)[number]): readonly LimitSource[] {
  const { team } = declarationOf(id);
  const variants = VARIANTS.map((options) => ruleSet(id, options, houseDefaults()));
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
    const asked = code === "hours-review" ? reviewed(asks) : code === "law-open-review" ? left(asks) : [];
    rows.push(...asked.map(({ clause = null, question }) => row(clause, question, source)));
    return rows;
  });
}

/** The limits behind a code of hours, in the order of the rule sets, each once; none for codes of other engines. */
export function limitSourcesOf(code: string): readonly LimitSource[] {
  const rows = [...ALL_SETS.flatMap((id) => ofSet(code, id)), ...[WITHOUT_SET[code] ?? []].flat()];
  const keyOf = ({ set, clause, limit }: LimitSource): string => `${set} ${clause} ${limit}`;
  return [...new Map(rows.toReversed().map((row) => [keyOf(row), row])).values()].toReversed();
}
