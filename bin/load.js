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
const { dirname } = require("node:path");
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

/** Compiles and runs the bundle, with the cache of `command` where there is one; null asks for none. */
function load(bundle, command) {
  // The bundle is plain ASCII, which Latin-1 reads without decoding and V8 keeps as one byte a letter.
  const source = readFileSync(bundle, "latin1");
  const cachedData = command === null ? undefined : cacheOf(bundle, source, command);
  const wrapped = `(function (exports, require, module, __filename, __dirname) {${source}\n})`;
  const script = new Script(wrapped, { filename: bundle, cachedData });
  const program = { exports: {} };
  script.runInThisContext()(program.exports, createRequire(bundle), program, bundle, dirname(bundle));
  const cache = () => Buffer.concat([script.createCachedData(), Buffer.from(stampOf(source), "latin1")]);
  return { exports: program.exports, cache };
}

module.exports = { load };
