/** `power PLAN…`: pack by pack and hit by hit, margin and moves proved. */
import type { Report } from "../../reports/shared/view.ts";
import { ownFlag } from "../command.ts";
import { type Asked, planCommand } from "../plan/planCommand.ts";

export const power = planCommand({
  name: "power",
  summary: "print pack by pack and hit by hit what is used, charged and swapped, and a chart of the charge",
  more: "Forms: text, list, markdown, csv, json, svg (the chart alone).",
  topics: ["power"],
  configure: (command) => {
    command.option("--fly", "print which packs may fly, where and how many a person");
  },
  report: reportOf,
  forms: { svg: async (asked) => (await import("../../render/svg.ts")).toSvg(await reportOf(asked)) },
});

async function reportOf({ opened, judged, invocation }: Asked): Promise<Report> {
  if (ownFlag(invocation, "fly")) {
    const { flyReport } = await import("../../reports/power/fly.ts");
    return flyReport(opened.day, opened.say, judged.findings);
  }
  const [{ powerReport }, { proved }, { had }] = await Promise.all([
    import("../../reports/power/index.ts"),
    import("../../power/index.ts"),
    import("../../reports/shared/judge.ts"),
  ]);
  const result = await proved(had(judged.results.power), invocation.options.patience);
  const { person } = invocation.options;
  return powerReport(opened.day, opened.say, { result, clock: opened.clock, findings: judged.findings, person });
}
