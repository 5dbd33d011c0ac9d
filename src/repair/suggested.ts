/**
 * The edits that a finding's suggestion stands for, by its code: one list for each way in which it may be followed. What is
 * suggested without an edit of the plan, such as going nearer, has none.
 */
import type { Finding } from "../findings/finding.ts";
import { parseEdit } from "../plan/edit/edit.ts";
import type { Edit } from "../plan/edit/splice.ts";
import type { Id, Plan, Stop } from "../plan/plan.ts";
import { after, type Instant } from "../time/index.ts";
import { fillUpAt } from "./kinds/things.ts";
import { freshId, instantsOf, mealsAt } from "./kinds/times.ts";
import type { JudgedPlan } from "./outcome.ts";
import { doEdits, isOwn, listValue, stopEdit, timeValue } from "./writing.ts";

/** Lists of edits, each of which clears the finding; null if the suggestion names no edit, [] if it cannot be made here. */
type Suggestion = readonly (readonly Edit[])[] | null;

interface Asked {
  readonly now: JudgedPlan;
  readonly text: string;
  readonly finding: Finding;
}

const BY_CODE: Readonly<Record<string, (asked: Asked) => Suggestion>> = {
  "meal-late": meals,
  "task-missed": orderByTime,
  "hit-missed": orderByTime,
  "order-unstated": statedOrder,
  "set-up-unplanned": setUpTask,
  "window-missing": window,
  "window-too-short": window,
  "cable-too-short": longerCable,
  "feed-too-slow": longerFeed,
  "kit-missing": kitThere,
  "kit-too-few": morePieces,
  "packs-fit-nothing": ({ finding }) => mount(finding, "packs", "packs"),
  "load-fits-no-pack": ({ finding }) => mount(finding, "kit", "load"),
  "charger-fits-no-pack": ({ finding }) => mount(finding, "chargers", "charger"),
  "fuel-short": fillUps,
  "fuel-due-short": lastFillUp,
  "wait-outside": leaveLater,
};

/** What the suggestion of a finding stands for; null if it names no edit. */
export function suggestedEdits(now: JudgedPlan, text: string, finding: Finding): Suggestion {
  const written = finding.facts["edits"];
  if (Array.isArray(written) && written.length > 0)
    return [written.flatMap((one) => parseEdit(String(one)).edit ?? [])];
  return BY_CODE[finding.code]?.({ now, text, finding }) ?? null;
}

const factText = (finding: Finding, key: string): string => {
  const fact = finding.facts[key];
  return typeof fact === "string" ? fact : "";
};

const factNumber = (finding: Finding, key: string): number => Number(finding.facts[key] ?? 0);

const factInstant = (finding: Finding, key: string): Instant | null => instantsOf(finding, key)[0] ?? null;

const factList = (finding: Finding, key: string): readonly string[] => {
  const fact = finding.facts[key];
  return Array.isArray(fact) ? fact.map(String) : [];
};

/** The meal at the earliest and at the latest of what is suggested, or the two together. */
function meals({ now: { day }, text, finding }: Asked): Suggestion {
  const both = instantsOf(finding, "meal", "nextMeal");
  const alone = [...new Set(instantsOf(finding, "wait", "waitTo"))].map((at) => [at]);
  const asked = both.length === 0 ? alone : [both];
  if (asked.length === 0) return null;
  return asked.map((moments) => {
    const names: Id[] = [];
    const nameOf = (): Id => {
      names.push(freshId(day.plan, "meal", names));
      return names.at(-1) ?? "meal";
    };
    return mealsAt(day, text, finding, moments, nameOf) ?? [];
  });
}

function orderByTime({ now, text, finding }: Asked): Suggestion {
  const order = factList(finding, "byTime");
  if (order.length === 0) return null;
  const { plan } = now.day;
  const what = factText(finding, "what");
  const activity = plan.tasks.get(what) ?? plan.hits.get(what);
  const place = activity?.location.kind === "place" ? activity.location.place : null;
  const own = stopsOf(plan).filter((stop) => stop.place === place && (stop.do === null || stop.do.includes(what)));
  const known = new Set(own.flatMap((stop) => stop.do ?? order));
  const ids = order.filter((one) => known.has(one));
  return [doEdits(now.day, text, new Map(own.map((stop) => [stop, ids]))) ?? []];
}

function statedOrder({ now, text, finding }: Asked): Suggestion {
  if (finding.facts["missed"] !== null) return null;
  const { plan } = now.day;
  const stop = stopsOf(plan).find(({ id }) => id === finding.facts["stop"]);
  if (stop !== undefined) return [doEdits(now.day, text, new Map([[stop, factList(finding, "order")]])) ?? []];
  const [first, second] = factList(finding, "tasks");
  const later = plan.tasks.get(second ?? "") ?? plan.hits.get(second ?? "");
  if (first === undefined || later === undefined) return [];
  return [[{ path: [...later.path, "after"], value: listValue([...later.after, first]) }]];
}

function setUpTask({ now: { day }, finding }: Asked): Suggestion {
  const [first] = factList(finding, "hits");
  const who = listValue(factList(finding, "who"));
  const value = `{ place: ${factText(finding, "place")}, for: ${factNumber(finding, "setUp")} min, who: ${who}, before: ${first ?? ""} }`;
  return [[{ path: ["tasks", freshId(day.plan, "setup")], value }]];
}

/** The booked windows with what is needed: one more, or the nearest one longer. */
function window({ now: { day }, finding }: Asked): Suggestion {
  const { plan } = day;
  const path = plan.paths.get(factText(finding, "path"));
  const [from, to] = [factInstant(finding, "from"), factInstant(finding, "to")];
  if (path === undefined || from === null || to === null) return [];
  const [opens, closes] = [factInstant(finding, "opens"), factInstant(finding, "closes")];
  const windows = path.windows
    .filter((one) => one.from !== opens || one.to !== closes)
    .concat({
      from: opens === null || from < opens ? from : opens,
      to: closes === null || to > closes ? to : closes,
    })
    .sort((a, b) => a.from - b.from)
    .map((one) => `[${timeValue(plan, one.from)}, ${timeValue(plan, one.to)}]`);
  return [[{ path: ["paths", path.id, "windows"], value: listValue(windows) }]];
}

function longerCable({ now: { day }, finding }: Asked): Suggestion {
  const path = day.plan.paths.get(factText(finding, "path"));
  if (path === undefined) return [];
  const reels = [...path.reelMeters, factNumber(finding, "needs") - factNumber(finding, "has")];
  return [[{ path: ["paths", path.id, "reels"], value: listValue(reels.map((meters) => `${meters} m`)) }]];
}

function longerFeed({ now: { day }, finding }: Asked): Suggestion {
  const task = day.plan.tasks.get(factText(finding, "feed"));
  return task === undefined ? [] : [[{ path: [...task.path, "for"], value: `${factNumber(finding, "needs")} min` }]];
}

/** A piece put into the vehicle that will be there: at the start of the day, else at the last stop at which that can be. */
function kitThere({ now: { day }, text, finding }: Asked): Suggestion {
  const { plan } = day;
  const item = factText(finding, "item");
  const piece = plan.kit.get(item) ?? plan.packs.get(item) ?? plan.chargers.get(item);
  const split = factText(finding, "split");
  if (piece !== undefined && split !== "") return [[{ path: [...piece.path, "in"], value: split }]];
  const [into, place, at] = [
    factText(finding, "into"),
    factText(finding, "lastPlace"),
    factInstant(finding, "lastMove"),
  ];
  if (into === "" || at === null) return null;
  const stop = day.stops.find(
    (one) =>
      one.vehicle === into &&
      one.place === place &&
      (one.arrive ?? at) <= at &&
      at <= (one.leave ?? Number.POSITIVE_INFINITY),
  )?.stop;
  if (stop === undefined || !isOwn(plan, text, stop.path)) return [];
  const moves = [...stop.moves, [item, into] as const].map(([id, vehicle]) => `${id}: ${vehicle}`);
  return [[stopEdit(plan, text, stop, "moves", `{ ${moves.join(", ")} }`)]];
}

function morePieces({ now: { day }, finding }: Asked): Suggestion {
  const piece = day.plan.kit.get(factText(finding, "item"));
  return piece === undefined
    ? []
    : [[{ path: [...piece.path, "count"], value: String(factNumber(finding, "needed")) }]];
}

function mount(finding: Finding, section: string, key: string): Suggestion {
  const near = factText(finding, "near");
  return near === "" ? null : [[{ path: [section, factText(finding, key), "mount"], value: near }]];
}

/** A fill-up at the place that is named; where one is not enough, at every stop from there on, too. */
function fillUps({ now: { day }, text, finding }: Asked): Suggestion {
  const stops = day.stops.filter(({ vehicle }) => vehicle === factText(finding, "vehicle"));
  const first = stops.findIndex(({ place }) => place === factText(finding, "place"));
  if (first < 0) return [];
  const used = finding.facts["everyKm"] === null ? stops.slice(first, first + 1) : stops.slice(first, -1);
  const taken: Id[] = [];
  return [used.flatMap((one) => fillUpAt(day, text, one, taken) ?? [])];
}

function lastFillUp({ now: { day }, text, finding }: Asked): Suggestion {
  const stop = day.stops.filter(({ vehicle }) => vehicle === factText(finding, "vehicle")).at(-2);
  return stop === undefined ? [] : [fillUpAt(day, text, stop, []) ?? []];
}

/** The departure that is said to be too early, later. */
function leaveLater({ now: { day }, text, finding }: Asked): Suggestion {
  const later = factNumber(finding, "later");
  const [from, place] = [factInstant(finding, "from"), factText(finding, "place")];
  if (later <= 0 || from === null) return null;
  const waits = new Set(
    day.people.flatMap(({ id, spans }) =>
      spans.some((span) => span.doing === "wait" && span.place === place && span.from <= from && from < span.to)
        ? [id]
        : [],
    ),
  );
  const moves = day.moves.filter(
    ({ to, arrive, driver, riders }) =>
      to === place && arrive <= from && [driver, ...riders].some((who) => waits.has(who)),
  );
  const edits = moves.flatMap(({ id, leave, vehicle }) => {
    const last = moves.filter((move) => move.vehicle === vehicle).at(-1);
    const stop = stopsOf(day.plan).find((one) => one.id === id);
    return stop === undefined || last?.id !== id || !isOwn(day.plan, text, stop.path)
      ? []
      : [stopEdit(day.plan, text, stop, "leave", timeValue(day.plan, after(leave, later)))];
  });
  return [edits];
}

const stopsOf = (plan: Plan): readonly Stop[] => [...plan.runs.values()].flatMap(({ stops }) => stops);
