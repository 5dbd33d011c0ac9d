/** The forms of single values that many sections share: what an editor needs to know of each, and what its text means. */
import type { ZoneId } from "../../time/units.ts";
import { valueBad } from "../findings.ts";
import { parseZone } from "../read/clock.ts";
import { parseLength } from "../values/length.ts";
import { mistaken, type Parsed, parsed } from "../values/parsed.ts";
import { type NumberRange, parseNumber, parseQuantity, type Quantity } from "../values/quantity.ts";
import { parseClock } from "../values/time.ts";
import { scalar, type ValueForm, valued } from "./form.ts";
import { amountPattern, PATTERNS } from "./patterns.ts";

/** A text of any letters. */
export const text = valued(scalar("text", ["string", "number", "boolean"]), (said): Parsed<string> => parsed(said));

/** A date, as text. */
export const date = scalar("a date such as 2027-01-20", ["string"], { pattern: PATTERNS.date });

/** A time zone. */
export const zoneForm: ValueForm<ZoneId> = valued(
  scalar("a time zone such as America/Chicago", ["string"], {
    pattern: PATTERNS.zone,
    examples: ["America/Chicago"],
  }),
  (said) => parseZone(said),
);

/** Minutes after midnight on a local clock. */
export const clock = valued(
  scalar('a clock time such as "15:00"', ["string", "number"], {
    pattern: PATTERNS.clock,
    minimum: 0,
    maximum: 2400,
    multipleOf: 1,
  }),
  (said) => parseClock(said),
);

/** Minutes. */
export const length = valued(
  scalar("a length of time such as 35 min", ["string"], {
    pattern: PATTERNS.length,
    examples: ["35 min", "1h20", "1 h 20 min", "PT35M"],
  }),
  parseLength,
);

/** Minutes, at least one. */
export const someLength = valued(length, (said): Parsed<number> => {
  const minutes = parseLength(said);
  if (!minutes.ok || minutes.value !== 0) return minutes;
  const facts = { text: said, what: "a length of at least 1 min", example: "1 min or more" };
  return mistaken((c) => valueBad.raise(facts, c));
});

/** A number without a unit, in its bounds. */
export const numberOf = (range: NumberRange): ValueForm<number> =>
  valued(
    scalar(`${range.what} such as ${range.example}`, ["number", "string"], {
      pattern: range.whole === true ? PATTERNS.wholeNumber : PATTERNS.number,
      minimum: range.least,
      maximum: range.most,
      ...(range.whole === true ? { multipleOf: 1 } : {}),
    }),
    (said) => parseNumber(said, range),
  );

/** 1 or 2 of something; `what` as in "is not …". */
export const oneOrTwo = (what: string): ValueForm<1 | 2> =>
  valued(scalar("1 or 2", ["number"], { enum: [1, 2] }), (said): Parsed<1 | 2> => {
    if (said === "1") return parsed(1);
    if (said === "2") return parsed(2);
    return mistaken((c) => valueBad.raise({ text: said, what: `${what}, 1 or 2`, example: null, form: "2" }, c));
  });

/** An amount with its unit, or a bare number where the key says the unit. */
export function amount(kind: Quantity): ValueForm<number> {
  const [first] = kind.units.values();
  const bare = kind.bare === null ? undefined : (kind.units.get(kind.bare) ?? first);
  const bounds = bare === undefined ? {} : { minimum: kind.least / bare.factor, maximum: kind.most / bare.factor };
  return valued(
    scalar(`${kind.what} such as ${kind.example}`, kind.bare === null ? ["string"] : ["number", "string"], {
      pattern: amountPattern(kind),
      ...bounds,
      examples: [kind.example],
    }),
    (said) => parseQuantity(said, kind),
  );
}
