/** Everyday mistakes, in plans and on the command line: each is found at its place, said plainly, and advised on first. */
import { describe, expect, test } from "vitest";
import type { Finding } from "../../src/findings/finding.ts";
import { judge, readPlan, solveDay } from "../../src/index.ts";
import type { PlanFiles } from "../../src/plan/text/files.ts";
import { worstFirst } from "../../src/reports/shared/order.ts";
import { plainWording, wordingOf } from "../../src/reports/shared/wording.ts";
import { ran } from "../cli/fakeIo.ts";
import { COMMAND_MISTAKES } from "./commandMistakes.ts";
import { GEAR } from "./gear.ts";
import { HEAD } from "./head.ts";
import { HITS } from "./hits.ts";
import { PEOPLE } from "./people.ts";
import { PLACES } from "./places.ts";
import { BASE, type PlanMistake } from "./plan.ts";
import { ROADS } from "./roads.ts";
import { TASKS_AND_RUNS } from "./tasksAndRuns.ts";
import { VEHICLES } from "./vehicles.ts";
import { WRITING } from "./writing.ts";

const PLAN_MISTAKES: readonly PlanMistake[] = [
  ...HEAD,
  ...PEOPLE,
  ...VEHICLES,
  ...PLACES,
  ...ROADS,
  ...HITS,
  ...TASKS_AND_RUNS,
  ...GEAR,
  ...WRITING,
];

const files: PlanFiles = {
  read: (path) => (path.startsWith("..") ? { kind: "outside" } : { kind: "missing", near: [] }),
};

interface Told {
  readonly code: string;
  readonly level: string;
  readonly line: number | undefined;
  readonly column: number | undefined;
  readonly text: string;
}

async function findingView(text: string): Promise<readonly Told[]> {
  const reading = await readPlan(text, { file: "day.yaml", files });
  const solved = reading.ok ? await solveDay(reading) : null;
  const judged = solved?.ok === true ? (await judge(solved)).findings : null;
  const findings: readonly Finding[] = judged ?? solved?.findings ?? reading.findings;
  const say = reading.ok ? wordingOf(reading.plan) : plainWording;
  const refused = judged === null ? findings : worstFirst(findings);
  return refused.map((one) => ({
    code: one.code,
    level: one.level,
    line: one.span?.line,
    column: one.span?.column,
    text: `${one.sentence(say)} / ${one.hint(say)}`,
  }));
}

/** The plan with the mistake, and where the spot is in it, 1-based. */
function laid({ what, from, to, spot }: PlanMistake) {
  expect(BASE, what).toContain(from);
  const text = BASE.replace(from, () => to);
  const at = text.indexOf(spot.replace("▸", ""));
  expect(at, `the spot of: ${what}`).toBeGreaterThanOrEqual(0);
  const before = text.slice(0, at + spot.indexOf("▸"));
  return { text, line: before.split("\n").length, column: before.length - before.lastIndexOf("\n") };
}

test("the plan without a mistake stands", async () => {
  expect((await findingView(BASE)).filter(({ level }) => level === "error")).toEqual([]);
});

test("there are at least 250, each once", () => {
  const all = [...PLAN_MISTAKES.map(({ what }) => what), ...COMMAND_MISTAKES.map(([words]) => words)];
  expect(new Set(all).size).toBe(all.length);
  expect(all.length).toBeGreaterThanOrEqual(250);
});

describe("in a plan", () => {
  test.each(PLAN_MISTAKES.map((row) => [row.what, row] as const))("%s", async (_, row) => {
    const { text, line, column } = laid(row);
    const base = new Set((await standing).map(({ code }) => code));
    const told = (await findingView(text)).filter(({ level, code }) => level !== "note" && !base.has(code));
    const [first] = told;
    expect(first).toMatchObject(row.spot === "" ? { code: row.code } : { code: row.code, line, column });
    expect(first?.text).toContain(row.advice);
  });
});

/** What is found in the plan as it stands, which is no answer to a mistake. */
const standing = findingView(BASE);

describe("a file that another program wrote", () => {
  const check = async (bytes: Uint8Array) => ran(["check", "-"], { stdin: bytes });
  const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

  test.each([
    ["a byte order mark", utf8(`\uFEFF${BASE}`)],
    ["line ends of Windows", utf8(BASE.replaceAll("\n", "\r\n"))],
    ["a line of three dashes before the plan", utf8(`---\n${BASE}`)],
    ["comments and empty lines", utf8(`# from mail\n\n${BASE}\n\n`)],
    ["a tab between key and value", utf8(BASE.replace("title: ", "title:\t"))],
    ["times without quotes", utf8(BASE.replaceAll('"', ""))],
    ["four digits for a time", utf8(BASE.replace('"07:00"', "0700"))],
  ])("is read with %s", async (_, bytes) => {
    expect((await check(bytes)).out).toMatch(/^The day stands: /);
  });

  test.each([
    ["UTF-16", Buffer.from(`\uFEFF${BASE}`, "utf16le"), "it is UTF-16 text; save it as UTF-8"],
    [
      "Latin 1",
      Buffer.from(BASE.replace("Petra Holm", "Pétra Holm"), "latin1"),
      "it is not UTF-8 text; save it as UTF-8",
    ],
  ])("is refused in %s, with what to do", async (_, bytes, said) => {
    const { code, out, err } = await check(bytes);
    expect([code, `${out}${err}`]).toEqual([3, expect.stringContaining(said)]);
  });
});

describe("on the command line", () => {
  test.each(COMMAND_MISTAKES)("daywright %s", async (words, exit, said, advice) => {
    const argv = [...words.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? "");
    const { code, out, err } = await ran(argv, { files: { "day.yaml": BASE } });
    expect({ code, text: `${err}${out}` }).toMatchObject({ code: exit, text: expect.stringContaining(said) });
    expect(`${err}${out}`).toContain(advice);
  });
});

test("a script that asks for JSON and for another form still has an envelope to read", async () => {
  const { code, out } = await ran(["sheet", "day.yaml", "--json", "--format", "html"], { files: { "day.yaml": BASE } });
  expect(code).toBe(2);
  expect(JSON.parse(out)).toMatchObject({ daywright: 1, command: "sheet", ok: false, data: null });
});
