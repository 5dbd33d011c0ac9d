/**
 * Makes one file of the whole built program, the solver in it, for a machine without npm (`npm run build -- --single`):
 * `dist/single/daywright.cjs`, started by `node daywright.cjs check day.yaml`.
 */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";

const asFunction = (code) => `function (module, exports, require) {\n${code}\n}`;

export function buildSingle(dist) {
  const apart = readdirSync(dist).filter((name) => name.endsWith(".cjs") && name !== "daywright.cjs");
  const modules = apart.map(
    (name) => `${JSON.stringify(`./${name}`)}: ${asFunction(readFileSync(join(dist, name), "utf8"))}`,
  );
  const wasm = gzipSync(readFileSync(join(dist, "highs.wasm")), { level: 9 }).toString("base64");
  const bundle = readFileSync(join(dist, "daywright.cjs"), "latin1");
  const text = `#!/usr/bin/env node
"use strict";
const wasmBinary = () => require("node:zlib").gunzipSync(Buffer.from("${wasm}", "base64"));
const modules = {
${modules.join(",\n")}
};
function load(name) {
  if (!Object.hasOwn(modules, name)) return require(name);
  const module = { exports: {} };
  modules[name](module, module.exports, require);
  if (name !== "./highs.cjs") return module.exports;
  const instantiateWasm = (imports, done) => {
    WebAssembly.instantiate(wasmBinary(), imports).then(({ instance }) => done(instance));
  };
  const solver = (options) => module.exports({ ...options, instantiateWasm });
  return Object.assign(solver, { default: solver });
}
const program = { exports: {} };
(${bundle.trimEnd().replace(/;$/, "")})(program.exports, load, program);
program.exports.main(process.argv.slice(2)).then((code) => {
  process.exitCode = code;
});
`;
  mkdirSync(join(dist, "single"), { recursive: true });
  writeFileSync(join(dist, "single", "daywright.cjs"), text, { mode: 0o755 });
}
