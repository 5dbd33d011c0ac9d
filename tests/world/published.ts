/**
 * Published figures, one test each: `sky.json`, `signal.json`, `safety.json` hold every entry with its source and the
 * document it was read in; `from_memory` marks what was not re-read. Expected values never come from this program.
 */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";

type Value = number | string | boolean | null | readonly Value[] | { readonly [key: string]: Value };

interface Published {
  readonly id: string;
  readonly source: string;
  readonly from_memory: boolean;
  readonly inputs: { readonly [key: string]: Value };
  readonly expected: Value;
  readonly tolerance: Value;
}

const isList = (value: Value): value is readonly Value[] => Array.isArray(value);

const part = (value: Value, key: string | number): Value => {
  if (typeof value !== "object" || value === null) return value;
  return (value as { readonly [key: string | number]: Value })[key] ?? 0;
};

/** Compares leaf by leaf; a tolerance that is one number holds for all leaves under it, 0 asks for equality. */
function compare(got: Value, expected: Value, tolerance: Value, path: string): void {
  if (typeof expected === "number" && typeof tolerance === "number") {
    if (typeof got !== "number") throw new Error(`${path}: not a number: ${JSON.stringify(got)}`);
    expect(Math.abs(got - expected), `${path}: ${got} for ${expected}`).toBeLessThanOrEqual(tolerance);
    return;
  }
  if (typeof expected !== "object" || expected === null) {
    expect(got, path).toEqual(expected);
    return;
  }
  expect(isList(got) ? got.length : Object.keys(got ?? {}).sort(), path).toEqual(
    isList(expected) ? expected.length : Object.keys(expected).sort(),
  );
  for (const key of Object.keys(expected)) {
    compare(part(got, key), part(expected, key), part(tolerance, key), `${path}.${key}`);
  }
}

/** What a check computes from an entry's inputs. */
export type Check = (inputs: Inputs) => Value | Promise<Value>;

/** Reads an entry's inputs with their types; a missing or other-typed one is a mistake in the test. */
export class Inputs {
  readonly #of: Value;
  constructor(of: Value) {
    this.#of = of;
  }
  num(key: string | number): number {
    const value = part(this.#of, key);
    if (typeof value !== "number") throw new Error(`input ${key} is not a number`);
    return value;
  }
  text(key: string | number): string {
    const value = part(this.#of, key);
    if (typeof value !== "string") throw new Error(`input ${key} is not a text`);
    return value;
  }
  flag(key: string | number): boolean {
    return part(this.#of, key) === true;
  }
  list(key: string): readonly Inputs[] {
    const value = part(this.#of, key);
    if (!isList(value)) throw new Error(`input ${key} is not a list`);
    return value.map((own) => new Inputs([own]).row());
  }
  nums(key: string): readonly number[] {
    return this.list(key).map((own) => own.num(0));
  }
  texts(key: string): readonly string[] {
    return this.list(key).map((own) => own.text(0));
  }
  private row(): Inputs {
    const own = part(this.#of, 0);
    return isList(own) ? new Inputs(own) : this;
  }
}

/**
 * Makes one test of each entry of a file, and one that no entry is left out. `statements` are entries that no code of ours
 * computes (a package's measured accuracy, a figure kept as text), each with where it is held.
 */
export function checkPublished(
  file: string,
  checks: ReadonlyMap<string, Check>,
  statements: ReadonlyMap<string, string>,
): void {
  const entries = JSON.parse(readFileSync(new URL(file, import.meta.url), "utf8")) as readonly Published[];
  it(`${file}: every entry has its check`, () => {
    expect([...checks.keys(), ...statements.keys()].sort()).toEqual(entries.map((entry) => entry.id).sort());
  });
  for (const entry of entries) {
    const check = checks.get(entry.id);
    if (check === undefined) continue;
    it(`${entry.id}: ${entry.source}${entry.from_memory ? " (from memory)" : ""}`, async () => {
      compare(await check(new Inputs(entry.inputs)), entry.expected, entry.tolerance, entry.id);
    });
  }
}
