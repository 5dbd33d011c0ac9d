/** `power PLAN…`: pack by pack and hit by hit, margin and moves proved. */
import { planCommand } from "../plan-command.ts";

export const power = planCommand({
  name: "power",
  summary: "print pack by pack and hit by hit what is used, charged and swapped, and a chart of the charge",
  topics: ["power"],
  async report({ opened, judged, invocation }) {
    const [{ powerReport }, { proved }, { had }] = await Promise.all([
      import("../../reports/power.ts"),
      import("../../power/index.ts"),
      import("../../reports/judge.ts"),
    ]);
    const result = await proved(had(judged.results.power), invocation.options.patience);
    return powerReport(opened.day, opened.say, { result, clock: opened.clock, findings: judged.findings });
  },
});
