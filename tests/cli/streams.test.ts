/** Output to pipes and files without Node's streams: complete, in order, and quiet when nobody reads any more. */
import { spawnSync } from "node:child_process";
import * as fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

let folder = "";

/** Numbered lines, then one on standard error; about 2 MB, far more than a pipe holds. */
const PRINTER = `
  const { outputOf } = require("./streams.cjs");
  const [out, err] = [outputOf(1), outputOf(2)];
  for (let i = 0; i < 100000; i++) out.write("line number " + i + "\\n");
  err.write("terminal: " + out.isTty + " " + out.columns + "\\n");`;

beforeAll(async () => {
  folder = fs.mkdtempSync(join(tmpdir(), "daywright-streams-"));
  const entry = new URL("../../src/cli/io/streams.ts", import.meta.url).pathname;
  await build({
    entryPoints: [entry],
    outfile: join(folder, "streams.cjs"),
    bundle: true,
    platform: "node",
    logLevel: "silent",
  });
  fs.writeFileSync(join(folder, "printer.cjs"), PRINTER);
});

afterAll(() => fs.rmSync(folder, { recursive: true }));

const shell = (line: string) => spawnSync("sh", ["-c", line], { cwd: folder, encoding: "utf8", maxBuffer: 1e8 });
const node = `"${process.execPath}" printer.cjs`;
const all = Array.from({ length: 100_000 }, (_, i) => `line number ${i}\n`).join("");

describe.skipIf(process.platform === "win32")("standard output", () => {
  it("reaches a reader whole and in order", () => {
    const { stdout, stderr, status } = shell(`${node} | cat`);
    expect([stdout === all, stderr, status]).toEqual([true, "terminal: false null\n", 0]);
  });

  it("waits for a reader that is slow", () => {
    expect(shell(`${node} 2>&1 | (sleep 0.3; cat)`).stdout).toBe(`${all}terminal: false null\n`);
  });

  it("waits where the pipe is set to refuse rather than to wait", () => {
    // Another process that shares the pipe has set it so: a Node that made its own streams of the same descriptors.
    const sharing = `"${process.execPath}" -e 'new (require("node:net").Socket)({ fd: 1, readable: false }); setTimeout(() => {}, 900)'`;
    const { stdout, stderr } = shell(`( ${sharing} & sleep 0.15; ${node}; wait ) | (sleep 0.6; cat)`);
    expect([stdout === all, stderr]).toEqual([true, "terminal: false null\n"]);
  });

  it("ends quietly when the reader has gone", () => {
    const { stdout, stderr } = shell(`( ${node}; echo "status $?" >&2 ) | head -n 1`);
    expect([stdout, stderr]).toEqual(["line number 0\n", "terminal: false null\nstatus 0\n"]);
  });

  it("fills a file, and nothing at all", () => {
    shell(`${node} > out.txt 2> /dev/null`);
    expect(fs.readFileSync(join(folder, "out.txt"), "utf8") === all).toBe(true);
    expect(shell(`${node} > /dev/null`)).toMatchObject({ status: 0, stderr: "terminal: false null\n" });
  });
});
