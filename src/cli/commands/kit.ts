/** `kit PLAN…`. */
import { planCommand } from "../plan/planCommand.ts";

export const kit = planCommand({
  name: "kit",
  summary: "print what is where, what is missing, tonight's loading list by vehicle",
  topics: ["kit"],
  async report({ opened, judged, invocation }) {
    const [{ kitReport }, { had }] = await Promise.all([
      import("../../reports/kit/index.ts"),
      import("../../reports/shared/judge.ts"),
    ]);
    const result = had(judged.results.kit);
    const { person } = invocation.options;
    return kitReport(opened.day, opened.say, { result, clock: opened.clock, findings: judged.findings, person });
  },
});
