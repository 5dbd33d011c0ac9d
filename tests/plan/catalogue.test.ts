/** The catalogue over all topics: codes are unique and well formed, and each says what, why and how to cure it. */
import { readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { catalogue } from "../../src/findings/catalogue.ts";
import type { AnyEntry } from "../../src/findings/finding.ts";

const SRC = new URL("../../src/", import.meta.url);
const entries = [...(await catalogue()).values()];

interface Topic {
  readonly topic: string;
  readonly codes: readonly AnyEntry[];
}

async function topics(): Promise<readonly Topic[]> {
  const folders = readdirSync(SRC, { withFileTypes: true }).filter((entry) => entry.isDirectory());
  const found = folders.filter(({ name }) => readdirSync(new URL(`${name}/`, SRC)).includes("findings.ts"));
  return Promise.all(
    found.map(async ({ name }): Promise<Topic> => {
      const module: { codes?: readonly AnyEntry[] } = await import(new URL(`${name}/findings.ts`, SRC).href);
      return { topic: name, codes: module.codes ?? [] };
    }),
  );
}

describe("the catalogue", () => {
  test.each(entries.map((entry) => [entry.code, entry] as const))("%s is well formed", (code, entry) => {
    expect(code).toMatch(/^[a-z]+(-[a-z0-9]+)*$/);
    expect(entry.title).toMatch(/^[^\s].*[^.\s]$/);
    expect(entry.why).toMatch(/[.?]$/);
    expect(entry.cure).toMatch(/\.$/);
  });

  test("holds every topic's codes, each from one topic", async () => {
    const from = new Map<string, string[]>();
    for (const { topic, codes } of await topics()) {
      for (const { code } of codes) from.set(code, [...(from.get(code) ?? []), topic]);
    }
    expect([...from].flatMap(([code, where]) => (where.length > 1 ? [code] : []))).toEqual([]);
    expect([...from.keys()].filter((code) => !entries.some((entry) => entry.code === code))).toEqual([]);
  });
});
