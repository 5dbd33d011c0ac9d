#!/usr/bin/env node
/**
 * Starts the program and sets the exit code; nothing else.
 *
 * CommonJS, because Node 20 starts a CommonJS file in four fifths of the time of a module (bin/package.json says so). A
 * checkout without a build, as `npm ci --ignore-scripts` leaves it, is built here once.
 */
"use strict";
const { existsSync } = require("node:fs");
const { join } = require("node:path");

const bundle = join(__dirname, "..", "dist", "daywright.cjs");

function start() {
  const { exports: program, keep } = require("./load.js").load(bundle, process.argv[2]);
  return program.main(process.argv.slice(2)).then((code) => {
    process.exitCode = code;
    // What went wrong has not touched all that the command usually does.
    if (code === 0 || code === 1) keep();
  });
}

if (existsSync(bundle)) start();
else import("./build.mjs").then(({ build }) => build()).then(start);
