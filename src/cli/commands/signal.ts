/** `signal PLAN…`. */
import { planCommand } from "../plan/planCommand.ts";

export const signal = planCommand({
  name: "signal",
  summary: "print look angles, windows, cable, path and spare of each hit, lines",
  topics: ["signal"],
  async report({ opened, judged, invocation }) {
    const [{ signalReport }, { had }] = await Promise.all([
      import("../../reports/signal/index.ts"),
      import("../../reports/shared/judge.ts"),
    ]);
    return signalReport(opened.day, opened.say, {
      result: had(judged.results.signal),
      person: invocation.options.person,
      redact: invocation.options.redact,
      clock: opened.clock,
      findings: judged.findings,
    });
  },
});
