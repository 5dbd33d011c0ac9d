/** The JSON Schema of a plan, for editors: draft 7, the input side, with descriptions and examples. */
import { entryForms, planForm } from "./read/sections.ts";

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
  const z = await import("zod");
  z.config({ jitless: true });
  const { $schema, required, properties, ...rest } = z.toJSONSchema(planForm.schema(z, true), {
    target: "draft-7",
    io: "input",
  });
  return {
    $schema,
    title: "daywright plan",
    description: "One day of a small crew that makes live television.",
    ...rest,
    properties: Object.fromEntries(
      Object.entries(properties ?? {}).map(([key, value]) => [key, shareable(key, value)]),
    ),
    if: { required: ["uses"] },
    else: { required, properties: requiredOfEntries() },
  };
}

/** A section whose entries may be `off`, and need not be whole. */
function shareable(key: string, section: unknown): unknown {
  if (!Object.hasOwn(entryForms, key) || !isSchema(section) || !isSchema(section["additionalProperties"]))
    return section;
  const { required: _, ...entry } = section["additionalProperties"];
  return { ...section, additionalProperties: { anyOf: [entry, { const: "off" }] } };
}

const requiredOfEntries = (): Schema =>
  Object.fromEntries(
    Object.entries(entryForms).flatMap(([key, { required }]) =>
      required.length === 0 ? [] : [[key, { additionalProperties: { required: [...required] } }]],
    ),
  );
