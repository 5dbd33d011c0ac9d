/** `check --staged` in a real repository: what is to be committed is judged, whatever lies in the working tree; `--level`. */
import { execFileSync, spawnSync } from "node:child_process";
import * as fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { nodeIo } from "../../src/cli/io/nodeIo.ts";
import { runCommandLine } from "../../src/cli/run.ts";
import { HOOK } from "../../src/manual/pages/recipes.ts";
import { ran } from "./fakeIo.ts";
import { BROKEN_YAML, MISSED, SLIPPING, SMALLEST } from "./plans.ts";

const PROGRAM = fileURLToPath(new URL("../../bin/daywright.js", import.meta.url));
let folder = "";
const env = { ...process.env, GIT_CONFIG_GLOBAL: "/dev/null", GIT_CONFIG_NOSYSTEM: "1" };
const git = (...words: readonly string[]): string =>
  execFileSync("git", ["-c", "user.name=wren", "-c", "user.email=wren@example.org", ...words], {
    cwd: folder,
    encoding: "utf8",
    stdio: ["ignore", "pipe", "pipe"],
    env,
  });
const put = (name: string, text: string): void => fs.writeFileSync(join(folder, name), text);

const ROADS = "daywright: 1\nroads:\n  - { link: [lodge, pier], drive: 35 min, bad: 50 min }\n";
const DAY = SMALLEST.replace(/roads:\n.*\n/u, "").replace("daywright: 1\n", "daywright: 1\nuses: roads.yaml\n");
const NEXT = SMALLEST.replace("date: 2027-01-20", "date: 2027-01-21\nfollows: day.yaml");

async function staged(...words: readonly string[]) {
  const written = { out: "", err: "" };
  const stream = (key: "out" | "err") => ({
    isTty: false,
    columns: null,
    write(text: string) {
      written[key] += text;
    },
  });
  const io = { ...nodeIo(), cwd: folder, stdout: stream("out"), stderr: stream("err") };
  const code = await runCommandLine(["check", "--staged", "--level", "error", "--format", "unix", ...words], io);
  return { code, ...written };
}

beforeEach(() => {
  folder = fs.mkdtempSync(join(tmpdir(), "daywright-staged-"));
  git("init", "-q");
  put("day.yaml", DAY);
  put("roads.yaml", ROADS);
  put("next.yaml", NEXT);
  put("alone.yaml", SMALLEST);
  git("add", ".");
  git("commit", "-q", "-m", "first");
});
afterEach(() => fs.rmSync(folder, { recursive: true }));

describe("--staged", () => {
  it("has nothing to check where nothing is staged, exit 0", async () => {
    put("day.yaml", BROKEN_YAML);
    expect(await staged()).toEqual({ code: 0, out: "", err: "this commit touches no plan of a day\n" });
  });

  it("judges the staged plan, not the one in the working tree", async () => {
    put("alone.yaml", MISSED);
    git("add", "alone.yaml");
    put("alone.yaml", SMALLEST);
    const { code, out } = await staged();
    expect([code, out]).toEqual([1, expect.stringMatching(/^alone\.yaml:\d+:\d+: error: .*\[hit-missed\]\n$/u)]);
  });

  it("lets a sound plan pass, whatever lies in the working tree", async () => {
    put("alone.yaml", SMALLEST.replace("3 min", "4 min"));
    git("add", "alone.yaml");
    put("alone.yaml", BROKEN_YAML);
    put("untracked.yaml", BROKEN_YAML);
    fs.rmSync(join(folder, "roads.yaml"));
    expect(await staged()).toMatchObject({ code: 0, out: "" });
  });

  it("judges the plans that use a changed file, and those that follow them, with the staged text of that file", async () => {
    put("roads.yaml", ROADS.replace("35 min", "35 mim"));
    git("add", "roads.yaml");
    put("roads.yaml", ROADS);
    const { code, out } = await staged("--format", "json");
    expect(code).toBe(3);
    const answer: unknown = JSON.parse(out);
    expect(answer).toMatchObject({
      plans: [
        { plan: { file: "day.yaml" }, ok: false },
        { plan: { file: "next.yaml" }, ok: false },
      ],
    });
  });

  it("finds a plan whose file is deleted or renamed away, which still lies in the working tree", async () => {
    git("rm", "-q", "--cached", "roads.yaml");
    const { code, out } = await staged();
    expect([code, out]).toEqual([3, expect.stringContaining("[file-missing]")]);
    git("reset", "-q");
    git("mv", "roads.yaml", "ways.yaml");
    expect((await staged()).code).toBe(3);
    put("day.yaml", DAY.replace("roads.yaml", "ways.yaml"));
    git("add", "day.yaml");
    expect(await staged()).toMatchObject({ code: 0, out: "" });
  });

  it("is kept to the plans that are named, and names them as they lie to the folder", async () => {
    for (const name of ["day.yaml", "alone.yaml"]) put(name, BROKEN_YAML);
    git("add", ".");
    expect((await staged("alone.yaml")).out).not.toContain("day.yaml");
    fs.mkdirSync(join(folder, "sub"));
    const { stdout } = spawnSync(process.execPath, [PROGRAM, "check", "--staged", "--format", "unix"], {
      cwd: join(folder, "sub"),
      encoding: "utf8",
      env,
    });
    expect(stdout).toMatch(/^\.\.\/alone\.yaml:/u);
  });

  it("reads no link of the index, and goes by the index of a commit of some files alone", async () => {
    fs.symlinkSync("/etc/hostname", join(folder, "link.yaml"));
    put("alone.yaml", SMALLEST.replace("daywright: 1\n", "daywright: 1\nuses: link.yaml\n"));
    git("add", ".");
    expect((await staged()).out).toContain("it is not a regular file");
  });

  it("is refused outside a repository, with standard input and with --watch", async () => {
    fs.rmSync(join(folder, ".git"), { recursive: true });
    expect(await staged()).toMatchObject({ code: 3, out: "", err: expect.stringMatching(/^error: --staged: .*git/iu) });
    expect((await staged("-")).code).toBe(2);
    expect((await staged("--watch")).code).toBe(2);
    expect((await ran(["check"], {})).err).toContain("missing required argument `plan`");
  });

  it("works as the hook of the recipes: a broken plan stops the commit, a sound one passes", () => {
    const script = HOOK.replace("exec daywright", `exec "${process.execPath}" "${PROGRAM}"`);
    expect(script).toContain("check --staged");
    fs.writeFileSync(join(folder, ".git/hooks/pre-commit"), script, { mode: 0o755 });
    put("alone.yaml", MISSED);
    git("add", "alone.yaml");
    put("alone.yaml", SMALLEST);
    expect(() => git("commit", "-q", "-m", "broken")).toThrow(/hit-missed/u);
    git("add", "alone.yaml");
    put("next.yaml", BROKEN_YAML);
    put("day.yaml", DAY.replace("3 min", "4 min"));
    git("add", "day.yaml");
    // The plan that follows day.yaml is broken in the working tree alone.
    git("commit", "-q", "-m", "sound");
    // A commit of some files alone has an index of its own.
    put("alone.yaml", MISSED);
    expect(() => git("commit", "-q", "-m", "one file", "alone.yaml")).toThrow(/hit-missed/u);
  });
});

describe("--level", () => {
  const files = { "slipping.yaml": SLIPPING, "missed.yaml": MISSED };

  it.each(["error", "warning", "note"])(
    "%s prints these and worse; the exit code and the counts stay",
    async (level) => {
      for (const plan of Object.keys(files)) {
        const all = await ran(["check", plan, "--json", "--strict"], { files });
        const some = await ran(["check", plan, "--json", "--strict", "--level", level], { files });
        const wanted = { error: ["error"], warning: ["error", "warning"] }[level] ?? ["error", "warning", "note"];
        const whole = JSON.parse(all.out);
        expect(some.code).toBe(all.code);
        expect(JSON.parse(some.out)).toEqual({
          ...whole,
          findings: whole.findings.filter((finding: { level: string }) => wanted.includes(finding.level)),
        });
        const text = await ran(["check", plan, "--level", level], { files });
        expect(/: warning: /u.test(text.out)).toBe(level !== "error" && /"warning"/u.test(all.out));
      }
    },
  );

  it("takes no other word", async () => {
    const { code, err } = await ran(["check", "missed.yaml", "--level", "loud"], { files });
    expect([code, err]).toEqual([2, expect.stringContaining("error, warning, note")]);
  });
});
