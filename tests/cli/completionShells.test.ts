/** Completion as it is met: a real shell in a pseudo-terminal, the script installed as the help says, and Tab pressed. */
import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { ran } from "./fakeIo.ts";
import { SMALLEST } from "./plans.ts";

const SCRIPT = "/usr/bin/script";
const PROGRAM = fileURLToPath(new URL("../../bin/daywright.js", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "daywright-shells-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const PROMPT = "READY: ";

/** How each shell is started, with the settings that a person would have: the script installed, and a prompt to wait for. */
const SHELLS = {
  bash: {
    start: "bash --rcfile ./settings.bash -i",
    script: "daywright.bash",
    settings: "settings.bash",
    lines: `PS1="${PROMPT}"\nsource ./daywright.bash\n`,
  },
  zsh: {
    start: "zsh -i",
    script: "_daywright",
    settings: ".zshrc",
    lines: `PS1="${PROMPT}"\nfpath=($PWD $fpath)\nautoload -U compinit\ncompinit -u -D\n`,
  },
  fish: {
    start: "fish -i",
    script: ".config/fish/completions/daywright.fish",
    settings: ".config/fish/config.fish",
    lines: `function fish_prompt\n  echo -n "${PROMPT}"\nend\n`,
  },
} as const;

/** Types `line` and Tab at the first prompt, and waits until the terminal shows `wanted`; what it showed after the line. */
function completed(shell: keyof typeof SHELLS, line: string, wanted: string): Promise<string> {
  const own = { HOME: folder, ZDOTDIR: folder, XDG_CONFIG_HOME: join(folder, ".config"), TERM: "dumb" };
  const env = { ...process.env, ...own, PATH: `${folder}:${process.env["PATH"]}` };
  const child = spawn(SCRIPT, ["-qec", SHELLS[shell].start, "/dev/null"], { cwd: folder, env });
  let shown = "";
  let since: number | null = null;
  return new Promise((resolve) => {
    const end = (): void => {
      clearTimeout(late);
      child.kill();
      resolve(shown.slice(since ?? 0));
    };
    const late = setTimeout(end, 20_000);
    child.on("error", end);
    child.on("close", end);
    child.stdout.setEncoding("utf8");
    child.stdout.on("data", (text: string) => {
      shown += text;
      if (since === null && shown.includes(PROMPT)) {
        since = shown.length;
        child.stdin.write(`${line}\t`);
      } else if (since !== null && shown.slice(since).includes(wanted)) end();
    });
  });
}

const has = (program: string): boolean => spawnSync(program, ["--version"]).error === undefined;

describe.skipIf(process.platform !== "linux" || !existsSync(SCRIPT))("in a real shell Tab completes", () => {
  beforeAll(async () => {
    writeFileSync(join(folder, "day.yaml"), SMALLEST);
    writeFileSync(join(folder, "daywright"), `#!/bin/sh\nexec "${process.execPath}" "${PROGRAM}" "$@"\n`, {
      mode: 0o755,
    });
    mkdirSync(join(folder, ".config/fish/completions"), { recursive: true });
    for (const [shell, { script, settings, lines }] of Object.entries(SHELLS)) {
      writeFileSync(join(folder, script), (await ran(["completion", shell])).out);
      writeFileSync(join(folder, settings), lines);
    }
  });

  for (const shell of ["bash", "zsh", "fish"] as const) {
    it.skipIf(!has(shell)).each([
      ["a command", "daywright hando", "handover "],
      ["a form", "daywright sheet day.yaml --format mark", "markdown "],
      ["a form that only this command has", "daywright drives day.yaml -f geo", "geojson "],
      ["a person of the plan on the line", "daywright calls day.yaml --for wr", "wren "],
      ["a vehicle for a sheet", "daywright sheet day.yaml --for wag", "wagon "],
      ["what can be logged", "daywright log day.yaml daw", "dawn "],
      ["an instant of that plan", "daywright calls day.yaml --why ilse.c", "ilse.call "],
      ["a code", "daywright explain rest-too-s", "rest-too-short "],
      ["a schema", "daywright schema shar", "shared "],
      ["a page of the manual", "daywright help first-n", "first-night "],
    ])(`${shell}: %s`, async (_, line, wanted) => {
      // A shell may print the rest alone or the line again.
      const rest = wanted.slice((line.split(" ").at(-1) ?? "").length);
      expect(await completed(shell, line, rest)).toContain(rest);
    });
  }
});
