/** How long someone must rest between two duties, by the rules alone: known before any record is judged. */
import type { Day } from "../../day/day.ts";
import type { Source } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import { isBeforeWork } from "../count/reading.ts";
import { WORKDAY } from "../rules/labour.ts";
import type { RuleSet } from "../rules/rule.ts";
import { bindingsOf } from "./applicableRules.ts";

/** The rest that binds a person before the next duty, minutes, with its source. */
export interface BindingRest {
  /** Without a break. */
  readonly minutes: number;
  readonly legallyBinding: boolean;
  readonly source: Source;
}

/** The least rest before a call that a rule set asks for, minutes; 0 where it asks for none, as what parts two workdays is none. */
export function leastRest({ shift, limits }: RuleSet): number {
  const asked = limits.flatMap((limit) => (isBeforeWork(limit) ? [limit.requires] : []));
  const parts =
    shift === WORKDAY ? 0 : shift?.kind === "rest" ? shift.minutes : shift?.kind === "dailyRest" ? shift.reduced : 0;
  return Math.max(parts, ...asked);
}

/** The clause behind it: that of the limit on rest, else of the limit that a daily rest ends. */
function clauseOf({ limits }: RuleSet, minutes: number): string | null {
  const rest = limits.find((limit) => limit.kind === "rest" && limit.requires === minutes);
  const daily = limits.find((limit) => limit.kind === "max" && limit.since.some(({ kind }) => kind === "dailyRest"));
  return (rest ?? daily)?.clause ?? null;
}

/**
 * The rests that bind a person on the last of `days`, law first, each once: a rule set's own, the turnaround of the
 * contract, the house's. Rules that only show limits for the next drive are among them.
 */
export function bindingRests(days: readonly Day[], person: Id): readonly BindingRest[] {
  const day = days.at(-1);
  if (day === undefined) return [];
  const bindings = bindingsOf(day, person, days.slice(0, -1));
  const ofRules = bindings.flatMap(({ rules }): readonly BindingRest[] => {
    const minutes = leastRest(rules);
    const { title, legallyBinding } = rules;
    return minutes === 0 ? [] : [{ minutes, legallyBinding, source: { title, clause: clauseOf(rules, minutes) } }];
  });
  const contract = day.plan.contracts.get(day.plan.crew.get(person)?.contract ?? "");
  const stated = contract?.turnaroundMinutes ?? null;
  const source = { title: "contract", clause: contract?.id ?? null };
  const ofContract = stated === null ? [] : [{ minutes: stated, legallyBinding: false, source }];
  return [...ofRules, ...ofContract].toSorted((a, b) => Number(b.legallyBinding) - Number(a.legallyBinding));
}
