/** The forms of single values that many sections share: what an editor needs to know of each, and what its text means. */
import type { ZoneId } from "../../time/units.ts";
import { valueBad } from "../findings.ts";
import { parseZone } from "../read/clock.ts";
import { parseLength } from "../values/length.ts";
import { mistaken, type Parsed, parsed } from "../values/parsed.ts";
import { type NumberRange, parseNumber, parseQuantity, type Quantity } from "../values/quantity.ts";
import { parseClock } from "../values/time.ts";
import {
  either,
  entry,
  type IdForm,
  type IdKind,
  listOf,
  meaning,
  oneOrMany,
  pairOf,
  scalar,
  type ValueForm,
  valued,
} from "./form.ts";
import { amountPattern, PATTERNS } from "./patterns.ts";

/** A text of any letters. */
export const text = valued(scalar("text", ["string", "number", "boolean"]), (said): Parsed<string> => parsed(said));

const anyId = scalar("an id", ["string"], { pattern: PATTERNS.member });

/** One id of one of the kinds; a group counts where it has one member. */
export const idOf = (...of: IdKind[]): IdForm<"id"> => ({ ...meaning(anyId, "id"), of });

/** Ids of the kinds, one or a list; a group stands for its members. */
export const idsOf = (...of: IdKind[]): IdForm<"ids"> => ({ ...meaning(oneOrMany(anyId), "ids"), of });

/** People. */
export const who = meaning(
  oneOrMany(scalar("an id, a role, `all` or `aboard`", ["string"], { examples: ["wren", "camera", "all"] })),
  "who",
);
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

/** An instant. */
export const time = meaning(
  scalar('a time such as "07:00"', ["string", "number"], {
    pattern: PATTERNS.time,
    minimum: 0,
    maximum: 2400,
    multipleOf: 1,
    examples: ["07:00", "05:00 local", "05:00 CT", "01:30 +1d", "2027-01-20T05:00-06:00"],
  }),
  "time",
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

/** A stretch with two ends. */
export const stretchForm = entry(
  "a stretch: { from: 10:00, to: 14:00 }",
  { from: [time, "from when on"] },
  { to: [time, "until when"] },
);

/** From a moment on, or for a stretch. */
export const stretch = meaning(either('a time such as "10:00", or { from, to }', time, stretchForm), "stretch");

const night = pairOf('a pair of times such as ["23:00 -1d", "07:00"]', time);

/** When somebody slept. */
export const inBed = meaning(
  either(
    'a list of pairs of times, as in [["23:00 -1d", "07:00"]], or the time of going to bed',
    time,
    night,
    listOf("a list of pairs of times", night),
  ),
  "stretches",
);
