/** The reports of a judged day by name, each loaded when it is asked for. */
import type { Judged } from "./shared/judged.ts";
import type { Shape } from "./shared/kinds.ts";
import type { ReportOptions } from "./shared/report.ts";
import type { Report } from "./shared/view.ts";
import type { Sheet } from "./sheet/view.ts";
import { REPORTS } from "./table.ts";

/** The name of a report. */
export type ReportName = keyof typeof REPORTS;

const isReport = (name: string): name is ReportName => Object.hasOwn(REPORTS, name);

/** Makes one report of a judged day. Throws an Error where a topic that it needs was not judged. */
export async function reportOf(name: ReportName, judged: Judged, options: ReportOptions): Promise<Report> {
  const [report, { inputOf }] = await Promise.all([REPORTS[name].load(), import("./shared/report.ts")]);
  const input = inputOf(judged, options);
  const parts = await report.make(input, judged, options);
  return { command: name, findings: input.findings, say: input.say, ...parts };
}

/** The call sheet as a view of its own, which the page, the calendar and the chat are made from. */
export const sheetView = async (judged: Judged, options: ReportOptions = {}): Promise<Sheet> =>
  (await import("./sheet/index.ts")).judgedSheet(judged, options);

/** Commands whose JSON has a schema. */
export const described = (): readonly string[] => [...Object.keys(REPORTS), "explain"];

/** The JSON Schema of one command's answer; null for a command that has none. */
export async function schemaOf(command: string): Promise<Shape | null> {
  const { answerSchema } = await import("./shared/envelope.ts");
  if (command === "explain") return answerSchema(command, (await import("./explain/index.ts")).EXPLAIN_DATA.schema);
  return isReport(command) ? answerSchema(command, (await REPORTS[command].load()).schema()) : null;
}
