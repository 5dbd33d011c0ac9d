/** `completion SHELL`. */
import { Argument } from "commander";
import { codes, HELP_PAGES, schemaNames } from "../../index.ts";
import type { CommandFile, Invocation } from "../command.ts";
import { EXIT, type ExitCode } from "../exit.ts";
import { deliver } from "../output.ts";

/** Also stated here, so that help does not load the scripts. */
const SHELLS = ["bash", "zsh", "fish", "powershell"];

/** The command `completion`. */
export const completionCommand: CommandFile = {
  name: "completion",
  place: 240,
  summary: "print the completion script of a shell",
  more: [
    "Install:",
    "  bash        daywright completion bash > ~/.local/share/bash-completion/completions/daywright",
    "  zsh         daywright completion zsh > ~/.zfunc/_daywright, with fpath=(~/.zfunc $fpath) before compinit",
    "  fish        daywright completion fish > ~/.config/fish/completions/daywright.fish",
    "  powershell  a line in $PROFILE: daywright completion powershell | Out-String | Invoke-Expression",
  ].join("\n"),
  build: (command) => {
    command.addArgument(new Argument("<shell>", "the shell").choices(SHELLS));
  },
  prints: "text",
  run,
};

async function run({ io, options, args: [shell], program }: Invocation): Promise<ExitCode> {
  const { completionScript, SHELLS: known } = await import("../completion.ts");
  const asked = known.find((one) => one === shell);
  const [{ catalogue }, names] = await Promise.all([codes(), schemaNames()]);
  const first = {
    explain: [...(await catalogue()).keys()],
    schema: names,
    help: [
      ...program.commands.map((command) => command.name()).filter((name) => name !== "words"),
      ...HELP_PAGES.keys(),
    ],
  };
  if (asked !== undefined) deliver(io, options, completionScript(program, asked, first));
  return EXIT.done;
}
