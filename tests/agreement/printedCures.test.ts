/**
 * What `check` prints as a command can be typed as it stands. Over all fixtures and cases, warnings included:
 * every `--set` of a suggestion is taken and clears its finding, and every `daywright repair …` runs.
 */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, relative } from "node:path";
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";
import { PLANS } from "../repair/posed.ts";

interface Said {
  readonly code: string;
  readonly level: string;
  readonly who: string | null;
  readonly hint: string | null;
  readonly facts: { readonly demand?: unknown; readonly hit?: unknown };
  readonly where: { readonly path: string | null } | null;
}

/** The words of a command line, quotes taken off as a POSIX shell does. */
const shellWords = (text: string): readonly string[] =>
  [...text.matchAll(/(?:"[^"]*"|'[^']*'|[^\s"'])+/g)].map(([word]) =>
    word.replaceAll(/"([^"]*)"|'([^']*)'/g, (_, double?: string, single?: string) => double ?? single ?? ""),
  );

/** A plan's folder, as `ran` takes it. */
function folderOf(plan: string): Readonly<Record<string, string>> {
  const folder = dirname(plan);
  const names = readdirSync(folder, { recursive: true, encoding: "utf8" }).map((name) => name.replaceAll("\\", "/"));
  return Object.fromEntries(
    names
      .filter((name) => name.endsWith(".yaml") && statSync(`${folder}/${name}`).isFile())
      .map((name) => [name, readFileSync(`${folder}/${name}`, "utf8")]),
  );
}

const SETS = /--set (?:"[^"]*"|[^\s`"]+)(?: --set (?:"[^"]*"|[^\s`"]+))*/g;
const REPAIR = /daywright repair (?:"[^"]*"|'[^']*'|\S+)(?: --code [\w-]+)?/g;

/** The hits of one series have one path: which of them it is tells a fact. */
const keyOf = ({ code, who, where, facts }: Said): string =>
  [code, who ?? "", where?.path ?? "", facts.demand ?? facts.hit ?? ""].join(" ");

async function findingsOf(files: Readonly<Record<string, string>>, words: readonly string[]) {
  const { out, code } = await ran(["check", "--json", ...words], { files });
  const found = code > 1 ? null : (JSON.parse(out).findings as readonly Said[]);
  return { code, found };
}

describe("commands that are printed", () => {
  it("are taken as they stand, and a `--set` clears its finding", { timeout: 1_200_000 }, async () => {
    const faults: string[] = [];
    const repairs = new Map<string, readonly [string, readonly string[]]>();
    let sets = 0;
    for (const plan of PLANS) {
      const files = folderOf(plan);
      const name = relative(dirname(plan), plan);
      const { found } = await findingsOf(files, [name]);
      for (const finding of found ?? []) {
        const hint = finding.hint ?? "";
        for (const [command] of hint.matchAll(REPAIR)) repairs.set(finding.code, [plan, shellWords(command).slice(1)]);
        for (const [text] of hint.matchAll(SETS)) {
          sets += 1;
          const after = await findingsOf(files, [name, ...shellWords(text)]);
          if (after.found === null) faults.push(`${plan} ${text}: exit ${after.code}`);
          else if (after.found.some((one) => keyOf(one) === keyOf(finding) && one.level === finding.level))
            faults.push(`${plan} ${text}: ${keyOf(finding)} stands`);
        }
      }
    }
    for (const [plan, words] of repairs.values()) {
      const { code, err } = await ran(words, { files: folderOf(plan) });
      if (code > 1) faults.push(`${plan} ${words.join(" ")}: exit ${code} ${err.slice(0, 200)}`);
    }
    expect(faults).toEqual([]);
    expect(sets).toBeGreaterThan(3);
    expect(repairs.size).toBeGreaterThan(2);
  });

  it("name a file with a blank or a quote as a shell takes it", async () => {
    const text = readFileSync("fixtures/cases/together/ca.yaml", "utf8");
    for (const name of ["my day.yaml", "it's day.yaml", 'a "b" $c.yaml']) {
      const { out } = await ran(["check", name], { files: { [name]: text } });
      const [command = ""] = out.match(/daywright repair .*(?= looks for)/) ?? [];
      // Inside single quotes a POSIX shell writes one as '\''.
      expect(shellWords(command.replaceAll("'\\''", "'\"'\"'"))).toEqual(["daywright", "repair", name]);
    }
  });
});
