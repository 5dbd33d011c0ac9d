/** The manual: a page of each name in each form, every command in it run, every script run by a shell. */
import { execFileSync, spawnSync } from "node:child_process";
import * as fs from "node:fs";
import { createServer } from "node:http";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { COMMANDS } from "../../src/cli/table.ts";
import { HELP_PAGES } from "../../src/index.ts";
import { manualPage, type Page, pagesBelow } from "../../src/manual/index.ts";
import { CALLS_LISTED } from "../../src/manual/pages/json.ts";
import { LOG } from "../../src/manual/pages/logs.ts";
import { ALARM, CHAT, CI, HOOK, WEEK } from "../../src/manual/pages/recipes.ts";
import { ran } from "../cli/fakeIo.ts";
import { MISSED, SMALLEST } from "../cli/plans.ts";

const sections = await pagesBelow("plan");
const NAMES = [...HELP_PAGES.keys(), ...sections.map((section) => `plan ${section}`)];
const pageOf = async (name: string): Promise<Page> => {
  const page = await manualPage(name.split(" "));
  if (page === null) throw new Error(`no page ${name}`);
  return page;
};

/** The words of a command line as a shell takes them. */
const wordsOf = (command: string): readonly string[] =>
  [...command.matchAll(/"([^"]*)"|(\S+)/gu)].map(([, quoted, plain]) => quoted ?? plain ?? "");

describe("every page", () => {
  it.each(NAMES)("%s is printed as text, Markdown and man", async (name) => {
    const words = ["help", ...name.split(" ")];
    const text = await ran(words);
    expect([text.code, text.err]).toEqual([0, ""]);
    expect(text.out).toMatch(/^\S.*\n\n/u);
    expect(
      Math.max(
        ...text.out
          .split("\n")
          .filter((line) => !/^ {4}/u.test(line))
          .map((line) => line.length),
      ),
    ).toBeLessThanOrEqual(100);
    expect((await ran([...words, "--format", "markdown"])).out).toMatch(/^# .*\n/u);
    expect((await ran([...words, "--format", "man"])).out).toMatch(/^\.TH "DAYWRIGHT-[A-Z-]+" 1 /u);
  });

  it("is named in the program's help, and a section of the plan in its own page", async () => {
    const { out } = await ran(["--help"]);
    for (const name of HELP_PAGES.keys()) expect(out).toContain(`  ${name}`);
    const plan = (await ran(["help", "plan"])).out;
    for (const section of sections) expect(plan).toContain(`\n  ${section}\n`);
  });

  it.skipIf(spawnSync("bash", ["-c", "command -v man"]).status !== 0)("is a man page without complaints", async () => {
    for (const name of ["plan", "recipes", "json"]) {
      const { out } = await ran(["help", ...name.split(" "), "--format", "man"]);
      const checked = spawnSync("bash", ["-c", "man --warnings -l - > /dev/null"], {
        input: out,
        encoding: "utf8",
        env: { ...process.env, LC_ALL: "C.UTF-8" },
      });
      expect([checked.status, checked.stderr]).toEqual([0, ""]);
    }
  });

  it.each([
    ["help plam", "daywright help plan"],
    ["help plan hitz", "daywright help plan hits"],
    ["help plan hits more", "hits"],
    ["help plan --format csv", "--format text, markdown, man"],
  ])("%s is refused with what is near", async (words, hint) => {
    const { code, out, err } = await ran(words.split(" "));
    expect([code, out, err]).toEqual([2, "", expect.stringContaining(hint)]);
  });

  it("names commands that there are", async () => {
    const known = new Set([...COMMANDS.map(({ name }) => name), "help", "--version"]);
    for (const name of NAMES) {
      const { out } = await ran(["help", ...name.split(" ")]);
      for (const [, word = ""] of out.matchAll(/daywright ([a-z-]+)/gu))
        expect(known.has(word) || /^(?:COMMAND|contains)/u.test(word), `${name}: ${word}`).toBe(true);
    }
  });
});

describe("the commands of a page end as it says and print what it shows", () => {
  it.each([...HELP_PAGES.keys()])("%s", async (name) => {
    let files: Readonly<Record<string, string>> = { "day.yaml": SMALLEST, "log.yaml": LOG };
    for (const block of (await pageOf(name)).blocks) {
      if (block.kind !== "run") continue;
      const { code, out, err, files: after } = await ran(wordsOf(block.command).slice(1), { files });
      expect([block.command, code]).toEqual([block.command, block.exit]);
      for (const line of block.shows) expect(`${out}${err}`).toContain(line);
      files = Object.fromEntries([...after].map(([path, text]) => [path.replace("/plans/", ""), text]));
    }
  });
});

const hasTools = ["bash", "jq", "curl", "git"].every((tool) => spawnSync(tool, ["--version"]).error === undefined);

describe.skipIf(!hasTools || process.platform === "win32")("the scripts of the recipes run as they stand there", () => {
  let folder = "";
  let posted: string[] = [];
  const chat = createServer((request, response) => {
    let body = "";
    request.on("data", (part: Buffer) => {
      body += part.toString();
    });
    request.on("end", () => {
      posted.push(body);
      response.end();
    });
  });
  const git = (...words: readonly string[]) =>
    execFileSync("git", ["-c", "user.name=wren", "-c", "user.email=wren@example.org", ...words], {
      cwd: folder,
      stdio: "ignore",
    });
  const put = (text: string): void => fs.writeFileSync(join(folder, "plans", "2027-01-20.yaml"), text);

  /** Runs a script with `daywright` on the path; a child of its own, since the server answers here. */
  async function bash(script: string): Promise<number | null> {
    posted = [];
    const address = chat.address();
    const port = typeof address === "object" && address !== null ? address.port : 0;
    const env = {
      ...process.env,
      PATH: `${join(folder, "bin")}${delimiter}${process.env["PATH"]}`,
      CHAT_URL: `http://127.0.0.1:${port}/`,
      no_proxy: "*",
    };
    const { spawn } = await import("node:child_process");
    const child = spawn("bash", ["-o", "pipefail", "-c", script], { cwd: folder, env, stdio: "ignore" });
    return new Promise((resolve) => child.on("close", resolve));
  }

  beforeAll(async () => {
    folder = fs.mkdtempSync(join(tmpdir(), "daywright-recipes-"));
    fs.mkdirSync(join(folder, "plans"));
    fs.mkdirSync(join(folder, "bin"));
    const program = fileURLToPath(new URL("../../bin/daywright.js", import.meta.url));
    fs.writeFileSync(join(folder, "bin", "daywright"), `#!/bin/sh\nexec "${process.execPath}" "${program}" "$@"\n`, {
      mode: 0o755,
    });
    git("init", "-q");
    put(SMALLEST);
    git("add", "plans");
    git("commit", "-q", "-m", "first");
    put(SMALLEST.replace('"07:00"', '"07:30"'));
    git("commit", "-q", "-a", "-m", "later");
    await new Promise<void>((resolve) => {
      chat.listen(0, "127.0.0.1", resolve);
    });
  });
  afterAll(() => {
    chat.close();
    fs.rmSync(folder, { recursive: true });
  });

  it("the hook", async () => {
    expect(await bash(HOOK)).toBe(0);
    put(MISSED);
    git("add", "plans");
    expect(await bash(HOOK)).toBe(1);
    put(SMALLEST.replace('"07:00"', '"07:30"'));
    git("add", "plans");
  });

  it("the step for CI, twice in the same workspace", async () => {
    for (const _ of [1, 2]) {
      expect(await bash(CI)).toBe(0);
      expect(JSON.parse(fs.readFileSync(join(folder, "findings.sarif"), "utf8"))).toHaveProperty("runs");
    }
  });

  it("the message to the chat, and the alarm only if something is wrong", async () => {
    expect(await bash(CHAT)).toBe(0);
    expect(posted).toHaveLength(1);
    expect(JSON.parse(posted[0] ?? "")).toEqual({ text: expect.stringContaining("07:30") });
    await bash(ALARM);
    expect(posted).toEqual([]);
    put(MISSED);
    await bash(ALARM);
    expect(posted).toHaveLength(1);
    expect(JSON.parse(posted[0] ?? "")).toEqual({ text: expect.stringContaining("dawn") });
    put(SMALLEST);
  });

  it("everybody's call", async () => {
    expect(await bash(`(${CALLS_LISTED.trimEnd()}) > calls.txt`)).toBe(0);
    expect(fs.readFileSync(join(folder, "calls.txt"), "utf8")).toMatch(/^wren 2027-01-20T0\d:\d\d-06:00\nilse /u);
  });

  it("the week's hours", async () => {
    expect(await bash(WEEK)).toBe(0);
    expect(fs.readFileSync(join(folder, "hours.csv"), "utf8")).toContain("wren");
    expect(fs.readFileSync(join(folder, "week.csv"), "utf8")).toMatch(/^\uFEFF/u);
  });
});
