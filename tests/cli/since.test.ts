/** `--since REVISION`: the plan, and what it uses, as Git kept them; the messages where there is no Git or no such revision. */
import { execFileSync } from "node:child_process";
import * as fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { nodeIo } from "../../src/cli/io/nodeIo.ts";
import { runCommandLine } from "../../src/cli/run.ts";
import { ran } from "./fakeIo.ts";
import { SMALLEST } from "./plans.ts";

let folder = "";
const git = (...words: readonly string[]): string =>
  execFileSync("git", ["-c", "user.name=wren", "-c", "user.email=wren@example.org", ...words], {
    cwd: folder,
    encoding: "utf8",
    stdio: ["ignore", "pipe", "pipe"],
  });
const put = (name: string, text: string): void => fs.writeFileSync(join(folder, name), text);

const ROADS = `daywright: 1\nroads:\n  - { link: [lodge, pier], drive: 35 min, bad: 50 min }\n`;
const DAY = SMALLEST.replace(/roads:\n.*\n/u, "").replace("daywright: 1\n", "daywright: 1\nuses: roads.yaml\n");

async function told(...words: readonly string[]) {
  const written = { out: "", err: "" };
  const stream = (key: "out" | "err") => ({
    isTty: false,
    columns: null,
    write(text: string) {
      written[key] += text;
    },
  });
  const code = await runCommandLine(words, { ...nodeIo(), cwd: folder, stdout: stream("out"), stderr: stream("err") });
  return { code, ...written };
}

beforeAll(() => {
  folder = fs.mkdtempSync(join(tmpdir(), "daywright-since-"));
  git("init", "-q");
  put("day.yaml", DAY);
  put("roads.yaml", ROADS);
  git("add", ".");
  git("commit", "-q", "-m", "first");
  // Twenty minutes more of snow in the shared file, the hit as it was.
  put("roads.yaml", ROADS.replace("bad: 50 min", "bad: 70 min"));
  git("commit", "-q", "-a", "-m", "snow");
});
afterAll(() => fs.rmSync(folder, { recursive: true }));

describe("--since a revision", () => {
  it("reads the plan and what it uses as they were: wren is called 20 minutes earlier", async () => {
    const { code, out, err } = await told("calls", "day.yaml", "--since", "HEAD~1");
    expect([code, err.includes("error")]).toEqual([0, false]);
    expect(out).toMatch(/wren, call +03:40 +04:00\n/u);
    expect(out).not.toBe((await told("calls", "day.yaml", "--since", "HEAD")).out);
  });

  it("says the same as the two files side by side", async () => {
    fs.mkdirSync(join(folder, "old"));
    put("old/day.yaml", DAY);
    put("old/roads.yaml", ROADS);
    for (const command of ["calls", "sheet"])
      expect((await told(command, "day.yaml", "--since", "HEAD~1")).out).toBe(
        (await told(command, "day.yaml", "--since", "old/day.yaml")).out,
      );
  });

  it.each([
    ["HEAD~9", "no such file, and no revision of that name with day.yaml"],
    ["nothing.yaml", "no such file, and no revision of that name with day.yaml"],
    ["$(touch harm)", "no such file, and no revision of that name with day.yaml"],
    ["--upload-pack=x", "that is no revision"],
  ])("%s is refused in plain words", async (revision, message) => {
    const { code, out, err } = await told("calls", "day.yaml", `--since=${revision}`);
    expect([code === 2 || code === 3, out]).toEqual([true, ""]);
    expect(err).toContain(message);
    expect(fs.existsSync(join(folder, "harm"))).toBe(false);
  });

  it("is refused outside a repository, without Git, and for standard input", async () => {
    const files = { "day.yaml": SMALLEST };
    expect((await ran(["calls", "day.yaml", "--since", "HEAD~1"], { files })).err).toContain("no Git in tests");
    const piped = await ran(["calls", "-", "--since", "HEAD~1"], { stdin: SMALLEST });
    expect([piped.code, piped.out]).toEqual([2, ""]);
  });
});
