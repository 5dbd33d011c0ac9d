/**
 * Completion scripts for shells, made from the commander tree: static, so that pressing Tab starts nothing, but for flags
 * that take a word of the plan on the line (`words.ts`).
 */
import type { Command, Option } from "commander";
import { formsOf } from "../render/forms.ts";
import { PLAN_WORDS, WORDS_BEHIND_PLAN } from "./words.ts";

/** The shells that have a completion script. */
export const SHELLS = ["bash", "zsh", "fish", "powershell"] as const;
/** A shell that has a completion script. */
export type Shell = (typeof SHELLS)[number];

interface Flag {
  readonly long: string | null;
  readonly short: string | null;
  readonly text: string;
  readonly takesValue: boolean;
  readonly choices: readonly string[];
}

interface Entry {
  readonly name: string;
  readonly text: string;
  readonly flags: readonly Flag[];
  /** Words that its first argument may be; empty where it takes a file. */
  readonly words: readonly string[];
}

const flagOf = (option: Option): Flag => ({
  long: option.long ?? null,
  short: option.short ?? null,
  text: option.description,
  takesValue: option.required || option.optional,
  choices: option.argChoices ?? [],
});

const isFormat = ({ long }: Option): boolean => long === "--format";

/** The names of the forms that a command has. */
const formsIn = (command: string): readonly string[] => [...new Set(formsOf(command).map(({ name }) => name))];

interface Tree {
  readonly common: readonly Flag[];
  readonly commands: readonly Entry[];
}

/** Words that a command takes, by its name, where the tree does not have them. */
export type FirstWords = Readonly<Record<string, readonly string[]>>;

function treeOf(program: Command, first: FirstWords): Tree {
  const listed = program.commands.filter((command) => command.name() !== "words");
  const commands = listed.map((command) => ({
    name: command.name(),
    text: command.description(),
    flags: [
      ...command.options.map(flagOf),
      // The flag is common, its values are the command's own.
      ...program.options.filter(isFormat).map((option) => ({ ...flagOf(option), choices: formsIn(command.name()) })),
    ],
    words: command.registeredArguments[0]?.argChoices ?? first[command.name()] ?? [],
  }));
  const help: Flag = { long: "--help", short: "-h", text: "print help", takesValue: false, choices: [] };
  return { common: [...program.options.filter((option) => !isFormat(option)).map(flagOf), help], commands };
}

/** The script for one shell, to be put where that shell looks for it. */
export function completionScript(program: Command, shell: Shell, first: FirstWords): string {
  const tree = treeOf(program, first);
  switch (shell) {
    case "bash":
      return bash(tree);
    case "zsh":
      return zsh(tree);
    case "fish":
      return fish(tree);
    case "powershell":
      return powershell(tree);
  }
}

const spellings = (flag: Flag): readonly string[] => [flag.long, flag.short].flatMap((one) => one ?? []);
const namesOf = (flags: readonly Flag[]): string => flags.flatMap(spellings).join(" ");
const behindPlan = ({ name }: Entry): string | null => WORDS_BEHIND_PLAN.get(name) ?? null;
/** For single quotes of a POSIX shell. */
const quoted = (text: string): string => `'${text.replaceAll("'", `'\\''`)}'`;

const bashBehind = (kind: string | null): string =>
  kind === null ? "" : `; [[ -n $plan ]] && words+=" $(daywright words ${kind} "$plan" 2> /dev/null)"`;

function bash({ common, commands }: Tree): string {
  const values = (flag: Flag, command: string): string =>
    flag.choices.length === 0
      ? ""
      : `    ${spellings(flag)
          .map((one) => `"${command}${one}"`)
          .join("|")}) COMPREPLY=($(compgen -W ${quoted(flag.choices.join(" "))} -- "$word")); return ;;\n`;
  return `# daywright completion for bash: source this file, or put it into the completions folder.
_daywright() {
  local word=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD-1]} command= plan= at
  for at in "\${COMP_WORDS[@]}"; do
    case $at in *.yaml|*.yml) plan=$at ;; esac
  done
  for ((at = 1; at < COMP_CWORD; at++)); do
    case \${COMP_WORDS[at]} in
      ${commands.map(({ name }) => name).join("|")}) command=\${COMP_WORDS[at]}; break ;;
    esac
  done
  case "$command $before" in
${commands.flatMap(({ name, flags }) => flags.map((flag) => values(flag, `${name} `))).join("")}  esac
  case $before in
${common.map((flag) => values(flag, "")).join("")}${[...PLAN_WORDS].map(([flag, kind]) => `    ${flag}) COMPREPLY=($(compgen -W "$(daywright words ${kind} "$plan" $command 2> /dev/null)" -- "$word")); return ;;`).join("\n")}
  esac
  local words=
  case $command in
    "") words=${quoted(commands.map(({ name }) => name).join(" "))} ;;
${commands.map((entry) => `    ${entry.name}) words=${quoted([...entry.words, namesOf(entry.flags)].join(" ").trim())}${bashBehind(behindPlan(entry))} ;;`).join("\n")}
  esac
  case $word in
    -*) COMPREPLY=($(compgen -W "$words "${quoted(namesOf(common))} -- "$word")) ;;
    *) COMPREPLY=($(compgen -W "$words" -- "$word") $(compgen -f -- "$word")) ;;
  esac
}
complete -o filenames -F _daywright daywright
`;
}

/** Brackets and colons have a meaning in zsh's specifications. */
const zshText = (text: string): string => text.replace(/[[\]:\\]/gu, "\\$&");

function zshFlag(flag: Flag): string {
  const kind = PLAN_WORDS.get(flag.long ?? "");
  const files = kind === undefined ? ":value:_files" : `:word:{_daywright_words ${kind}}`;
  const value = flag.choices.length > 0 ? `:value:(${flag.choices.join(" ")})` : flag.takesValue ? files : "";
  return spellings(flag)
    .map((name) => `    ${quoted(`${name}[${zshText(flag.text)}]${value}`)}`)
    .join(" \\\n");
}

/** The first argument that zsh counts is the command itself. */
function zshArguments(entry: Entry): string {
  const kind = behindPlan(entry);
  if (kind !== null) return `1:command: 2:plan:_files ${quoted(`*:word:{_daywright_words ${kind}}`)}`;
  return quoted(entry.words.length > 0 ? `*:word:(${entry.words.join(" ")})` : "*:plan:_files");
}

function zsh({ common, commands }: Tree): string {
  return `#compdef daywright
# daywright completion for zsh: put this file as _daywright into a folder of $fpath.
_daywright_words() {
  local -a found
  local plan=\${words[(r)*.(yaml|yml)]}
  found=(\${(f)"$(daywright words $1 "$plan" $words[2] 2> /dev/null)"})
  compadd -a found
}
_daywright() {
  local -a commands common
  commands=(
${commands.map((entry) => `    ${quoted(`${entry.name}:${zshText(entry.text)}`)}`).join("\n")}
  )
  common=(
${common.map(zshFlag).join(" \\\n").replaceAll(" \\\n", "\n")}
  )
  if (( CURRENT == 2 )); then
    _describe command commands
    _arguments $common
    return
  fi
  case $words[2] in
${commands.map((entry) => `    ${entry.name}) _arguments $common${entry.flags.length > 0 ? ` \\\n${entry.flags.map(zshFlag).join(" \\\n")}` : ""} ${zshArguments(entry)} ;;`).join("\n")}
  esac
}
_daywright "$@"
`;
}

function fishFlag(flag: Flag, condition: string): string {
  const names = [
    flag.long === null ? null : `-l ${flag.long.slice(2)}`,
    flag.short === null ? null : `-s ${flag.short.slice(1)}`,
  ];
  const kind = PLAN_WORDS.get(flag.long ?? "");
  const dynamic = kind === undefined ? " -r" : ` -x -a ${quoted(`(__daywright_words ${kind})`)}`;
  const value = flag.choices.length > 0 ? ` -x -a ${quoted(flag.choices.join(" "))}` : flag.takesValue ? dynamic : "";
  return `complete -c daywright${condition} ${names.filter((name) => name !== null).join(" ")}${value} -d ${quoted(flag.text)}`;
}

function fish({ common, commands }: Tree): string {
  const lines = [
    "# daywright completion for fish: put this file as daywright.fish into the completions folder.",
    "function __daywright_words",
    "    set -l typed (commandline -opc)",
    "    daywright words $argv[1] (string match -r '.*\\.ya?ml$' -- $typed)[1] $typed[2] 2> /dev/null",
    "end",
    ...common.map((flag) => fishFlag(flag, "")),
    ...commands.map(
      (entry) => `complete -c daywright -n __fish_use_subcommand -a ${entry.name} -d ${quoted(entry.text)}`,
    ),
    ...commands.flatMap((entry) => {
      const condition = ` -n ${quoted(`__fish_seen_subcommand_from ${entry.name}`)}`;
      const words =
        entry.words.length > 0 ? [`complete -c daywright${condition} -f -a ${quoted(entry.words.join(" "))}`] : [];
      const kind = behindPlan(entry);
      const behind =
        kind === null ? [] : [`complete -c daywright${condition} -a ${quoted(`(__daywright_words ${kind})`)}`];
      return [...words, ...behind, ...entry.flags.map((flag) => fishFlag(flag, condition))];
    }),
  ];
  return `${lines.join("\n")}\n`;
}

/** For single quotes of PowerShell, where a quote is doubled. */
const psText = (text: string): string => `'${text.replaceAll("'", "''")}'`;
const psList = (words: readonly string[]): string => `@(${words.map(psText).join(", ")})`;

/** Where it finds nothing, PowerShell itself completes the names of files. */
function powershell({ common, commands }: Tree): string {
  const valuesOf = (flags: readonly Flag[], command: string) =>
    flags.flatMap((flag) => spellings(flag).map((name) => [`${command}${name}`, flag.choices] as const));
  const valued = [...valuesOf(common, ""), ...commands.flatMap(({ name, flags }) => valuesOf(flags, `${name} `))];
  const chosen = valued.filter(([, choices]) => choices.length > 0);
  return `# daywright completion for PowerShell: put these lines into the file that $PROFILE names.
Register-ArgumentCompleter -Native -CommandName daywright -ScriptBlock {
  param($word, $line, $cursor)
  $commands = @{
${commands.map(({ name, words, flags: own }) => `    ${psText(name)} = ${psList([...words, ...own.flatMap(spellings)])}`).join("\n")}
  }
  $common = ${psList(common.flatMap(spellings))}
  $values = @{
${chosen.map(([name, choices]) => `    ${psText(name)} = ${psList(choices)}`).join("\n")}
  }
  $ofPlan = @{ ${[...PLAN_WORDS].map(([flag, kind]) => `${psText(flag)} = ${psText(kind)}`).join("; ")} }
  $behindPlan = @{ ${[...WORDS_BEHIND_PLAN].map(([name, kind]) => `${psText(name)} = ${psText(kind)}`).join("; ")} }
  $typed = @($line.CommandElements | Select-Object -Skip 1 | ForEach-Object { $_.ToString() })
  if ($word -ne '' -and $typed.Count -gt 0) { $typed = @($typed | Select-Object -SkipLast 1) }
  $command = $typed | Where-Object { $commands.ContainsKey($_) } | Select-Object -First 1
  $plan = $typed | Where-Object { $_ -match '\\.ya?ml$' } | Select-Object -First 1
  $before = $typed | Select-Object -Last 1
  if ($before -and $values.ContainsKey("$command $before")) { $found = $values["$command $before"] }
  elseif ($before -and $values.ContainsKey($before)) { $found = $values[$before] }
  elseif ($before -and $ofPlan.ContainsKey($before)) { $found = if ($plan) { daywright words $ofPlan[$before] $plan $command 2> $null } }
  elseif ($command) { $found = $commands[$command]; if ($plan -and $behindPlan.ContainsKey($command)) { $found += daywright words $behindPlan[$command] $plan 2> $null }; if ($word -like '-*') { $found += $common } }
  else { $found = @($commands.Keys) + $common }
  $found | Where-Object { $_ -and $_.StartsWith($word) } | Sort-Object | ForEach-Object {
    [System.Management.Automation.CompletionResult]::new($_, $_, 'ParameterValue', $_)
  }
}
`;
}
