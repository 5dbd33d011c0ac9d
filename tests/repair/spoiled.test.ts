/**
 * The demo's spoiled day, repaired as a crew lead would at the prompt: the first repair written, then looked at again,
 * until `check` finds no error; and that each code which names kinds of edit is one that the program can say.
 */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/findings/catalogue.ts";
import { repairableCodes } from "../../src/repair/codes.ts";
import { ran } from "../cli/fakeIo.ts";

const DAYS = new URL("../../fixtures/days/", import.meta.url);
const demo = Object.fromEntries(readdirSync(DAYS).map((name) => [name, readFileSync(new URL(name, DAYS), "utf8")]));

describe("codes with kinds of edit", () => {
  it("are all in the catalogue", async () => {
    const known = await catalogue();
    expect(repairableCodes.filter((code) => !known.has(code))).toEqual([]);
  });
});

describe("the spoiled day", () => {
  it("has no error after at most three repairs, comments kept", { timeout: 600_000 }, async () => {
    let files: Readonly<Record<string, string>> = demo;
    const edits: string[] = [];
    let clean = false;
    for (let n = 0; n < 3 && !clean; n++) {
      const done = await ran(["repair", "spoiled.yaml", "--write", "1", "--json"], { files });
      expect([done.code, done.err]).toEqual([0, "wrote repair 1 into spoiled.yaml\n"]);
      const [best] = JSON.parse(done.out).data.repairs as readonly {
        edits: readonly { path: string; new: string | null }[];
      }[];
      edits.push(...(best?.edits ?? []).map((edit) => `${edit.path}=${edit.new ?? ""}`));
      files = Object.fromEntries(Object.keys(demo).map((name) => [name, done.files.get(`/plans/${name}`) ?? ""]));
      clean = (await ran(["check", "spoiled.yaml"], { files })).code === 0;
    }
    expect(clean, edits.join("\n")).toBe(true);
    // By hand, what a crew lead would do: two hits for the web given up, the noon hit by telephone network in place of a
    // dish behind the dock, the bracket where the monitor is, packs, and fuel at a stop.
    expect(edits.filter((edit) => !edit.includes(".do="))).toEqual(
      expect.arrayContaining(["hits.early=", "hits.extra=", "hits.noon.path=cell", "kit.bracket.in=wagon"]),
    );
    // How many packs: the fewest with which every hit is powered, so one fewer leaves a hit without.
    const charges = [...(edits.find((edit) => edit.startsWith("packs.brick.charge="))?.matchAll(/\d+%/g) ?? [])].map(
      String,
    );
    expect(edits).toContain(`packs.brick.count=${charges.length}`);
    const fewer = [
      `packs.brick.count=${charges.length - 1}`,
      `packs.brick.charge=[${charges.slice(0, -1).join(", ")}]`,
    ];
    const { out } = await ran(["check", "spoiled.yaml", "--json", ...fewer.flatMap((edit) => ["--set", edit])], {
      files,
    });
    const codes = (JSON.parse(out).findings as readonly { code: string }[]).map(({ code }) => code);
    expect(codes.some((code) => /^hit-(?:unpowered|left-out)$/.test(code))).toBe(true);
    expect(edits.some((edit) => /kind: fuel/.test(edit))).toBe(true);
    expect(files["spoiled.yaml"]?.split("\n").slice(0, 5)).toEqual(demo["spoiled.yaml"]?.split("\n").slice(0, 5));
  });
});
