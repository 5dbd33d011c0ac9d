/** The package as a stranger has it: packed, installed without a network, run; its types and its single file. */
import { execFileSync, spawnSync } from "node:child_process";
import * as fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

const root = fileURLToPath(new URL("../../", import.meta.url));
const bin = (name: string): string => join(root, "node_modules", ".bin", name);
const shell = process.platform === "win32";
let folder = "";
let tarball = "";
const installed = (...names: readonly string[]): string => join(folder, "node_modules", "daywright", ...names);
const DEMO = (): string => installed("fixtures", "days", "2027-01-20.yaml");

/** No home of anyone's, no network. */
const env = (): NodeJS.ProcessEnv => ({
  PATH: process.env["PATH"],
  HOME: folder,
  XDG_CACHE_HOME: join(folder, "cache"),
  npm_config_offline: "true",
  npm_config_cache: join(folder, "npm"),
  npm_config_update_notifier: "false",
});

const program = (...words: readonly string[]) =>
  spawnSync(process.execPath, [installed("bin", "daywright.js"), ...words], {
    cwd: folder,
    encoding: "utf8",
    env: env(),
  });

beforeAll(() => {
  folder = fs.mkdtempSync(join(tmpdir(), "daywright-package-"));
  execFileSync(process.execPath, [join(root, "bin", "build.mjs"), "--if-stale", "--single"], {
    cwd: root,
    stdio: "ignore",
  });
  execFileSync("npm", ["pack", "--ignore-scripts", "--pack-destination", folder], {
    cwd: root,
    stdio: "ignore",
    shell,
  });
  tarball = join(folder, fs.readdirSync(folder).find((name) => name.endsWith(".tgz")) ?? "");
  fs.writeFileSync(join(folder, "package.json"), '{ "name": "elsewhere", "private": true, "type": "module" }\n');
  execFileSync("npm", ["install", "--ignore-scripts", "--no-audit", "--no-fund", tarball], {
    cwd: folder,
    stdio: "pipe",
    env: env(),
    shell,
  });
}, 300_000);
afterAll(() => fs.rmSync(folder, { recursive: true }));

describe("the package", () => {
  it("holds the built program, types, licences and the demo, and nothing else", () => {
    const files = fs
      .readdirSync(installed(), { recursive: true, encoding: "utf8" })
      .map((name) => name.replaceAll("\\", "/"))
      .filter((name) => fs.statSync(installed(name)).isFile() && !name.startsWith("dist/types/"));
    const plain = files.filter((name) => !name.startsWith("fixtures/days/"));
    expect(plain.sort()).toEqual([
      "LICENSE",
      "README.md",
      "bin/daywright.js",
      "bin/load.js",
      "bin/package.json",
      "bin/userCache.js",
      "dist/NOTICES.txt",
      "dist/daywright.check.cjs",
      "dist/daywright.cjs",
      "dist/daywright.mistakes.cjs",
      "dist/daywright.more.cjs",
      "dist/highs.cjs",
      "dist/highs.wasm",
      "dist/index.js",
      "package.json",
    ]);
    const notices = fs.readFileSync(installed("dist", "NOTICES.txt"), "utf8");
    for (const name of ["commander 14.0.3", "highs 1.15.3", "zod 4.6.7", "@inquirer/core"])
      expect(notices).toContain(name);
  });

  it("needs no other package", () => {
    expect(fs.readdirSync(join(folder, "node_modules")).filter((name) => !name.startsWith("."))).toEqual(["daywright"]);
  });

  it("checks the demo and prints its sheet", () => {
    const check = program("check", DEMO());
    expect([check.status, check.stderr]).toEqual([0, ""]);
    const sheet = program("sheet", DEMO());
    expect([sheet.status, sheet.stdout]).toEqual([0, expect.stringContaining("First call 04:30 CT")]);
  });

  it("tells a mistake in a plan, for which it loads further parts", () => {
    fs.writeFileSync(join(folder, "wrong.yaml"), "daywright: 1\ncrwe: {}\n");
    const { status, stdout } = program("check", "wrong.yaml");
    expect([status, stdout]).toEqual([3, expect.stringContaining("key-unknown")]);
  });

  it("is a library with types: a script of ten lines prints the calls of the demo day", () => {
    const script = [
      'import { readFileSync } from "node:fs";',
      'import { judge, makeReport, readPlan, solveDay, type PlanFiles } from "daywright";',
      `const file = ${JSON.stringify(DEMO().replaceAll("\\", "/"))};`,
      'const files: PlanFiles = { read: (path) => ({ kind: "text", text: readFileSync(path, "utf8") }) };',
      'const reading = await readPlan(readFileSync(file, "utf8"), { file, files });',
      "const solved = reading.ok ? await solveDay(reading) : reading;",
      'if (!solved.ok) throw new Error(solved.findings.map(({ code }) => code).join(" "));',
      'const report = await makeReport("calls", await judge(solved, { topics: [] }));',
      'for (const { id, call } of solved.day.people) console.log(id, call === null ? "off" : new Date(call * 60_000).toISOString());',
      "console.log(report.command);",
    ].join("\n");
    fs.writeFileSync(join(folder, "script.ts"), script);
    const compilerOptions = {
      strict: true,
      module: "NodeNext",
      target: "ES2023",
      outDir: "out",
      skipLibCheck: false,
      types: ["node"],
      typeRoots: [join(root, "node_modules", "@types")],
    };
    fs.writeFileSync(join(folder, "tsconfig.json"), JSON.stringify({ compilerOptions, files: ["script.ts"] }));
    const typed = spawnSync(bin("tsc"), ["-p", "."], { cwd: folder, encoding: "utf8", shell });
    expect([typed.status, typed.stdout]).toEqual([0, ""]);
    const ran = execFileSync(process.execPath, ["out/script.js"], { cwd: folder, encoding: "utf8", env: env() });
    expect(ran).toMatch(/^wren 2027-01-20T\d\d:\d\d:00\.000Z$/mu);
    expect(ran).toMatch(/^calls$/mu);
  });

  it("pleases the linters of packages", () => {
    const lint = spawnSync(bin("publint"), ["--strict", tarball], { encoding: "utf8", shell });
    expect([lint.status, lint.stdout + lint.stderr]).toEqual([0, expect.stringContaining("All good")]);
    // A program of one module kind: asking for it by `require` is for Node 22 on, which takes modules there.
    const types = spawnSync(bin("attw"), [tarball, "--profile", "esm-only", "--format", "json"], {
      encoding: "utf8",
      shell,
    });
    expect([types.status, types.stderr]).toEqual([0, ""]);
  });
});

describe("the code cache", () => {
  const cache = (): string => join(folder, "cache", "daywright");
  const names = (): readonly string[] => (fs.existsSync(cache()) ? fs.readdirSync(cache()) : []);

  it("is made at a command's first run, in a folder of the user's own", () => {
    fs.rmSync(join(folder, "cache"), { recursive: true, force: true });
    expect(program("calls", DEMO()).status).toBe(0);
    const named = names().map((name) => /^[0-9a-f]{16}-v\d+\.\d+\.\d+-\w+-calls-(.+)\.cache$/u.exec(name)?.[1]);
    // One a script that the command ran.
    expect(named.sort()).toEqual(["daywright", "daywright.check", "daywright.more"]);
    expect(fs.statSync(cache()).mode & 0o777).toBe(0o700);
    const [name = ""] = names();
    expect(fs.statSync(join(cache(), name)).mode & 0o777).toBe(0o600);
    const before = fs.statSync(join(cache(), name)).mtimeMs;
    expect(program("calls", DEMO()).stdout).toContain("Wren Aalto");
    expect(fs.statSync(join(cache(), name)).mtimeMs).toBe(before);
  });

  it("that is damaged is made again, and the answer is the same", () => {
    const wanted = program("calls", DEMO()).stdout;
    const [name = ""] = names();
    const path = join(cache(), name);
    const bytes = fs.readFileSync(path);
    fs.writeFileSync(path, Buffer.concat([Buffer.alloc(bytes.length - 20), bytes.subarray(bytes.length - 20)]));
    expect(program("calls", DEMO()).stdout).toBe(wanted);
    expect(fs.readFileSync(path).subarray(0, 4)).not.toEqual(Buffer.alloc(4));
  });

  it.skipIf(process.platform === "win32")("is not used in a folder that others may write to", () => {
    fs.rmSync(cache(), { recursive: true });
    fs.mkdirSync(cache());
    fs.chmodSync(cache(), 0o777);
    expect(program("calls", DEMO()).status).toBe(0);
    expect(names()).toEqual([]);
    fs.rmSync(cache(), { recursive: true });
    fs.mkdirSync(join(folder, "other"), { mode: 0o700 });
    fs.symlinkSync(join(folder, "other"), cache());
    expect(program("calls", DEMO()).status).toBe(0);
    expect(fs.readdirSync(join(folder, "other"))).toEqual([]);
    fs.rmSync(cache());
  });

  it("is not made in the working folder if HOME is empty or relative", () => {
    const elsewhere = join(folder, "working");
    fs.mkdirSync(elsewhere);
    for (const HOME of ["", "home"]) {
      const { status } = spawnSync(process.execPath, [installed("bin", "daywright.js"), "calls", DEMO()], {
        cwd: elsewhere,
        env: { PATH: process.env["PATH"], HOME, LOCALAPPDATA: HOME },
      });
      expect(status).toBe(0);
    }
    expect(fs.readdirSync(elsewhere)).toEqual([]);
  });
});

it("the single file runs alone, the solver in it", () => {
  const alone = join(folder, "alone");
  fs.mkdirSync(alone);
  fs.copyFileSync(join(root, "dist", "single", "daywright.cjs"), join(alone, "daywright.cjs"));
  fs.cpSync(join(root, "fixtures", "days"), join(alone, "days"), { recursive: true });
  const started = (...words: readonly string[]) =>
    spawnSync(process.execPath, ["daywright.cjs", ...words], { cwd: alone, encoding: "utf8", env: env() });
  const power = started("power", "days/2027-01-20.yaml");
  expect([power.status, power.stdout]).toEqual([0, program("power", DEMO()).stdout]);
  fs.writeFileSync(join(alone, "wrong.yaml"), "daywright: 1\ncrwe: {}\n");
  expect(started("check", "wrong.yaml").stdout).toContain("key-unknown");
});
