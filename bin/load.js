/**
 * Loads the scripts of the program with V8's code caches, which save the compiling of everything that a command touches.
 *
 * The build makes one cache a script and command by running it once; where an install could not, the first run of a command makes it
 * in the user's own cache folder. V8 refuses a cache of another version or of other flags, and the bundle is then compiled
 * as usual. Its check of the source is by length alone, hence the stamp of the bundle at a cache's end.
 */
"use strict";
const { readFileSync } = require("node:fs");
const { createRequire } = require("node:module");
const { basename } = require("node:path");
const { Script } = require("node:vm");

/** Letters at a script's beginning, a comment with the hash of all scripts, that a cache made for it repeats. */
const STAMP_LENGTH = 20;

const stampOf = (source) => source.slice(0, STAMP_LENGTH);

const isCommand = (word) => /^[a-z]+$/.test(word ?? "");

/** A cache file that is of this build; undefined for any other. */
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

/** Caches of other commands that serve one without its own: what commands share is most of what they run. */
const standIns = (command) => (isCommand(command) ? [command, "check"] : ["help"]);

/** The cache beside a script that fits a command. */
function cacheBeside(path, source, command) {
  for (const name of standIns(command)) {
    const found = stored(`${path}.${name}.cache`, source);
    if (found !== undefined) return found;
  }
  return undefined;
}

/**
 * Functions earn their optimising at nine times V8's usual budget: a command that ends after 50 ms otherwise spends as much again
 * on optimised code that hardly runs, and a long search is delayed by a few milliseconds. The young space grows at once to what
 * a day needs, and marking waits until it must: a command ends before it is worth its while. Part of what a cache must match.
 */
const SHORT_RUN = ["--interrupt-budget=600000", "--semi-space-growth-factor=8", "--no-incremental-marking"];

function tuneForShortRun(command) {
  if (!process.versions.v8.startsWith("11.") || !/^[a-z]/.test(command ?? "")) return;
  for (const flag of SHORT_RUN) require("node:v8").setFlagsFromString(flag);
}

/** A script compiled with its cache, if there is one: `own` is the file that its cache belongs in if it stands nowhere else. */
function compiled(path, command, cached) {
  // The scripts are plain ASCII, which Latin-1 reads without decoding and V8 keeps as one byte a letter.
  const source = readFileSync(path, "latin1");
  const beside = cached ? cacheBeside(path, source, command) : undefined;
  const own =
    cached && beside === undefined
      ? require("./userCache.js").userCache(stampOf(source), command, basename(path, ".cjs"))
      : null;
  const cachedData = beside ?? (own === null ? undefined : stored(own, source));
  const script = new Script(source, { filename: path, cachedData });
  return {
    path,
    own: cachedData === undefined || script.cachedDataRejected === true ? own : null,
    run: () => script.runInThisContext(),
    bytes: () => Buffer.concat([script.createCachedData(), Buffer.from(stampOf(source), "latin1")]),
  };
}

/**
 * Compiles and runs the bundle for a command, and its further scripts when it asks for them; `cached` is false for the run that
 * makes caches beside them. `caches` gives those of all scripts so far, `keep` writes those that the user's folder lacks.
 */
function load(bundle, command, cached = true) {
  tuneForShortRun(command);
  const scripts = [];
  const opened = (path) => {
    const script = compiled(path, command, cached);
    scripts.push(script);
    return script.run();
  };
  const further = (name) => opened(bundle.replace(/cjs$/, `${name}.cjs`));
  const exports = opened(bundle)(createRequire(bundle), further);
  const keep = () => {
    for (const { own, bytes } of scripts) if (own !== null) require("./userCache.js").keepCache(own, bytes());
  };
  return { exports, caches: () => scripts, keep };
}

module.exports = { load };
