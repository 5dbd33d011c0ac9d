/** The command line as `help promises` and the README state it: exit codes, streams, flags, forms. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { VERSION } from "../../src/version.ts";
import { ran } from "./fakeIo.ts";
import { BROKEN_YAML, HOSTILE_NAMES, MISSED, MISTAKEN, SLIPPING, SMALLEST } from "./plans.ts";

const files = {
  "day.yaml": SMALLEST,
  "missed.yaml": MISSED,
  "slipping.yaml": SLIPPING,
  "mistaken.yaml": MISTAKEN,
  "broken.yaml": BROKEN_YAML,
  "names.yaml": HOSTILE_NAMES,
};
const go = (words: string, more: Parameters<typeof ran>[1] = {}) => ran(words.split(" "), { files, ...more });

describe("exit codes", () => {
  it.each([
    ["calls day.yaml", 0],
    ["check day.yaml", 0],
    ["check slipping.yaml", 0],
    ["check slipping.yaml --strict", 1],
    ["calls missed.yaml", 1],
    ["check missed.yaml", 1],
    ["check", 2],
    ["check day.yaml --nonsense", 2],
    ["nonsense day.yaml", 2],
    ["check day.yaml --format html", 2],
    ["check day.yaml --format=", 2],
    ["check day.yaml --width 12abc", 2],
    ["check day.yaml --set dawn", 2],
    ["calls day.yaml --for nobody", 2],
    ["calls day.yaml --why dawn.nonsense", 2],
    ["calls day.yaml --clock Mars", 2],
    ["explain no-such-code", 2],
    ["completion tcsh", 2],
    ["check missing.yaml", 3],
    ["calls mistaken.yaml", 3],
    ["check mistaken.yaml", 3],
    ["check broken.yaml", 3],
    ["check day.yaml missing.yaml", 3],
    ["--help", 0],
    ["help calls", 0],
    ["--version", 0],
  ])("%s: %i", async (words, code) => {
    expect((await go(words)).code).toBe(code);
  });

  it("prints short help on standard error without words, exit 2", async () => {
    const { code, out, err } = await ran([]);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toContain("Usage: daywright");
  });

  it("reports an internal error in one line, exit 70, its stack only with --debug", async () => {
    const bad = { "day.yaml": SMALLEST } as const;
    const quiet = await ran(["check", "day.yaml"], { files: bad, env: throwing() });
    expect(quiet.code).toBe(70);
    expect(quiet.err).toMatch(/^error: internal error: disk on fire\n.*\n$/u);
    expect(quiet.out).toBe("");
    const loud = await ran(["check", "day.yaml", "--debug"], { files: bad, env: throwing() });
    expect(loud.err).toContain("run.test.ts");
  });
});

/** An environment that fails on the first look, as a fault of ours would. */
const throwing = (): Record<string, string> =>
  new Proxy(
    {},
    {
      get: () => {
        throw new Error("disk on fire");
      },
    },
  );

describe("streams", () => {
  it.each([
    "calls missing.yaml",
    "calls mistaken.yaml",
    "drives broken.yaml",
    "nonsense",
    "calls day.yaml --for nobody",
  ])("%s leaves standard output empty", async (words) => {
    const { out, err } = await go(words);
    expect(out).toBe("");
    expect(err).not.toBe("");
  });

  it("makes the findings the report of check, also for a plan that is mistaken", async () => {
    const { out, err } = await go("check mistaken.yaml");
    expect(out).toMatch(/^No day is computed: 1 error\n\nmistaken\.yaml:5:1: error: /u);
    expect(err).toBe("");
  });

  it("tells the findings of other commands on standard error; -q leaves out warnings, not errors", async () => {
    expect((await go("calls slipping.yaml")).err).toContain("slip-too-long");
    expect((await go("calls slipping.yaml -q")).err).toBe("");
    expect((await go("calls missed.yaml -q")).err).toContain("hit-missed");
  });

  it("gives the same bytes for standard input with --name as for the file", async () => {
    for (const command of ["calls", "check", "drives", "sheet"]) {
      for (const form of ["json", "text"]) {
        const file = await go(`${command} day.yaml --format ${form}`);
        const stdin = await ran([command, "-", "--format", form, "--name", "day.yaml"], { stdin: SMALLEST });
        expect(stdin.out).toBe(file.out);
        expect(stdin.code).toBe(file.code);
      }
    }
  });

  it("has no file name for standard input without --name, neither in the plan nor in positions", async () => {
    const { out } = await ran(["check", "-", "--json"], { stdin: MISTAKEN });
    const answer = JSON.parse(out);
    expect(answer.plan.file).toBeNull();
    expect(answer.findings[0].where).toMatchObject({ file: null, line: 5, column: 1 });
  });

  it("never waits for keys", async () => {
    const { code, err } = await ran(["check", "-"], { stdinIsTty: true });
    expect(code).toBe(2);
    expect(err).toContain("terminal");
  });
});

describe("flags", () => {
  it("work before and after the command", async () => {
    const after = await go("calls day.yaml --json --for wren");
    expect((await go("--json --for wren calls day.yaml")).out).toBe(after.out);
    expect(JSON.parse(after.out).data.people.map((one: { id: string }) => one.id)).toEqual(["wren"]);
  });

  it("count when given last", async () => {
    expect((await go("calls day.yaml --format csv --format json")).out).toMatch(/^\{/u);
    expect((await go("calls day.yaml --json --format json")).out).toMatch(/^\{/u);
  });

  it.each(["--json --format csv", "--format csv --json"])("ask for one form: %s", async (flags) => {
    expect(await go(`calls day.yaml ${flags}`)).toMatchObject({
      code: 2,
      // A script that asks for JSON gets an envelope, whatever else it asks for.
      out: expect.stringContaining('"code": "wrong-usage"'),
      err: "error: --json and --format csv contradict each other\ntry: leave one of them out\n",
    });
  });

  it("give way to none in the environment: --json over a form of its own", async () => {
    const { code, out } = await go("calls day.yaml --json", { env: { DAYWRIGHT_FORMAT: "csv" } });
    expect([code, out.charAt(0)]).toEqual([0, "{"]);
  });

  it("end at --", async () => {
    const dashed = { "-x.yaml": SMALLEST };
    expect((await ran(["check", "--", "-x.yaml"], { files: dashed })).code).toBe(0);
  });

  it("do not swallow the plan", async () => {
    expect((await go("calls --json day.yaml")).code).toBe(0);
    expect((await go("calls --no-color day.yaml")).code).toBe(0);
  });

  it("suggest what is near", async () => {
    expect((await go("chek day.yaml")).err).toContain("check");
    expect((await go("check day.yaml --fromat json")).err).toContain("--format");
    expect((await go("calls day.yaml --for wern")).err).toContain("--for wren");
    expect((await go("calls day.yaml --why wren.cal")).err).toContain("--why wren.call");
  });

  it("list the forms of a command where one is asked for that it lacks", async () => {
    expect((await go("calls day.yaml --format sarif")).err).toMatch(/text, list, json, markdown, csv/u);
  });

  it("are echoed without what drives a terminal", async () => {
    const { err } = await ran(["check", "day.yaml", "--\u001b[31mred\u009b"], { files });
    expect(err.replaceAll("\n", "")).not.toMatch(/\p{Cc}/u);
  });

  it("show another clock in place of the desk's, and twelve hours where asked", async () => {
    expect((await go("calls day.yaml --clock America/Denver")).out).toContain("Denver");
    expect((await go("calls day.yaml --clock 12")).out).toContain("4:00 am");
    expect((await go("calls day.yaml --json --clock America/Denver")).out).toBe(
      (await go("calls day.yaml --json")).out,
    );
  });
});

describe("--set", () => {
  it("tries an edit without touching the file, for every command, and repeats", async () => {
    const { out, files: after } = await go(
      "calls day.yaml --json --set hits.dawn.at=09:00 --set rules.inPosition=20min",
    );
    expect(JSON.parse(out).data.people[0].call).toBe("2027-01-20T05:50-06:00");
    expect(after.get("/plans/day.yaml")).toBe(SMALLEST);
    expect((await go("check day.yaml --set hits.dawn.place=dock")).code).toBe(3);
  });

  it("refuses an edit that leads nowhere, with the nearest place", async () => {
    const { code, err } = await go("calls day.yaml --set dawn.att=09:00");
    expect(code).toBe(2);
    expect(err).toContain("hits.dawn.at");
  });
});

describe("a mistyped word", () => {
  it.each([
    ["help chek", 2, "error: unknown command `chek`\ntry: daywright help check\n"],
    ["help zzzzzz", 2, expect.stringContaining("try: calls, hours, power")],
    ["calls dya.yaml", 3, "error: cannot read `dya.yaml`: no such file  (plan-unreadable)\n  try: day.yaml\n"],
    ["calls mised.yaml", 3, "error: cannot read `mised.yaml`: no such file  (plan-unreadable)\n  try: missed.yaml\n"],
    ["calls Day.yml", 3, "error: cannot read `Day.yml`: no such file  (plan-unreadable)\n  try: day.yaml\n"],
    ["calls far.yaml", 3, "error: cannot read `far.yaml`: no such file  (plan-unreadable)\n"],
    ["calls missed", 3, "error: cannot read `missed`: no such file  (plan-unreadable)\n  try: missed.yaml\n"],
    ["next dya.yaml", 3, expect.stringContaining("try: day.yaml")],
  ])("%s: %i", async (words, code, err) => {
    expect(await go(words)).toMatchObject({ code, out: "", err });
  });

  it("for a file that the plan uses is told with those beside it", async () => {
    const { code, err } = await go("calls day.yaml --set uses=mised.yaml");
    expect([code, err]).toEqual([3, expect.stringContaining("  try: missed.yaml\n")]);
  });

  it("in a path of --set leads to one that this plan has, in a file it uses, too", async () => {
    const own = SMALLEST.slice(0, SMALLEST.indexOf("vehicles:"));
    const shared = SMALLEST.slice(SMALLEST.indexOf("vehicles:"));
    const split = { "day.yaml": `uses: all.yaml\n${own}`, "all.yaml": shared };
    const set = async (path: string) => (await ran(["calls", "day.yaml", "--set", `${path}=1`], { files: split })).err;
    expect(await set("vehicles.wagn.seats")).toContain("try: `vehicles.wagon.seats`\n");
    expect(await set("vehicles.wagon.seat")).toContain("try: `vehicles.wagon.seats`\n");
    expect(await set("vehicels.wagn.seat")).toContain("try: `vehicles.wagon.seats`\n");
    expect(await set("dwan.at")).toContain("try: `hits.dawn.at`\n");
    expect(await set("crew/wren/role")).toContain("try: `crew.wren.role`\n");
    expect(await set("crew.wren.zzzzzzzz")).toContain("one of: name, role, ");
  });

  it("in a list's place of --set is its last", async () => {
    const { err } = await go("calls day.yaml --set runs.wagon[9]=lodge");
    expect(err).toContain("try: `runs.wagon[2]`\n");
  });
});

describe("--output", () => {
  it("refuses a suffix that names no form, and one of a form that the command has not", async () => {
    expect(await go("calls day.yaml -o out.doc")).toMatchObject({
      code: 2,
      err: "error: the suffix `.doc` names no form\ntry: --format text, list, json, markdown, csv\n",
    });
    expect((await go("calls day.yaml -o out.doc --format csv")).err).toBe("wrote out.doc\n");
    expect((await go("calls day.yaml -o out")).err).toBe("wrote out\n");
    expect((await go("sheet day.yaml -o out.HTML")).files.get("/plans/out.HTML")).toMatch(/^<!doctype html>/iu);
    expect(await go("calls day.yaml -o out.ics")).toMatchObject({
      code: 2,
      err: "error: calls has no form `ics`\ntry: --format text, list, json, markdown, csv\n",
    });
  });

  it("writes the form of its suffix and says so on standard error", async () => {
    const { out, err, files: after } = await go("calls day.yaml -o out.json");
    expect([out, err]).toEqual(["", "wrote out.json\n"]);
    expect(after.get("/plans/out.json")).toBe((await go("calls day.yaml --json")).out);
  });

  it("refuses a file that is there, unless forced, and always the plan itself", async () => {
    const there = { files: { ...files, "out.txt": "old" } };
    expect(await go("calls day.yaml -o out.txt", there)).toMatchObject({ code: 2, out: "" });
    expect((await go("calls day.yaml -o out.txt --force", there)).code).toBe(0);
    const { code, files: after } = await go("calls day.yaml -o day.yaml --format text --force");
    expect(code).toBe(2);
    expect(after.get("/plans/day.yaml")).toBe(SMALLEST);
  });

  it("puts no colour into a file, even at a coloured terminal", async () => {
    const { files: after } = await go("calls day.yaml -o out.txt", { columns: 200, env: { FORCE_COLOR: "" } });
    expect(after.get("/plans/out.txt")).not.toContain("\u001b");
  });
});

describe("colour and width (no-color.org)", () => {
  it.each([
    ["a pipe", {}, false],
    ["a terminal", { columns: 120 }, true],
    ["NO_COLOR at a terminal", { columns: 120, env: { NO_COLOR: "1" } }, false],
    ["an empty NO_COLOR", { columns: 120, env: { NO_COLOR: "" } }, true],
    ["NO_COLOR over FORCE_COLOR", { env: { NO_COLOR: "1", FORCE_COLOR: "1" } }, false],
    ["FORCE_COLOR in a pipe", { env: { FORCE_COLOR: "1" } }, true],
    ["FORCE_COLOR=0 at a terminal", { columns: 120, env: { FORCE_COLOR: "0" } }, false],
    ["CLICOLOR_FORCE in a pipe", { env: { CLICOLOR_FORCE: "1" } }, true],
    ["a dumb terminal", { columns: 120, env: { TERM: "dumb" } }, false],
  ])("%s", async (_, more, coloured) => {
    expect((await go("calls day.yaml", more)).out.includes("\u001b[")).toBe(coloured);
  });

  it("is decided by the flag before anything else", async () => {
    expect((await go("calls day.yaml --color always", { env: { NO_COLOR: "1" } })).out).toContain("\u001b[");
    expect((await go("calls day.yaml --no-color", { env: { FORCE_COLOR: "1" } })).out).not.toContain("\u001b[");
  });

  const widest = (text: string): number => Math.max(...text.split("\n").map((line) => line.length));

  it("is the flag's, then the terminal's, then COLUMNS at a terminal that has none; no limit elsewhere", async () => {
    expect(widest((await go("calls day.yaml --no-color --width 60", { columns: 100 })).out)).toBeLessThanOrEqual(60);
    expect(
      widest((await go("calls day.yaml", { columns: 70, env: { NO_COLOR: "1", COLUMNS: "40" } })).out),
    ).toBeLessThanOrEqual(70);
    expect(
      widest((await go("calls day.yaml", { columns: 0, env: { NO_COLOR: "1", COLUMNS: "50" } })).out),
    ).toBeLessThanOrEqual(50);
    expect(widest((await go("calls day.yaml", { env: { COLUMNS: "50" } })).out)).toBeGreaterThan(80);
    expect(widest((await go("calls day.yaml")).out)).toBeGreaterThan(80);
  });

  it("keeps to ASCII where asked or where the terminal is dumb", async () => {
    for (const more of [{ env: { TERM: "dumb" } }, {}]) {
      const { out } = await go(`calls day.yaml${"env" in more ? "" : " --ascii"}`, more);
      expect(out).toMatch(/^[\n -~]*$/u);
    }
  });
});

describe("hostile text through every form", () => {
  it.each(["text", "list", "json", "markdown", "csv"])("%s", async (form) => {
    const { out } = await go(`calls names.yaml --format ${form}`);
    if (form === "csv") expect(out).not.toContain("1+1"); // ids alone; a formula in a text is inert in tests/render
    if (form === "markdown") expect(out).not.toMatch(/<b>|@everyone/u);
    expect(out.replace(/[\r\n]/gu, "")).not.toMatch(/\p{Cc}/u);
  });
});

describe("version", () => {
  it("is that of package.json, one bare line", async () => {
    const stated = JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8"));
    expect(VERSION).toBe(stated.version);
    expect((await go("--version")).out).toBe(`${stated.version}\n`);
    expect((await go("-V")).out).toBe(`${stated.version}\n`);
  });

  it("states the zone table's version, too, as JSON", async () => {
    expect(JSON.parse((await go("--version --json")).out)).toMatchObject({
      version: VERSION,
      tz: expect.stringMatching(/^20\d\d[a-z]$/u),
    });
  });
});
