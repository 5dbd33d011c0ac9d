/** What the README shows is what the program prints, and the plan it shows is the fixture. */
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { HELP_PAGES } from "../src/index.ts";
import { ran } from "./cli/fakeIo.ts";

const README = readFileSync("README.md", "utf8");

/** The fenced blocks of one language. */
const blocks = (language: string): readonly string[] =>
  [...README.matchAll(new RegExp(`^\`\`\`${language}\\n([\\s\\S]*?)^\`\`\`$`, "gm"))].map((match) => match[1] ?? "");

/** Fixtures that the README names, as files of the fake machine. */
const files = (): Readonly<Record<string, string>> =>
  Object.fromEntries(
    [...README.matchAll(/fixtures\/[\w/.-]+\.yaml/g)].map(([name]) => [name, readFileSync(resolve(name), "utf8")]),
  );

describe("the README", () => {
  it("shows the smallest plan as it stands in its fixture", () => {
    expect(blocks("yaml")[0]).toBe(readFileSync("fixtures/smallest.yaml", "utf8"));
  });

  it.each(blocks("console"))("prints %s", async (block) => {
    const [command = "", ...expected] = block.trimEnd().split("\n");
    const { out, err } = await ran(command.replace(/^\$ daywright /, "").split(" "), { files: files() });
    expect(`${out}${err}`.trimEnd()).toBe(expected.join("\n"));
  });

  it("names two commands of one line each", () => {
    expect(blocks("sh")).toEqual(["npm ci && npm run demo\nnpm ci && npm test\n"]);
  });

  it("is a screen and a half, and names every page of the manual", () => {
    expect(README.split("\n").length).toBeLessThan(105);
    for (const page of HELP_PAGES.keys()) expect(README).toContain(`help ${page}\``);
  });
});
