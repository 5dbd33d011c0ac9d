/** The JSON Schemas of a plan, of a file that plans share and of a log, for editors: draft 7, the input side, with descriptions and examples. */
import { logForm } from "./log/form.ts";
import { entryForms, planForm } from "./read/sections.ts";
import type { Form } from "./shape/kind.ts";
import { PATTERNS } from "./shape/patterns.ts";

type Schema = Readonly<Record<string, unknown>>;

const isSchema = (value: unknown): value is Schema =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/**
 * The schema as plain data. Loads zod.
 *
 * A file that `uses` others may leave out what they say, and may drop their entries with `off`; so what must be there is
 * asked only of a file that uses none.
 */
export async function planSchema(): Promise<Schema> {
  const { required, properties, rest } = await everyKey();
  return {
    ...headed("daywright plan", "One day of a small crew that makes live television."),
    ...rest,
    properties,
    if: needing(["uses"]),
    else: needing(required, requiredOfEntries()),
  };
}

/** What plans of several days share, named by their `uses`, whole or in parts: all of a plan but what is a day's own. */
export async function sharedSchema(): Promise<Schema> {
  const { properties, rest } = await everyKey();
  const { id: _id, follows: _follows, ...shared } = properties;
  return {
    ...headed("daywright shared file", "What the plans of several days have in common, named by `uses`."),
    ...rest,
    properties: shared,
  };
}

const headed = (title: string, description: string): Schema => ({
  $schema: "http://json-schema.org/draft-07/schema#",
  title,
  description,
});

interface Keys {
  readonly required: readonly string[];
  readonly properties: Schema;
  readonly rest: Schema;
}

async function everyKey(): Promise<Keys> {
  const { $schema: _, required = [], properties = {}, ...rest } = await draft7(planForm);
  const definitions: Record<string, Schema> = {};
  const sections = Object.entries(properties).map(([key, value]) => [key, section(key, hoisted(value, definitions))]);
  return { required, properties: Object.fromEntries(sections), rest: { ...rest, definitions } };
}

const NAMES: ReadonlyMap<unknown, string> = new Map(Object.entries(PATTERNS).map(([name, pattern]) => [pattern, name]));

const LENGTH = "a length of time in whole minutes, such as 35 min or 1h20; it is never negative";

/** What a pattern alone does not say. */
const EXPLAINED: ReadonlyMap<string, string> = new Map([
  ["length", LENGTH],
  ["everyLength", LENGTH],
]);

/** A schema whose long patterns stand once, under `definitions`; beside a `$ref` draft 7 reads nothing else, so `allOf` holds it. */
function hoisted(value: unknown, definitions: Record<string, Schema>): unknown {
  if (Array.isArray(value)) return value.map((one) => hoisted(one, definitions));
  if (!isSchema(value)) return value;
  const name = NAMES.get(value["pattern"]);
  if (name === undefined)
    return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, hoisted(one, definitions)]));
  const { pattern, type, ...rest } = value;
  const description = EXPLAINED.get(name);
  definitions[name] = { type, pattern, ...(description === undefined ? {} : { description }) };
  return { type, ...rest, allOf: [{ $ref: `#/definitions/${name}` }] };
}

/** A section whose entries have ids, may be `off`, and need not be whole. */
function section(key: string, value: unknown): unknown {
  if (!Object.hasOwn(entryForms, key) || !isSchema(value) || !isSchema(value["additionalProperties"])) return value;
  const { required: _, ...entry } = value["additionalProperties"];
  return {
    ...value,
    propertyNames: { type: "string", pattern: PATTERNS.id, maxLength: 40 },
    additionalProperties: { anyOf: [entry, { const: "off" }] },
  };
}

/** An object that must have these keys, each named as strict validators ask; `properties` say more of some. */
const needing = (required: readonly string[], properties: Schema = {}): Schema => ({
  type: "object",
  required: [...required],
  properties: { ...Object.fromEntries(required.map((key) => [key, true])), ...properties },
});

const requiredOfEntries = (): Schema =>
  Object.fromEntries(
    Object.entries(entryForms).map(([key, { required }]) => [
      key,
      { type: "object", additionalProperties: needing(required) },
    ]),
  );

/** Of a log file, made from the same forms that read one. */
export async function logSchema(): Promise<Schema> {
  const { $schema, ...schema } = await draft7(logForm);
  return { $schema, title: "daywright log", description: "What people did when, for the hours alone.", ...schema };
}

async function draft7(form: Form) {
  const z = await import("zod");
  z.config({ jitless: true });
  return z.toJSONSchema(form.schema(z, true), { target: "draft-7", io: "input" });
}
