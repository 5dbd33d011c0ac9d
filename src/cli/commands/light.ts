/** `light PLAN…`. */
import { planCommand } from "../plan-command.ts";

export const light = planCommand({
  name: "light",
  summary: "print sun and sky at each hit, rise and set, what to pack",
  topics: ["sky"],
  async report({ opened, judged, invocation }) {
    const [{ lightReport }, { had }] = await Promise.all([
      import("../../reports/light.ts"),
      import("../../reports/judge.ts"),
    ]);
    return lightReport(opened.day, opened.say, {
      result: had(judged.results.sky),
      person: invocation.options.person,
      clock: opened.clock,
      findings: judged.findings,
    });
  },
});
