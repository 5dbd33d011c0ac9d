/** `drives PLAN…`: legs, slack, the chance of each hit, gaps, relief. */
import { InvalidArgumentError } from "commander";
import { planCommand } from "../plan-command.ts";

/** `95`, `95%` or `0.95` as a share; all of 0 to 1, both ends left out. */
function chance(text: string): number {
  const match = /^(\d{1,3}(?:\.\d{1,3})?)(%?)$/u.exec(text);
  const value = Number(match?.[1] ?? Number.NaN);
  const share = match?.[2] === "%" || value > 1 ? value / 100 : value;
  if (!(share > 0 && share < 1)) throw new InvalidArgumentError("It takes a chance between 0 and 1, as in 95%.");
  return share;
}

export const drives = planCommand({
  name: "drives",
  summary: "print legs with likely and bad time, leave-by, slack, the chance of each hit, gaps",
  topics: ["roads"],
  configure: (command) => {
    command.option("--chance <share>", "say also when to leave for this chance, as in 95%", chance);
  },
  async report({ opened, judged, invocation }) {
    const [{ drivesReport }, { gapsOf }] = await Promise.all([
      import("../../reports/drives.ts"),
      import("../../roads/index.ts"),
    ]);
    const result = judged.results.roads;
    if (result === undefined) throw new Error("the roads were not judged");
    const wanted = invocation.own["chance"];
    return drivesReport(opened.day, opened.say, {
      result,
      gaps: await gapsOf(opened.day, opened.routed),
      relief: null,
      wanted: typeof wanted === "number" ? wanted : null,
      person: invocation.options.person,
      clock: opened.clock,
      findings: judged.findings,
    });
  },
});
