/** Command lines over the whole of commander's tree: every command, every form, every flag, each alone and with others. */
import type { Command, Option } from "commander";
import { buildProgram } from "../../src/cli/program.ts";
import { formsOf } from "../../src/render/forms.ts";
import { silentIo } from "./judged.ts";
import { type Dice, pick, VALUES } from "./mutants.ts";

const program = buildProgram(silentIo(), { code: 0 });
/** Words for shells and tests of the zone table: they read no plan. */
const WITHOUT_PLAN = new Set(["completion", "schema", "explain", "help"]);
const COMMANDS: readonly Command[] = program.commands;
const FORM_NAMES = [...new Set(COMMANDS.flatMap((command) => formsOf(command.name()).map(({ name }) => name)))];
const TIMES = ["07:00", "00:00", "23:59 -1d", "2027-01-20T07:00-06:00", "2027-01-20", "12:00 pm", "yesterday", ""];

/** A word for a flag: by what the flag is for, now and then anything at all. */
function valueFor(dice: Dice, option: Option, words: readonly string[]): string {
  if (dice(12) === 0) return pick(dice, VALUES);
  if (option.argChoices !== undefined) return pick(dice, option.argChoices);
  const word = (): string => pick(dice, words);
  const byName: Readonly<Record<string, () => string>> = {
    format: () => pick(dice, FORM_NAMES),
    output: () => pick(dice, ["out.txt", "out.html", "out.ics", "-", "day.yaml"]),
    set: () => `${word()}.${word()}${dice(2) === 0 ? `.${word()}` : ""}=${pick(dice, [word(), pick(dice, VALUES)])}`,
    with: () => `x: ${word()}.${word()}=${word()}`,
    clock: () => pick(dice, ["12", "24", "UTC", "America/New_York", word()]),
    width: () => pick(dice, ["0", "1", "20", "80", "9999"]),
    now: () => pick(dice, TIMES),
    patience: () => pick(dice, ["1", "1", "0", "2"]),
    why: () => `${word()}.${word()}`,
  };
  return (byName[option.attributeName()] ?? (() => pick(dice, [word(), pick(dice, TIMES), "30 min", "1"])))();
}

/** Words of one command line over the plan `file`; `words` are of its text. */
export function commandLine(dice: Dice, file: string, words: readonly string[]): readonly string[] {
  const command =
    dice(4) === 0 ? (COMMANDS.find((one) => one.name() === "check") ?? pick(dice, COMMANDS)) : pick(dice, COMMANDS);
  const line = [command.name()];
  for (const argument of command.registeredArguments) {
    if (!argument.required && dice(2) === 0) continue;
    const isPlan = !WITHOUT_PLAN.has(command.name()) && /plan|file|folder|old|new/u.test(argument.name());
    line.push(isPlan && dice(30) > 0 ? file : pick(dice, words));
    if (argument.variadic && dice(6) === 0) line.push(isPlan ? file : pick(dice, words));
  }
  const own = command.options;
  const flags = [...own, ...own, ...program.options].filter((option) => option.attributeName() !== "watch");
  for (let left = dice(4); left > 0 && flags.length > 0; left--) {
    const option = pick(dice, flags);
    line.push(option.long ?? option.short ?? "");
    if (option.required || (option.optional && dice(2) === 0)) line.push(valueFor(dice, option, words));
  }
  if (dice(5) === 0) line.push(pick(dice, ["--json", "--redact", "--strict", "--ascii", "--quiet"]));
  return line;
}

/** Flags that every report takes, with values that it takes. */
const SOUND_FLAGS: readonly (readonly string[])[] = [
  ...[["--redact"], ["--strict"], ["--ascii"], ["--bom"], ["--quiet"], ["--color", "always"], ["--clock", "12"]],
  ...[
    ["--clock", "UTC"],
    ["--width", "40"],
    ["--width", "80"],
    ["--width", "1"],
    ["--now", "12:00"],
    ["--now", "23:59 +1d"],
  ],
];

/** A command over the plan `file` in a form that it has, with flags that it takes: whatever ends it, its words do not. */
export function soundLine(dice: Dice, file: string, ids: readonly string[]): readonly string[] {
  const all = COMMANDS.filter((one) => !WITHOUT_PLAN.has(one.name()) && !["new", "log", "next"].includes(one.name()));
  const command = pick(dice, all);
  const form = pick(dice, formsOf(command.name())).name;
  const line = [command.name(), file, "--format", form];
  if (command.name() === "changes") line.push("--since", file);
  for (let left = dice(3); left > 0; left--) line.push(...pick(dice, SOUND_FLAGS));
  if (dice(6) === 0) line.push("--for", pick(dice, ids));
  return line;
}
