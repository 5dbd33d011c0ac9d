/** `--watch`: again at every save, the last good answer kept over a broken one; real files saved as editors save them. */
import * as fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { changed } from "../../src/cli/io/watchFiles.ts";
import { ran } from "./fakeIo.ts";
import { BROKEN_YAML, MISSED, SMALLEST } from "./plans.ts";

const LATER = SMALLEST.replace('"07:00"', '"07:30"');
const CLEAR = "\u001b[2J\u001b[H";
const plain = async (text: string, columns?: number) =>
  (await ran(["calls", "day.yaml"], { files: { "day.yaml": text }, ...(columns === undefined ? {} : { columns }) }))
    .out;
const watch = (saves: readonly string[], columns?: number) =>
  ran(["calls", "day.yaml", "--watch"], {
    files: { "day.yaml": SMALLEST },
    saves: saves.map((text) => ({ "day.yaml": text })),
    ...(columns === undefined ? {} : { columns }),
  });

describe("the command again", () => {
  it("prints each save's answer in turn into a pipe, and never clears it", async () => {
    const { code, out } = await watch([LATER, MISSED]);
    expect(out).toBe(`${await plain(SMALLEST)}${await plain(LATER)}${await plain(MISSED)}`);
    expect([code, out.includes("\u001b")]).toEqual([1, false]);
  });

  it("clears a terminal before each answer", async () => {
    const { out } = await watch([LATER], 100);
    expect(out).toBe(`${CLEAR}${await plain(SMALLEST, 100)}${CLEAR}${await plain(LATER, 100)}`);
  });

  it("keeps the last good answer over a save that cannot be read, and goes on", async () => {
    const { code, out, err } = await watch([BROKEN_YAML, "", LATER], 100);
    const good = await plain(SMALLEST, 100);
    expect(out).toBe(`${CLEAR}${good}${CLEAR}${good}\n${CLEAR}${good}\n${CLEAR}${await plain(LATER, 100)}`);
    expect(err).toContain("day.yaml:");
    expect(code).toBe(0);
  });

  it("writes its own output file anew, but not one that was there", async () => {
    const files = { "day.yaml": SMALLEST };
    const done = await ran(["calls", "day.yaml", "--watch", "-o", "calls.txt"], {
      files,
      saves: [{ "day.yaml": LATER }],
    });
    expect(done.files.get("/plans/calls.txt")).toBe(await plain(LATER));
    const kept = await ran(["calls", "day.yaml", "--watch", "-o", "calls.txt"], {
      files: { ...files, "calls.txt": "mine" },
    });
    expect([kept.code, kept.files.get("/plans/calls.txt")]).toEqual([2, "mine"]);
  });

  it("is refused for standard input and for what writes or reads no plan", async () => {
    expect((await ran(["calls", "-", "--watch"], { stdin: SMALLEST })).err).toContain("standard input");
    for (const words of [["explain"], ["next", "day.yaml"], ["log", "day.yaml", "wren", "released", "21:10"]]) {
      const { code, err, files } = await ran([...words, "--watch"], { files: { "day.yaml": SMALLEST } });
      expect([code, err.includes("nothing to watch"), files.size]).toEqual([2, true, 1]);
    }
  });
});

describe("a real file", () => {
  let folder = "";
  beforeAll(() => {
    folder = fs.mkdtempSync(join(tmpdir(), "daywright-watch-"));
  });
  afterAll(() => fs.rmSync(folder, { recursive: true }));

  it.each([
    ["in place", (path: string) => fs.writeFileSync(path, "b")],
    [
      "by renaming",
      (path: string) => {
        fs.writeFileSync(`${path}.new`, "b");
        fs.renameSync(`${path}.new`, path);
      },
    ],
    ["by removing it", (path: string) => fs.rmSync(path)],
  ])("saved %s is noticed", async (_, save) => {
    const path = join(folder, "day.yaml");
    fs.writeFileSync(path, "a");
    const waiting = changed(new Map([[path, Buffer.from("a")]]));
    setTimeout(() => save(path), 30);
    expect(await waiting).toBe(true);
    expect(fs.existsSync(path) ? fs.readFileSync(path, "utf8") : null).not.toBe("a");
  });

  it("that changed before the waiting began is noticed, too; another file beside it is not", async () => {
    const path = join(folder, "other.yaml");
    fs.writeFileSync(path, "b");
    expect(await changed(new Map([[path, Buffer.from("a")]]))).toBe(true);
    let over = false;
    const waiting = changed(new Map([[path, Buffer.from("b")]])).then(() => {
      over = true;
    });
    fs.writeFileSync(join(folder, "beside"), "x");
    await new Promise((resolve) => setTimeout(resolve, 300));
    expect(over).toBe(false);
    fs.writeFileSync(path, "c");
    await waiting;
  });
});
