/**
 * Writes the names of the parts that one command of a script runs, as JSON (`node bin/partsRun.js SCRIPT TARGET COMMAND…`; the
 * build starts it and throws the output away).
 */
"use strict";
const { writeFileSync } = require("node:fs");
const { load } = require("./load.js");

const [script, target, ...command] = process.argv.slice(2);
process.argv.splice(2, process.argv.length, ...command);
const { main, loaded } = load(script, command[0], false).exports;
main(command).then(() => {
  writeFileSync(target, JSON.stringify([...loaded.keys()]));
  process.exitCode = 0;
});
