/** The forms of single values that many sections share, with what an editor needs to know of each. */
import type { NumberRange, Quantity } from "../values/quantity.ts";
import { either, entry, type Form, listOf, oneOrMany, pairOf, scalar } from "./form.ts";
import { amountPattern, PATTERNS } from "./patterns.ts";

export const text = scalar("text", ["string", "number", "boolean"]);
export const id = scalar("an id", ["string"], { pattern: PATTERNS.member });
export const ids = oneOrMany(id);
export const who = oneOrMany(
  scalar("an id, a role, `all` or `aboard`", ["string"], { examples: ["wren", "camera", "all"] }),
);
export const date = scalar("a date such as 2027-01-20", ["string"], { pattern: PATTERNS.date });
export const zoneForm = scalar("a time zone such as America/Chicago", ["string"], {
  pattern: PATTERNS.zone,
  examples: ["America/Chicago"],
});
export const time = scalar('a time such as "07:00"', ["string", "number"], {
  pattern: PATTERNS.time,
  minimum: 0,
  maximum: 2400,
  multipleOf: 1,
  examples: ["07:00", "05:00 local", "05:00 CT", "01:30 +1d", "2027-01-20T05:00-06:00"],
});
export const clock = scalar('a clock time such as "15:00"', ["string", "number"], {
  pattern: PATTERNS.clock,
  minimum: 0,
  maximum: 2400,
  multipleOf: 1,
});
export const length = scalar("a length of time such as 35 min", ["string"], {
  pattern: PATTERNS.length,
  examples: ["35 min", "1h20", "1 h 20 min", "PT35M"],
});
/** A number without a unit, in its bounds. */
export const numberOf = ({ what, example, least, most, whole }: NumberRange): Form =>
  scalar(`${what} such as ${example}`, ["number"], {
    minimum: least,
    maximum: most,
    ...(whole === true ? { multipleOf: 1 } : {}),
  });
export const oneOrTwo = scalar("1 or 2", ["number"], { enum: [1, 2] });

/** An amount with its unit, or a bare number where the key says the unit. */
export function amount(kind: Quantity): Form {
  const [first] = kind.units.values();
  const bare = kind.bare === null ? undefined : (kind.units.get(kind.bare) ?? first);
  const bounds = bare === undefined ? {} : { minimum: kind.least / bare.factor, maximum: kind.most / bare.factor };
  return scalar(`${kind.what} such as ${kind.example}`, kind.bare === null ? ["string"] : ["number", "string"], {
    pattern: amountPattern(kind),
    ...bounds,
    examples: [kind.example],
  });
}

/** From a moment on, or for a stretch. */
export const stretch = either(
  'a time such as "10:00", or { from, to }',
  time,
  entry("a stretch: { from: 10:00, to: 14:00 }", { from: [time, "from when on"] }, { to: [time, "until when"] }),
);

const night = pairOf('a pair of times such as ["23:00 -1d", "07:00"]', time);

/** When somebody slept. */
export const inBed = either(
  'a list of pairs of times, as in [["23:00 -1d", "07:00"]], or the time of going to bed',
  time,
  night,
  listOf("a list of pairs of times", night),
);
