/** Renders a report in the form asked for; each renderer is loaded when it is needed. */
import type { Report } from "../index.ts";
import type { Io } from "./io/io.ts";
import type { CommonOptions } from "./options.ts";
import { textStyle } from "./output.ts";

/** The forms that every report has. */
export const FORMS = ["text", "list", "json", "markdown", "csv"] as const;
export type Form = (typeof FORMS)[number];

/** The report in one form. `json` prints its `data` alone: an envelope is made of more than a report. */
export async function printed(io: Io, options: CommonOptions, form: Form, report: Report): Promise<string> {
  switch (form) {
    case "text":
    case "list": {
      const { toText } = await import("../render/text.ts");
      return toText(report, await textStyle(io, options, form === "list"));
    }
    case "json":
      return (await import("../render/json.ts")).toJson(report.data);
    case "markdown":
      return (await import("../render/markdown.ts")).toMarkdown(report);
    case "csv":
      return (await import("../render/csv.ts")).toCsv(report, { bom: options.bom });
  }
}
