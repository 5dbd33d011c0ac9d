/** What is promised of every command, tried on every command: envelopes, forms, outputs, widths, unknown words. */
import { describe, expect, it } from "vitest";
import { COMMANDS } from "../../src/cli/table.ts";
import { ran } from "./fakeIo.ts";
import { MISTAKEN, SMALLEST } from "./plans.ts";

/** Commands that no plan is named to, or whose words are no plans. */
const WITHOUT_PLAN: ReadonlySet<string> = new Set(["new", "explain", "schema", "completion"]);
const OVER_PLANS = COMMANDS.filter(({ name }) => !WITHOUT_PLAN.has(name)).map(({ name }) => name);
const REPORTS = COMMANDS.filter(({ watches }) => watches === true).map(({ name }) => name);
const FILES = { "day.yaml": SMALLEST, "mistaken.yaml": MISTAKEN };
const go = (words: string, more: Parameters<typeof ran>[1] = {}) => ran(words.split(" "), { files: FILES, ...more });

it("every command that runs again at a save has a plan", () => {
  expect(REPORTS.length).toBeGreaterThan(0);
  expect(REPORTS.filter((name) => !OVER_PLANS.includes(name))).toEqual([]);
});

describe.each(OVER_PLANS)("%s", (name) => {
  it("prints an envelope wherever --json is given and a plan was named", async () => {
    for (const rest of ["ghost.yaml --json", "day.yaml --json --nonsense", "--json day.yaml --now never --nonsense"]) {
      const { code, out } = await go(`${name} ${rest}`);
      expect([rest, code === 2 || code === 3]).toEqual([rest, true]);
      expect(JSON.parse(out)).toMatchObject({ daywright: 1, command: name, ok: false, data: null });
    }
  });

  it("takes none of its inputs for an output, with --force either", async () => {
    const { code, files } = await go(`${name} day.yaml --output day.yaml --format text --force`);
    expect([code, files.get("/plans/day.yaml")]).toEqual([2, SMALLEST]);
  });

  it("refuses in one voice: one line on what is wrong, perhaps one on what to do", async () => {
    for (const rest of [
      "day.yaml --formt json",
      "day.yaml --width wide",
      "day.yaml -f nosuch",
      "day.yaml -o day.xyz",
    ]) {
      const { code, out, err } = await go(`${name} ${rest}`);
      expect([rest, code, out, err]).toEqual([rest, 2, "", expect.stringMatching(/^error: .*\n(?:try: .*\n)?$/u)]);
    }
  });
});

describe.each(REPORTS)("%s", (name) => {
  it("names the forms that it has where another is asked for", async () => {
    const { err } = await go(`${name} day.yaml --format nosuch`);
    expect(err).toMatch(new RegExp(`^error: ${name} has no form \`nosuch\`\ntry: --format text, .*json`, "u"));
  });

  it("names no form for an unknown suffix, and writes nothing", async () => {
    const { code, err, files } = await go(`${name} day.yaml -o day.xyz`);
    expect([code, err, files.has("/plans/day.xyz")]).toEqual([
      2,
      expect.stringContaining("the suffix `.xyz` names no form"),
      false,
    ]);
  });

  it("has an envelope for a plan with mistakes, exit 3, and for a disk that takes nothing", async () => {
    const mistaken = await go(`${name} mistaken.yaml --json`);
    expect([mistaken.code, JSON.parse(mistaken.out).ok]).toEqual([3, false]);
    const full = await go(`${name} day.yaml -o out.json --json`, { unwritable: "out.json" });
    expect([full.code, full.err.split("\n").filter((line) => line.startsWith("error: ")).length]).toEqual([3, 1]);
    expect(JSON.parse(full.out)).toMatchObject({ ok: false, findings: [{ code: "command-failed" }] });
  });

  it("is as wide in a pipe as its lines are, whatever COLUMNS says", async () => {
    const free = await go(`${name} day.yaml`);
    expect((await go(`${name} day.yaml`, { env: { COLUMNS: "20" } })).out).toBe(free.out);
  });

  it("takes times as scripts write them", async () => {
    for (const at of ["2027-01-20T12:05:30.25Z", "20270120T120500Z", "2027-01-20T06:05-06", "1800446730", "now"]) {
      const { code, err } = await go(`${name} day.yaml --now ${at}`, { now: 1_800_446_730_000 });
      expect([at, code <= 1, err.includes("--now")]).toEqual([at, true, false]);
    }
  });
});

it.each(COMMANDS.map(({ name }) => name))("a slip of %s is an unknown command, with --help as well", async (name) => {
  for (const words of [`${name}x`, `${name}x --help`, `--help ${name}x`, `help ${name}x`]) {
    const { code, err } = await go(words);
    expect([words, code, err]).toEqual([words, 2, expect.stringContaining(`unknown command \`${name}x\``)]);
  }
  expect((await go(`${name} --help`)).code).toBe(0);
});
