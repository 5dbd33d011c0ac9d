/**
 * The user's own folder of code caches, for an install whose folder holds none. A cache is code that runs: the folder must
 * be the user's own and closed to everyone else, or it is not used. Its absence costs only time.
 */
"use strict";
const fs = require("node:fs");
const { homedir } = require("node:os");
const { isAbsolute, join } = require("node:path");

/** Where the system keeps caches. */
function cacheHome({ env, platform }) {
  if (platform === "win32") return env.LOCALAPPDATA ?? join(homedir(), "AppData", "Local");
  if (env.XDG_CACHE_HOME?.startsWith("/")) return env.XDG_CACHE_HOME;
  return platform === "darwin" ? join(homedir(), "Library", "Caches") : join(homedir(), ".cache");
}

/** Whether a folder is a real one, the user's own, and closed to others; systems without owners have closed it themselves. */
function isOwn(folder) {
  const stats = fs.lstatSync(folder);
  if (!stats.isDirectory()) return false;
  return process.getuid === undefined || (stats.uid === process.getuid() && (stats.mode & 0o077) === 0);
}

/** The file of a script's cache for a command: named by the build's hash, Node's version and the architecture too. Null where none may be used. */
function userCache(stamp, command, script) {
  if (!/^[a-z]+$/.test(command ?? "")) return null;
  try {
    const folder = join(cacheHome(process), "daywright");
    // An empty HOME would put it in whatever folder the command runs in.
    if (!isAbsolute(folder)) return null;
    fs.mkdirSync(folder, { recursive: true, mode: 0o700 });
    if (!isOwn(folder)) return null;
    const hash = stamp.replace(/[^0-9a-f]/g, "");
    return join(folder, `${hash}-${process.version}-${process.arch}-${command}-${script}.cache`);
  } catch {
    return null;
  }
}

/** Writes a cache whole or not at all, and removes those of other builds and versions. */
function keepCache(path, bytes) {
  const fresh = `${path}.${process.pid}`;
  try {
    fs.writeFileSync(fresh, bytes, { flag: "wx", mode: 0o600 });
    fs.renameSync(fresh, path);
    const folder = join(path, "..");
    const current = path
      .slice(folder.length + 1)
      .split("-")
      .slice(0, 3)
      .join("-");
    for (const name of fs.readdirSync(folder))
      if (name.endsWith(".cache") && !name.startsWith(current)) fs.rmSync(join(folder, name), { force: true });
  } catch {
    fs.rmSync(fresh, { force: true });
  }
}

module.exports = { userCache, keepCache };
