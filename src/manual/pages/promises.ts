/** The page on what stays: what scripts, hooks and plans may rely on from version to version. */
import { type DeclaredPage, heading, type PageText, pageTerm, terms, textBlock } from "../page.ts";

const page: PageText = {
  title: "What stays as it is",
  blocks: [
    heading("JSON"),
    textBlock(
      'Within `"daywright": 1` keys keep their names, types and meanings, and every documented key is always there. Keys may be added: a reader ignores those that it does not know. Order of keys and of findings is fixed.',
    ),
    heading("Codes"),
    textBlock(
      "A finding's code keeps its meaning. Codes may be added; a finding may be raised in more or fewer cases where a source or a fault asks for it, and `daywright help versions` says so. Sentences, hints and titles may change: do not match them.",
    ),
    heading("Exit codes"),
    terms([
      pageTerm("0", "done; warnings allowed"),
      pageTerm("1", "what the command judges has an error that is not accepted, with `--strict` also a warning"),
      pageTerm("2", "wrong usage"),
      pageTerm("3", "something could not be read or written, or is not a valid plan"),
      pageTerm("70", "an internal error"),
    ]),
    textBlock(
      "`check` judges everything. Another command judges the times of the day and its own subject: `calls` ends with 0 where only a rest is too short, `hours` and `check` end with 1.",
    ),
    heading("The plan"),
    textBlock(
      "A plan that says `daywright: 1` is read by every later version. Keys and words may be added. Defaults of house rules may change only with a new version of the program, which names them.",
    ),
    heading("Output"),
    textBlock(
      "The same plan, flags and version give the same bytes on every machine: no clock, no language and no time zone of the machine is used, and no network unless a plan names a server. CSV columns keep their keys; columns may be added at the end. Text and Markdown are for people and may change.",
    ),
    heading("Files"),
    textBlock(
      "No file is overwritten without `--force`, none that an answer is made from even then. A file is written whole or not at all. `log`, `--write` and `next` keep comments, order and line ends.",
    ),
    heading("Systems"),
    textBlock(
      "Node 20, 22 and 24, on Linux and macOS by design; tried on Linux. For Windows, paths, line ends and a rename over an open file are tested by its rules, not on it: a terminal there, the launcher that npm makes, the code cache and the completion for PowerShell have never been run.",
    ),
    heading("The library"),
    textBlock("What `src/index.ts` exports keeps its names and types within a major version of the package."),
  ],
};

/** The page for the table. */
export const promisesEntry: DeclaredPage = {
  name: "promises",
  place: 70,
  about: "what stays as it is from version to version",
  page: () => page,
};
