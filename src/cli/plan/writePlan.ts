/** A plan that a command made: checked by the plan's own reader, then written whole, never over another file unasked. */
import { answers, type Finding, type Said } from "../../index.ts";
import type { Invocation } from "../command.ts";
import { EXIT, type ExitCode } from "../exit.ts";
import { note, noteStyle, putFile } from "../output.ts";
import { loadText } from "./load.ts";
import { printRefusal } from "./planCommand.ts";

/**
 * Writes `text` as `file` (`-` prints it). A plan that would not be valid is refused with its findings; `place` is where it
 * would stand, from which the files that it names are found.
 */
export async function writePlan(
  invocation: Invocation,
  file: string,
  text: string,
  place: string = file === "-" ? "new.yaml" : file,
): Promise<ExitCode> {
  const { io, options } = invocation;
  const checked = await loadText(invocation, place, text, null);
  if (!checked.ok) return printRefusal(invocation, checked, checked.findings);
  if (file === "-") io.stdout.write(text);
  else {
    putFile(io, file, text, { replace: options.force });
    note(io, options, `wrote ${file}`);
  }
  return EXIT.done;
}

/** Writes a plan made from answers. If it cannot be written, it is printed, so that no answer is lost. */
export async function writeAnswers(...written: Parameters<typeof writePlan>): Promise<ExitCode> {
  try {
    return await writePlan(...written);
  } catch (error) {
    const [{ io }, , text] = written;
    io.stdout.write(text);
    throw error;
  }
}

/** All values of a flag, repeatable or not, read; null where one is not clear, which is printed. */
export async function readAll<T>(
  invocation: Invocation,
  flag: string,
  read: (text: string) => Said<T>,
): Promise<readonly T[] | null> {
  const given = invocation.own[flag];
  const values: T[] = [];
  for (const text of [given ?? []].flat()) {
    const one = read(String(text));
    if (one.ok) values.push(one.value);
    else {
      await printUnclear(invocation, one.finding);
      return null;
    }
  }
  return values;
}

/** Prints why what was said cannot become an edit; at a terminal lines end at blanks. */
export async function printUnclear(
  { io, options }: Pick<Invocation, "io" | "options">,
  finding: { sentence: Finding["sentence"]; hint: Finding["hint"] },
): Promise<void> {
  const { plainWording } = await answers();
  const [{ printable }, { wrapText }, { width }] = await Promise.all([
    import("../../render/text/printable.ts"),
    import("../../render/text/fit.ts"),
    noteStyle(io, options),
  ]);
  const print = (text: string): void => {
    const lines = width === null ? [text] : wrapText(text, width);
    io.stderr.write(`${lines.join("\n")}\n`);
  };
  print(`error: ${printable(finding.sentence(plainWording))}`);
  const hint = finding.hint(plainWording);
  if (hint !== null) print(`try: ${printable(hint)}`);
}
