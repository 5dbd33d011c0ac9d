/** Runs what `mutate.mjs` writes to its input, one a line: loads the compiled tests with a change and stops at a failure. */
import { readFileSync, unlinkSync, writeFileSync } from "node:fs";
import { Session } from "node:inspector/promises";
import { createInterface } from "node:readline";
import { pathToFileURL } from "node:url";
import { declared } from "./mutateExpect.mjs";

const path = process.argv[2] ?? "";
const text = readFileSync(path, "utf8");
const why = (error) => String(error).slice(0, 300);

/** The compiled tests with a change: `file(name)` has the tests that a test file declares, its first steps done. */
async function loaded(n, { at = 0, length = 0, put = "" }) {
  const own = `${path}.${process.pid}.${n}.mjs`;
  writeFileSync(own, text.slice(0, at) + put + text.slice(at + length));
  try {
    const url = pathToFileURL(own).href;
    const loads = new Map((await import(url)).files);
    const files = new Map();
    const file = async (name) => {
      const kept = files.get(name);
      if (kept !== undefined) return kept;
      const fresh = { file: name, tests: [], before: [], after: [], each: [], eachAfter: [] };
      files.set(name, fresh);
      Object.assign(declared, fresh);
      await loads.get(name)();
      for (const run of fresh.before) await run();
      return fresh;
    };
    return { url, file, files };
  } finally {
    unlinkSync(own);
  }
}

async function runTest(file, index) {
  declared.file = file.file;
  for (const first of file.each) await first();
  await file.tests[index].run();
  for (const last of file.eachAfter) await last();
}

async function changed(question, n) {
  let by = null;
  const whole = await loaded(n, question).catch((error) => ({ error }));
  if (whole.error !== undefined) return { failed: `loading: ${why(whole.error)}`, by };
  try {
    for (const [name, index] of question.run) {
      by = [name, index];
      await runTest(await whole.file(name), index);
      process.stdout.write("\n");
    }
    return { failed: null };
  } catch (error) {
    return { failed: `${by?.[0]}: ${why(error)}`, by };
  } finally {
    for (const { after } of whole.files.values()) for (const run of after) await run();
  }
}

/** Numbers of the places that ran since the last question. */
async function reachedNow(session, url, places) {
  const { result } = await session.post("Profiler.takePreciseCoverage");
  const functions = result.find((one) => one.url === url)?.functions ?? [];
  const on = new Uint8Array(places.length);
  const from = (offset) => {
    let [low, high] = [0, places.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (places[middle] < offset) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  for (const { ranges } of functions)
    for (const { startOffset, endOffset, count } of ranges)
      on.fill(count > 0 ? 1 : 0, from(startOffset), from(endOffset));
  return [...on.keys()].filter((place) => on[place] === 1);
}

/** Every test once without a change: how long it takes and which places it reaches. */
async function counted({ counted: placesFile, files }, n) {
  const places = JSON.parse(readFileSync(placesFile, "utf8"));
  const session = new Session();
  session.connect();
  await session.post("Profiler.enable");
  await session.post("Profiler.startPreciseCoverage", { callCount: true, detailed: true });
  const { url, file } = await loaded(n, {});
  for (const name of files) {
    const [tests, left] = [[], []];
    const one = await file(name).catch((error) => void left.push([name, why(error)]));
    const atLoad = await reachedNow(session, url, places);
    for (const [index, { name: title }] of (one?.tests ?? []).entries()) {
      const begin = process.cpuUsage();
      const failed = await runTest(one, index).then(() => null, why);
      const ms = Math.round(process.cpuUsage(begin).user / 1000);
      // What the file works out before its tests begin is looked at by all of them.
      const reached = [...new Set([...atLoad, ...(await reachedNow(session, url, places))])];
      if (failed === null) tests.push({ file: name, index, name: title, ms, reached });
      else left.push([`${name} ${title}`, failed]);
      process.stdout.write("\n");
    }
    process.stdout.write(`${JSON.stringify({ name, tests, left, loaded: atLoad })}\n`);
  }
  return { done: true };
}

process.on("unhandledRejection", () => process.exit(1));
let n = 0;
for await (const line of createInterface({ input: process.stdin })) {
  const question = JSON.parse(line);
  const answer = await (question.counted === undefined ? changed(question, n++) : counted(question, n++));
  process.stdout.write(`${JSON.stringify(answer)}\n`);
}
