/** A few real processes: the same bytes under any zone and locale, a closed pipe, standard input, colour, exit codes. */
import { spawnSync } from "node:child_process";
import * as fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

const DAYS = fileURLToPath(new URL("../../fixtures/days", import.meta.url));
const MODULES = fileURLToPath(new URL("../../node_modules", import.meta.url));
let folder = "";

beforeAll(async () => {
  folder = fs.mkdtempSync(join(tmpdir(), "daywright-process-"));
  await build({
    entryPoints: [fileURLToPath(new URL("../../src/cli/main.ts", import.meta.url))],
    outfile: join(folder, "daywright.cjs"),
    bundle: true,
    platform: "node",
    external: ["highs"],
    // As in the build: a module found by the bundle's own `require`.
    supported: { "dynamic-import": false },
    logLevel: "silent",
  });
  const start = 'require("./daywright.cjs").main(process.argv.slice(2)).then((code) => { process.exitCode = code; });';
  fs.writeFileSync(join(folder, "start.cjs"), start);
});

afterAll(() => fs.rmSync(folder, { recursive: true }));

const { NO_COLOR: _, FORCE_COLOR: __, COLUMNS: ___, ...plain } = process.env;

function daywright(words: string, env: Readonly<Record<string, string>> = {}, input?: string) {
  const { stdout, stderr, status } = spawnSync(process.execPath, [join(folder, "start.cjs"), ...words.split(" ")], {
    cwd: DAYS,
    // The bundle lies outside the project, and the solver stays outside the bundle.
    env: { ...plain, NODE_PATH: MODULES, ...env },
    encoding: "utf8",
    maxBuffer: 1e8,
    ...(input === undefined ? {} : { input }),
  });
  return { out: stdout, err: stderr, status };
}

const DAY = "2027-01-20.yaml";

describe("one program, any machine", () => {
  it.each(["calls", "check", "hours"])("%s prints the same bytes under another zone and locale", (command) => {
    for (const form of ["text", "json"]) {
      const here = daywright(`${command} ${DAY} -f ${form}`, { TZ: "UTC", LANG: "C" });
      const there = daywright(`${command} ${DAY} -f ${form}`, {
        TZ: "Pacific/Apia",
        LANG: "tr_TR.UTF-8",
        LC_ALL: "tr_TR.UTF-8",
      });
      expect(there).toEqual(here);
      expect(here.out).not.toBe("");
    }
  });

  it("takes standard input for the file, byte for byte, under another zone and locale", () => {
    const file = daywright(`calls ${DAY} --json`);
    const text = fs.readFileSync(join(DAYS, DAY), "utf8");
    const env = { TZ: "Pacific/Apia", LANG: "tr_TR.UTF-8" };
    expect(daywright(`calls - --json --name ${DAY}`, env, text).out).toBe(file.out);
  });

  it("reads Windows line ends and a byte order mark as the same plan", () => {
    const text = fs.readFileSync(join(DAYS, DAY), "utf8");
    const windows = `\uFEFF${text.replaceAll("\n", "\r\n")}`;
    const data = (input: string): unknown => JSON.parse(daywright(`calls - --json --name ${DAY}`, {}, input).out).data;
    expect(data(windows)).toEqual(data(text));
  });
});

describe("streams of a process", () => {
  it("colours a pipe only where asked", () => {
    expect(daywright(`calls ${DAY}`).out).not.toContain("\u001b");
    expect(daywright(`calls ${DAY}`, { FORCE_COLOR: "1" }).out).toContain("\u001b[");
    expect(daywright(`calls ${DAY}`, { FORCE_COLOR: "1", NO_COLOR: "1" }).out).not.toContain("\u001b");
  });

  it("exits with the promised codes", () => {
    const codes = [`calls ${DAY}`, "calls", "calls nothing.yaml", "check spoiled.yaml"].map(
      (words) => daywright(words).status,
    );
    expect(codes).toEqual([0, 2, 3, 1]);
  });
});

describe.skipIf(process.platform === "win32")("a closed pipe", () => {
  it("ends quietly", () => {
    const line = `"${process.execPath}" "${join(folder, "start.cjs")}" calls ${DAY} --json | head -n 1`;
    const { stdout, stderr } = spawnSync("sh", ["-c", line], { cwd: DAYS, encoding: "utf8" });
    expect([stdout, stderr]).toEqual(["{\n", ""]);
  });
});
