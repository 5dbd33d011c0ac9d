/**
 * Measures, always against something in the same run (`npm run bench`; words after it pick benches by file name).
 *
 * Start-up: whole processes, a bare `node -e 0` between them, medians of the pairs' ratios. Work: `tests/bench/*.bench.ts` against
 * the yardstick. Milliseconds are printed for orientation; only ratios compare.
 */
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { partsOfTime } from "./benchParts.mjs";
import { build, isStale } from "./build.mjs";

const root = fileURLToPath(new URL("..", import.meta.url));
const program = join(root, "bin", "daywright.js");
const SMALLEST = join(root, "fixtures", "smallest.yaml");
const DEMO = join(root, "fixtures", "days", "2027-01-20.yaml");

const STARTS = [
  { name: "--help", target: 1.5, words: [program, "--help"] },
  { name: "check of the smallest plan", target: 2.6, words: [program, "check", SMALLEST] },
  { name: "check of the demo's second day", target: 3.9, words: [program, "check", DEMO] },
  { name: "calls of the demo's second day", target: 3.9, words: [program, "calls", DEMO] },
  { name: "power of the demo's second day", target: 8, words: [program, "power", DEMO] },
  { name: "sheet of the demo's second day", target: 8, words: [program, "sheet", DEMO] },
];
const PAIRS = 25;
const ROUNDS = 15;

const median = (values) => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];

const milliseconds = (action) => {
  const from = process.hrtime.bigint();
  action();
  return Number(process.hrtime.bigint() - from) / 1e6;
};

const print = (line) => process.stdout.write(`${line}\n`);

/** Node 20 reads these certificates at every start, some 40 ms of nothing to do with us. */
const { NODE_EXTRA_CA_CERTS: _, ...env } = process.env;

function startOf(words) {
  return milliseconds(() => {
    const { status, signal, stderr } = spawnSync(process.execPath, words, { env, stdio: ["ignore", "pipe", "pipe"] });
    if (signal !== null || status > 1) throw new Error(`${words.join(" ")} ended with ${signal ?? status}: ${stderr}`);
  });
}

function benchStarts() {
  print(`start-up, ${PAIRS} pairs with a bare node -e 0 (Node ${process.versions.node})`);
  for (const { name, target, words } of STARTS) {
    startOf(words);
    const pairs = Array.from({ length: PAIRS }, () => ({ bare: startOf(["-e", "0"]), own: startOf(words) }));
    const ratio = median(pairs.map(({ bare, own }) => own / bare)).toFixed(2);
    const own = median(pairs.map((pair) => pair.own)).toFixed(0);
    const bare = median(pairs.map((pair) => pair.bare)).toFixed(0);
    print(`  ${ratio} x  ${name}${target === null ? "" : ` (target ${target})`}: ${own} ms to ${bare} ms`);
  }
}

/** Loaded before the program: as many cores as it may have; as its last words the most memory and the processor time it took, in kB and µs. */
const MEASURED = `require("node:os").availableParallelism = () => Number(process.env.BENCH_CORES);
process.on("exit", () => {
  const { maxRSS, userCPUTime, systemCPUTime } = process.resourceUsage();
  require("node:fs").writeSync(2, "\\n" + maxRSS + " " + (userCPUTime + systemCPUTime));
});`;

/** Words before a command that keep all its threads, those of the engine too, on so many cores; none where that cannot be said. */
function pinnedTo(cores) {
  const words = ["taskset", "-c", `0-${cores - 1}`];
  return spawnSync(words[0], [...words.slice(1), "true"]).status === 0 ? words : [];
}

/** `check` of the first `count` plans of a folder: milliseconds a plan by the clock and of processors, and MB. */
function checkedMany(folder, count, cores) {
  const words = ["-r", join(folder, "measured.cjs"), program, "check", "-q", "-f", "unix", join(folder, String(count))];
  const [first, ...more] = [...pinnedTo(cores), process.execPath, ...words];
  const from = process.hrtime.bigint();
  const { status, stderr } = spawnSync(first, more, {
    env: { ...env, BENCH_CORES: String(cores) },
    stdio: ["ignore", "ignore", "pipe"],
    encoding: "utf8",
  });
  if (status !== 0) throw new Error(`check of ${count} plans ended with ${status}: ${stderr}`);
  const each = Number(process.hrtime.bigint() - from) / 1e6 / count;
  const [most, cpu] = stderr.split("\n").at(-1).split(" ").map(Number);
  return { each, most: most / 1024, cpu: cpu / 1000 / count };
}

/** Two thousand plans, on one core and on two; and whether memory grows from a fifth of them to all. */
function benchMany() {
  const folder = mkdtempSync(join(tmpdir(), "daywright-bench-"));
  const plan = readFileSync(SMALLEST, "utf8");
  // A date each: plans of one day and one crew would all be said to clash with each other.
  const dated = (day) => plan.replace("2027-01-20", new Date(Date.UTC(2027, 0, 1 + day)).toISOString().slice(0, 10));
  try {
    writeFileSync(join(folder, "measured.cjs"), MEASURED);
    for (const count of [400, 2000]) {
      mkdirSync(join(folder, String(count)));
      for (let at = 0; at < count; at++) writeFileSync(join(folder, String(count), `${at + 10_000}.yaml`), dated(at));
    }
    const cores = Math.min(2, availableParallelism());
    const pairs = Array.from({ length: 3 }, () => ({
      one: checkedMany(folder, 2000, 1),
      all: checkedMany(folder, 2000, cores),
      few: checkedMany(folder, 400, 1),
    }));
    const of = (read) => median(pairs.map(read));
    print(`check of 2,000 plans, one process${pinnedTo(1).length === 0 ? ", threads of the engine on any core" : ""}`);
    print(
      `  ${of(({ one, all }) => one.each / all.each).toFixed(2)} x  as fast on ${cores} cores as on one (target 1.7)`,
    );
    print(
      `  ${of(({ one, all }) => (2 * one.cpu) / all.cpu).toFixed(2)} x  the most that its processor time allows for`,
    );
    print(`  ${of(({ one, few }) => one.most / few.most).toFixed(2)} x  the memory that 400 take, on one core`);
    for (const [name, read] of [
      ["one core", ({ one }) => one],
      [`${cores} cores`, ({ all }) => all],
    ]) {
      const [each, cpu] = [of((pair) => read(pair).each), of((pair) => read(pair).cpu)];
      print(`  ${each.toFixed(2)} ms a plan on ${name}, ${cpu.toFixed(2)} ms of processors`);
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** A day of eight people in four vehicles: two hits each at piers of their own, a meal, cameras on packs that are swapped. */
function dayOfEight(date) {
  const numbers = [1, 2, 3, 4];
  const clock = (hour, n) => `"${String(hour).padStart(2, "0")}:${n}0"`;
  return `daywright: 1
date: ${date}
clock: America/New_York
zone: America/Chicago
crew:
${numbers.map((n) => `  driver${n}: { role: camera, drives: wagon${n} }\n  reporter${n}: { role: reporter }`).join("\n")}
vehicles: { ${numbers.map((n) => `wagon${n}: { inverter: 300 W }`).join(", ")} }
places:
  lodge: { at: [46.6, -90.88], mains: true, shelter: true }
${numbers.map((n) => `  pier${n}: { at: [46.8${n}, -90.8${n}] }`).join("\n")}
roads:
${numbers.map((n) => `  - { link: [lodge, pier${n}], drive: 3${n} min, bad: 5${n} min, km: 40 }`).join("\n")}
hits:
${numbers.map((n) => `  dawn${n}: { at: ${clock(8, n)}, for: 3 min, place: pier${n}, who: [driver${n}, reporter${n}] }\n  noon${n}: { at: ${clock(12, n)}, for: 5 min, place: pier${n}, who: [driver${n}, reporter${n}] }`).join("\n")}
tasks:
${numbers.map((n) => `  lunch${n}: { kind: meal, what: lunch, for: 30 min, place: pier${n}, window: [${clock(10, n)}, ${clock(12, n)}], who: [driver${n}, reporter${n}] }`).join("\n")}
kit: { ${numbers.map((n) => `camera${n}: { in: wagon${n}, watts: 45, mount: v, during: hits }`).join(", ")} }
packs: { ${numbers.map((n) => `brick${n}: { count: 2, wh: 98, mount: v, charge: 90%, in: wagon${n} }`).join(", ")} }
chargers: { ${numbers.map((n) => `slots${n}: { mount: v, slots: 2, watts: 70, in: wagon${n} }`).join(", ")} }
runs: { ${numbers.map((n) => `wagon${n}: { driver: driver${n}, aboard: [driver${n}, reporter${n}], stops: [lodge, { place: pier${n}, do: [dawn${n}, lunch${n}, noon${n}] }, lodge] }`).join(", ")} }
`;
}

/** A hundred days of eight people and four vehicles, each a plan of its own; against another build of the program where one is named. */
function benchDays() {
  const folder = mkdtempSync(join(tmpdir(), "daywright-bench-"));
  try {
    for (let day = 0; day < 100; day++) {
      const date = new Date(Date.UTC(2027, 0, 1 + day)).toISOString().slice(0, 10);
      writeFileSync(join(folder, `${date}.yaml`), dayOfEight(date));
    }
    const other = process.env["DAYWRIGHT_BENCH_AGAINST"];
    print("check of 100 days of eight people and four vehicles, one process");
    for (const script of [program, ...(other === undefined ? [] : [other])]) {
      const each = Array.from({ length: 5 }, () => {
        const bare = startOf([script, "--version"]);
        return (startOf([script, "check", "-q", "-f", "unix", folder]) - bare) / 100;
      });
      print(`  ${median(each).toFixed(1)} ms a day${script === program ? "" : `, ${script}`}`);
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Where the time of two checks goes. */
function benchParts() {
  for (const words of [
    [program, "check", SMALLEST],
    [program, "check", DEMO],
  ]) {
    print(`parts of ${words.slice(1).join(" ").replace(root, "")}, ms with the profiler on`);
    for (const [name, milliseconds] of partsOfTime(words, env))
      print(`  ${milliseconds.toFixed(1).padStart(6)}  ${name}`);
  }
}

/** Compiles the benches, so that they measure what the program runs and not a transformer. */
async function compiled(files, folder) {
  const { build: bundleWith } = await import("esbuild");
  const entryPoints = [...files, "bench.ts"].map((file) => join(root, "tests", "bench", file));
  await bundleWith({
    entryPoints,
    bundle: true,
    platform: "node",
    target: "node20",
    format: "esm",
    packages: "external",
    outdir: folder,
    outExtension: { ".js": ".mjs" },
  });
  return (file) => import(pathToFileURL(join(folder, file.replace(/\.ts$/, ".mjs"))).href);
}

async function benchWork(files) {
  // Beside the packages, so that what stays outside the bundle is found.
  const folder = mkdtempSync(join(root, "node_modules", ".bench-"));
  try {
    const load = await compiled(files, folder);
    const { yardstick } = await load("bench.ts");
    for (const file of files) {
      print(`${file.replace(".bench.ts", "")}, multiples of the yardstick a unit`);
      for (const bench of (await load(file)).benches) await report(bench, yardstick);
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
}

async function timed(action) {
  const from = process.hrtime.bigint();
  await action();
  return Number(process.hrtime.bigint() - from) / 1e6;
}

async function report(bench, yardstick) {
  for (let i = 0; i < 3; i++) await timed(() => bench.run());
  const rounds = [];
  for (let i = 0; i < ROUNDS; i++) rounds.push({ yard: await timed(yardstick), own: await timed(() => bench.run()) });
  const ratio = median(rounds.map(({ yard, own }) => own / yard / bench.units));
  const each = median(rounds.map(({ own }) => own)) / bench.units;
  const rate = bench.rate === true ? `, ${(1000 / each).toFixed(0)} a second` : "";
  print(`  ${ratio.toPrecision(3)} x  ${bench.name}: ${each.toPrecision(3)} ms${rate}`);
}

const wanted = process.argv.slice(2);
const picked = (name) => wanted.length === 0 || wanted.some((word) => name.includes(word));
const files = readdirSync(join(root, "tests", "bench")).filter((name) => name.endsWith(".bench.ts") && picked(name));
if (picked("start")) {
  if (isStale()) await build();
  benchStarts();
}
if (picked("parts")) {
  if (isStale()) await build();
  benchParts();
}
if (picked("many")) {
  if (isStale()) await build();
  benchMany();
}
if (picked("days")) {
  if (isStale()) await build();
  benchDays();
}
if (files.length > 0) await benchWork(files.sort());
