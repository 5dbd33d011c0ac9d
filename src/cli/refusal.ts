/** The JSON envelope of a command that failed before it had an answer, so that a script always has one to read. */
import type { Command, Option } from "commander";
import { answers, type Finding } from "../index.ts";
import { EXIT, type Failure } from "./exit.ts";
import type { Io } from "./io/io.ts";

/** The words of a command line that are neither flags nor their values. */
export function operands(argv: readonly string[], program: Command): readonly string[] {
  const found: string[] = [];
  let options: readonly Option[] = program.options;
  for (let at = 0; at < argv.length; at += 1) {
    const word = argv[at] ?? "";
    if (word === "--") return [...found, ...argv.slice(at + 1)];
    if (word !== "-" && word.startsWith("-")) {
      const option = options.find(({ short, long }) => word === short || word === long);
      if (option?.required === true) at += 1;
      continue;
    }
    if (found.length === 0)
      options = [...options, ...(program.commands.find((one) => one.name() === word)?.options ?? [])];
    found.push(word);
  }
  return found;
}

/** The first flag that lacks its value because the next word is a flag as well; null if none does. `--name=--json` is a value. */
export function withoutValue(
  argv: readonly string[],
  program: Command,
): { readonly flag: string; readonly next: string } | null {
  const [command] = operands(argv, program);
  const options = [...program.options, ...(program.commands.find((one) => one.name() === command)?.options ?? [])];
  const named = (word: string | undefined): Option | undefined =>
    options.find(({ short, long }) => word !== undefined && (word === short || word === long));
  for (let at = 0; at < argv.length && argv[at] !== "--"; at += 1) {
    const [flag = "", next = ""] = argv.slice(at, at + 2);
    if (named(flag)?.required !== true) continue;
    if (named(next) !== undefined) return { flag, next };
    at += 1;
  }
  return null;
}

/** Whether `--json` is there, or the last word on forms asks for JSON. */
export function wantsJson(argv: readonly string[], env: Io["env"]): boolean {
  const words = argv.includes("--") ? argv.slice(0, argv.indexOf("--")) : argv;
  if (words.includes("--json")) return true;
  const asked = argv.findLast((word, at) => /^--(?:json$|format=)/u.test(word) || FORM_FLAGS.has(argv[at - 1] ?? ""));
  if (asked === undefined) return env["DAYWRIGHT_FORMAT"] === "json";
  return /^(?:--json|--format=json|json)$/u.test(asked);
}

const FORM_FLAGS: ReadonlySet<string> = new Set(["--format", "-f"]);

/** The failure as a finding of its own, where it has none. */
async function findingOf({ exit, message, hint, finding }: Failure): Promise<Finding> {
  if (finding !== null) return finding;
  const { commandFailed, wrongUsage } = await answers();
  return (exit === EXIT.usage ? wrongUsage : commandFailed).raise({ message, hint });
}

/** The envelope of a failed command over a plan, as it is printed. */
export async function refusalText(command: string, plan: string, failure: Failure): Promise<string> {
  const [{ envelope, formOfText, headOfText, plainWording }, { toJson }] = await Promise.all([
    answers(),
    import("../render/forms/json.ts"),
  ]);
  const file = plan === "-" ? null : plan.replaceAll("\\", "/");
  const findings = [await findingOf(failure)];
  const form = formOfText(plainWording, file);
  return toJson(envelope({ command, plan: headOfText(file), ok: false, findings, data: null, form }));
}
