/** The commander tree: all commands, the common flags, help and version; nothing else is loaded to print help. */
import { Command } from "commander";
import { HELP_PAGES, VERSION } from "../index.ts";
import { formsOf } from "../render/forms.ts";
import type { CommandFile, Invocation } from "./command.ts";
import { EXIT, type ExitCode, usage } from "./exit.ts";
import type { Io } from "./io/io.ts";
import { addCommonOptions, commonOptions } from "./options.ts";
import { COMMANDS } from "./table.ts";

const AFTER = `
Exit codes:
  0   done; warnings allowed
  1   what the command judges has an error that is not accepted (--strict: or a warning)
  2   wrong usage
  3   something could not be read, or is not a valid plan
  70  an internal error

Pages of the manual (daywright help PAGE):
${[...HELP_PAGES].map(([name, about]) => `  ${name.padEnd(13)}${about}`).join("\n")}

Examples:
  daywright check 2027-01-20.yaml           all findings, worst first
  daywright calls 2027-01-20.yaml           who is called when and where
  daywright calls 2027-01-20.yaml --why wren.call
  daywright check --json - < 2027-01-20.yaml`;

/** Columns of help where there is no terminal, and at most. */
const HELP_WIDTH = 100;

/** `help` of a command, or a page of the manual; commander's own prints all of it for a word that it does not know. */
function addHelp(program: Command, io: Io): void {
  program.helpCommand(false);
  const help = program
    .command("help")
    .argument("[topic...]", `a command, or a page: ${[...HELP_PAGES.keys()].join(", ")}; plan SECTION`)
    .description("print the help of a command, or a page of the manual (text, markdown, man)");
  help.action(async (words: readonly string[]) => {
    const [name, ...more] = words;
    const command = name === undefined ? program : program.commands.find((one) => one.name() === name);
    if (command !== undefined && more.length === 0) {
      refuseForm({ name: ["help", ...words].join(" "), prints: "text" }, program.opts());
      return command.help();
    }
    const { printPage } = await import("./helpPage.ts");
    await printPage(
      words,
      { io, options: commonOptions(program.opts(), io) },
      COMMANDS.map((file) => file.name),
    );
  });
}

/** A form that a command has not, asked for by flag. Throws a usage failure that names those it has. */
function refuseForm(
  { name, prints }: Pick<CommandFile, "name" | "prints">,
  given: Readonly<Record<string, unknown>>,
): void {
  const asked = given["json"] === true ? "json" : given["format"];
  if (prints === undefined || typeof asked !== "string" || asked === prints) return;
  throw usage(`${name} has no form \`${asked}\``, `--format ${prints}`);
}

/** The exit code of a command that has run. */
export interface CommandOutcome {
  code: ExitCode;
}

/** Commands that look at the whole tree. */
const WHOLE: ReadonlySet<string> = new Set(["completion"]);

/**
 * Builds the tree; a command that runs leaves its exit code in `outcome`. `first` is the command line's first word: where it names
 * a command, the others are left out, which is half of what the tree takes to build.
 */
export function buildProgram(io: Io, outcome: CommandOutcome, first?: string): Command {
  const program = new Command("daywright");
  // Before any subcommand is added: they inherit these.
  program
    .exitOverride()
    .configureOutput({
      writeOut: (text) => io.stdout.write(text),
      writeErr: (text) => io.stderr.write(text),
      // What is wrong is printed where every failure is.
      outputError: () => undefined,
      getOutHelpWidth: () => Math.min(HELP_WIDTH, io.stdout.columns ?? HELP_WIDTH),
      getErrHelpWidth: () => Math.min(HELP_WIDTH, io.stderr.columns ?? HELP_WIDTH),
      getOutHasColors: () => false,
      getErrHasColors: () => false,
    })
    .configureHelp({ showGlobalOptions: true })
    .description(
      "Plans the day of a small crew that makes live television on the road: calls, hours, batteries, roads, light, signal.",
    )
    .version(VERSION, "-V, --version", "print the version")
    .helpOption("-h, --help", "print help")
    .addHelpText("after", AFTER);
  addCommonOptions(program);
  const asked = COMMANDS.filter(({ name }) => name === first && !WHOLE.has(name));
  for (const file of asked.length > 0 ? asked : COMMANDS) {
    const command = program.command(file.name).description(file.summary);
    file.build(command);
    if (file.forms)
      command.addHelpText(
        "after",
        `\nForms: ${formsOf(file.name)
          .map(({ name }) => name)
          .join(", ")}`,
      );
    if (file.more) command.addHelpText("after", `\n${file.more}`);
    command.action(async () => {
      const given: Readonly<Record<string, unknown>> = program.opts();
      const options = commonOptions(given, io);
      refuseForm(file, given);
      const invocation: Invocation = {
        io,
        options,
        own: command.opts(),
        args: command.processedArgs
          .flat()
          .filter((word) => word !== undefined)
          .map(String),
        program,
      };
      outcome.code = options.watch
        ? await (await import("./plan/watch.ts")).watched(invocation, file)
        : await file.run(invocation);
    });
  }
  outcome.code = EXIT.done;
  if (asked.length > 0) return program.helpCommand(false);
  addHelp(program, io);
  program
    .command("words <kind> <plan> [command]", { hidden: true })
    .action(async (kind: string, plan: string, command: string | undefined) =>
      io.stdout.write(await (await import("./words.ts")).planWords(io, kind, plan, command ?? null)),
    );
  return program;
}
