/**
 * Makes one file of the whole built program, the solver in it, for a machine without npm (`npm run build -- --single`):
 * `dist/single/daywright.cjs`, started by `node daywright.cjs check day.yaml`.
 */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";

const expressionOf = (text) => text.trimEnd().replace(/;$/, "");

export function buildSingle(dist) {
  const read = (name) => readFileSync(join(dist, name), "latin1");
  const further = readdirSync(dist).flatMap((name) => {
    const script = /^daywright\.(\w+)\.cjs$/.exec(name);
    return script === null ? [] : [`${script[1]}: () => ${expressionOf(read(name))}`];
  });
  const wasm = gzipSync(readFileSync(join(dist, "highs.wasm")), { level: 9 }).toString("base64");
  const text = `#!/usr/bin/env node
"use strict";
const scripts = {
${further.join(",\n")}
};
function solverOf(module, exports) {
${readFileSync(join(dist, "highs.cjs"), "utf8")}
}
const wasmBinary = () => require("node:zlib").gunzipSync(Buffer.from("${wasm}", "base64"));
const instantiateWasm = (imports, done) => {
  WebAssembly.instantiate(wasmBinary(), imports).then(({ instance }) => done(instance));
};
function load(name) {
  if (name !== "./highs.cjs") return require(name);
  const module = { exports: {} };
  solverOf(module, module.exports);
  return (options) => module.exports({ ...options, instantiateWasm });
}
const program = ${expressionOf(read("daywright.cjs"))}(load, (name) => scripts[name]());
program.main(process.argv.slice(2)).then((code) => {
  process.exitCode = code;
});
`;
  mkdirSync(join(dist, "single"), { recursive: true });
  writeFileSync(join(dist, "single", "daywright.cjs"), text, { mode: 0o755 });
}
