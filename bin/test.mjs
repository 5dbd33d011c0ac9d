/**
 * Builds what is stale, runs the tests and ends with a plain line `N passed, N failed[, N skipped]` (`npm test`; further
 * words go to vitest, `npm test -- tests/time`). With `--fuzz` the random tests run far longer; with `--stable` the tests run
 * five times, each in another order (`npm run test:stable`). A test file that does not load counts as one failed.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build, isStale } from "./build.mjs";

const root = fileURLToPath(new URL("..", import.meta.url));

/** Counts tests in vitest's JSON report; without a report the run itself is the one thing that failed. */
function count(report) {
  try {
    const result = JSON.parse(readFileSync(report, "utf8"));
    const unloaded = result.testResults.filter(
      (file) => file.status === "failed" && file.assertionResults.length === 0,
    );
    return {
      passed: result.numPassedTests,
      failed: result.numFailedTests + unloaded.length,
      skipped: result.numPendingTests + result.numTodoTests,
    };
  } catch {
    return { passed: 0, failed: 1, skipped: 0 };
  }
}

/** Builds where a source is newer; a build that fails is one failure beside those of the tests. */
async function built() {
  try {
    if (isStale()) await build();
    return true;
  } catch (error) {
    process.stderr.write(`the build failed: ${error.message}\n`);
    return false;
  }
}

const builds = await built();
const vitest = join(root, "node_modules", "vitest", "vitest.mjs");
const OWN = new Set(["--fuzz", "--stable"]);
const flags = new Set(process.argv.filter((word) => OWN.has(word)));
const given = process.argv.slice(2).filter((word) => !OWN.has(word));

/** Runs the tests once, with further words for vitest; a run may fail beside its tests, by an error that no test caught. */
function tested(more) {
  const scratch = mkdtempSync(join(tmpdir(), "daywright-test-"));
  const report = join(scratch, "report.json");
  const words = [
    "run",
    "--config=tests/vitest.config.ts",
    `--root=${root}`,
    "--reporter=default",
    "--reporter=json",
    `--outputFile.json=${report}`,
    ...more,
    ...given,
  ];
  const run = spawnSync(process.execPath, [vitest, ...words], {
    cwd: root,
    stdio: "inherit",
    env: { ...process.env, ...(flags.has("--fuzz") ? { DAYWRIGHT_FUZZ: "1" } : {}) },
  });
  const { passed, failed, skipped } = count(report);
  rmSync(scratch, { recursive: true });
  return { passed, skipped, wrong: (failed === 0 && run.status !== 0 ? 1 : failed) + (builds ? 0 : 1) };
}

const lineOf = ({ passed, wrong, skipped }) =>
  `${passed} passed, ${wrong} failed${skipped > 0 ? `, ${skipped} skipped` : ""}`;

/** The seeds of the orders in which the tests run; the same order again is `npm test -- --sequence.shuffle --sequence.seed=N`. */
const orders = flags.has("--stable")
  ? [1, 2, 3, 4, 5].map((seed) => ["--sequence.shuffle", `--sequence.seed=${seed}`])
  : [[]];
const lines = [];
for (const order of orders) {
  const begin = Date.now();
  const run = tested(order);
  if (run.wrong > 0) process.exitCode = 1;
  const seconds = Math.round((Date.now() - begin) / 1000);
  lines.push(flags.has("--stable") ? `${lineOf(run)} in ${seconds} s, ${order.join(" ")}` : lineOf(run));
}
process.stdout.write(`${lines.join("\n")}\n`);
