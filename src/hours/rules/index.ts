/** What the rest of the program asks of the rule sets: which names there are, from when on they bind, and each as limits. */
import type { HouseHours, RuleSetDeclaration, Threshold } from "./declaration.ts";
import { NO_OPTIONS, type RuleOptions } from "./options.ts";
import type { PayRule } from "./payRule.ts";
import type { RuleSet } from "./rule.ts";
import { RULE_SETS, type RuleSetId } from "./table.ts";

export type { RuleSetId } from "./table.ts";

const ENTRIES = Object.entries<RuleSetDeclaration>(RULE_SETS);

/** Whether a word is the name of a rule set. */
export const isRuleSet = (name: string): name is RuleSetId => Object.hasOwn(RULE_SETS, name);

const idsOf = (fits: (declared: RuleSetDeclaration) => boolean): readonly RuleSetId[] =>
  ENTRIES.flatMap(([name, declared]) => (fits(declared) && isRuleSet(name) ? [name] : []));

/** Those that a log may name: all. */
export const ALL_SETS: readonly RuleSetId[] = idsOf(() => true);
/** Those that a vehicle may name. */
export const VEHICLE_SETS: readonly RuleSetId[] = idsOf(({ threshold }) => threshold !== null);
/** Those that a person or a contract may name. */
export const PEOPLE_SETS: readonly RuleSetId[] = idsOf(({ forPeople }) => forPeople);

/** Every claim of every set, with the sentence about it; sets that know the same claim say the same of it. */
export const CLAIMS: ReadonlyMap<string, string> = new Map(ENTRIES.flatMap(([, { claims }]) => Object.entries(claims)));

/** Every value of `week` that some set knows. */
export const ALL_WEEKS: readonly string[] = [...new Set(ENTRIES.flatMap(([, { weeks }]) => weeks))];

/** The declaration of a rule set. */
export const declarationOf = (id: RuleSetId): RuleSetDeclaration => RULE_SETS[id];

/** The pay rule of labour law; null for a set that says nothing of pay. */
export const payRuleOf = (id: RuleSetId): PayRule | null => declarationOf(id).pay;

/** The thresholds of the sets named, each once; those of the first set in the table where none is named. */
export function thresholdsOf(ids: readonly RuleSetId[]): readonly Threshold[] {
  const named = ids.flatMap((id) => declarationOf(id).threshold ?? []);
  return named.length > 0 ? [...new Set(named)] : ENTRIES.flatMap(([, { threshold }]) => threshold ?? []).slice(0, 1);
}

/** The rules that bind everyone in a plan. */
export const houseSet = (house: HouseHours): RuleSet => ruleSet("house", NO_OPTIONS, house);

/** A rule set with these options. */
export function ruleSet(id: RuleSetId, options: RuleOptions, house: HouseHours): RuleSet {
  const { title, source, legallyBinding, make } = declarationOf(id);
  return { id, title, source, legallyBinding, ...make(options, house) };
}
