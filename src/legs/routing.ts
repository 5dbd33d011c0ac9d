/**
 * What to ask a routing server with an open HTTP interface, and how to read what it says. Pure: the asking is at the edge.
 *
 * Requests and answers are those of open routing engines: `route` and `table` of version 1, longitude before latitude,
 * durations in seconds, distances in metres, `code: "Ok"` or the name of what went wrong.
 */
import type { Coordinates, Id, Plan } from "../plan/plan.ts";
import { legKey } from "./leg.ts";
import { pairsOf, type RoutedAnswer, type RoutedAnswers, roadsByEnds } from "./legs.ts";

/** Two places whose road is not stated and that have coordinates to ask with. */
export interface RouteQuery {
  readonly from: Id;
  readonly to: Id;
  readonly ends: readonly [Coordinates, Coordinates];
}

/** An answer read, or why it makes no sense or was refused. */
export type Read<T> =
  | { readonly kind: "read"; readonly value: T }
  | { readonly kind: "refused"; readonly why: string; readonly onlyThis: boolean }
  | { readonly kind: "unreadable"; readonly why: string };

/** The legs of a plan to ask for; stated times need no server. */
export function asksOf(
  plan: Plan,
  pairs: readonly { readonly from: Id; readonly to: Id }[] = pairsOf(plan),
): readonly RouteQuery[] {
  const roads = roadsByEnds(plan.roads);
  return pairs.flatMap(({ from, to }) => {
    const [a, b] = [plan.places.get(from)?.at ?? null, plan.places.get(to)?.at ?? null];
    const stated = roads.get(legKey(from, to))?.driveMinutes ?? null;
    return a === null || b === null || stated !== null || from === to ? [] : [{ from, to, ends: [a, b] as const }];
  });
}

/** Coordinates as a routing server takes them: longitude, latitude. */
export const pointText = ({ latitude, longitude }: Coordinates): string =>
  `${longitude.toFixed(6)},${latitude.toFixed(6)}`;

/** Without the slashes at its end; a pattern would try each of a long row. */
function base(url: string): string {
  let end = url.length;
  while (url.charAt(end - 1) === "/") end -= 1;
  return url.slice(0, end);
}

/** One route with its shape. */
export const routeUrl = (url: string, [from, to]: RouteQuery["ends"]): string =>
  `${base(url)}/route/v1/driving/${pointText(from)};${pointText(to)}?overview=simplified&geometries=geojson&steps=false`;

/** All times and distances between these points. */
export const tableUrl = (url: string, points: readonly Coordinates[]): string =>
  `${base(url)}/table/v1/driving/${points.map(pointText).join(";")}?annotations=duration,distance`;

/** The fields of an answer, unchecked. */
export type AnswerFields = ReadonlyMap<string, unknown>;

/** The fields of a value that is an object; null for any other. */
export const fieldsOf = (value: unknown): AnswerFields | null =>
  typeof value === "object" && value !== null && !Array.isArray(value) ? new Map(Object.entries(value)) : null;

/** A finite number that is not negative; null for anything else. */
export const finiteAmount = (value: unknown): number | null =>
  typeof value === "number" && Number.isFinite(value) && value >= 0 ? value : null;

const unreadable = (why: string): { readonly kind: "unreadable"; readonly why: string } => ({
  kind: "unreadable",
  why,
});

/** Codes that concern one pair only; any other concerns every request. */
const ONE_PAIR: ReadonlySet<string> = new Set(["NoRoute", "NoSegment", "NoTable"]);

/** The body of an answer as fields with `code: "Ok"`. */
function okFields(status: number, body: string): Read<AnswerFields> {
  const fields = fieldsOf(parsedAnswer(body));
  const code = fields?.get("code");
  if (fields === null || typeof code !== "string") {
    return status === 200
      ? unreadable("no JSON object with a code")
      : { kind: "refused", why: `HTTP ${status}`, onlyThis: false };
  }
  if (code === "Ok")
    return status === 200
      ? { kind: "read", value: fields }
      : { kind: "refused", why: `HTTP ${status}`, onlyThis: false };
  const message = fields.get("message");
  const why = typeof message === "string" ? `${code}: ${message.slice(0, 120)}` : code;
  return { kind: "refused", why: why.slice(0, 160), onlyThis: ONE_PAIR.has(code) };
}

/** The JSON of an answer; null where it is none. */
export function parsedAnswer(body: string): unknown {
  try {
    return JSON.parse(body);
  } catch {
    return null;
  }
}

/** Answers are rounded as they are kept, so that a run from the file is the run from the server. */
const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));

/** Five decimals of a degree are about a metre. */
const degrees = (value: unknown, most: number): number | null =>
  typeof value === "number" && Math.abs(value) <= most ? rounded(value, 5) : null;

const pair = (value: unknown): readonly [number, number] | null => {
  if (!Array.isArray(value)) return null;
  const [first, second]: readonly unknown[] = value;
  const [longitude, latitude] = [degrees(first, 180), degrees(second, 90)];
  return longitude === null || latitude === null ? null : [longitude, latitude];
};

const answer = (seconds: number, meters: number | null, line: RoutedAnswer["line"]): RoutedAnswer => ({
  minutes: rounded(seconds / 60, 2),
  km: meters === null ? null : rounded(meters / 1000, 3),
  line,
});

/** The shape of a road; null where it is not given or not a line of points. */
export function roadLine(geometry: unknown): RoutedAnswer["line"] {
  const points = fieldsOf(geometry)?.get("coordinates");
  if (!Array.isArray(points)) return null;
  const line = points.map(pair);
  const whole = line.filter((point) => point !== null);
  return whole.length === line.length && whole.length >= 2 ? whole : null;
}

/** Reads a `route` answer. */
export function readRoute(status: number, body: string): Read<RoutedAnswer> {
  const fields = okFields(status, body);
  if (fields.kind !== "read") return fields;
  const routes = fields.value.get("routes");
  const [first]: readonly unknown[] = Array.isArray(routes) ? routes : [];
  const route = fieldsOf(first);
  const [seconds, meters] = [finiteAmount(route?.get("duration")), finiteAmount(route?.get("distance"))];
  if (route === null || seconds === null) return unreadable("no duration in routes[0]");
  return { kind: "read", value: answer(seconds, meters, roadLine(route.get("geometry"))) };
}

const rowsOf = (value: unknown, size: number): readonly (readonly unknown[])[] | null => {
  if (!Array.isArray(value) || value.length !== size) return null;
  const rows: readonly unknown[] = value;
  const whole = rows.filter((row): row is readonly unknown[] => Array.isArray(row) && row.length === size);
  return whole.length === size ? whole : null;
};

/** Reads a `table` answer over these places; pairs that the server has no way between are left out. */
export function readTable(status: number, body: string, places: readonly Id[]): Read<RoutedAnswers> {
  const fields = okFields(status, body);
  if (fields.kind !== "read") return fields;
  const durations = rowsOf(fields.value.get("durations"), places.length);
  if (durations === null) return unreadable(`durations are not ${places.length} rows of ${places.length}`);
  const distances = rowsOf(fields.value.get("distances"), places.length);
  const answers = new Map<string, RoutedAnswer>();
  for (const [row, from] of places.entries()) {
    for (const [column, to] of places.entries()) {
      const [seconds, meters] = [durations[row]?.[column], finiteAmount(distances?.[row]?.[column])];
      if (from === to || seconds === null) continue;
      const exact = finiteAmount(seconds);
      if (exact === null) return unreadable(`the duration from ${from} to ${to} is no number`);
      answers.set(legKey(from, to), answer(exact, meters, null));
    }
  }
  return { kind: "read", value: answers };
}
