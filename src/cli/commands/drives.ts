/** `drives PLAN…`: legs, slack, the chance of each hit, gaps, relief. */
import { InvalidArgumentError } from "commander";
import { type DayMap, maps } from "../../index.ts";
import { type Invocation, ownFlag, ownText } from "../command.ts";
import { usage } from "../exit.ts";
import { note } from "../output.ts";
import type { LoadedPlan } from "../plan/load.ts";
import { planCommand, type ReportRequest } from "../plan/planCommand.ts";

/** `95`, `95%` or `0.95` as a share; all of 0 to 1, both ends left out. */
function chance(text: string): number {
  const match = /^(\d{1,3}(?:\.\d{1,3})?)(%?)$/u.exec(text);
  const value = Number(match?.[1] ?? Number.NaN);
  const share = match?.[2] === "%" || value > 1 ? value / 100 : value;
  if (!(share > 0 && share < 1)) throw new InvalidArgumentError("It takes a chance between 0 and 1, as in 95%.");
  return share;
}

/** The command `drives`. */
export const drivesCommand = planCommand({
  name: "drives",
  place: 40,
  summary: "print legs with likely and bad time, leave-by, slack, the chance of each hit, gaps; propose drivers",
  configure: (command) => {
    command
      .option("--chance <share>", "say also when to leave for this chance, as in 95%", chance)
      .option("--relief", "propose who drives which stretch")
      .option("--every <length>", "with --relief: where drivers may change inside a leg; 2 h if left out")
      .option("--write", "with --relief: put the drivers into the plan");
  },
  async options({ loaded, invocation }) {
    const wanted = invocation.own["chance"];
    return { relief: await relieved(loaded, invocation), chance: typeof wanted === "number" ? wanted : null };
  },
  own: async (form, asked) => (form.takes === "map" ? (await form.load())(await mapOf(asked)) : ""),
});

/** The map, and a remark on what is not on it. */
async function mapOf({ loaded, invocation: { io, options } }: ReportRequest): Promise<DayMap> {
  const { dayMap } = await maps();
  const map = dayMap(loaded.day, loaded.routed);
  const [first] = map.without;
  if (first !== undefined) {
    const file = loaded.file === null ? "" : `${loaded.file}: `;
    note(io, options, `${file}not on the map, without coordinates: ${map.without.join(", ")}`);
    note(io, options, `  try: ${first}: { at: [latitude, longitude] } under \`places\``);
  }
  return map;
}

async function relieved(loaded: LoadedPlan, invocation: Invocation) {
  const write = ownFlag(invocation, "write");
  if (!ownFlag(invocation, "relief")) {
    if (write) throw usage("--write goes with --relief", "daywright drives day.yaml --relief --write");
    if (ownText(invocation, "every") !== null)
      throw usage("--every goes with --relief", "daywright drives day.yaml --relief --every 90min");
    return null;
  }
  const { reliefFor, writeRelief } = await import("../plan/relief.ts");
  const proposal = await reliefFor(loaded, invocation);
  if (write && proposal !== "no-choice") await writeRelief(loaded, proposal, invocation);
  return proposal;
}
