/** `check` of many plans on all cores: the same bytes as one after another, in the order of the files, and bounded in memory. */
import { spawnSync } from "node:child_process";
import * as fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { isEnough, piecesInOrder } from "../../src/cli/check/inParallel.ts";
import type { CheckedPiece, Setup, WorkerPool } from "../../src/cli/check/pool.ts";
import { ran } from "./fakeIo.ts";
import { MISSED, MISTAKEN, SMALLEST } from "./plans.ts";

const options: Setup["options"] = {
  ...{ format: null, output: null, force: false, set: [], person: null, clock: null, width: null, color: "auto" },
  ...{
    ascii: false,
    bom: false,
    strict: false,
    now: null,
    name: null,
    patience: 1,
    redact: false,
    quiet: false,
    watch: false,
  },
  debug: false,
};
const SETUP: Setup = {
  options,
  form: "text",
  many: true,
  level: null,
  long: false,
  cwd: "/",
  stdout: { isTty: false, columns: null },
};
const targets = (count: number) => Array.from({ length: count }, (_, at) => ({ name: `${at}`, found: true }));

const answerTo = (some: readonly { readonly name: string }[]): readonly (CheckedPiece | null)[] =>
  some.map(({ name }): CheckedPiece | null => (Number(name) % 10 === 3 ? null : { exit: 0, text: name }));

/** Workers that take their time, each another; what is asked of them is counted. */
function poolOf(cores: number, fails: string | null = null) {
  const seen = { open: 0, most: 0, stopped: 0 };
  const pool: WorkerPool = {
    cores,
    start: () => ({
      async check(some) {
        seen.open += 1;
        seen.most = Math.max(seen.most, seen.open);
        await new Promise((resolve) => setTimeout(resolve, (Number(some[0]?.name) * 7) % 5));
        seen.open -= 1;
        if (some.some(({ name }) => name === fails)) throw new Error("a fault");
        return answerTo(some);
      },
      stop() {
        seen.stopped += 1;
      },
    }),
  };
  return { pool, seen };
}

/** All pieces, and how many plans this thread checked itself. */
const all = async (pool: WorkerPool, count: number) => {
  const found: (CheckedPiece | null)[] = [];
  let own = 0;
  const here = async (some: readonly { readonly name: string }[]): Promise<readonly (CheckedPiece | null)[]> => {
    own += some.length;
    await new Promise((resolve) => setTimeout(resolve, 1));
    return answerTo(some);
  };
  for await (const some of piecesInOrder(pool, SETUP, targets(count), here)) found.push(...some);
  return { found, own };
};

describe("parcels", () => {
  it.each([1, 2, 7, 64])("come back in the order of the files, with %d cores", async (cores) => {
    for (const count of [1, 8, 9, 333]) {
      const { pool, seen } = poolOf(cores);
      const { found, own } = await all(pool, count);
      expect(found.map((piece) => piece?.text ?? null)).toEqual(
        targets(count).map(({ name }) => (Number(name) % 10 === 3 ? null : name)),
      );
      // This thread is one of them, so there is one worker less than there are cores.
      const workers = Math.min(cores, 16, Math.ceil(count / 8)) - 1;
      expect([seen.open, seen.stopped]).toEqual([0, workers]);
      // Two parcels a worker at most are under way, however many files there are.
      expect(seen.most).toBeLessThanOrEqual(2 * workers);
      // With one core all is done here; with more, workers and this thread share it.
      if (workers === 0) expect(own).toBe(count);
      else if (count === 333 && workers < 16) expect(own).toBeLessThan(count);
    }
  });

  it("end with the fault of one, and every worker is stopped", async () => {
    // This thread takes plan 0, so that plan 1 begins the first parcel of a worker.
    const { pool, seen } = poolOf(4, "1");
    await expect(all(pool, 333)).rejects.toThrow("a fault");
    expect(seen.stopped).toBe(3);
  });
});

describe("further threads", () => {
  // Each takes some time to start, whatever it is then given: a few long plans are worth one, many short ones may not be.
  it("are worth their start from 40,000 bytes of plans on, in however many files", () => {
    const sizes: Record<string, number> = { "/a/long": 20_000, "/a/short": 300, "/a/longest": 50_000 };
    const io = { cwd: "/a", size: (path: string) => sizes[path] ?? 0 };
    const isEnoughOf = (name: string, count: number) => isEnough(io, Array(count).fill({ name, found: true }));
    expect([1, 2].map((count) => isEnoughOf("long", count))).toEqual([false, true]);
    expect([133, 134].map((count) => isEnoughOf("short", count))).toEqual([false, true]);
    // One plan is not shared out, and what cannot be read has no bytes.
    expect([isEnoughOf("longest", 1), isEnoughOf("none", 1000)]).toEqual([false, false]);
  });
});

const PROGRAM = fileURLToPath(new URL("../../bin/daywright.js", import.meta.url));
const COUNT = 150;
let folder = "";
const texts: Record<string, string> = { "shared.yaml": "daywright: 1\n", "note.yaml": "a: 1\n" };
for (let at = 0; at < COUNT; at++)
  texts[`${String(at).padStart(3, "0")}.yaml`] = at % 50 === 7 ? MISTAKEN : at % 50 === 20 ? MISSED : SMALLEST;

beforeAll(() => {
  folder = fs.mkdtempSync(join(tmpdir(), "daywright-many-"));
  for (const [name, text] of Object.entries(texts)) fs.writeFileSync(join(folder, name), text);
});
afterAll(() => fs.rmSync(folder, { recursive: true }));

describe("the built program over many plans", () => {
  it.each(["text", "unix", "ndjson", "json", "sarif", "csv"])(
    "%s: byte for byte as one after another",
    async (form) => {
      const words = ["check", ".", "--format", form];
      const { status, stdout, stderr } = spawnSync(process.execPath, [PROGRAM, ...words], {
        cwd: folder,
        encoding: "utf8",
        maxBuffer: 1 << 26,
      });
      const alone = await ran(words, { files: texts });
      expect([status, stderr]).toEqual([alone.code, alone.err]);
      expect(stdout === alone.out).toBe(true);
      expect([alone.code, stdout.length > 1000]).toEqual([3, true]);
    },
  );
});
