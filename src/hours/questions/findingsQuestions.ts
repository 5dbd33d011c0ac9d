/** What the rules leave open: questions for people who decide, and conditions of a claim. */
import { define } from "../../findings/finding.ts";
import type { At } from "../findings.ts";

export const hoursReview = define<{
  who: string;
  question: string;
  limit: string | null;
  from: At | null;
  to: At | null;
}>({
  code: "hours-review",
  level: "warning",
  title: "a question of law that the program leaves to people",
  why: "The text of the law does not settle it, or a state, an agreement or the circumstances decide; a verdict would be a guess.",
  cure: "Ask the carrier or counsel, and plan so that the stricter answer holds.",
  example: `
    log: 1
    zone: America/Chicago
    rules: us-property
    people:
      tomas:     # is a drive to supper off duty?
        - { from: 2027-01-20T10:00, to: 2027-01-20T20:00, is: off }
        - { from: 2027-01-20T20:00, to: 2027-01-20T20:10, is: driving }
        - { from: 2027-01-20T20:10, to: 2027-01-20T20:35, is: personal }
        - { from: 2027-01-20T20:35, to: 2027-01-21T08:00, is: off }
  `,
  sentence: (f, say) =>
    f.from === null || f.to === null
      ? `${say.name(f.who)}: ${f.question}`
      : `${say.name(f.who)}, ${say.time(f.from.at)} to ${say.time(f.to.at)}: ${f.question}`,
  hint: () => "ask the carrier or counsel, and plan by the stricter answer until then",
});

export const lawOpen = define<{ who: string; question: string; from: At | null; to: At | null }>({
  code: "law-open-review",
  level: "note",
  title: "a question of law that this day gives reason to ask",
  why: "The program uses the reading that it names; the carrier, an agreement, a member state or counsel decides whether that reading holds.",
  cure: "Get the answer once from the carrier or counsel, and plan by it.",
  example: `
    vehicles:
      truck: { gross: 16000 lb, rules: us-property }     # is the trip interstate?
  `,
  sentence: (f, say) =>
    f.from === null || f.to === null
      ? `${say.name(f.who)}: ${f.question}`
      : `${say.name(f.who)}, ${say.time(f.from.at)} to ${say.time(f.to.at)}: ${f.question}`,
});

export const claimConditions = define<{ who: string; condition: string }>({
  code: "exception-claimed",
  level: "note",
  title: "an exception of the rules is claimed, on conditions",
  why: "Exceptions are off until the plan claims them; only the crew knows whether their conditions hold.",
  cure: "Drop the claim if a condition does not hold.",
  example: `
    vehicles:
      truck: { rules: us-property, claims: [adverse] }
  `,
  sentence: (f, say) => `${say.name(f.who)} is judged with ${f.condition}`,
});
