/** Mistakes in single values and keys of a plan. */
import { wordList } from "../../findings/figures.ts";
import { mistake } from "./mistake.ts";

const quoted = (words: readonly string[]): string =>
  wordList(
    words.map((word) => `\`${word}\``),
    "or",
  );

export const keyUnknown = mistake<{
  key: string;
  where: string;
  near: string | null;
  missing: string | null;
  known: readonly string[];
  /** Sections of the plan whose entries have a key of this name. */
  elsewhere: readonly string[];
}>({
  code: "key-unknown",
  title: "a key that the format does not have",
  why: "A mistyped key would otherwise be ignored without a word.",
  cure: "Use a known key; `daywright help plan` lists them.",
  example: `
    hits:
      dawn: { at: 07:00, fro: 3 min, place: pier }
  `,
  sentence: ({ key, where, missing }) =>
    missing === null ? `${where} has no \`${key}\`` : `${where} has no \`${key}\`, and its \`${missing}\` is missing`,
  hint: ({ key, near, known, elsewhere }) => {
    if (near !== null) return `\`${near}\``;
    const here = `one of: ${known.join(", ")}`;
    return elsewhere.length === 0 ? here : `\`${key}\` is a key of ${quoted(elsewhere)}; here ${here}`;
  },
});

export const keyMissing = mistake<{ key: string; where: string; example: string | null }>({
  code: "key-missing",
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
  title: "a unit that does not belong to the value",
  why: "The unit is unknown or measures something else.",
  cure: "Use one of the units.",
  example: `
    vehicles:
      truck: { gross: 16000 miles }
  `,
  sentence: ({ unit, what }) => `\`${unit}\` is not a unit of ${what}`,
  hint: ({ units, fix }) => (fix === null ? wordList(units, "or") : `\`${fix}\``),
});

export const dateBad = mistake<{ text: string; like: readonly string[]; reason: string | null }>({
  code: "date-bad",
  title: "a date that does not exist or cannot be read",
  why: "Dates are `2027-01-20`: year, month, day.",
  cure: "Write the date in this form.",
  example: "date: 20.1.2027",
  sentence: ({ text, reason }) =>
    reason === null ? `\`${text}\` is not a date` : `\`${text}\` is not a date: ${reason}`,
  hint: ({ like }) => (like.length > 0 ? wordList(like, "or") : "write year, month and day, with dashes between"),
});

export const idBad = mistake<{ id: string; fix: string | null }>({
  code: "id-bad",
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
