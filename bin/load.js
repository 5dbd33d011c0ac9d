/**
 * Loads the bundle with V8's code cache, which saves the compiling of everything that a command touches.
 *
 * The build makes one cache a command by running it once; where an install could not, the first run of a command makes it
 * in the user's own cache folder. V8 refuses a cache of another version or of other flags, and the bundle is then compiled
 * as usual. Its check of the source is by length alone, hence the stamp of the bundle at a cache's end.
 */
"use strict";
const { readFileSync } = require("node:fs");
const { createRequire } = require("node:module");
const { Script } = require("node:vm");

/** Letters at the bundle's beginning, a comment with the hash of the rest, that a cache made for it repeats. */
const STAMP_LENGTH = 20;

const stampOf = (source) => source.slice(0, STAMP_LENGTH);

const isCommand = (word) => /^[a-z]+$/.test(word ?? "");

/** A cache file that is of this bundle; undefined for any other. */
function stored(path, source) {
  try {
    const bytes = readFileSync(path);
    const end = bytes.length - STAMP_LENGTH;
    return bytes.latin1Slice(end) === stampOf(source) ? bytes.subarray(0, end) : undefined;
  } catch {
    // No such cache, or not readable: going on without one only costs time.
    return undefined;
  }
}

/** The cache that fits a command: its own, else the one of the help, whose part every command shares. */
function cacheBeside(bundle, source, command) {
  return (
    (isCommand(command) ? stored(`${bundle}.${command}.cache`, source) : undefined) ??
    stored(`${bundle}.help.cache`, source)
  );
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

/** Compiles and runs the bundle for a command; `cached` is false for the run that makes a cache beside it. */
function load(bundle, command, cached = true) {
  optimiseLater(command);
  // The bundle is plain ASCII, which Latin-1 reads without decoding and V8 keeps as one byte a letter.
  const source = readFileSync(bundle, "latin1");
  const beside = cached ? cacheBeside(bundle, source, command) : undefined;
  const own = cached && beside === undefined ? require("./userCache.js").userCache(stampOf(source), command) : null;
  const cachedData = beside ?? (own === null ? undefined : stored(own, source));
  const script = new Script(source, { filename: bundle, cachedData });
  const program = { exports: {} };
  script.runInThisContext()(program.exports, createRequire(bundle), program);
  const cache = () => Buffer.concat([script.createCachedData(), Buffer.from(stampOf(source), "latin1")]);
  const missing = cachedData === undefined || script.cachedDataRejected === true;
  const keep = () => own !== null && missing && require("./userCache.js").keepCache(own, cache());
  return { exports: program.exports, cache, keep };
}

module.exports = { load };
