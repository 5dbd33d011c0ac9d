/** `--for` is one person's view: what is another's alone is left out. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { ran } from "./fake-io.ts";

const FILES = { "day.yaml": readFileSync("fixtures/smallest.yaml", "utf8") };

it("leaves out findings of others, and keeps those of nobody in particular", async () => {
  const whose = async (...flags: readonly string[]): Promise<readonly (string | null)[]> => {
    const { out } = await ran(["check", "--json", ...flags, "day.yaml"], { files: FILES });
    const { findings } = JSON.parse(out) as { findings: readonly { who: string | null }[] };
    return [...new Set(findings.map(({ who }) => who))].sort();
  };
  expect(await whose()).toEqual(["ilse", null, "wren"].sort());
  expect(await whose("--for", "ilse")).toEqual(["ilse", null].sort());
});
