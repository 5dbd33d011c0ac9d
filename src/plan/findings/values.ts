/** Mistakes in single values and keys of a plan. */
import { mistake } from "./mistake.ts";

const list = (words: readonly string[]): string =>
  words.length <= 1 ? words.join("") : `${words.slice(0, -1).join(", ")} or ${words.at(-1) ?? ""}`;
const quoted = (words: readonly string[]): string => list(words.map((word) => `\`${word}\``));

export const keyUnknown = mistake<{
  key: string;
  where: string;
  near: string | null;
  missing: string | null;
  known: readonly string[];
}>({
  code: "key-unknown",
  level: "error",
  title: "a key that the format does not have",
  why: "A mistyped key would otherwise be ignored without a word.",
  cure: "Use a known key; `daywright help plan` lists them.",
  example: `
    hits:
      dawn: { at: 07:00, fro: 3 min, place: pier }
  `,
  sentence: ({ key, where, missing }) =>
    missing === null ? `${where} has no \`${key}\`` : `${where} has no \`${key}\`, and its \`${missing}\` is missing`,
  hint: ({ near, known }) => (near === null ? `one of: ${known.join(", ")}` : `\`${near}\``),
});

export const keyMissing = mistake<{ key: string; where: string; example: string | null }>({
  code: "key-missing",
  level: "error",
  title: "a required key is missing",
  why: "This key has no default, and the program does not guess.",
  cure: "Add the key.",
  example: `
    hits:
      dawn: { at: 07:00, place: pier }
  `,
  sentence: ({ key, where }) => `${where} needs \`${key}\``,
  hint: ({ key, example }) => (example === null ? `add \`${key}\`` : `add \`${key}: ${example}\``),
});

export const valueMissing = mistake<{ key: string }>({
  code: "value-missing",
  level: "error",
  title: "a key with nothing after its colon",
  why: "An empty value could mean none, the default, or that the line is unfinished.",
  cure: "Give it a value, or remove the key.",
  example: `
    hits:
      dawn: { at: 07:00, for: , place: pier }
  `,
  sentence: ({ key }) => `\`${key}\` has no value`,
  hint: () => "give it a value, or remove the line",
});

export const valueKind = mistake<{ key: string; wanted: string; found: string; fix: string | null }>({
  code: "value-kind",
  level: "error",
  title: "a value of the wrong kind",
  why: "A list where one value is meant, or text where entries are meant, cannot be read.",
  cure: "Write the value in one of the forms that `daywright help plan` lists.",
  example: "crew: [wren, ilse]",
  sentence: ({ key, wanted, found }) => `\`${key}\` takes ${wanted}, not ${found}`,
  hint: ({ fix }) => (fix === null ? null : `\`${fix}\``),
});

/** So many words are all named beside the nearest. */
const FEW = 12;

export const wordUnknown = mistake<{ key: string; word: string; known: readonly string[]; near: string | null }>({
  code: "word-unknown",
  level: "error",
  title: "a word that this key does not take",
  why: "The key takes one of a few words, each with a meaning of its own.",
  cure: "Use one of the words.",
  example: `
    places:
      pier: { at: [46.81, -90.82], signal: god }
  `,
  sentence: ({ key, word }) => `\`${key}\` does not take \`${word}\``,
  hint: ({ known, near }) => {
    if (near === null || known.length > FEW) return near === null ? quoted(known) : `\`${near}\``;
    const others = known.filter((word) => word !== near);
    return others.length === 0
      ? `\`${near}\``
      : `\`${near}\`; also taken: ${others.map((word) => `\`${word}\``).join(", ")}`;
  },
});

export const wordNear = mistake<{ word: string; near: string; for: string }>({
  code: "word-near",
  level: "warning",
  title: "a word of your own that is close to a known one",
  why: "Roles, kinds of place, hazards, rides and what a cable crosses take any word. A few words have a meaning, and a mistyped one loses it.",
  cure: "Use the known word, or one that is not close to it.",
  example: `
    crew:
      ilse: { role: repoter }
  `,
  sentence: ({ word, near, for: what }) => `\`${word}\` has no meaning for ${what}; \`${near}\` has`,
  hint: ({ near }) => `\`${near}\`, if that is meant`,
});

export const versionUnknown = mistake<{ version: string }>({
  code: "version-unknown",
  level: "error",
  title: "a version of the format that this program does not know",
  why: "Another version may use the same words differently.",
  cure: "Write `daywright: 1`, or use a program that knows the version.",
  example: "daywright: 2",
  sentence: ({ version }) => `version \`${version}\` of the format is not known`,
  hint: () => "daywright: 1",
});

/** `example` is what was meant; `form`, where that is not known, a value in the form that the key takes. */
export const valueBad = mistake<{ text: string; what: string; example: string | null; form?: string }>({
  code: "value-bad",
  level: "error",
  title: "a value that cannot be read",
  why: "The key does not take a value in this form.",
  cure: "Write it like the example.",
  example: `
    places:
      pier: { at: [north, west] }
  `,
  sentence: ({ text, what }) => `\`${text}\` is not ${what}`,
  hint: ({ example, form }) => example ?? (form === undefined ? null : `write it like \`${form}\``),
});

export const rangeWrong = mistake<{ text: string; what: string; range: string }>({
  code: "range-wrong",
  level: "error",
  title: "a value out of range",
  why: "A number out of range is a typing error or has the wrong unit.",
  cure: "Check the digits and the unit.",
  example: `
    hits:
      dawn: { at: 07:00, for: 3 min, place: pier, facing: 400 }
  `,
  sentence: ({ text, what, range }) => `\`${text}\` is outside the range of ${what}: ${range}`,
  hint: () => "check the digits and the unit",
});

export const unitMissing = mistake<{ text: string; what: string; units: readonly string[]; fix: string }>({
  code: "unit-missing",
  level: "error",
  title: "a number without its unit",
  why: "Minutes and hours, or miles and kilometres, are easily confused.",
  cure: "Add the unit.",
  example: `
    roads:
      - { link: [lodge, pier], drive: 35 }
  `,
  sentence: ({ text, what }) => `\`${text}\` has no unit; this is ${what}`,
  hint: ({ fix, units }) => (units.length > 1 ? `${fix}; the units are ${units.join(", ")}` : fix),
});

export const unitWrong = mistake<{
  text: string;
  unit: string;
  what: string;
  units: readonly string[];
  example: string;
  fix: string | null;
}>({
  code: "unit-wrong",
  level: "error",
  title: "a unit that does not belong to the value",
  why: "The unit is unknown or measures something else.",
  cure: "Use one of the units.",
  example: `
    vehicles:
      truck: { gross: 16000 miles }
  `,
  sentence: ({ unit, what }) => `\`${unit}\` is not a unit of ${what}`,
  hint: ({ units, fix }) => (fix === null ? list(units) : `\`${fix}\``),
});

export const lengthBad = mistake<{ text: string; fix: string | null; isHit: boolean }>({
  code: "length-bad",
  level: "error",
  title: "a length of time that cannot be read",
  why: "Lengths are whole minutes: `35 min`, `1h20`, `1 h 20 min`, `PT35M`.",
  cure: "Write it like one of these.",
  example: `
    hits:
      dawn: { at: 07:00, for: 3 minits, place: pier }
  `,
  sentence: ({ text }) =>
    /^\s*[-−–]\s?\d/.test(text)
      ? `\`${text}\` is a negative length of time`
      : `\`${text}\` is not a length of time in whole minutes`,
  hint: ({ text, fix, isHit }) => {
    if (fix === null) return "write whole hours and minutes, with `h` and `min`";
    // `2:30` on a rundown is two and a half minutes.
    const [, minutes = null, seconds = "0"] = (isHit ? /^(\d{1,2}):([0-5]\d)$/.exec(text) : null) ?? [];
    const onAir =
      minutes === null ? "" : `, or \`${Number(minutes) + (Number(seconds) > 0 ? 1 : 0)} min\` for minutes and seconds`;
    return `\`${fix.replace(" or ", "` or `")}\`${onAir}`;
  },
});

export const timeBad = mistake<{ text: string; fix: string | null }>({
  code: "time-bad",
  level: "error",
  title: "a time that cannot be read",
  why: 'A time is `"05:00"`, followed by a zone if it is not on the control room\'s clock.',
  cure: "Write it like one of the examples.",
  example: `
    hits:
      dawn: { at: 7 am, for: 3 min, place: pier }
  `,
  sentence: ({ text }) => `\`${text}\` is not a time`,
  hint: ({ fix }) => fix ?? 'write it like `"05:00"`, `"05:00 local"`, `"01:30 +1d"` or `2027-01-20T05:00-06:00`',
});

export const timeSkipped = mistake<{ text: string; zone: string; before: string; after: string }>({
  code: "time-skipped",
  level: "error",
  title: "a time that the clocks skip",
  why: "When the clocks go forward, the minutes in between do not exist, so it is unclear which hour is meant.",
  cure: "Write the time with its offset from UTC, or the clock time that is meant.",
  example: `
    date: 2027-03-14
    hits:
      night: { at: 02:30, for: 3 min, place: pier }
  `,
  sentence: ({ text, zone }) => `the clocks of ${zone} skip \`${text}\``,
  hint: ({ before, after }) => `${before} or ${after}`,
});

export const timeTwice = mistake<{ text: string; zone: string; earlier: string; later: string }>({
  code: "time-twice",
  level: "error",
  title: "a time that the clocks show twice",
  why: "When the clocks go back, an hour comes twice, so it is unclear which one is meant.",
  cure: "Write the time with its offset from UTC.",
  example: `
    date: 2027-11-07
    hits:
      night: { at: 01:30, for: 3 min, place: pier }
  `,
  sentence: ({ text, zone }) => `the clocks of ${zone} show \`${text}\` twice`,
  hint: ({ earlier, later }) => `${earlier} or ${later}`,
});

export const timeOutside = mistake<{ text: string; years: string }>({
  code: "time-outside",
  level: "error",
  title: "a date outside the table of clock rules",
  why: "The table of time zones covers a span of years; beyond it an hour could be wrong.",
  cure: "Check the year.",
  example: "date: 2207-01-20",
  sentence: ({ text, years }) => `\`${text}\` is outside ${years}, for which clock rules are known`,
  hint: () => "check the year",
});

/** `364 days`, `a year`, `10 years`. */
function daysText(days: number): string {
  const years = Math.round(days / 365.25);
  if (Math.abs(days - years * 365.25) > 1 || years === 0) return `${days} days`;
  return years === 1 ? "a year" : `${years} years`;
}

export const timeFar = mistake<{ text: string; days: number; date: string; near: string | null }>({
  code: "time-far",
  level: "error",
  title: "a time far from the plan's own date",
  why: "A plan covers a day. A time in another year or month is almost always a typing error.",
  cure: "Correct the date; the days before the plan belong in `history`, or in files of their own that it `follows`.",
  example: `
    date: 2027-01-20
    hits:
      dawn: { at: 2026-01-20T07:00-05:00, for: 3 min, place: pier }
  `,
  sentence: ({ text, days, date }) =>
    `\`${text}\` is ${daysText(Math.abs(days))} ${days < 0 ? "before" : "after"} the plan's date, ${date}`,
  hint: ({ near }) => near ?? "correct the days behind the time",
});

export const loggedDayOff = mistake<{ id: string; text: string; days: number; near: string | null }>({
  code: "logged-day-off",
  level: "error",
  title: "a hit logged on another day than it was planned for",
  why: "A time without a day is on the plan's own date. Past midnight `+1d` is easily forgotten, and every time that follows would be a day off.",
  cure: "Add `+1d` to a time past midnight, or correct the day.",
  example: 'hits:\n  late: { at: "00:40 +1d", for: 3 min, place: pier }\nactual:\n  late: { at: "00:44" }',
  sentence: ({ id, text, days }) =>
    `\`${text}\` is ${Math.abs(days) === 1 ? "a day" : `${Math.abs(days)} days`} ${days < 0 ? "before" : "after"} \`${id}\` was planned`,
  hint: ({ near }) => near ?? "correct the day",
});

export const localNowhere = mistake<{ text: string }>({
  code: "local-nowhere",
  level: "error",
  title: "`local` may be more than one clock",
  why: "`local` is the clock of the place where something happens; with no place it is the one clock of all places, if they are on one.",
  cure: "Name the clock: a label, a zone, or none for the control room's.",
  example: `
    places:
      quay: { zone: America/New_York }
    weather:
      - { from: 05:00 local, temp: -14 C }
  `,
  sentence: ({ text }) => `\`${text}\`: no place is named here, and the plan's places are not all on one clock`,
  hint: () => "name the clock in place of `local`: its label or its zone",
});

export const zoneUnknown = mistake<{ text: string; near: string | null; labels: readonly string[] }>({
  code: "zone-unknown",
  level: "error",
  title: "an unknown time zone or label",
  why: "Zones are named as in the tz database; a label must be declared in `labels`.",
  cure: "Use a zone such as `America/Chicago`, or declare the label.",
  example: "clock: America/New_Yrok",
  sentence: ({ text }) => `\`${text}\` is not a known time zone or label`,
  hint: ({ near, labels }) => {
    if (near !== null) return near;
    return labels.length > 0 ? `a zone such as America/Chicago, or ${list(labels)}` : "a zone such as America/Chicago";
  },
});

export const zoneWithoutSummer = mistake<{ zone: string; date: string; hours: string }>({
  code: "zone-without-summer",
  level: "warning",
  title: "Greenwich time on a day of summer time",
  why: "`GMT` is the same all year. Clocks in London and Lisbon are an hour ahead of it in summer.",
  cure: "Name the zone of the clocks that are meant, `Europe/London`; `UTC` if it is the same time all year.",
  example: `
    date: 2027-06-20
    clock: GMT
  `,
  sentence: ({ zone, date, hours }) =>
    `\`${zone}\` has no summer time, and on ${date} clocks in London are ${hours} ahead of it`,
  hint: () => "Europe/London, or UTC if the same time all year is meant",
});

export const dateBad = mistake<{ text: string; like: readonly string[]; reason: string | null }>({
  code: "date-bad",
  level: "error",
  title: "a date that does not exist or cannot be read",
  why: "Dates are `2027-01-20`: year, month, day.",
  cure: "Write the date in this form.",
  example: "date: 20.1.2027",
  sentence: ({ text, reason }) =>
    reason === null ? `\`${text}\` is not a date` : `\`${text}\` is not a date: ${reason}`,
  hint: ({ like }) => (like.length > 0 ? like.join(" or ") : "write year, month and day, with dashes between"),
});

export const idBad = mistake<{ id: string; fix: string | null }>({
  code: "id-bad",
  level: "error",
  title: "an id that is not a short word",
  why: "Ids are typed in lists and on the command line: letters, digits, inner hyphens; at most 40 of them.",
  cure: "Shorten the id; a long name belongs in `name`.",
  example: `
    places:
      ore dock: { at: [46.79, -91.1] }
  `,
  sentence: ({ id }) =>
    `\`${id}\` cannot be an id: ids are letters, digits and inner hyphens${/^\d+$/.test(id) ? ", with at least one letter" : ""}`,
  hint: ({ fix }) =>
    fix === null ? "a short word; a long name belongs in `name`" : `\`${fix}\`, and the full name in \`name\``,
});

export const idReserved = mistake<{ id: string; is: string | null }>({
  code: "id-reserved",
  level: "error",
  title: "an id that is a reserved word",
  why: "`all`, `aboard`, `none`, `here`, `local`, `hits`, `tasks`, `dark` and `off` have a meaning wherever an id can stand; `yes`, `no`, `on`, `true`, `false` and `null` are not text to many YAML tools.",
  cure: "Choose another id.",
  example: `
    crew:
      all: { role: camera }
  `,
  sentence: ({ id, is }) =>
    `\`${id}\` cannot be an id: the word ${is === null ? "has a meaning of its own" : `is ${is}`}`,
  hint: () => "choose another id",
});

export const idTwice = mistake<{ id: string; first: string; second: string }>({
  code: "id-twice",
  level: "error",
  title: "one id for two things",
  why: "Any id can be named anywhere, so it must mean one thing in the whole plan.",
  cure: "Rename one of them.",
  example: `
    places:
      dock: { at: [46.79, -91.1] }
    hits:
      dock: { at: 07:00, for: 3 min, place: dock }
  `,
  sentence: ({ id, first, second }) => `\`${id}\` is ${first} and ${second}`,
  hint: () => "rename one of them",
});

export const idAlike = mistake<{ id: string; is: string; other: string; otherIs: string }>({
  code: "id-alike",
  level: "warning",
  title: "two ids that differ in upper and lower case alone",
  why: "`Wren` and `wren` are two ids here. Most of the time one person, place or thing is meant.",
  cure: "Use one spelling if both mean the same, else give one of them another name.",
  example: `
    crew:
      wren: { role: camera }
      Wren: { role: lead }
  `,
  sentence: ({ id, is, other, otherIs }) =>
    `\`${id}\` (${is}) and \`${other}\` (${otherIs}) differ in upper and lower case alone, and count as two`,
  hint: ({ is, other, otherIs }) =>
    is === otherIs ? `\`${other}\` for both, or another name for one of them` : "another name for one of them",
});

export const idUnknown = mistake<{
  id: string;
  what: string;
  sections: readonly string[];
  near: string | null;
  known: readonly string[];
  is: string | null;
}>({
  code: "id-unknown",
  level: "error",
  title: "an id that names nothing here",
  why: "The id is mistyped, not declared, or names something of another kind.",
  cure: "Use a declared id, or declare it in its section.",
  example: `
    runs:
      wagon: [lodge, peir]
  `,
  sentence: ({ id, what, is }) =>
    is === null ? `no ${what} is called \`${id}\`` : `\`${id}\` is ${is}, not a ${what}`,
  hint: ({ id, what, near, known, sections }) => {
    if (near !== null) return `\`${near}\``;
    if (id === "all" && what === "person") return "one entry for each person";
    return known.length > 0 ? `one of: ${known.slice(0, 12).join(", ")}` : `declare it under ${quoted(sections)}`;
  },
});
