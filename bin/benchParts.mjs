/**
 * Where the time of a whole process goes, by Node's own profiler (`npm run bench parts`): means of several runs. Profiling makes
 * everything dearer, scripts with caches twice as dear, so the shares are what counts.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const RUNS = 10;
const MICROSECONDS = 100;
/** A sample that lasts longer was not running: another process was. */
const LONGEST = 6 * MICROSECONDS;

/** What a function that stands on the stack alone or last belongs to. */
function kindOf({ functionName, url }) {
  if (functionName === "(garbage collector)") return "collecting garbage";
  if (functionName === "Script") return "scripts and their caches";
  if (functionName.startsWith("./")) return "setting up parts";
  // A cache keeps the name that the script had while the build made it.
  if (/\/(?:daywright|fresh-\d+)[.\w]*\.cjs$/.test(url)) return "the program";
  return "node itself";
}

function addProfile(path, sums) {
  const { nodes, samples, timeDeltas } = JSON.parse(readFileSync(path, "utf8"));
  const kinds = new Map(nodes.map(({ id, callFrame }) => [id, kindOf(callFrame)]));
  for (const [at, id] of samples.entries()) {
    const kind = kinds.get(id) ?? "node itself";
    sums.set(kind, (sums.get(kind) ?? 0) + Math.min(timeDeltas[at] ?? 0, LONGEST) / 1000 / RUNS);
  }
}

/** Milliseconds of a command's process by what they go into, largest first. */
export function partsOfTime(words, env) {
  const folder = mkdtempSync(join(tmpdir(), "daywright-bench-"));
  try {
    const flags = ["--cpu-prof", `--cpu-prof-dir=${folder}`, `--cpu-prof-interval=${MICROSECONDS}`];
    for (let run = 0; run < RUNS; run += 1) spawnSync(process.execPath, [...flags, ...words], { env, stdio: "ignore" });
    const sums = new Map();
    for (const name of readdirSync(folder)) addProfile(join(folder, name), sums);
    return [...sums].toSorted(([, a], [, b]) => b - a);
  } finally {
    rmSync(folder, { recursive: true });
  }
}
