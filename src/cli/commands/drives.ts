/** `drives PLAN…`: legs, slack, the chance of each hit, gaps, relief. */
import { InvalidArgumentError } from "commander";
import type { Day } from "../../day/day.ts";
import { type Invocation, ownFlag } from "../command.ts";
import type { Opened } from "../open.ts";
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
  summary: "print legs with likely and bad time, leave-by, slack, the chance of each hit, gaps; propose drivers",
  more: "Forms: text, list, json, markdown, csv, geojson, gpx.",
  topics: ["roads"],
  configure: (command) => {
    command
      .option("--chance <share>", "say also when to leave for this chance, as in 95%", chance)
      .option("--relief", "propose who drives which stretch");
  },
  async report({ opened, judged, invocation }) {
    const [{ drivesReport }, { gapsOf }, { had }] = await Promise.all([
      import("../../reports/drives.ts"),
      import("../../roads/index.ts"),
      import("../../reports/judge.ts"),
    ]);
    const wanted = invocation.own["chance"];
    return drivesReport(opened.day, opened.say, {
      result: had(judged.results.roads),
      gaps: await gapsOf(opened.day, opened.routed),
      relief: ownFlag(invocation, "relief") ? await reliefFor(opened, invocation) : null,
      wanted: typeof wanted === "number" ? wanted : null,
      person: invocation.options.person,
      clock: opened.clock,
      findings: judged.findings,
    });
  },
  forms: {
    async geojson({ opened }) {
      const [{ geojson }, { toJson }] = await Promise.all([
        import("../../reports/geojson.ts"),
        import("../../render/json.ts"),
      ]);
      return toJson(geojson(opened.plan, await mapOf(opened)));
    },
    gpx: async ({ opened }) => (await import("../../reports/gpx.ts")).gpx(await mapOf(opened)),
  },
});

const mapOf = async (opened: Opened) => (await import("../../reports/drives-map.ts")).dayMap(opened.day, opened.routed);

/** The hours of one person of a day that is tried; the days behind it stay as they are. */
async function reliefFor(opened: Opened, { options }: Invocation) {
  const [{ EVERY_MINUTES, proposeRelief }, { personVerdict }, { assess }] = await Promise.all([
    import("../../roads/relief/propose.ts"),
    import("../../roads/relief/verdict.ts"),
    import("../../hours/index.ts"),
  ]);
  const before = opened.days.slice(0, -1);
  const judge = (day: Day, who: string) => {
    const alone = { ...day, people: day.people.filter((person) => person.id === who) };
    const { result } = assess({ days: [...before, alone], patience: options.patience, now: opened.now });
    const person = result.people.get(who);
    return personVerdict(who, person?.hours.verdicts ?? [], person?.since);
  };
  const asked = { everyMinutes: EVERY_MINUTES, patience: options.patience, now: opened.now, judge };
  return proposeRelief(opened.day, asked) ?? "no-choice";
}
