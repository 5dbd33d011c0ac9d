/**
 * Runs one command of a fresh bundle and stores V8's code caches of what it compiled (`node bin/warm.js BUNDLE COMMAND…`; the
 * build starts it and throws the output away).
 */
"use strict";
const { writeFileSync } = require("node:fs");
const { load } = require("./load.js");

const [bundle, name, ...command] = process.argv.slice(2);
process.argv.splice(2, process.argv.length, ...command);
const { exports: program, caches } = load(bundle, command[0], false);
program.main(command).then((code) => {
  if (code !== 2 && code !== 70)
    for (const { path, bytes } of caches()) writeFileSync(`${path}.${name}.cache`, bytes());
  process.exitCode = 0;
});
