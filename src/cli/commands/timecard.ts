/** `timecard PLAN…`: pay by the hour over the days that the plan follows, itself the last. */
import { planCommand } from "../plan-command.ts";

export const timecard = planCommand({
  name: "timecard",
  summary: "print straight time, overtime, meal and turnaround penalties per person over several days",
  more: [
    "Names the last day; the days it `follows` come with it. Contracts are the plan's `contracts`.",
    "Example:",
    "  daywright timecard 2027-01-22.yaml -o week.csv --bom",
  ].join("\n"),
  topics: [],
  async report({ opened, judged, invocation }) {
    const [{ timecardReport }, { timecards }] = await Promise.all([
      import("../../reports/timecard.ts"),
      import("../../hours/pay/timecard.ts"),
    ]);
    const { days, say } = opened;
    return timecardReport(days, timecards(days), judged.findings, say, invocation.options.person);
  },
});
