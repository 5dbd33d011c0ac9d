/**
 * Tomorrow's file from today's text: what the days share stays as it is written, what belonged to this day alone goes, and
 * `follows` names today, so that people, packs, gear and vehicles begin where they end.
 */
import type { Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import { applyEdits, type Edit, type Plan, type Road, states } from "../plan/index.ts";
import { dateOfDay, dayNumber, isoLocal } from "../time/index.ts";
import { type GearEnds, gearEdits } from "./gearEnds.ts";
import { hitLine, runLines, type StartDrive, type StartHit, stopTexts } from "./start.ts";

/** Whole sections of one day alone. */
const ONE_DAY = ["id", "until", "revision", "history", "tasks", "rides", "weather", "accept", "actual"];

/** Sections that stay where they stand, emptied. */
const EMPTIED = ["hits", "runs"];

/** Fields of one day alone, by section. */
const FIELDS = {
  crew: ["slept", "sleeps", "up", "inBed", "away"],
  vehicles: ["due"],
  paths: ["windows", "booking"],
  packs: ["charge", "chargeAt"],
  kit: ["due"],
} as const;

/** The text of the next day's plan; null where it cannot be made, with the findings that say why. */
export interface Tomorrow {
  /** Null where today's text cannot be carried on; `findings` say why. */
  readonly text: string | null;
  readonly findings: readonly Finding[];
}

/** What is known already about tomorrow. */
export interface Asked {
  /** How tomorrow's file will name today's. */
  readonly name: string;
  /** Hits and drives that are known already. */
  readonly hits: readonly StartHit[];
  readonly drives: readonly StartDrive[];
  /** Tomorrow night's bed; null for tonight's. */
  readonly bed: string | null;
  /** Where today's gear ends. */
  readonly ends: GearEnds;
}

/** The date of the day after the plan's last. */
export const dateAfter = ({ date, untilDays }: Plan): string => dateOfDay(dayNumber(date) + untilDays + 1);

/** Makes the next day's plan from a solved day and its text. */
export function tomorrow(day: Day, text: string, { name, hits, drives, bed, ends }: Asked): Tomorrow {
  const { plan } = day;
  const own = ownPaths(plan, text);
  const removals: Edit[] = own.map((path) => ({ path, value: null }));
  const isAtTop = DATE_LINE.test(text) && !states(text, ["follows"], plan.file);
  const emptied = EMPTIED.filter((section) => states(text, [section], plan.file));
  const shared = hits.length > 0 ? [] : sharedRuns(plan, text);
  const additions: Edit[] = [
    ...(shared.length > 0 ? EMPTIED : emptied).map((section): Edit => ({ path: [section], value: "{}" })),
    ...shared.map((id): Edit => ({ path: ["runs", id], value: "off" })),
    { path: ["date"], value: dateAfter(plan) },
    ...(isAtTop ? [] : [{ path: ["follows"], value: quoted(name) }]),
    ...placeEdits(plan, hits, drives, bed),
    ...driveEdits(text, plan, drives),
    ...outageEdits(plan, text),
    ...roomEdits(plan, text),
    ...usedEdits(plan, text, hits),
    ...gearEdits(plan, text, ends),
    ...(hits.length > 0 ? [sectionEdit("hits", hits.map(hitLine)), ...runEdits(day, hits, bed)] : []),
  ];
  const { text: made, findings } = applyEdits(withoutHead(text), [...removals, ...additions], {
    file: `${dateAfter(plan)}.yaml`,
    create: true,
  });
  const top = isAtTop ? withFollows(made ?? "", name) : (made ?? "");
  const whole = `${head(name)}${closedUp(named(top, plan), removals.length > 0)}${hits.length + emptied.length + shared.length > 0 ? "" : EMPTY}`;
  return {
    // Lines end as today's do.
    text: made === null ? null : text.includes("\r\n") ? whole.replaceAll(/\r?\n/g, "\r\n") : whole,
    findings,
  };
}

/** Places that today does not know yet. */
function placeEdits(
  plan: Plan,
  hits: readonly StartHit[],
  drives: readonly StartDrive[],
  bed: string | null,
): readonly Edit[] {
  const named = [...hits.map((hit) => hit.place), ...drives.flatMap((drive) => [drive.from, drive.to])];
  const fresh = [...new Set(named)].filter((place) => !plan.places.has(place) && place !== bed);
  const beds = bed === null || plan.places.has(bed) ? [] : [bed];
  return [
    ...fresh.map((place): Edit => ({ path: ["places", place], value: "{}" })),
    ...beds.map((place): Edit => ({ path: ["places", place], value: "{ kind: lodging, mains: true, shelter: true }" })),
  ];
}

/** What is out of service for good stays so, from its moment on; what came back goes. */
function outageEdits(plan: Plan, text: string): readonly Edit[] {
  const things = [
    ["vehicles", plan.vehicles],
    ["paths", plan.paths],
    ["chargers", plan.chargers],
    ["kit", plan.kit],
  ] as const;
  return things.flatMap(([section, entries]) =>
    [...entries].flatMap(([id, { broken }]): readonly Edit[] => {
      const path = [section, id, "broken"];
      if (broken === null || !states(text, path, plan.file)) return [];
      return [{ path, value: broken.to === null ? JSON.stringify(isoLocal(broken.from, plan.clock)) : null }];
    }),
  );
}

/** Beds of nights to come, with their dates. */
function roomEdits(plan: Plan, text: string): readonly Edit[] {
  const date = dateAfter(plan);
  return [...plan.places].flatMap(([id, { rooms }]): readonly Edit[] => {
    const path = ["places", id, "rooms"];
    if (!states(text, path, plan.file)) return [];
    const left = rooms.flatMap(({ who, nights, booking }) => {
      const coming = nights.filter((night) => night >= date);
      if (coming.length === 0) return [];
      const last = booking === null ? "" : `, booking: ${JSON.stringify(booking)}`;
      return [`{ who: [${who.join(", ")}], nights: [${coming.join(", ")}]${last} }`];
    });
    return [{ path, value: left.length === 0 ? null : `[${left.join(", ")}]` }];
  });
}

/** Runs of a file that days share: without a hit nothing says when they go. */
const sharedRuns = (plan: Plan, text: string): readonly string[] =>
  [...plan.runs.keys()].filter((id) => !states(text, ["runs", id], plan.file));

/** What a piece is used for, without today's own hits and tasks; where nothing else is left it is as for any piece. */
function usedEdits(plan: Plan, text: string, hits: readonly StartHit[]): readonly Edit[] {
  const isGone = (id: string): boolean =>
    (plan.hits.has(id) || plan.tasks.has(id) || plan.groups.has(id)) && !hits.some((hit) => hit.id === id);
  return [...plan.kit.values()].flatMap(({ id, during }): readonly Edit[] => {
    const path = ["kit", id, "during"];
    const left = during.filter((one) => !isGone(one));
    if (left.length === during.length || !states(text, path, plan.file)) return [];
    return [{ path, value: left.length === 0 ? null : `[${left.join(", ")}]` }];
  });
}

/** A list in the day's own file replaces the shared one whole, so the roads known so far go along. */
function driveEdits(text: string, plan: Plan, drives: readonly StartDrive[]): readonly Edit[] {
  if (drives.length === 0) return [];
  const fresh = drives.map(
    ({ from, to, likely, bad }) => `{ link: [${from}, ${to}], drive: ${likely}${bad === null ? "" : `, bad: ${bad}`} }`,
  );
  if (states(text, ["roads"], plan.file)) {
    return fresh.map((value, index): Edit => ({ path: ["roads", plan.roads.length + index], value }));
  }
  return [{ path: ["roads"], value: `[${[...plan.roads.map(roadText), ...fresh].join(", ")}]` }];
}

function roadText({ link, oneWay, driveMinutes, badMinutes, km, noSignal }: Road): string {
  const parts = [
    `link: [${link.join(", ")}]`,
    ...(driveMinutes === null ? [] : [`drive: ${driveMinutes} min`]),
    ...(badMinutes === null ? [] : [`bad: ${badMinutes} min`]),
    ...(km === null ? [] : [`km: ${km}`]),
    ...(oneWay ? ["oneWay: true"] : []),
    ...(noSignal ? ["noSignal: true"] : []),
  ];
  return `{ ${parts.join(", ")} }`;
}

/** A section written anew, line by line as one writes it by hand. */
const sectionEdit = (section: string, lines: readonly string[]): Edit => ({
  path: [section],
  value: `\n${lines.join("\n")}`,
  exact: true,
});

/** Each of today's vehicles with who rode it last, from where it ends by way of the hits to the bed. */
function runEdits(day: Day, hits: readonly StartHit[], bed: string | null): readonly Edit[] {
  const lines = [...day.plan.runs.values()].flatMap((run): readonly string[] => {
    const last = day.moves.findLast((move) => move.vehicle === run.vehicle);
    const from = run.stops.at(-1)?.place;
    if (last === undefined || from === undefined) return [];
    const aboard = [...day.plan.crew.keys()].filter((id) => id === last.driver || last.riders.includes(id));
    return runLines(run.vehicle, last.driver, aboard, stopTexts(from, hits, bed ?? from));
  });
  return lines.length === 0 ? [] : [sectionEdit("runs", lines)];
}

const head = (name: string): string =>
  `# Tomorrow, after ${name}: people, vehicles, packs and gear begin where they end there.\n`;

const EMPTY = `
# The desk's hits, and what each vehicle does; see the format in the README.
hits: {}
#   dawn: { at: "07:00", for: 3 min, place: … }
runs: {}
#   wagon: { driver: …, aboard: […], stops: [bed, { place: …, do: [dawn] }, bed] }
`;

/** Where a section went, one empty line stays of the two around it. */
const closedUp = (text: string, isShorter: boolean): string =>
  isShorter ? text.replace(/(\r?\n)(?:[ \t]*\r?\n){2,}(?=\S)/g, "$1$1") : text;

/** The text with tomorrow's own name below its first line of keys. */
const named = (text: string, plan: Plan): string =>
  text.replace(/^daywright:[^\r\n]*(\r?\n)/m, (line, end) => `${line}id: ${dayId(plan.title, dateAfter(plan))}${end}`);

const DATE_LINE = /^date:[^\r\n]*(\r?\n)/m;

/** The text with the file of the day before named below its date. */
const withFollows = (text: string, name: string): string =>
  text.replace(DATE_LINE, (line, end) => `${line}follows: ${quoted(name)}${end}`);

/** A name of a file as YAML. */
const quoted = (name: string): string =>
  /^[\p{L}\p{N}_./][\p{L}\p{N}_./ -]*$/u.test(name) ? name : JSON.stringify(name);

/** Today's own opening comment says what today is; a line for editors stays. */
function withoutHead(text: string): string {
  const lines = text.split("\n");
  const first = lines.findIndex((line) => line.trim() !== "" && !line.startsWith("#"));
  const kept = lines.slice(0, Math.max(0, first)).filter((line) => line.includes("yaml-language-server"));
  return [...kept, ...lines.slice(Math.max(0, first))].join("\n");
}

/** The paths of this day alone that today's own text states (not the files it uses). */
function ownPaths(plan: Plan, text: string): readonly Edit["path"][] {
  const own = (path: Edit["path"]): boolean => states(text, path, plan.file);
  const fields = Object.entries(FIELDS).flatMap(([section, keys]) =>
    idsOf(plan, section).flatMap((id) => keys.map((key): Edit["path"] => [section, id, key])),
  );
  // A level goes on from where the day ends, if a range says how far that is.
  const tanks = [...plan.vehicles.values()].flatMap(({ id, rangeKm }): readonly Edit["path"][] =>
    rangeKm === null ? [] : [["vehicles", id, "fuel"]],
  );
  const charges = [...plan.packs.values()].flatMap(({ id, group }) =>
    FIELDS.packs.map((key): Edit["path"] => ["packs", group, "own", id, key]),
  );
  return [...ONE_DAY.map((section): Edit["path"] => [section]), ...fields, ...charges, ...tanks].filter(own);
}

function idsOf(plan: Plan, section: string): readonly string[] {
  if (section === "crew") return [...plan.crew.keys()];
  if (section === "vehicles") return [...plan.vehicles.keys()];
  if (section === "paths") return [...plan.paths.keys()];
  if (section === "kit") return [...plan.kit.keys()];
  return [...new Set([...plan.packs.values()].map((pack) => pack.group))];
}

/** An id has forty letters at most; the date and its hyphen take eleven. */
const MOST_LETTERS = 40 - 11;

/** The id of a new day: the words of its title and its date, `ore-freighter-2027-01-20`, at most 40 letters. */
export function dayId(title: string | null, date: string): string {
  const words = (title ?? "")
    .normalize("NFC")
    .toLowerCase()
    .split(/[^\p{L}\p{M}\p{N}]+/u)
    .filter((word) => word !== "");
  let name = "";
  for (const word of words) {
    const longer = name === "" ? word : `${name}-${word}`;
    if (longer.length > MOST_LETTERS) break;
    name = longer;
  }
  const called = /\p{L}/u.test(name) ? name : "day";
  return /^\d{4}-\d{2}-\d{2}$/.test(date) ? `${called}-${date}` : called;
}
