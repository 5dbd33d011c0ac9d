/**
 * Kills, full disks and races of real processes over real files: whatever happens, a file is the old one or a new one, whole,
 * and nothing stays behind it. A few in the usual run, a thousand of them under `npm run fuzz`.
 */
import { spawn, spawnSync } from "node:child_process";
import * as fs from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { SMALLEST } from "../cli/plans.ts";
import { random } from "../day/random.ts";
import { runs } from "../fuzz.ts";

const FIRST = Number(process.env["DAYWRIGHT_FUZZ_FIRST"] ?? 1) + 700_000_000;
const PROGRAM = resolve("bin/daywright.js");
const TIMEOUT = { timeout: runs(240_000, 14_400_000) };
/** What a `log` of one line is and what a sheet is; each is what the file holds before, or what a run that ended wrote. */
const LOG = ["log", "day.yaml", "wren", "released", "16:10"];
const SHEET = ["sheet", "day.yaml", "-o", "day.html", "--force"];
let folder = "";
let logged = "";
let printed = "";

interface Ended {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly err: string;
}

/** Starts the program in `cwd`; `killAfter` milliseconds later it is killed. */
const started = (cwd: string, argv: readonly string[], killAfter: number | null): Promise<Ended> =>
  new Promise((done) => {
    const child = spawn(process.execPath, [PROGRAM, ...argv], { cwd, stdio: ["ignore", "ignore", "pipe"] });
    let err = "";
    child.stderr.on("data", (bytes: Buffer) => {
      err += bytes.toString("utf8");
    });
    const timer = killAfter === null ? null : setTimeout(() => child.kill("SIGKILL"), killAfter);
    child.on("close", (code, signal) => {
      if (timer !== null) clearTimeout(timer);
      done({ code, signal, err });
    });
  });

function fresh(name: string | number): string {
  const own = join(folder, String(name));
  fs.mkdirSync(own);
  fs.writeFileSync(join(own, "day.yaml"), SMALLEST);
  return own;
}

const text = (own: string, name: string): string => fs.readFileSync(join(own, name), "utf8");
const leftovers = (own: string): readonly string[] => fs.readdirSync(own).filter((name) => name.endsWith(".tmp"));

beforeAll(async () => {
  folder = fs.mkdtempSync(join(tmpdir(), "daywright-file-fuzz-"));
  const own = fresh("plain");
  expect((await started(own, LOG, null)).code).toBe(0);
  expect((await started(own, SHEET, null)).code).toBe(0);
  [logged, printed] = [text(own, "day.yaml"), text(own, "day.html")];
  const other = fresh("unlogged");
  await started(other, SHEET, null);
  expect([logged.includes("16:10"), logged === SMALLEST, printed.includes("</html>")]).toEqual([true, false, true]);
});

afterAll(() => fs.rmSync(folder, { recursive: true }));

describe.skipIf(process.platform === "win32")("files under random kills and races", () => {
  it(
    "a log that is killed leaves the plan as it was or as it is to be; the next one removes what is left",
    TIMEOUT,
    async () => {
      const found: string[] = [];
      const dice = random(FIRST);
      for (let n = 0; n < runs(3, 400); n++) {
        const own = fresh(`kill${n}`);
        // A start takes 50 ms on a quiet machine and half a second on a busy one.
        const { signal } = await started(own, LOG, 20 + dice(500));
        const after = text(own, "day.yaml");
        if (after !== SMALLEST && after !== logged) found.push(`${n}: torn after ${signal}`);
        const next = await started(own, LOG, null);
        // The line is there already where the first run got through.
        if (next.code !== 0 && !(after === logged && next.code !== 70))
          found.push(`${n}: then ${next.code}: ${next.err}`);
        if (text(own, "day.yaml") !== logged) found.push(`${n}: not as one log leaves it`);
        if (leftovers(own).length > 0) found.push(`${n}: left ${leftovers(own).join(" ")}`);
        fs.rmSync(own, { recursive: true });
      }
      expect(found).toEqual([]);
    },
  );

  it("two at once never tear a file nor lose a line that was said to be written", TIMEOUT, async () => {
    const found: string[] = [];
    const dice = random(FIRST + 1);
    const others = [["log", "day.yaml", "ilse", "released", "16:20"], SHEET, ["sheet", "day.yaml", "-o", "day.html"]];
    for (let n = 0; n < runs(2, 300); n++) {
      const own = fresh(`race${n}`);
      const second = others[dice(others.length)] ?? SHEET;
      const [a, b] = await Promise.all([started(own, LOG, null), started(own, second, null)]);
      const plan = text(own, "day.yaml");
      for (const { code, signal } of [a, b])
        if (signal !== null || ![0, 1, 2, 3].includes(code ?? 70)) found.push(`${n}: ${code} ${signal}`);
      if (a.code === 0 && !plan.includes("16:10")) found.push(`${n}: lost wren`);
      if (second[0] === "log" && b.code === 0 && !plan.includes("16:20")) found.push(`${n}: lost ilse`);
      const checked = spawnSync(process.execPath, [PROGRAM, "check", "day.yaml"], { cwd: own });
      if (![0, 1].includes(checked.status ?? 70)) found.push(`${n}: the plan cannot be read`);
      const html = fs.existsSync(join(own, "day.html")) ? text(own, "day.html") : "</html>\n";
      if (!html.trimEnd().endsWith("</html>")) found.push(`${n}: half a sheet`);
      if (leftovers(own).length > 0) found.push(`${n}: left ${leftovers(own).join(" ")}`);
      fs.rmSync(own, { recursive: true });
    }
    expect(found).toEqual([]);
  });

  it("a disk that is full keeps the old file and says so in one line", TIMEOUT, async () => {
    const found: string[] = [];
    const dice = random(FIRST + 2);
    for (let n = 0; n < runs(2, 300); n++) {
      const own = fresh(`full${n}`);
      // `ulimit -f` lets no file grow over so many half or whole KiB: the write fails as it does on a full disk.
      const most = dice(20);
      const [argv, name, whole] = dice(2) === 0 ? [SHEET, "day.html", printed] : [LOG, "day.yaml", logged];
      if (name === "day.html") fs.writeFileSync(join(own, name), "old\n");
      const old = text(own, name);
      const line = `trap '' XFSZ; ulimit -f ${most}; exec "${process.execPath}" "${PROGRAM}" ${argv.join(" ")}`;
      const { status, stderr } = spawnSync("bash", ["-c", line], { cwd: own, encoding: "utf8" });
      const now = text(own, name);
      const isWhole = now === old || now === whole || (name === "day.html" && now.trimEnd().endsWith("</html>"));
      if (!isWhole) found.push(`${n}: ${most} KiB: torn`);
      if ((status === 0) !== (now !== old))
        found.push(`${n}: ${most} KiB: exit ${status}, and ${now === old ? "old" : "new"}`);
      if (status !== 0 && (status !== 3 || stderr.includes("    at ")))
        found.push(`${n}: ${most} KiB: exit ${status}: ${stderr}`);
      if (leftovers(own).length > 0) found.push(`${n}: left ${leftovers(own).join(" ")}`);
      fs.rmSync(own, { recursive: true });
    }
    expect(found).toEqual([]);
  });
});
