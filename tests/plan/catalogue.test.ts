/** The catalogue over all topics: codes are unique and well formed, and each says what, why and how to cure it. */
import { readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { catalogue, codesOf } from "../../src/findings/catalogue.ts";

const SRC = new URL("../../src/", import.meta.url);
const entries = [...(await catalogue()).values()];

/** The files of definitions, wherever they lie. */
const files = readdirSync(SRC, { recursive: true, encoding: "utf8" }).filter((name) => /findings\w*\.ts$/.test(name));

describe("the catalogue", () => {
  test.each(entries.map((entry) => [entry.code, entry] as const))("%s is well formed", (code, entry) => {
    expect(code).toMatch(/^[a-z]+(-[a-z0-9]+)*$/);
    expect(entry.title).toMatch(/^[^\s].*[^.\s]$/);
    expect(entry.why).toMatch(/[.?]$/);
    expect(entry.cure).toMatch(/\.$/);
  });

  test("holds every code of every file, each once", async () => {
    const modules = await Promise.all(files.map((name): Promise<object> => import(new URL(name, SRC).href)));
    const codes = modules.flatMap(codesOf).map(({ code }) => code);
    expect(codes).toEqual([...new Set(codes)]);
    expect([...codes].sort()).toEqual(entries.map(({ code }) => code));
  });
});
