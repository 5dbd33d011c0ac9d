/** Waits for a save; loaded only by `--watch`. */
import * as fs from "node:fs";
import { dirname } from "node:path";
import type { Seen } from "./io.ts";
import { readFile } from "./readFile.ts";

/** Milliseconds without a further event before files are read, between two reads that must agree, and between looks of its own. */
const QUIET = 100;
const APART = 50;
/** Folders on some network drives send no events. */
const LOOK = 2_000;

const read = (path: string): Buffer | null => {
  try {
    return readFile(path);
  } catch {
    return null;
  }
};

const same = (a: Uint8Array | null, b: Uint8Array | null): boolean =>
  a === null || b === null ? a === b : Buffer.compare(a, b) === 0;

const sameAll = (a: Seen, b: Seen): boolean => [...a].every(([path, bytes]) => same(bytes, b.get(path) ?? null));

/**
 * Resolves once a file holds other bytes than `seen` and two reads agree on them. The folders are watched, not the files:
 * editors save by renaming, after which the old file is no one's. With `within` it resolves after so many milliseconds
 * anyway.
 */
export function changed(seen: Seen, within: number | null = null): Promise<boolean> {
  return new Promise((resolve) => {
    let timer: NodeJS.Timeout | undefined;
    let last: Seen = seen;
    const look = (): void => {
      const now: Seen = new Map([...seen.keys()].map((path) => [path, read(path)]));
      if (sameAll(now, seen)) last = seen;
      else if (sameAll(now, last)) end();
      else {
        last = now;
        timer = setTimeout(look, APART);
      }
    };
    const poke = (): void => {
      clearTimeout(timer);
      timer = setTimeout(look, QUIET);
    };
    const watchers = [...new Set([...seen.keys()].map((path) => dirname(path)))].flatMap((folder) =>
      watcher(folder, poke),
    );
    const looking = setInterval(poke, LOOK);
    const latest = within === null ? undefined : setTimeout(() => end(), within);
    const end = (): void => {
      clearTimeout(timer);
      clearInterval(looking);
      clearTimeout(latest);
      for (const one of watchers) one.close();
      resolve(true);
    };
    // What was saved between the reading and now sent its event to no one.
    poke();
  });
}

function watcher(folder: string, poke: () => void): readonly fs.FSWatcher[] {
  try {
    return [fs.watch(folder, poke).on("error", () => undefined)];
  } catch {
    return [];
  }
}
