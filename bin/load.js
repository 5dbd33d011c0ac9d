/**
 * Loads the bundle with V8's code cache, which saves the compiling of everything that a command touches.
 *
 * The build makes one cache a command by running it once. V8 refuses a cache of another version or of other flags, and the
 * bundle is then compiled as usual. Its check of the source is by length alone, hence the stamp of the bundle at a
 * cache's end.
 */
"use strict";
const { readFileSync } = require("node:fs");
const { createRequire } = require("node:module");
const { Script } = require("node:vm");

/** Letters at the bundle's beginning, a comment with the hash of the rest, that a cache made for it repeats. */
const STAMP_LENGTH = 20;

const stampOf = (source) => source.slice(0, STAMP_LENGTH);

/** The cache that fits a command: its own, else the one of the help, whose part every command shares. */
function cacheOf(bundle, source, command) {
  const own = /^[a-z]+$/.test(command ?? "") ? [command, "help"] : ["help"];
  for (const name of own) {
    try {
      const stored = readFileSync(`${bundle}.${name}.cache`);
      const end = stored.length - STAMP_LENGTH;
      if (stored.latin1Slice(end) === stampOf(source)) return stored.subarray(0, end);
    } catch {
      // No such cache, or not readable: going on without one only costs time.
    }
  }
  return undefined;
}

/**
 * Functions earn their optimising at eight times V8's usual budget. A command that ends after 50 ms otherwise spends as much
 * again on optimised code that hardly runs; a long search is delayed by a few milliseconds. Part of what a cache must match.
 */
function optimiseLater(command) {
  if (process.versions.v8.startsWith("11.") && /^[a-z]/.test(command ?? "")) {
    require("node:v8").setFlagsFromString("--interrupt-budget=1000000");
  }
}

/** Compiles and runs the bundle for a command; `cached` is false for the run that makes a cache. */
function load(bundle, command, cached = true) {
  optimiseLater(command);
  // The bundle is plain ASCII, which Latin-1 reads without decoding and V8 keeps as one byte a letter.
  const source = readFileSync(bundle, "latin1");
  const cachedData = cached ? cacheOf(bundle, source, command) : undefined;
  const script = new Script(source, { filename: bundle, cachedData });
  const program = { exports: {} };
  script.runInThisContext()(program.exports, createRequire(bundle), program);
  const cache = () => Buffer.concat([script.createCachedData(), Buffer.from(stampOf(source), "latin1")]);
  return { exports: program.exports, cache };
}

module.exports = { load };
