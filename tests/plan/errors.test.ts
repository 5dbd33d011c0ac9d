/**
 * The catalogue of mistakes: `fixtures/errors/<code>.yaml` (or `<code>.<variant>.yaml`) makes exactly the finding of its
 * code, told as in `tests/golden/errors`. Nothing is computed on top: there is no plan.
 */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { catalogue } from "../../src/findings/catalogue.ts";
import type { Finding } from "../../src/findings/finding.ts";
import * as edits from "../../src/plan/findings/edits.ts";
import * as fileMistakes from "../../src/plan/findings/files.ts";
import * as sense from "../../src/plan/findings/sense.ts";
import * as text from "../../src/plan/findings/text.ts";
import * as times from "../../src/plan/findings/times.ts";
import * as values from "../../src/plan/findings/values.ts";
import { acceptMistakes, type FileReading, type PlanFiles, readChain } from "../../src/plan/index.ts";
import { findingLines } from "../../src/render/text/findingText.ts";
import { findingView } from "../../src/reports/shared/findingView.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import { plainStyle } from "../render/plainStyle.ts";

const FOLDER = new URL("../../fixtures/errors/", import.meta.url);
const known = await catalogue();

const files: PlanFiles = {
  read(path): FileReading {
    const url = new URL(path, FOLDER);
    const found = statSync(url, { throwIfNoEntry: false });
    if (found === undefined) return { kind: "missing", near: [] };
    if (found.isDirectory()) return { kind: "unreadable", reason: "this is a folder" };
    return { kind: "text", text: readFileSync(url, "utf8") };
  },
};

async function mistakesIn(name: string): Promise<{ findings: readonly Finding[]; computable: boolean }> {
  const chain = await readChain(readFileSync(new URL(name, FOLDER), "utf8"), { file: name, files });
  const accepted = chain.plan === null ? [] : acceptMistakes(chain.plan, known);
  return { findings: [...chain.findings, ...accepted], computable: chain.plans !== null && accepted.length === 0 };
}

const fixtures = readdirSync(FOLDER).filter((name) => name.endsWith(".yaml"));
const codeOf = (name: string): string => name.split(".")[0] ?? "";

/** Raised by what a caller does, by more files than a fixture should be, or with a plan that can be computed; tested where they arise. */
const WITHOUT_FIXTURE = [
  "chain-too-long",
  "coordinates-doubtful",
  "days-missing",
  "edit-nowhere",
  "edit-path-bad",
  "edit-value-bad",
  "id-alike",
  "lead-unstated",
  "mistakes-more",
  "offset-doubtful",
  "word-near",
  "zone-doubtful",
  "zone-without-summer",
];

describe("every mistake", () => {
  test.each(fixtures)("%s is told as agreed", async (name) => {
    const { findings, computable } = await mistakesIn(name);
    expect(computable).toBe(false);
    if (codeOf(name) !== "many") expect(findings.map(({ code }) => code)).toEqual([codeOf(name)]);
    const lines = findings.flatMap((finding) => findingLines(findingView(finding, plainWording), plainStyle));
    await expect(`${lines.join("\n")}\n`).toMatchFileSnapshot(`../golden/errors/${name.replace(/\.yaml$/, ".txt")}`);
  });

  test.each(fixtures)("%s points into its text", async (name) => {
    const lines = readFileSync(new URL(name, FOLDER), "utf8").split("\n");
    for (const { span } of (await mistakesIn(name)).findings) {
      const line = span === null ? undefined : lines[span.line - 1];
      expect(span).not.toBeNull();
      expect(line).toBe(span?.text);
      expect((span?.column ?? 0) - 1 + (span?.length ?? 0)).toBeLessThanOrEqual(line?.length ?? 0);
    }
  });

  test("has a fixture", () => {
    const codes = [text, fileMistakes, values, times, sense, edits].flatMap((group) =>
      Object.values(group).map(({ entry }) => entry.code),
    );
    const shown = new Set([...fixtures.map(codeOf), ...WITHOUT_FIXTURE]);
    expect(codes.filter((code) => !shown.has(code))).toEqual([]);
  });

  test("is told up to twenty times, and then counted", async () => {
    const ids = Array.from({ length: 30 }, (_, index) => `nowhere${index}`).join(", ");
    const crowded = readFileSync(new URL("many.yaml", FOLDER), "utf8").replace(/wagon: \[.*\]/, `wagon: [${ids}]`);
    const { findings } = await readChain(crowded, { file: "day.yaml" });
    expect(findings).toHaveLength(21);
    expect(findings.at(-1)?.sentence(plainWording)).toBe("and 14 more");
  });

  test("made on purpose in one plan are all told in one pass, in order", async () => {
    const { findings } = await mistakesIn("many.yaml");
    expect(findings.map(({ code, span }) => `${span?.line} ${code}`)).toEqual([
      "6 id-unknown",
      "7 key-unknown",
      "14 unit-missing",
      "16 time-bad",
      "18 id-unknown",
      "18 id-unknown",
    ]);
  });
});
