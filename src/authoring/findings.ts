/** What can go wrong between tonight's plan and tomorrow's. */
import { define } from "../findings/finding.ts";

export const recordUnclear = define<{ said: string; why: string; example: string }>({
  code: "record-unclear",
  level: "error",
  title: "an unclear log entry",
  why: "A log entry says to whom or what it happened, what happened, and when or how much.",
  cure: "Write it as `wren released 21:10`, `all released 21:10`, `dawn.2 at 06:04`, `wagon.2 left 09:40`, `brick.1 35%`, `truck at lodge`.",
  example: "daywright log day.yaml wren slept     # until when?",
  sentence: (f) => `\`${f.said}\` cannot be logged: ${f.why}`,
  hint: (f) => f.example,
});

export const startUnclear = define<{ said: string; what: string; example: string }>({
  code: "start-unclear",
  level: "error",
  title: "an unclear part of a new plan",
  why: "A new plan is written from your answers, and nothing is guessed.",
  cure: "Write it as the example shows.",
  example: "daywright new --date 2027-01-20 --desk America/New_York --bed lodge --hit dawn",
  sentence: (f) => `\`${f.said}\` does not say ${f.what}`,
  hint: (f) => f.example,
});
