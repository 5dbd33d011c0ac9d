/** Where a command's answer goes and in which form: standard output or a file that is never half written. */
import { resolve } from "node:path";
import type { Report } from "../index.ts";
import type { OutputForm } from "../render/form.ts";
import { formOfSuffix, formsOf } from "../render/forms.ts";
import { printable } from "../render/text/printable.ts";
import type { TextStyle } from "../render/text/style.ts";
import type { Invocation } from "./command.ts";
import { EXIT, Failure, usage } from "./exit.ts";
import { wantsColour, widthFor } from "./io/colour.ts";
import { type Io, IoError, type Output } from "./io/io.ts";
import type { CommonOptions } from "./options.ts";

/**
 * The form asked for, by flag or by the suffix of the output file, checked against those that the command has. Throws a usage
 * failure that lists them, and for a form that is nothing without what `--redact` leaves out. A suffix that names no form is
 * one as well, since the file would not be what it looks like.
 */
export function chooseForm(command: string, { options }: Pick<Invocation, "options">): OutputForm {
  const forms = formsOf(command);
  const names = forms.map(({ name }) => name).join(", ");
  const suffix = suffixOf(options.output);
  const asked = options.format ?? formOfSuffix(suffix)?.name ?? null;
  const [first] = forms;
  if (asked === null && first !== undefined) {
    if (suffix === ".pdf" && forms.some(({ name }) => name === "html"))
      throw usage(
        "there is no PDF form",
        "-o sheet.html, and print that to PDF in a browser: it is laid out for paper",
      );
    if (suffix !== "") throw usage(`the suffix \`${suffix}\` names no form`, `--format ${names}`);
    return first;
  }
  const form = forms.find(({ name }) => name === asked);
  if (form === undefined) throw usage(`${command} has no form \`${asked}\``, `--format ${names}`);
  if (options.redact && form.coordinates === true)
    throw usage(`${form.name} is made of coordinates, which --redact leaves out`, "another form, or without --redact");
  return form;
}

const suffixOf = (output: string | null): string => /[^./\\](\.[^./\\]+)$/u.exec(output ?? "")?.[1] ?? "";

/** Whether the answer goes to the stream `stdout`. */
const toStream = (options: CommonOptions): boolean => options.output === null || options.output === "-";

/** How text looks where it goes; a file is never coloured unless asked for, and never fitted to the terminal. */
export async function textStyle(io: Io, options: CommonOptions, list: boolean): Promise<TextStyle> {
  const file: Output = { write: () => undefined, isTty: false, columns: null };
  return styleOf(io, options, toStream(options) ? io.stdout : file, list);
}

/** How diagnostics look on standard error. */
export const noteStyle = (io: Io, options: CommonOptions): Promise<TextStyle> => styleOf(io, options, io.stderr, false);

async function styleOf(io: Io, options: CommonOptions, stream: Output, list: boolean): Promise<TextStyle> {
  const coloured = wantsColour(options.color, stream, io.env);
  const paint = coloured ? (await import("../render/text/paint.ts")).makePaint() : (text: string): string => text;
  return {
    width: widthFor(options.width, stream, io.env),
    paint,
    ascii: options.ascii,
    rule: options.ascii || !stream.isTty ? "-" : "─",
    tables: list ? "list" : "columns",
  };
}

/** The report in one form. `json` prints its `data` alone: an envelope is made of more than a report. Throws for a form that takes no report. */
export async function printed(
  io: Io,
  options: CommonOptions,
  form: OutputForm,
  report: Report,
  parts = false,
): Promise<string> {
  if (form.takes !== "report") throw new Error(`${form.name} is not made from a report`);
  const render = await form.load();
  return render(report, { style: (list) => textStyle(io, options, list), bom: options.bom, parts });
}

/** Hands over the whole answer. */
export function deliver(io: Io, options: CommonOptions, text: string): void {
  const out = sinkOf(io, options);
  out.write(text);
  out.close();
}

/** Where a command's text goes: a stream, or a file that is written whole at the end. */
export interface Out {
  write(text: string): void;
  /** After the last write: a file is written then, all at once. */
  close(): void;
}

/** Where an answer that comes in pieces goes: a stream has each at once, a file all together, but never a file that was read. */
export function sinkOf(io: Io, options: CommonOptions): Out {
  const { output } = options;
  if (toStream(options) || output === null)
    return { write: (text) => text !== "" && io.stdout.write(text), close: () => undefined };
  const parts: string[] = [];
  return {
    write: (text) => parts.push(text),
    close() {
      refuseInput(io, output);
      putFile(io, output, parts.join(""), { replace: options.force });
      note(io, options, `wrote ${output}`);
    },
  };
}

/** Throws a usage failure for the name of a plan to be written that looks like another form. */
export function refuseOtherForm(output: string | null): void {
  const suffix = suffixOf(output);
  if (suffix === "" || suffix === ".yaml" || suffix === ".yml") return;
  throw usage(`a plan is YAML, and the suffix \`${suffix}\` is not`, "a name that ends in .yaml");
}

/** Throws a usage failure for an output that is a file of input, under whatever name. */
export function refuseInput(io: Io, output: string): void {
  const path = resolve(io.cwd, output);
  const target = io.identity(path);
  // One that is not there yet was looked for all the same, and the next run would find the answer in its place.
  const isRead = target === null ? io.inputs.has(path) : [...io.inputs].some((input) => io.identity(input) === target);
  if (isRead) throw usage(`\`${output}\` is a file that this answer is made from`, "name another file with --output");
}

/** Writes a file as `Io` does. Throws a usage failure where one is there that is not to be replaced, else one of input. */
export function putFile(io: Io, path: string, text: string, options: Parameters<Io["writeFile"]>[2]): void {
  try {
    io.writeFile(resolve(io.cwd, path), text, options);
  } catch (error) {
    if (!(error instanceof IoError)) throw error;
    if (!options.replace && error.reason === "there is already a file")
      throw usage(`there is already a file \`${path}\``, "--force replaces it");
    throw new Failure(EXIT.input, `cannot write \`${path}\`: ${error.reason}`);
  }
}

/** A remark on standard error, which `--quiet` leaves out. */
export function note(io: Io, options: CommonOptions, text: string): void {
  if (!options.quiet) io.stderr.write(`${printable(text)}\n`);
}
