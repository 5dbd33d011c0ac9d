/** Help and completion: every command and flag is told, in words that follow the rules, and the scripts are ones that shells take. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { COMMANDS } from "../../src/cli/table.ts";
import { ran } from "./fakeIo.ts";
import { SMALLEST } from "./plans.ts";

/** The commands, listed by hand. */
const WANTED = [
  "calls",
  "hours",
  "power",
  "drives",
  "light",
  "signal",
  "kit",
  "bookings",
  "check",
  "changes",
  "compare",
  "repair",
  "endurance",
  "sheet",
  "new",
  "next",
  "log",
  "now",
  "asrun",
  "handover",
  "timecard",
  "explain",
  "schema",
  "completion",
];
/** What every command takes, listed by hand. */
const COMMON = [
  "--format",
  "--json",
  "--output",
  "--set",
  "--for",
  "--clock",
  "--width",
  "--color",
  "--strict",
  "--now",
];

describe("help", () => {
  it("knows these commands and no others", () => {
    expect(COMMANDS.map(({ name }) => name)).toEqual(WANTED);
  });

  it("lists the commands and the common flags", async () => {
    const { out, err, code } = await ran(["--help"]);
    expect([code, err]).toEqual([0, ""]);
    for (const word of [...WANTED, ...COMMON]) expect(out).toContain(word);
    expect(out).toMatch(/Exit codes:\n {2}0 /u);
  });

  it.each(COMMANDS.map((command) => command.name))(
    "%s: -h, --help and help agree, with the common flags",
    async (name) => {
      const whole = await ran([name, "--help"]);
      expect((await ran([name, "-h"])).out).toBe(whole.out);
      expect((await ran(["help", name])).out).toBe(whole.out);
      for (const flag of COMMON) expect(whole.out).toContain(flag);
      for (const line of whole.out.split("\n")) expect(line.length).toBeLessThanOrEqual(120);
    },
  );

  it.each(COMMANDS.map((command) => [command.name, command.summary]))("%s: %s", (_, summary) => {
    expect(summary).toMatch(/^[a-z].*[^.]$/u);
  });
});

describe("completion", () => {
  it.each([
    ["bash", ["bash", "-n"]],
    ["zsh", ["zsh", "-n"]],
    ["fish", ["fish", "--no-execute"]],
    ["powershell", ["pwsh", "-NoProfile", "-File"]],
  ])(
    "for %s knows every command and flag, and the shell reads it where it is here",
    async (shell, [program = "", ...flags]) => {
      const { code, out } = await ran(["completion", shell]);
      expect(code).toBe(0);
      for (const word of WANTED) expect(out).toContain(word);
      for (const flag of COMMON) expect(out).toContain(shell === "fish" ? `-l ${flag.slice(2)}` : flag);
      // From a file: fish 3.6 reads no script from a socket, which is what a child's input is.
      const folder = mkdtempSync(join(tmpdir(), "completion-"));
      const script = join(folder, `daywright.${shell === "powershell" ? "ps1" : shell}`);
      writeFileSync(script, out);
      const checked = spawnSync(program, [...flags, script], { encoding: "utf8" });
      rmSync(folder, { recursive: true });
      if (checked.error === undefined) expect([checked.status, checked.stderr]).toEqual([0, ""]);
    },
  );

  it.skipIf(process.platform === "win32")("for bash completes commands, flags and choices", async () => {
    const { out } = await ran(["completion", "bash"]);
    const ask = (words: readonly string[]): readonly string[] => {
      const setting = `COMP_WORDS=(${words.map((word) => `'${word}'`).join(" ")}); COMP_CWORD=${words.length - 1}`;
      const { stdout } = spawnSync(
        "bash",
        ["-c", `${out}\n${setting}; _daywright; printf '%s\\n' "\${COMPREPLY[@]}"`],
        { encoding: "utf8", cwd: "/" },
      );
      return stdout.trim().split("\n");
    };
    expect(ask(["daywright", "dri"])).toEqual(["drives"]);
    expect(ask(["daywright", "calls", "--wh"])).toEqual(["--why"]);
    expect(ask(["daywright", "calls", "--str"])).toEqual(["--strict"]);
    expect(ask(["daywright", "--color", "al"])).toEqual(["always"]);
  });

  describe.skipIf(process.platform === "win32")("asks the plan on the line for its words", () => {
    const PROGRAM = fileURLToPath(new URL("../../bin/daywright.js", import.meta.url));
    let folder = "";
    beforeAll(async () => {
      folder = mkdtempSync(join(tmpdir(), "completion-words-"));
      writeFileSync(join(folder, "day.yaml"), SMALLEST);
      writeFileSync(join(folder, "daywright"), `#!/bin/sh\nexec "${process.execPath}" "${PROGRAM}" "$@"\n`, {
        mode: 0o755,
      });
      for (const shell of ["bash", "zsh", "fish"])
        writeFileSync(join(folder, `script.${shell}`), (await ran(["completion", shell])).out);
    });
    afterAll(() => rmSync(folder, { recursive: true }));
    const has = (shell: string): boolean => spawnSync(shell, ["-c", "true"]).error === undefined;
    const asked = (shell: string, script: string): readonly string[] => {
      const env = { ...process.env, PATH: `${folder}:${process.env["PATH"]}`, HOME: folder };
      const { stdout } = spawnSync(shell, ["-c", script], { encoding: "utf8", cwd: folder, env });
      return stdout.trim().split("\n");
    };

    it.skipIf(!has("bash"))("in bash", () => {
      const ask = (...words: readonly string[]) =>
        asked(
          "bash",
          `source ./script.bash; COMP_WORDS=(${words.join(" ")}); COMP_CWORD=${words.length - 1}; _daywright; printf '%s\\n' "\${COMPREPLY[@]}"`,
        );
      expect(ask("daywright", "calls", "day.yaml", "--for", "w")).toEqual(["wren"]);
      expect(ask("daywright", "calls", "day.yaml", "--why", "wren.c")).toEqual(["wren.call"]);
      expect(ask("daywright", "calls", "ghost.yaml", "--for", "w")).toEqual([""]);
      expect(ask("daywright", "calls", "day.yaml", "--for", "pier")).toEqual([""]);
      expect(ask("daywright", "sheet", "day.yaml", "--for", "pier")).toEqual(["pier"]);
      expect(ask("daywright", "log", "day.yaml", "wag")).toEqual(
        expect.arrayContaining(["wagon", "wagon.1", "wagon.2"]),
      );
      expect(ask("daywright", "explain", "rest-too-s")).toEqual(["rest-too-short"]);
      expect(ask("daywright", "schema", "pl")).toEqual(["plan"]);
      expect(ask("daywright", "help", "first")).toEqual(["first-night"]);
    });

    it.skipIf(!has("fish"))("in fish", () => {
      const ask = (line: string) =>
        asked("fish", `source ./script.fish; complete -C '${line}'`).map((one) => one.split("\t")[0]);
      expect(ask("daywright calls day.yaml --for w")).toEqual(["wren"]);
      expect(ask("daywright calls day.yaml --why wren.c")).toEqual(["wren.call"]);
      expect(ask("daywright explain rest-too-s")).toContain("rest-too-short");
    });

    it.skipIf(!has("zsh"))("in zsh", () => {
      const script = `compdef() { :; }; _describe() { :; }; _arguments() { :; }; source ./script.zsh 2> /dev/null; compadd() { print -l $found; }; words=(daywright calls day.yaml --for w); _daywright_words views`;
      expect(asked("zsh", script)).toEqual(["wren", "ilse"]);
    });
  });
});
