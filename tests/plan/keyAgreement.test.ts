/**
 * The JSON Schema against the reader, key by key: a plan of every section in which one value is replaced, or one key added,
 * by a value of any kind. What the reader takes is never marked; what it refuses for its form is marked.
 */
import { Ajv } from "ajv";
import fc from "fast-check";
import { expect, test } from "vitest";
import { readOnePlan } from "../../src/plan/index.ts";
import { entryForms } from "../../src/plan/read/sections.ts";
import { planSchema } from "../../src/plan/schema.ts";
import { sourceText } from "../../src/plan/text/source.ts";
import { raw } from "../../src/plan/text/tree.ts";
import { readYaml } from "../../src/plan/text/yaml.ts";
import { runs } from "../fuzz.ts";
import { everything } from "./plans.ts";

const isValid = new Ajv({ strict: true, allowUnionTypes: true, validateFormats: false }).compile(await planSchema());

/** Codes of values that are wrong whatever the rest of the plan says. */
const FORM: ReadonlySet<string> = new Set([
  ...["value-bad", "range-wrong", "unit-missing", "unit-wrong", "length-bad", "time-bad", "date-bad", "value-kind"],
  ...["value-missing", "word-unknown", "key-unknown", "key-missing", "id-bad", "id-reserved", "version-unknown"],
]);

/** Values as plans hold them somewhere, and near misses of them. */
const VALUES: readonly unknown[] = [
  ...["x", "5", "0", "-1", "1.10", "007", "+5", ".5", "5.", "1e3", "0x10", "1_000", "a b", " x ", "", "x, y"],
  ...[5, 1, 0, -1, 1.5, 46.81, 700, 100_000, true, false, null],
  ...["35 min", "1h20", "-5 min", "16 d", "5 days", "90 minutes", "PT35M", "90 s", "1:20"],
  ...[
    "07:00",
    "7:5",
    "25:00",
    "24:00",
    "7 am",
    "0700",
    "01:30 +1d",
    "05:00 CT",
    "05:00 local",
    "2027-01-20T05:00-06:00",
  ],
  ...["2027-01-20", "20.1.2027", "2027-02-30", "+1d", "America/Chicago", "EST"],
  ...["35 km", "35 mi", "35 W", "98 Wh", "-14 C", "35%", "30 km/h", "12 V", "20 MB", "6 Mbit/s", "14.25 GHz", "80 kg"],
  ...["46.81", "46°48'36\"N", "90 48 00 W", "101 west", "101 up", "https://example.org/x", "555 0101"],
  ...["none", "all", "aboard", "off", "on", "true", "wren", "wagon", "pier", "dawn"],
  ...[[], ["07:00", "08:00"], ["x"], [1, 2], [["23:00 -1d", "07:00"]], [46.81, -90.82]],
  ...[{}, { x: 1 }, { from: "07:00", to: "08:00" }],
];

type Path = readonly (string | number)[];
const isMap = (value: unknown): value is { readonly [key: string]: unknown } =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const treeOf = (text: string): unknown => {
  const { tree } = readYaml(sourceText("", text));
  return tree === null ? null : raw(tree);
};
const whole = treeOf(everything);

/** All places of a value below its root. */
const placesIn = (value: unknown, path: Path = []): readonly Path[] => {
  const inside = isMap(value) ? Object.entries(value) : Array.isArray(value) ? [...value.entries()] : [];
  return [...(path.length === 0 ? [] : [path]), ...inside.flatMap(([key, one]) => placesIn(one, [...path, key]))];
};

function put(value: unknown, [key, ...rest]: Path, one: unknown): unknown {
  if (key === undefined) return one;
  if (Array.isArray(value)) return value.map((old, at) => (at === key ? put(old, rest, one) : old));
  return { ...(isMap(value) ? value : {}), [key]: put(isMap(value) ? value[key] : null, rest, one) };
}

/** Every key that an entry may have, in the first entry of its section. */
const DECLARED: readonly Path[] = Object.entries(entryForms).flatMap(([section, form]) => {
  const entries = isMap(whole) ? whole[section] : null;
  const [first] = isMap(entries) ? Object.keys(entries) : [];
  return first === undefined ? [] : form.keys.map((key): Path => [section, first, key]);
});

/** Not a fact, which is read by what its id is; nor a code, which is looked up once the findings are known. */
const PLACES = [...placesIn(whole), ...DECLARED].filter(([section]) => section !== "actual" && section !== "accept");

/** A mistake that the schema cannot know: how far a text goes, or what a number of a time was before it was YAML. */
const isReadersOwn = (code: string, value: unknown): boolean =>
  (code === "range-wrong" && typeof value === "string") ||
  (code === "time-bad" && JSON.stringify(value).match(/^\[*[\d,]+\]*$|:\d/) !== null) ||
  code === "date-bad";

const errorsOf = async (text: string): Promise<readonly string[]> =>
  (await readOnePlan(text, { file: "day.yaml" })).findings.flatMap(({ level, code }) =>
    level === "error" ? [code] : [],
  );

test("every key with values of every kind is marked where it is refused, and only there", async () => {
  expect([isValid(whole), await errorsOf(everything)]).toEqual([true, []]);
  await fc.assert(
    fc.asyncProperty(fc.constantFrom(...PLACES), fc.constantFrom(...VALUES), async (path, value) => {
      const text = JSON.stringify(put(whole, path, value));
      const errors = await errorsOf(text);
      const known = errors.filter((code) => FORM.has(code) && !isReadersOwn(code, value));
      // Only the value is read as text: the rest is as it was.
      const marked = !isValid(put(whole, path, treeOf(JSON.stringify(value))));
      if (errors.length === 0) expect([path.join("."), value, marked]).toEqual([path.join("."), value, false]);
      if (!marked) expect([path.join("."), value, known]).toEqual([path.join("."), value, []]);
    }),
    { seed: 20270120, numRuns: runs(150, 20_000) },
  );
});
