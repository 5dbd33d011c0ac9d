/** Renders a report in the form asked for; each renderer is loaded when it is needed. */
import type { Report } from "../index.ts";
import type { OutputForm } from "../render/form.ts";
import type { Io } from "./io/io.ts";
import type { CommonOptions } from "./options.ts";
import { textStyle } from "./output.ts";

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
