/** The same promises held by real processes over real files: no signal, no hang, no exit 70. */
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { expect, it } from "vitest";
import { random } from "../day/random.ts";
import { runs } from "../fuzz.ts";
import { commandLine } from "./commandLines.ts";
import { filesWith, sampleOf } from "./corpus.ts";
import { hide, wrongs } from "./judged.ts";
import { mutant } from "./mutants.ts";

const FIRST = Number(process.env["DAYWRIGHT_FUZZ_FIRST"] ?? 1) + 500_000_000;
const PROGRAM = resolve("bin/daywright.js");
/** Longer than any answer takes on a busy machine; what is longer ends by a signal, which is a finding. */
const HANG_MS = 30_000;

it("real processes", { timeout: runs(120_000, 14_400_000) }, () => {
  const found: string[] = [];
  const folder = mkdtempSync(join(tmpdir(), "daywright-fuzz-"));
  try {
    for (let seed = FIRST; seed < FIRST + runs(4, 2000) && found.length < 20; seed++) {
      const dice = random(seed);
      const sample = sampleOf(dice, 3000);
      const made = mutant(dice, sample.text);
      const argv = commandLine(dice, sample.name, made.match(/[\p{L}\p{N}-]+/gu) ?? ["wren"]);
      const text = argv.includes("--redact") ? hide(made) : made;
      const own = join(folder, String(seed));
      for (const [name, content] of Object.entries(filesWith(sample, text))) {
        mkdirSync(dirname(join(own, name)), { recursive: true });
        writeFileSync(join(own, name), content);
      }
      const { status, signal, stdout, stderr } = spawnSync(process.execPath, [PROGRAM, ...argv], {
        cwd: own,
        encoding: "utf8",
        timeout: HANG_MS,
        input: "",
      });
      rmSync(own, { recursive: true });
      if (signal !== null) found.push(`${seed}: ended with ${signal}: ${argv.join(" ")}`);
      const run = { code: status ?? 70, out: stdout, err: stderr, files: new Map<string, string>() };
      found.push(...wrongs(argv, text, run, 0).map((wrong) => `${seed}: ${wrong}: ${argv.join(" ")}`));
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
  expect(found).toEqual([]);
});
