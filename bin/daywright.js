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

const start = () =>
  require("./load.js")
    .load(bundle, process.argv[2])
    .exports.main(process.argv.slice(2))
    .then((code) => {
      process.exitCode = code;
    });

if (existsSync(bundle)) start();
else import("./build.mjs").then(({ build }) => build()).then(start);
