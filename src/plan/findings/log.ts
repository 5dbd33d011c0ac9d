/** Mistakes that only a log file can hold. */
import { define } from "../../findings/finding.ts";

/** A log of one person, a span a line. */
const logOf = (...spans: readonly string[]): string => `
    log: 1
    zone: America/Chicago
    rules: us-property
    people:
      tomas:
${spans.map((span) => `        - ${span}`).join("\n")}
  `;

export const logGap = define<{ person: string; from: string; to: string }>({
  code: "log-gap",
  level: "error",
  title: "a stretch of a log that no span covers",
  why: "Time that is not stated never counts as rest, and limits cannot be checked across a gap.",
  cure: "State what the person did, or `fill: off` if every gap was off duty.",
  example: logOf(
    "{ from: 2027-01-20T08:00, to: 2027-01-20T09:00, is: duty }",
    "{ from: 2027-01-20T10:00, to: 2027-01-20T12:00, is: driving }",
  ),
  sentence: ({ person, from, to }) => `the log says nothing about ${person} from ${from} to ${to}`,
  hint: () => "state that time, or add `fill: off` at the top if every gap was off duty",
});

export const logOverlap = define<{ person: string; until: string; from: string }>({
  code: "log-overlap",
  level: "error",
  title: "two spans of one person at one time",
  why: "A person does one thing at a time. Which span counts decides whether the day is lawful.",
  cure: "End the first where the second begins.",
  example: logOf(
    "{ from: 2027-01-20T08:00, to: 2027-01-20T10:00, is: duty }",
    "{ from: 2027-01-20T09:00, to: 2027-01-20T12:00, is: driving }",
  ),
  sentence: ({ person, until, from }) =>
    `${person} does two things at once: this begins at ${from}, the one before it ends at ${until}`,
  hint: ({ from }) => `end the earlier span at ${from}`,
});

export const logBackwards = define<{ from: string; to: string }>({
  code: "log-backwards",
  level: "error",
  title: "a span of a log that ends before it begins",
  why: "It covers no time, so one of its ends is mistaken.",
  cure: "Correct the date or the time of one end.",
  example: logOf("{ from: 2027-01-20T22:00, to: 2027-01-20T08:00, is: off }"),
  sentence: ({ from, to }) => `the span ends (${to}) no later than it begins (${from})`,
  hint: () => "give `to` the next date if the span runs past midnight",
});

export const logNoDate = define<{ text: string; fix: string }>({
  code: "log-no-date",
  level: "error",
  title: "a time in a log without its date",
  why: "A log covers several days, so each time needs its date.",
  cure: "Write date and time together.",
  example: logOf("{ from: 08:00, to: 09:00, is: duty }"),
  sentence: ({ text }) => `\`${text}\` has no date`,
  hint: ({ fix }) => fix,
});

export const logNobody = define<{ person: string }>({
  code: "log-nobody",
  level: "error",
  title: "a person in a log without spans",
  why: "Without spans there is nothing to judge.",
  cure: "State the spans, or leave the person out.",
  example: `
    log: 1
    zone: America/Chicago
    rules: us-property
    people:
      tomas: []
  `,
  sentence: ({ person }) => `${person} has no spans`,
  hint: () => "state at least one span, or leave the person out",
});
