/**
 * The JSON Schema against the reader, over every fixture and case, with a validator of the strictest kind: a plan that the
 * reader takes is never marked, and a mistake that is not marked is of a kind that only the reader can know.
 */
import { readdirSync, readFileSync } from "node:fs";
import { Ajv, type ValidateFunction } from "ajv";
import { describe, expect, test } from "vitest";
import { readChain } from "../../src/plan/index.ts";
import { planSchema, sharedSchema } from "../../src/plan/schema.ts";
import { sourceText } from "../../src/plan/text/source.ts";
import { raw } from "../../src/plan/text/tree.ts";
import { readYaml } from "../../src/plan/text/yaml.ts";

const ROOT = new URL("../../fixtures/", import.meta.url);

const validator = (schema: object): ValidateFunction =>
  new Ajv({ strict: true, allErrors: true, allowUnionTypes: true, validateFormats: false }).compile(schema);
const plan = validator(await planSchema());
const shared = validator(await sharedSchema());

const FILES = readdirSync(ROOT, { recursive: true, encoding: "utf8" })
  .map((name) => name.replaceAll("\\", "/"))
  .filter((name) => name.endsWith(".yaml"))
  .sort();

/** The text as an editor's validator sees it; null where it is no map of YAML, or a log. */
function seen(name: string): unknown {
  const { tree, findings } = readYaml(sourceText(name, readFileSync(new URL(name, ROOT), "utf8")));
  return tree?.kind !== "map" || findings.length > 0 || tree.entries.has("log") ? null : raw(tree);
}

const isShared = (value: unknown): boolean =>
  typeof value === "object" && value !== null && !("daywright" in value) && !("hits" in value);

async function errorsOf(name: string): Promise<readonly string[]> {
  const file = name.split("/").at(-1) ?? name;
  const folder = new URL(name.slice(0, name.length - file.length), ROOT);
  const files = {
    read: (path: string) => {
      try {
        return { kind: "text" as const, text: readFileSync(new URL(path, folder), "utf8") };
      } catch {
        return { kind: "missing" as const, near: [] };
      }
    },
  };
  const { findings } = await readChain(readFileSync(new URL(name, ROOT), "utf8"), { file, files });
  return findings.filter(({ level, span }) => level === "error" && span?.file === file).map(({ code }) => code);
}

/**
 * Mistakes that no schema can mark: whether an id, a zone or a file exists, what two values say together, what the text
 * looked like before it was YAML, and days and clocks that do not exist.
 */
const READER_ONLY: readonly string[] = [
  "accept-unknown",
  "aboard-missing",
  "bad-before-drive",
  "chain-too-long",
  "commercial-without-rules",
  "coordinates-swapped",
  "count-wrong",
  "done-elsewhere",
  "driver-may-not",
  "driver-not-aboard",
  "drivers-too-few",
  "either-missing",
  "file-loop",
  "file-missing",
  "file-outside",
  "file-unreadable",
  "hit-unattended",
  "id-twice",
  "id-unknown",
  "keys-together",
  "local-nowhere",
  "logged-day-off",
  "no-such-leg",
  "off-nothing",
  "order-loop",
  "road-missing",
  "road-twice",
  "seats-too-few",
  "stops-too-few",
  "team-without-berth",
  "time-far",
  "time-outside",
  "time-skipped",
  "time-twice",
  "window-backwards",
  "zone-missing",
  "zone-unknown",
];

/** Fixtures whose mistake is of a marked kind elsewhere, but not in them. */
const ONLY_HERE: ReadonlyMap<string, string> = new Map([
  ["errors/date-bad.yaml", "whether February has the day"],
  ["errors/range-wrong.declination.yaml", "one pattern for 90 and 180 degrees"],
  ["errors/value-bad.count.yaml", "what other values add up to"],
  ["errors/range-wrong.minutes.yaml", "whether an arc has so many minutes"],
]);

describe("the JSON Schema", () => {
  test.each(FILES)("and the reader agree about %s", async (name) => {
    const value = seen(name);
    if (value === null) return;
    if (isShared(value)) {
      expect([shared(value), shared.errors]).toEqual([true, null]);
      return;
    }
    const valid = plan(value);
    const errors = await errorsOf(name);
    const known = errors.filter((code) => !READER_ONLY.includes(code));
    if (errors.length === 0) expect([valid, plan.errors]).toEqual([true, null]);
    else if (valid && !ONLY_HERE.has(name)) expect(known).toEqual([]);
  });

  test("is taken by a strict validator, and marks each of these", () => {
    const marked = (change: string): boolean => {
      const text = readFileSync(new URL("smallest.yaml", ROOT), "utf8");
      const [from = "", to = ""] = change.split(" => ");
      expect(text).toContain(from);
      const { tree } = readYaml(sourceText("", text.replace(from, to)));
      return !plan(tree === null ? null : raw(tree));
    };
    for (const change of [
      "35 min => 35",
      "35 min => 35 minuts",
      '"07:00" => "7 am"',
      '"07:00" => "25:00"',
      "2027-01-20 => 20.1.2027",
      "-90.82 => -190.82",
      "46.81 => 96.81",
      "America/Chicago => EST",
      "wagon: {} => wagon: { seats: 0 }",
      "wagon: {} => wagon: { fuel: half }",
      "wagon: {} => wagon: { range: 400 W }",
      '  wren: => "  a b":',
      "drives: wagon => drives: the wagon",
    ])
      expect([change, marked(change)]).toEqual([change, true]);
  });
});
