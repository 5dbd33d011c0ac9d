/** Runs mutants that `mutate.mjs` writes to its input, one a line: loads the compiled tests with the change, stops at a failure. */
import { readFileSync, unlinkSync, writeFileSync } from "node:fs";
import { createInterface } from "node:readline";
import { pathToFileURL } from "node:url";
import { declared } from "./mutateExpect.mjs";

const path = process.argv[2] ?? "";
const text = readFileSync(path, "utf8");

async function runFile(name, load) {
  Object.assign(declared, { file: name, tests: [], before: [], after: [], each: [], eachAfter: [] });
  await load();
  const { tests, before, after, each, eachAfter } = declared;
  for (const run of before) await run();
  for (const { run } of tests) {
    for (const first of each) await first();
    await run();
    for (const last of eachAfter) await last();
  }
  for (const run of after) await run();
}

/** `through`: goes on after a file that fails, which is named in `left`. */
async function tried({ files, at = 0, length = 0, put = "", through = false }, n) {
  const own = `${path}.${process.pid}.${n}.mjs`;
  writeFileSync(own, text.slice(0, at) + put + text.slice(at + length));
  const [took, left] = [[], []];
  try {
    const loads = new Map((await import(pathToFileURL(own).href)).files);
    for (const file of files) {
      const begin = process.cpuUsage();
      const why = await runFile(file, loads.get(file)).then(() => null, String);
      if (why === null) took.push([file, Math.round(process.cpuUsage(begin).user / 1000)]);
      else left.push([file, why]);
      if (why !== null && !through) return { failed: `${file}: ${why.slice(0, 300)}`, took, left };
    }
    return { failed: null, took, left };
  } catch (error) {
    return { failed: `loading: ${String(error).slice(0, 300)}`, took, left };
  } finally {
    unlinkSync(own);
  }
}

process.on("unhandledRejection", () => process.exit(1));
let n = 0;
for await (const line of createInterface({ input: process.stdin })) {
  process.stdout.write(`${JSON.stringify(await tried(JSON.parse(line), n++))}\n`);
}
