/** What the rules leave to people, as findings: one a person and cause, a question each. */
import type { Finding } from "../../findings/finding.ts";
import type { AskContext } from "./ask.ts";
import { hoursReview, lawOpen } from "./findingsQuestions.ts";
import { GENERAL_QUESTIONS, mixedVehicles, shortMeal } from "./openQuestions.ts";

/** Questions that stand wherever a rule set binds, and personal conveyance: planned by no one, and never silent. */
function standing({ hours, spans, from, path }: AskContext): readonly Finding[] {
  const who = hours.id;
  const asked = hours.bindings.flatMap(({ rules }) =>
    (rules.asks.always ?? []).map((question) =>
      hoursReview.raise(
        { who, question, limit: null, from: null, to: null },
        { who, path, source: { title: rules.title, clause: null } },
      ),
    ),
  );
  const bound = hours.bindings.map(({ rules }) => rules).find((rules) => rules.asks.personal !== undefined);
  const personal = spans.find((span) => span.is === "personal" && span.to > from);
  if (bound?.asks.personal === undefined || personal === undefined) return asked;
  const during = { from: { at: personal.from }, to: { at: personal.to } };
  const facts = { who, question: bound.asks.personal, limit: null, ...during };
  const source = { title: bound.title, clause: null };
  return [...asked, hoursReview.raise(facts, { who, path, at: personal.from, source })];
}

const PAIRS =
  "three or more rests could form the pair, and which two are paired decides whether this is a breach; the stricter reading is used";

/** Breaches of one reading of the berth's pairs, not of the other. */
const disputedPairs = ({ hours, path, from }: AskContext): readonly Finding[] =>
  hours.disputed
    .filter(({ to }) => to > from)
    .map((breach) => {
      const { limit } = breach;
      const rules = hours.bindings.find((binding) => binding.rules.limits.some(({ id }) => id === limit.id))?.rules;
      const facts = {
        who: hours.id,
        question: `${PAIRS}; ${limit.title}`,
        limit: limit.id,
        from: { at: breach.from },
        to: { at: breach.to },
      };
      const source = { title: rules?.title ?? limit.id, clause: breach.clause };
      return hoursReview.raise(facts, { who: hours.id, at: breach.bites, path, source });
    });

/** Everything to be asked about one person's record under the rules that bind them. */
export function questionsOf(context: AskContext): readonly Finding[] {
  const { hours, path } = context;
  const law = hours.bindings.map(({ rules }) => rules).filter((rules) => rules.legallyBinding);
  const raised = GENERAL_QUESTIONS.flatMap((ask) => {
    // One a person and cause: where several rule sets give reason to ask the same, the first does.
    for (const rules of law) {
      const asked = ask(context, rules);
      if (asked.length > 0) return asked;
    }
    return [];
  });
  const asked = raised.map(({ rules, question, during }) => {
    const facts = {
      who: hours.id,
      question,
      from: during === null ? null : { at: during.from },
      to: during === null ? null : { at: during.to },
    };
    const at = during === null ? {} : { at: during.from };
    return lawOpen.raise(facts, { who: hours.id, path, source: { title: rules.title, clause: null }, ...at });
  });
  return [...standing(context), ...disputedPairs(context), ...asked, ...mixedVehicles(context), ...shortMeal(context)];
}
