/**
 * Writes a file so that at any moment, also after a kill or a power cut, it is the old one or the new one.
 *
 * The text goes into a file beside it, reaches the disk, and takes the old one's place by a rename within the folder. The
 * rename would lose what belongs to the place and not to the text, so the mode, the owner and links are kept.
 */
import * as fs from "node:fs";
import { basename, dirname, join } from "node:path";
import { IoError, systemCodeOf } from "./io.ts";
import { readFile } from "./readFile.ts";

/** What must stand at the path for the write to go on: nothing yet, whatever there is, or exactly these bytes. */
export type ExpectedContent = "nothing" | "anything" | Uint8Array;

/** How often a busy file is tried again, and the pause between, ms. */
const ATTEMPTS = 10;
const PAUSE = 50;
const BUSY: ReadonlySet<string> = new Set(["EPERM", "EACCES", "EBUSY"]);

const stateOf = (path: string): fs.Stats | null => fs.statSync(path, { throwIfNoEntry: false }) ?? null;

/**
 * Writes all of `text` or nothing. Throws an IoError where the file is not as `before` says, and Node's own error where
 * the file system refuses. A device or a pipe is written to as it is: there is nothing to keep whole.
 */
export function writeFile(path: string, text: string, before: ExpectedContent): void {
  const old = stateOf(path);
  if (old !== null && !old.isFile() && !old.isDirectory()) {
    fs.writeFileSync(path, text);
    return;
  }
  // A link goes on pointing at the file it points at.
  const target = old === null ? path : fs.realpathSync(path);
  removeLeftovers(target);
  // No two runs share a process and a moment; `wx` would refuse the name if they did.
  const beside = join(
    dirname(target),
    `.${basename(target)}.${process.pid}.${process.hrtime.bigint().toString(36)}.tmp`,
  );
  try {
    writeThrough(beside, text, old);
    if (before === "nothing") placeNew(beside, target);
    else replace(beside, target, before, old);
    syncFolder(dirname(target));
  } finally {
    fs.rmSync(beside, { force: true });
  }
}

/** Writes a new file and waits until the disk has it, since a rename may reach the disk before what was written. */
function writeThrough(path: string, text: string, old: fs.Stats | null): void {
  const file = fs.openSync(path, "wx", 0o666);
  try {
    fs.writeFileSync(file, text);
    if (old !== null) {
      keepOwner(file, old);
      fs.fchmodSync(file, old.mode & 0o7777);
    }
    fs.fsyncSync(file);
  } finally {
    fs.closeSync(file);
  }
}

/** Root editing another's file leaves it theirs; anyone else may not give files away, and keeps what they can write. */
function keepOwner(file: number, old: fs.Stats): void {
  const own = fs.fstatSync(file);
  if (own.uid === old.uid && own.gid === old.gid) return;
  try {
    fs.fchownSync(file, old.uid, old.gid);
  } catch {
    // Not permitted: the file then belongs to whoever writes, as with any editor that renames.
  }
}

/** Takes the place only if it is free: a second name fails where a file is, also one that appeared a moment ago. */
function placeNew(beside: string, target: string): void {
  try {
    fs.linkSync(beside, target);
  } catch (error) {
    if (systemCodeOf(error) === "EEXIST") throw new IoError(target, "there is already a file");
    if (stateOf(target) !== null) throw error;
    // A file system without second names: a rename is the next best, at the risk of a file that appears right now.
    fs.renameSync(beside, target);
  }
}

function replace(beside: string, target: string, before: Uint8Array | "anything", old: fs.Stats | null): void {
  // Of two that write at once at least one sees the other's file, and what one has renamed the other no longer holds.
  const others = before === "anything" ? [] : writersOf(target);
  const other = others.find(({ name, id }) => name !== basename(beside) && !isGone(id));
  // The id of a run that was killed may be another program's by now, so its file is named.
  if (other !== undefined)
    throw new IoError(
      target,
      `another run is writing the file; nothing was written (if none is, remove ${other.name} beside it)`,
    );
  if (before !== "anything" && !holds(target, before)) {
    throw new IoError(target, "the file changed meanwhile; nothing was written");
  }
  if (old !== null && old.nlink > 1) overwrite(target, fs.readFileSync(beside));
  else whileBusy(() => fs.renameSync(beside, target));
}

/** A file with further names keeps them only if it is written where it is; the whole text lies beside it meanwhile. */
function overwrite(target: string, bytes: Uint8Array): void {
  const file = fs.openSync(target, "r+");
  try {
    let at = 0;
    while (at < bytes.length) at += fs.writeSync(file, bytes, at, bytes.length - at, at);
    fs.ftruncateSync(file, bytes.length);
    fs.fsyncSync(file);
  } finally {
    fs.closeSync(file);
  }
}

/**
 * Windows refuses to replace a file that another program holds open for a moment, as scanners do: tried again, ten times at
 * most. Elsewhere, and for any other refusal, the first one counts.
 */
export function whileBusy(rename: () => void, system: NodeJS.Platform = process.platform, wait = pause): void {
  for (let attempt = 0; ; attempt += 1) {
    try {
      rename();
      return;
    } catch (error) {
      if (attempt === ATTEMPTS || !BUSY.has(systemCodeOf(error)) || system !== "win32") throw error;
      wait();
    }
  }
}

function pause(): void {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, PAUSE);
}

/** The file beside it of a write that was killed: its process is gone, so no one will finish it. */
function removeLeftovers(target: string): void {
  try {
    for (const { name, id } of writersOf(target))
      if (isGone(id)) fs.rmSync(join(dirname(target), name), { force: true });
  } catch {
    // A leftover that cannot be removed stops no write.
  }
}

/** The files beside it that runs write before they take its place, with the ids of their processes. */
function writersOf(target: string): readonly { readonly name: string; readonly id: number }[] {
  const start = `.${basename(target)}.`;
  try {
    return fs.readdirSync(dirname(target)).flatMap((name) => {
      const owner = name.startsWith(start) ? /^(\d+)\.[0-9a-z]+\.tmp$/u.exec(name.slice(start.length))?.[1] : undefined;
      return owner === undefined ? [] : [{ name, id: Number(owner) }];
    });
  } catch {
    // A folder that cannot be listed stops no write.
    return [];
  }
}

function isGone(id: number): boolean {
  try {
    process.kill(id, 0);
    return false;
  } catch (error) {
    return systemCodeOf(error) === "ESRCH";
  }
}

function holds(path: string, bytes: Uint8Array): boolean {
  try {
    return readFile(path).equals(bytes);
  } catch {
    return false;
  }
}

/** Makes the rename itself last. Some systems refuse to sync a folder; the file is whole either way. */
function syncFolder(path: string): void {
  try {
    const folder = fs.openSync(path, "r");
    try {
      fs.fsyncSync(folder);
    } finally {
      fs.closeSync(folder);
    }
  } catch {
    // Windows, and some network file systems.
  }
}
