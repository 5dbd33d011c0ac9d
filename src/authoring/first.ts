/** The text of a first plan: few words, commented, times quoted, so that `check` accepts it as it is. */
import { dayId } from "./next.ts";
import { type FirstPlan, hitLine, runLines, type StartPerson, type StartVehicle, stopTexts } from "./start.ts";

/** `pending`: hits and runs stand in comments, because something that they need is not answered yet. */
export function firstPlan(start: FirstPlan, pending = false): string {
  const places = [
    ...new Set([
      start.bed,
      ...start.drives.flatMap((drive) => [drive.from, drive.to]),
      ...start.hits.map((hit) => hit.place),
    ]),
  ];
  return [
    ...head(start),
    "",
    "# Who comes, what they do, which vehicles they may drive.",
    "crew:",
    ...start.people.map(personLine),
    "",
    ...historyLines(start),
    "# A vehicle of 10,001 lb or more, alone or with its trailer, names the rules that bind its driver.",
    start.vehicles.length === 0 ? "vehicles: {}" : "vehicles:",
    ...start.vehicles.map(vehicleLine),
    "",
    "# Coordinates, `at: [46.60, -90.88]`, give light, dish angles and estimates; mains and shelter if there are any.",
    "places:",
    ...places.map((place) =>
      place === start.bed ? `  ${place}: { kind: lodging, mains: true, shelter: true }` : `  ${place}: {}`,
    ),
    "",
    "# Likely, and the time that 19 of 20 drives beat.",
    start.drives.length === 0 ? "roads: []" : "roads:",
    ...start.drives.map(
      ({ from, to, likely, bad }) =>
        `  - { link: [${from}, ${to}], drive: ${likely}${bad === null ? "" : `, bad: ${bad}`} }`,
    ),
    "",
    "# A time without a clock is the control room's.",
    ...section("hits", start.hits.map(hitLine), pending),
    "",
    "# What each vehicle does, stop by stop.",
    ...section(
      "runs",
      start.hits.length === 0 ? [] : start.vehicles.flatMap((vehicle) => runBlock(start, vehicle)),
      pending,
    ),
    "",
  ].join("\n");
}

/** A section's lines; in comments behind an empty section where they wait for something. */
export function section(name: string, lines: readonly string[], pending: boolean): readonly string[] {
  if (lines.length === 0) return [`${name}: {}`];
  return pending ? [`${name}: {}`, ...lines.map((line) => `# ${line}`)] : [`${name}:`, ...lines];
}

function head({ title, date, clock, zone }: FirstPlan): readonly string[] {
  return [
    "# yaml-language-server: $schema=./plan.schema.json",
    "daywright: 1",
    `id: ${dayId(title, date)}   # this day's own name, in calendars and versions`,
    ...(title === null ? [] : [`title: ${JSON.stringify(title)}`]),
    `date: ${date}`,
    `clock: ${clock}   # the control room's`,
    `zone: ${zone}   # where the places are, unless a place says otherwise`,
  ];
}

const listed = (words: readonly string[]): string => (words.length === 1 ? (words[0] ?? "") : `[${words.join(", ")}]`);

function personLine({ id, roles, drives }: StartPerson): string {
  const parts = [
    ...(roles.length > 0 ? [`role: ${listed(roles)}`] : []),
    ...(drives.length > 0 ? [`drives: ${listed(drives)}`] : []),
  ];
  return `  ${id}: {${parts.length > 0 ? ` ${parts.join(", ")} ` : ""}}`;
}

function historyLines({ released, people }: FirstPlan): readonly string[] {
  if (released === null) return [];
  const entries = people.map(({ id }) => `  ${id}: { released: ${JSON.stringify(released)} }`);
  return ["history:   # before the first day: the last release, from which the rest counts", ...entries, ""];
}

function vehicleLine({ id, gross, rules }: StartVehicle): string {
  const parts = [...(gross === null ? [] : [`gross: ${gross}`]), ...(rules === null ? [] : [`rules: ${rules}`])];
  return `  ${id}: {${parts.length > 0 ? ` ${parts.join(", ")} ` : ""}}`;
}

/** A vehicle runs where somebody rides it: who drives it, who is said to ride it, and in the first one everybody else. */
function runBlock(start: FirstPlan, vehicle: StartVehicle): readonly string[] {
  const aboard = start.people.filter((person) => vehicleOf(start, person) === vehicle.id).map((person) => person.id);
  const driver = start.people.find((person) => aboard.includes(person.id) && person.drives.includes(vehicle.id));
  if (driver === undefined) return [];
  return runLines(vehicle.id, driver.id, aboard, stopTexts(start.bed, start.hits, start.bed));
}

/** Someone who may drive several takes the first that no one before them drives. */
function vehicleOf(start: FirstPlan, person: StartPerson): string | null {
  if (person.rides !== null) return person.rides;
  const taken = new Set(
    start.people.slice(0, start.people.indexOf(person)).flatMap((other) => other.drives.slice(0, 1)),
  );
  return person.drives.find((vehicle) => !taken.has(vehicle)) ?? person.drives[0] ?? start.vehicles[0]?.id ?? null;
}
