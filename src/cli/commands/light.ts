/** `light PLAN…`. */
import type { Report } from "../../reports/shared/view.ts";
import { type Asked, planCommand } from "../plan/planCommand.ts";

export const light = planCommand({
  name: "light",
  summary: "print sun and sky at each hit, rise and set, what to pack",
  more: "Forms: text, list, markdown, csv, json, svg (the chart alone).",
  topics: ["sky"],
  report: reportOf,
  forms: { svg: async (asked) => (await import("../../render/svg.ts")).toSvg(await reportOf(asked)) },
});

async function reportOf({ opened, judged, invocation }: Asked): Promise<Report> {
  const [{ lightReport }, { had }] = await Promise.all([
    import("../../reports/light/index.ts"),
    import("../../reports/shared/judge.ts"),
  ]);
  return lightReport(opened.day, opened.say, {
    result: had(judged.results.sky),
    person: invocation.options.person,
    clock: opened.clock,
    findings: judged.findings,
  });
}
