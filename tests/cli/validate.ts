/** A small checker for the JSON Schemas of our answers: the few words of draft 7 that they use, and no key that is not described. */

type Schema = { readonly [key: string]: unknown };

const isObject = (value: unknown): value is { readonly [key: string]: unknown } =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** What is wrong with `value`, as paths with reasons; empty where it fits. */
export const misfits = (schema: unknown, value: unknown): readonly string[] => check(schema, value, "", schema);

function check(schema: unknown, value: unknown, path: string, root: unknown): readonly string[] {
  if (!isObject(schema)) return [`${path}: no schema`];
  const reference = schema["$ref"];
  if (typeof reference === "string") return check(resolve(root, reference), value, path, root);
  const either = schema["anyOf"];
  if (Array.isArray(either)) {
    const each = either.map((one) => check(one, value, path, root));
    const best = each.toSorted((a, b) => a.length - b.length)[0] ?? [];
    return best.length === 0 ? [] : [`${path}: fits none of ${either.length}`, ...best];
  }
  if ("const" in schema) return schema["const"] === value ? [] : [`${path}: not ${String(schema["const"])}`];
  const words = schema["enum"];
  if (Array.isArray(words))
    return words.includes(value) ? [] : [`${path}: ${String(value)} is none of ${words.join(", ")}`];
  return typed(schema, value, path, root);
}

const resolve = (root: unknown, reference: string): unknown =>
  reference
    .slice(2)
    .split("/")
    .reduce<unknown>((at, key) => (isObject(at) ? at[key] : undefined), root);

function typed(schema: Schema, value: unknown, path: string, root: unknown): readonly string[] {
  switch (schema["type"]) {
    case undefined:
      return [];
    case "string":
      return typeof value === "string" && fits(schema["pattern"], value)
        ? []
        : [`${path}: ${String(value)} is not the text wanted`];
    case "integer":
      return Number.isInteger(value) ? [] : [`${path}: not a whole number`];
    case "number":
      return typeof value === "number" && inRange(schema, value)
        ? []
        : [`${path}: ${String(value)} is not the number wanted`];
    case "boolean":
      return typeof value === "boolean" ? [] : [`${path}: not true or false`];
    case "null":
      return value === null ? [] : [`${path}: not null`];
    case "array":
      return Array.isArray(value)
        ? value.flatMap((one, at) => check(schema["items"], one, `${path}[${at}]`, root))
        : [`${path}: not a list`];
    case "object":
      return isObject(value) ? members(schema, value, path, root) : [`${path}: not an object`];
    default:
      return [`${path}: unknown type in the schema`];
  }
}

const fits = (pattern: unknown, value: string): boolean =>
  typeof pattern !== "string" || new RegExp(pattern, "u").test(value);

const inRange = (schema: Schema, value: number): boolean =>
  !(Number(schema["minimum"]) > value) && !(Number(schema["maximum"]) < value);

function members(
  schema: Schema,
  value: { readonly [key: string]: unknown },
  path: string,
  root: unknown,
): readonly string[] {
  const known = isObject(schema["properties"]) ? schema["properties"] : {};
  const required = Array.isArray(schema["required"]) ? schema["required"].map(String) : [];
  const rest = schema["additionalProperties"];
  const missing = required.filter((key) => !Object.hasOwn(value, key)).map((key) => `${path}.${key}: missing`);
  const wrong = Object.entries(value).flatMap(([key, one]) => {
    if (Object.hasOwn(known, key)) return check(known[key], one, `${path}.${key}`, root);
    return rest === undefined ? [`${path}.${key}: not described`] : check(rest, one, `${path}.${key}`, root);
  });
  return [...missing, ...wrong];
}
