/** `asrun PLAN…`: what really went out, from what was logged. */
import { ownFlag } from "../command.ts";
import { planCommand } from "../plan/planCommand.ts";

/** Days before the plan's own in a week. */
const WEEK = 6;

/** The command `asrun`. */
export const asrunCommand = planCommand({
  name: "asrun",
  place: 190,
  summary: "print what really went out, from what was logged, deviations first",
  printsFindings: false,
  configure: (command) => {
    command.option("--week", "the days before along `follows` as well, seven in all");
  },
  options: async ({ loaded, invocation }) => ({
    daysBefore: ownFlag(invocation, "week") ? WEEK : 0,
    plans: loaded.links.map(({ plan }) => plan),
  }),
});
