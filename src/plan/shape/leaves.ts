/** The forms of single values that many sections share, with what an editor needs to know of each. */
import type { Quantity } from "../values/quantity.ts";
import { either, entry, listOf, oneOrMany, pairOf, scalar } from "./form.ts";

export const text = scalar("text", ["string", "number", "boolean"]);
export const id = scalar("an id", ["string"]);
export const ids = oneOrMany(id);
export const who = oneOrMany(
  scalar("an id, a role, `all` or `aboard`", ["string"], { examples: ["wren", "camera", "all"] }),
);
export const date = scalar("a date such as 2027-01-20", ["string"], { pattern: "^\\d{4}-\\d{2}-\\d{2}$" });
export const zone = scalar("a time zone such as America/Chicago", ["string"], { examples: ["America/Chicago"] });
export const time = scalar('a time such as "07:00"', ["string", "number"], {
  pattern: "^(?:\\d{4}-\\d{2}-\\d{2}[T ])?(?:\\d{1,2}:\\d{2}|\\d{4})",
  examples: ["07:00", "05:00 local", "05:00 CT", "01:30 +1d", "2027-01-20T05:00-06:00"],
});
export const clock = scalar('a clock time such as "15:00"', ["string", "number"], { pattern: "^\\d{1,2}:?\\d{2}$" });
export const length = scalar("a length of time such as 35 min", ["string"], {
  pattern: "^(?:P|\\d.*[A-Za-z])",
  examples: ["35 min", "1h20", "1 h 20 min", "PT35M"],
});
export const number = scalar("a number", ["number"]);
export const oneOrTwo = scalar("1 or 2", ["number"], { enum: [1, 2] });

/** An amount with its unit, or a bare number where the key says the unit. */
export const amount = (kind: Quantity): ReturnType<typeof scalar> =>
  scalar(`${kind.what} such as ${kind.example}`, kind.bare === null ? ["string"] : ["number", "string"], {
    examples: [kind.example],
  });

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
