/** `new`, `next` and `log` at a real terminal: a pseudo-terminal made by `script` of util-linux, typed into line by line. */
import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, it } from "vitest";
import { readOnePlan } from "../../src/plan/index.ts";

const SCRIPT = "/usr/bin/script";
const BIN = fileURLToPath(new URL("../../bin/daywright.js", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "daywright-terminal-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const quoted = (word: string): string => `'${word.replaceAll("'", "'\\''")}'`;

/** Runs a command in a pseudo-terminal; each answer is typed when a question stands unanswered. */
function typed(
  args: readonly string[],
  answers: readonly string[],
): Promise<{ readonly code: number | null; readonly shown: string }> {
  const command = [process.execPath, BIN, ...args].map(quoted).join(" ");
  const child = spawn(SCRIPT, ["-qefc", command, "/dev/null"], {
    cwd: folder,
    // Without CI, which the questions' package takes as a sign that no one looks at their colours.
    env: { ...process.env, CI: undefined, FORCE_COLOR: undefined, NO_COLOR: undefined, TERM: "xterm", COLUMNS: "200" },
  });
  const left = [...answers];
  let shown = "";
  let answered = 0;
  child.stdout.setEncoding("utf8");
  child.stdout.on("data", (text: string) => {
    shown += text;
    // The library marks what is answered, and draws the next question behind it.
    const since = shown.slice(answered);
    const from = answered === 0 ? 0 : since.indexOf("\u2714");
    if (from < 0 || !since.slice(from).includes("\u001b[34m?")) return;
    answered = shown.length;
    child.stdin.write(`${left.shift() ?? ""}\r`);
  });
  return new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("close", (code) => resolve({ code, shown: plain(shown) }));
  });
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what a terminal is told.
const plain = (text: string): string => text.replace(/\u001b\[[0-9;?]*[A-Za-z]/g, "");

const read = (name: string): string => readFileSync(join(folder, name), "utf8");

describe.skipIf(process.platform !== "linux" || !existsSync(SCRIPT))("at a terminal", () => {
  it("an evening: a first plan, what happened, tomorrow", { timeout: 120_000 }, async () => {
    const first = await typed(
      ["new"],
      [
        ...["Ice road", "America/New_York", "America/Chicago", "2027-01-20", "wagon", ""],
        ...["wren camera drives wagon", "ilse reporter", "", "lodge", "18:00 -1d"],
        ...["dawn 07:00 pier 3 min", "", "lodge pier 35 min 50 min", ""],
      ],
    );
    expect(first.shown).toContain("wrote 2027-01-20.yaml");
    expect(first.code).toBe(0);
    expect((await readOnePlan(read("2027-01-20.yaml"), { file: "day.yaml" })).findings).toEqual([]);

    const logged = await typed(["log", "2027-01-20.yaml"], ["wren released 08:30", "dawn at 07:01", ""]);
    expect(logged.code).toBe(0);
    expect(read("2027-01-20.yaml")).toContain('wren: { released: "08:30" }');
    expect(read("2027-01-20.yaml")).toContain('dawn: { at: "07:01" }');

    const next = await typed(["next", "2027-01-20.yaml"], ["", "noon 12:00 pier 3 min", ""]);
    expect(next.code).toBe(0);
    expect(read("2027-01-21.yaml")).toContain('noon: { at: "12:00", for: 3 min, place: pier }');
    expect(read("2027-01-21.yaml")).toContain("id: ice-road-2027-01-21");
  });

  it("broken off with Ctrl-C is one line, and nothing is written", { timeout: 60_000 }, async () => {
    const { code, shown } = await typed(["new"], ["Other days", "\u0003"]);
    expect([code, shown.includes("error: the questions were broken off"), shown.includes("internal")]).toEqual([
      2,
      true,
      false,
    ]);
    expect(readdirSync(folder).filter((name) => !name.startsWith("2027-01-2"))).toEqual([]);
  });
});
