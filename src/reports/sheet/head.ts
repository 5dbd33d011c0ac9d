/** The top of a sheet: its four figures, the nearest hospitals, who leads, the clocks, the weather. */

import { windChill } from "../../cautions/cold.ts";
import { heatIndex, milesAnHour } from "../../cautions/weather.ts";
import { figureText } from "../../findings/figures.ts";
import { groupBy } from "../../lists.ts";
import type { Id, Weather } from "../../plan/plan.ts";
import { isoLocal, offsetMinutes } from "../../time/index.ts";
import type { Instant, ZoneId } from "../../time/units.ts";
import type { Cell } from "../shared/view.ts";
import { zoneOfPlace } from "../shared/wording.ts";
import { whereAndHow } from "./calls.ts";
import type { SheetInput } from "./input.ts";
import { firstSun } from "./timeline.ts";
import type { Figure } from "./view.ts";
import { attends, concerns, freeText, name, phoneCell, sheetNames } from "./words.ts";

type Line = readonly Cell[];

/** The lines of the head below its figures. */
export const headLines = (input: SheetInput): readonly Line[] => [clocksLine(input), ...weatherLines(input)];

interface KeyMoment {
  readonly at: Instant;
  readonly place: Id | null;
  readonly text: string;
  /** The place, and what one rides in; the hit. */
  readonly what: string | null;
}

/** First call, first hit and last release of whom the sheet is for, each with its local time in words. */
export function keyMoments(input: SheetInput) {
  const duties = input.day.people.filter((one) => concerns(input, [one.id])).flatMap((one) => one.duties);
  const firstDuty = [...duties].sort((a, b) => a.call - b.call)[0];
  const lastDuty = [...duties].sort((a, b) => b.release - a.release)[0];
  const hit = input.day.activities.find(
    (one) => one.activity.kind === "hit" && one.start !== null && attends(input, one),
  );
  const moment = (at: Instant | null | undefined, place: Id | null, what: string | null = null): KeyMoment | null =>
    at == null ? null : { at, place, text: input.say.time(at, place), what };
  const mine = input.person === null || firstDuty === undefined ? null : whereAndHow(input, input.person, firstDuty);
  return {
    firstCall: moment(firstDuty?.call, firstDuty?.callPlace ?? null, mine),
    firstHit: moment(hit?.start, hit?.place ?? null, hit?.id ?? null),
    lastRelease: moment(lastDuty?.release, lastDuty?.releasePlace ?? null),
  };
}

/** The four figures: call, first hit, daylight, what it feels like. */
export function figures(input: SheetInput): readonly Figure[] {
  const { firstCall, firstHit } = keyMoments(input);
  return [
    momentFigure(input, input.person === null ? "First call" : "My call", firstCall),
    momentFigure(input, "First hit", firstHit),
    daylight(input),
    feelsLike(input),
  ];
}

const figure = (
  label: string,
  main: string,
  side: string | null = null,
  what: string | null = null,
  iso: string | null = null,
): Figure => ({ label, main, side, what, iso });

function momentFigure(input: SheetInput, label: string, moment: KeyMoment | null): Figure {
  if (moment === null) return figure(label, "none");
  const { at, place, what } = moment;
  const zone = zoneOfPlace(input.day.plan, place);
  const clock = input.clocks.name(zone);
  const desk =
    input.clocks.text(at, zone) === input.clocks.text(at, input.desk)
      ? clock
      : `${clock} (${input.clocks.text(at, input.desk)} ${input.clocks.name(input.desk)})`;
  return figure(label, input.clocks.text(at, zone), desk, what, isoLocal(at, zone));
}

function daylight(input: SheetInput): Figure {
  const sun = firstSun(input);
  const label = "Daylight";
  if (sun === null) return figure(label, "not known");
  const at = (moment: Instant | null): string =>
    moment === null ? "none" : input.clocks.local(moment, sun.place).text;
  const twilight = `light ${at(sun.civilDawn)} to ${at(sun.civilDusk)}`;
  const main = sun.word ?? `${at(sun.rise)}–${at(sun.set)}`;
  return figure(label, main, twilight, name(input, sun.place));
}

/** When, where and in what: what one person asks first, as one sentence. */
export function shownAnswer(input: SheetInput): string | null {
  const [call] = figures(input);
  if (input.person === null || call === undefined) return null;
  if (call.iso === null) return "Not called";
  return `Call ${[`${call.main} ${call.side ?? ""}`, call.what].filter((part) => part !== null).join(", ")}`;
}

/** The coldest or hottest that is stated, by the published formulas for wind and for humid heat. */
function feelsLike(input: SheetInput): Figure {
  const label = "Feels like";
  const rows = input.day.plan.weather.flatMap((row) => {
    const felt = feltOf(row);
    return felt === null ? [] : [{ row, ...felt }];
  });
  const extreme = (own: number): number => Math.abs(own - COMFORT);
  const [worst] = rows.sort((a, b) => extreme(b.celsius) - extreme(a.celsius));
  if (worst === undefined) return figure(label, "not stated");
  const { celsius, row, by } = worst;
  const air = by === "" || row.celsius === null ? "" : `, air ${figureText(row.celsius)} °C${by}`;
  const side = `${figureText(fahrenheit(celsius))} °F${air}`;
  return figure(label, `${figureText(celsius)} °C`, side);
}

/** Degrees from which cold and heat are counted, °C. */
const COMFORT = 18;
const fahrenheit = (celsius: number): number => (celsius * 9) / 5 + 32;
const ofFahrenheit = (degrees: number): number => ((degrees - 32) * 5) / 9;

function feltOf(row: Weather): { readonly celsius: number; readonly by: string } | null {
  if (row.celsius === null) return null;
  const chill = row.windKmh === null ? null : windChill(fahrenheit(row.celsius), milesAnHour(row.windKmh));
  if (chill !== null) return { celsius: ofFahrenheit(chill), by: `, wind ${figureText(row.windKmh ?? 0)} km/h` };
  if (row.humidity !== null && row.celsius >= HEAT)
    return { celsius: ofFahrenheit(heatIndex(fahrenheit(row.celsius), row.humidity * 100)), by: ", humid" };
  return { celsius: row.celsius, by: "" };
}

/** 80 °F, from where the heat index is defined. */
const HEAT = ofFahrenheit(80);

/** The nearest hospitals of the places with hits, where none of these states one of all stops; and who leads. */
export function contacts(input: SheetInput): readonly Line[] {
  const { places } = input.day.plan;
  const sites = input.day.activities.flatMap((one) =>
    one.activity.kind === "hit" && one.place !== null && concerns(input, one.who) ? [one.place] : [],
  );
  const hospitalsOf = (ids: readonly Id[]) =>
    [...new Set(ids)].flatMap((id) => {
      const hospital = places.get(id)?.hospital ?? null;
      // A text may hold a number or a street.
      return hospital === null || input.redact ? [] : [{ id, hospital }];
    });
  const near = hospitalsOf(sites);
  const hospitals = near.length > 0 ? near : hospitalsOf(input.day.stops.map((stop) => stop.place));
  // One line for a hospital, with its distance from each place.
  const alike = groupBy(hospitals, ({ hospital: { name: called, phone, address } }) =>
    [called, phone, address].join("\n"),
  );
  const lines = [...alike.values()].map((same): Line => {
    const [{ hospital }] = same;
    const { phone } = hospital;
    const address = hospital.address === null ? "" : `, ${hospital.address}`;
    const from = same.map(
      ({ id, hospital: { km } }) => `${km === null ? "" : `${numberText(km)} km from `}${name(input, id)}`,
    );
    return [
      { text: `Hospital, ${from.join(", ")}: ` },
      { text: `${hospital.name}${address}`, tone: "strong" },
      ...(phone === null ? [] : [{ text: " " }, phoneCell(phone)]),
    ];
  });
  return [...lines, ...leads(input)];
}

/** Who leads, with the telephone. */
export function leads(input: SheetInput): readonly Line[] {
  const lead = [...input.day.plan.crew.values()].filter(({ roles }) => roles.includes("lead"));
  return lead.map(
    ({ id, phone }): Line => [
      { text: "Lead: " },
      { text: input.say.name(id), tone: "strong" },
      ...(phone === null || input.redact ? [] : [{ text: " " }, phoneCell(phone)]),
    ],
  );
}

const numberText = (value: number): string => String(Math.round(value * 10) / 10);

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
  return [{ text: `Times are ${input.clocks.name(main)} unless marked; ${desk}${also.join("")}.` }];
}

/** How far a clock is from the main one as the day begins. */
function differenceText(input: SheetInput, zone: ZoneId): string {
  const at = input.day.span.from;
  const ahead = offsetMinutes(zone, at) - offsetMinutes(input.clocks.main, at);
  if (ahead === 0) return "the same time";
  return `${input.say.length(Math.abs(ahead))} ${ahead < 0 ? "behind" : "ahead"}`;
}

function weatherLines(input: SheetInput): readonly Line[] {
  const rows = input.day.plan.weather.map((row) => `${whenWhere(input, row)}${weatherText(row)}`);
  return rows.length === 0 ? [] : [[{ text: `Weather: ${freeText(input, rows.join("; "))}.` }]];
}

function whenWhere(input: SheetInput, row: Weather): string {
  const [place = null] = row.places;
  const from = row.from === null ? "" : ` from ${input.clocks.local(row.from, place).text}`;
  const to = row.to === null ? "" : ` to ${input.clocks.local(row.to, place).text}`;
  const where = row.places.length === 0 ? "" : ` at ${sheetNames(input, row.places)}`;
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

/** `−14 °C (7 °F), wind 30 km/h (19 mph), snow on the roads`. */
export function weatherText(row: Weather): string {
  const parts: string[] = [];
  if (row.celsius !== null) parts.push(`${figureText(row.celsius)} °C (${figureText(fahrenheit(row.celsius))} °F)`);
  if (row.windKmh !== null) parts.push(`wind ${speed(row.windKmh)}`);
  if (row.gustKmh !== null) parts.push(`gusts ${speed(row.gustKmh)}`);
  if (row.cloud !== null) parts.push(row.cloud === "clear" ? "clear sky" : `${row.cloud} cloud`);
  if (row.road !== null) parts.push(ROADS[row.road]);
  if (row.lightning) parts.push("lightning");
  return parts.join(", ");
}

/** One international mile is 1.609344 km exactly. */
const speed = (kmh: number): string => `${figureText(kmh)} km/h (${figureText(kmh / 1.609344)} mph)`;
