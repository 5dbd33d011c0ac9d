/** The top of a sheet: the clocks, the sun, the weather, and one line with first call, first hit, last release. */
import type { Weather } from "../../plan/plan.ts";
import { offsetMinutes } from "../../time/index.ts";
import type { Instant, ZoneId } from "../../time/units.ts";
import type { Cell } from "../shared/view.ts";
import type { SheetInput } from "./input.ts";
import { firstSun } from "./timeline.ts";
import { concerns, freeText, name, names } from "./words.ts";

type Line = readonly Cell[];

/** Every line of the head, in reading order; a topic that has not judged gives none. */
export const headLines = (input: SheetInput): readonly Line[] => [
  theLine(input),
  clocksLine(input),
  ...sunLine(input),
  ...weatherLines(input),
];

interface Moments {
  readonly firstCall: { readonly at: Instant; readonly text: string } | null;
  readonly firstHit: { readonly at: Instant; readonly text: string } | null;
  readonly lastRelease: { readonly at: Instant; readonly text: string } | null;
}

/** First call, first hit and last release of whom the sheet is for, each with its local time in words. */
export function keyMoments(input: SheetInput): Moments {
  const duties = input.day.people.filter((one) => concerns(input, [one.id])).flatMap((one) => one.duties);
  const firstDuty = [...duties].sort((a, b) => a.call - b.call)[0];
  const lastDuty = [...duties].sort((a, b) => b.release - a.release)[0];
  const hit = input.day.activities.find(
    (one) => one.activity.kind === "hit" && one.start !== null && concerns(input, one.who),
  );
  const moment = (at: Instant | null | undefined, place: string | null): { at: Instant; text: string } | null =>
    at === null || at === undefined ? null : { at, text: input.say.time(at, place) };
  return {
    firstCall: moment(firstDuty?.call, firstDuty?.callPlace ?? null),
    firstHit: moment(hit?.start, hit?.place ?? null),
    lastRelease: moment(lastDuty?.release, lastDuty?.releasePlace ?? null),
  };
}

function theLine(input: SheetInput): Line {
  const { firstCall, firstHit, lastRelease } = keyMoments(input);
  const part = (label: string, moment: { readonly text: string } | null): readonly Cell[] => [
    { text: `${label} ` },
    { text: moment?.text ?? "none", tone: "strong" },
  ];
  const many = input.person === null;
  return [
    ...part(many ? "First call" : "Call", firstCall),
    { text: " · " },
    ...part("first hit", firstHit),
    { text: " · " },
    ...part(many ? "last release" : "release", lastRelease),
  ];
}

/** `Local times are Chicago's; desk New York, 1 h ahead.` */
function clocksLine(input: SheetInput): Line {
  const main = input.clocks.main;
  const others = input.clocks.zones.filter((zone) => zone !== main && zone !== input.desk);
  if (main === input.desk && others.length === 0) return [{ text: `One clock: ${input.clocks.name(input.desk)}.` }];
  const desk =
    main === input.desk
      ? "also the desk's"
      : `desk ${input.clocks.name(input.desk)}, ${differenceText(input, input.desk)}`;
  const also = others.map((zone) => `; ${input.clocks.name(zone)}, ${differenceText(input, zone)}`);
  return [{ text: `Local times are ${input.clocks.name(main)} where no other is named; ${desk}${also.join("")}.` }];
}

/** How far a clock is from the main one as the day begins. */
function differenceText(input: SheetInput, zone: ZoneId): string {
  const at = input.day.span.from;
  const ahead = offsetMinutes(zone, at) - offsetMinutes(input.clocks.main, at);
  if (ahead === 0) return "the same time";
  return `${input.say.length(Math.abs(ahead))} ${ahead < 0 ? "behind" : "ahead"}`;
}

function sunLine(input: SheetInput): readonly Line[] {
  const sun = firstSun(input);
  if (sun === null) return [];
  const at = (moment: Instant | null): string =>
    moment === null ? "none" : input.clocks.local(moment, sun.place).text;
  const words =
    sun.word ?? `rises ${at(sun.rise)}, sets ${at(sun.set)}; light from ${at(sun.civilDawn)} to ${at(sun.civilDusk)}`;
  return [[{ text: `Sun at ${name(input, sun.place)}: ${words}.` }]];
}

function weatherLines(input: SheetInput): readonly Line[] {
  const rows = input.day.plan.weather.map((row) => `${whenWhere(input, row)}${weatherText(row)}`);
  return rows.length === 0 ? [] : [[{ text: `Weather: ${freeText(input, rows.join("; "))}.` }]];
}

function whenWhere(input: SheetInput, row: Weather): string {
  const [place = null] = row.places;
  const from = row.from === null ? "" : ` from ${input.clocks.local(row.from, place).text}`;
  const to = row.to === null ? "" : ` to ${input.clocks.local(row.to, place).text}`;
  const where = row.places.length === 0 ? "" : ` at ${names(input, row.places)}`;
  const words = `${where}${from}${to}`.trim();
  return words === "" ? "" : `${words}: `;
}

const ROADS: Readonly<Record<NonNullable<Weather["road"]>, string>> = {
  dry: "roads dry",
  wet: "roads wet",
  "heavy-rain": "heavy rain on the roads",
  snow: "snow on the roads",
  "heavy-snow": "heavy snow on the roads",
  ice: "ice on the roads",
  fog: "fog on the roads",
};

/** `-14 °C (7 °F), wind 30 km/h (19 mph), snow on the roads`. */
export function weatherText(row: Weather): string {
  const parts: string[] = [];
  if (row.celsius !== null) parts.push(`${rounded(row.celsius)} °C (${rounded((row.celsius * 9) / 5 + 32)} °F)`);
  if (row.windKmh !== null) parts.push(`wind ${speed(row.windKmh)}`);
  if (row.gustKmh !== null) parts.push(`gusts ${speed(row.gustKmh)}`);
  if (row.cloud !== null) parts.push(row.cloud === "clear" ? "clear sky" : `${row.cloud} cloud`);
  if (row.road !== null) parts.push(ROADS[row.road]);
  if (row.lightning) parts.push("lightning");
  return parts.join(", ");
}

const rounded = (value: number): number => Math.round(value) + 0;
/** One international mile is 1.609344 km exactly. */
const speed = (kmh: number): string => `${rounded(kmh)} km/h (${rounded(kmh / 1.609344)} mph)`;
