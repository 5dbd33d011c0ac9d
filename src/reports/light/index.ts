/** `light`: sun and sky at each hit, rise and set, what to pack. */

import type { Day } from "../../day/day.ts";
import { groupBy } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import { type SunTimes, toMinute } from "../../sky/almanac.ts";
import {
  cameraLux,
  exposureOfLux,
  LIT_SCENES,
  luminanceOfExposure,
  luxOfExposure,
  neededLux,
  stopsUnderKey,
} from "../../sky/exposure.ts";
import type { SkyResult } from "../../sky/index.ts";
import { type Instant, instant as instantOf, MINUTES_A_DAY, resolveLocal } from "../../time/index.ts";
import { line } from "../shared/blocks.ts";
import { DASH, named, placeCell } from "../shared/cells.ts";
import { clockColumn, column, columns, kept, object, shown } from "../shared/columns.ts";
import { type DayView, dayView, type TopicInput } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import {
  angle,
  flagKind,
  instantKind,
  type Kind,
  keyKind,
  listKind,
  type Moment,
  moment,
  numberKind,
  orNull,
  shareKind,
  textKind,
  type Words,
} from "../shared/kinds.ts";
import { topicMaker } from "../shared/report.ts";
import type { Block, Cell, ReportParts } from "../shared/view.ts";
import { zoneOfPlace } from "../shared/wording.ts";
import { lightChart } from "./chart.ts";

/** The report of one day's light. */
export function lightReport(input: TopicInput<SkyResult>): ReportParts {
  const { day, result, person } = input;
  const hits = hitsOf(day, result, person);
  const places = [...day.plan.places.keys()].map((id) => placeOf(day, result, id));
  const view = dayView(input);
  const over =
    hits.find((hit) => hit.light !== null)?.times.place ?? places.find((own) => own.sun !== null)?.id ?? null;
  return {
    blocks: [
      headingLine(day, view.clocks),
      ...lightChart(day, result, over, zoneOfPlace(day.plan, over)),
      HITS.table(view, hits, {
        title: "Hits",
        show: ["hit", "start", "place", "sunAltitudeDegrees", "sunAzimuthDegrees", "sky", "sunSide", "lux"],
        empty: "No hits.",
      }),
      ...packing(view, hits),
      PLACES.table(view, places, {
        title: "Sun and moon, on each place's own clock; the moon as at the first hit or task there, else at noon",
        show: [
          "place",
          "civilDawn",
          "rise",
          "set",
          "civilDusk",
          "moonrise",
          "moonset",
          "moonPhase",
          "moonAltitudeDegrees",
        ],
        empty: "No places.",
      }),
    ],
    data: LIGHT_DATA.json({ hits, places }, view),
  };
}

type LightHit = ReturnType<typeof hitsOf>[number];

/** Each hit when it is, or was meant to be, with its light; null where the place has no coordinates. */
function hitsOf(day: Day, sky: SkyResult, person: Id | null) {
  return day.activities.flatMap((times) => {
    const { activity, who, id, start } = times;
    if (activity.kind !== "hit" || (person !== null && !who.includes(person))) return [];
    return [{ times, at: start ?? activity.at, light: sky.activities.get(id) ?? null }];
  });
}

/** 12:00 on the place's clock; where the clocks skip it, twelve hours after the day's first minute. */
function clockNoon(day: Day, place: Id): Instant {
  const noon = resolveLocal(day.plan.date, MINUTES_A_DAY / 2, zoneOfPlace(day.plan, place));
  if (noon.kind === "once") return noon.at;
  return noon.kind === "twice" ? noon.earlier : day.span.from;
}

type LightPlace = ReturnType<typeof placeOf>;

/** Sun and moon at a place; the moon as at the first hit or task there, else at noon. */
function placeOf(day: Day, sky: SkyResult, id: Id) {
  const noon = clockNoon(day, id);
  const moonAt = day.activities.find((own) => own.place === id && own.start !== null)?.start ?? noon;
  return { id, sun: sky.sunTimes(id, noon), moon: sky.moon(id, moonAt), moonTimes: sky.moonTimes(id, noon), moonAt };
}

/** The key light that the background is compared with, lx on the face. */
const KEY_LUX = 600;

/** Hits that need something, those with the same needs on one line; then what a camera asks for. */
function packing({ say }: DayView, hits: readonly LightHit[]): readonly Block[] {
  const needing = hits.flatMap(({ times, light }) =>
    light === null || light.needs.length === 0 ? [] : [{ times, light }],
  );
  const alike = groupBy(needing, ({ light }) => light.needs.join(", "));
  if (alike.size === 0) return [];
  const items = [...alike].map(([needs, group]): Cell => {
    const names = group.map((hit) => say.name(hit.times.id)).join(", ");
    const least = Math.min(...group.map(({ light }) => light.leastLux));
    const under = Math.round(stopsUnderKey(KEY_LUX, least));
    const background =
      group.some(({ light }) => light.dark) && under > 2
        ? `; the sky is ${under} stops under a key of ${KEY_LUX} lx`
        : "";
    return { text: `${names}: ${needs}${background}` };
  });
  return [{ kind: "heading", text: "To pack" }, { kind: "list", items }, ...backgrounds(hits), cameraLine()];
}

function backgrounds(hits: readonly LightHit[]): readonly Block[] {
  if (!hits.some((hit) => hit.light?.needs.includes("lit background"))) return [];
  const scenes = LIT_SCENES.filter((scene) => scene.lowEv >= 2).map((scene) => {
    const span = (of: (ev: number) => number): string =>
      scene.lowEv === scene.highEv ? `${of(scene.lowEv)}` : `${of(scene.lowEv)} to ${of(scene.highEv)}`;
    return `${scene.is} ${span(luxOfExposure)} lx (${span(luminanceOfExposure)} cd/m²)`;
  });
  return [line(`Lit backgrounds: ${scenes.join("; ")}`, "muted")];
}

function cameraLine(): Block {
  const needed = Math.round(neededLux(2.8, 1 / 60, 800));
  const marked = [0, 6, 12].map((gain) => `${Math.round(cameraLux(11, 2.8, gain))} at ${gain} dB`).join(", ");
  const text = `At f/2.8 a face needs ${needed} lx with 1/60 s and ISO 800; a camera marked f/11 at 2000 lx needs ${marked}`;
  return line(text, "muted");
}

/** Four significant digits: the polynomial itself is good to some per cent. */
const figures = (value: number): number => Number(value.toPrecision(4));

/** Two digits are plenty for an eye: `11 000`, `450`, `3.4`, `0.002`. */
function luxCell(lux: number): Cell {
  const shown = Number(lux.toPrecision(2));
  const text = shown >= 10_000 ? `${Math.floor(shown / 1000)} ${String(shown % 1000).padStart(3, "0")}` : `${shown}`;
  return { text, raw: Number(lux.toPrecision(3)) };
}

const measured: Kind<number, unknown> = { ...numberKind, json: figures };
const lux: Kind<number, unknown> = { ...measured, cell: luxCell };

const HITS = columns<LightHit>()({
  id: kept(keyKind, ({ times }) => times.id),
  hit: shown("Hit", ({ times }) => ({ text: times.id })),
  at: kept(instantKind, ({ at, times }) => ({ at, place: times.place })),
  start: clockColumn("On air", ({ at, times }) => ({ at, place: times.place })),
  sunAltitudeDegrees: column("Sun height", orNull(angle(1)), ({ light }) => light?.sun.altitude ?? null),
  sunAzimuthDegrees: column("Sun azimuth", orNull(angle(0)), ({ light }) => light?.sun.azimuth ?? null, { spare: 1 }),
  sky: column("Sky", orNull(textKind), ({ light }) => light?.sky ?? null, {
    cell: ({ light }) => (light === null ? { text: "not known", raw: null, tone: "warn" } : { text: light.sky }),
  }),
  sunSide: column("Sun stands", orNull(textKind), ({ light }) => light?.side ?? null),
  lux: column("Lux", orNull(lux), ({ light }) => light?.lux ?? null),
  needs: kept(listKind(textKind), ({ light }) => light?.needs ?? []),
  place: column("Place", orNull(keyKind), ({ times }) => times.place, {
    cell: ({ times }, { say }) => placeCell(say, times.place),
    spare: 2,
  }),
  leastLux: kept(orNull(measured), ({ light }) => light?.leastLux ?? null),
  exposureValue: kept(orNull(measured), ({ light }) => (light === null ? null : exposureOfLux(light.lux))),
  light: kept(orNull(textKind), ({ light }) => light?.light ?? null),
  dark: kept(orNull(flagKind), ({ light }) => light?.dark ?? null),
  stopsOverWindow: kept(orNull(measured), ({ light }) => light?.stops ?? null),
  windowTo: kept(orNull(instantKind), ({ light, times }) => moment(light?.to, times.place)),
});

/** A moment, or the word that stands where the sun or the moon has no such moment that day. */
const event: Kind<Moment | string | null> = {
  schema: orNull<string, unknown>({ ...textKind, schema: { anyOf: [instantKind.schema, textKind.schema] } }).schema,
  json: (value, view) => (value === null || typeof value === "string" ? value : instantKind.json(value, view)),
  cell: (value, view) =>
    value === null ? DASH : typeof value === "string" ? { text: value } : instantKind.cell(value, view),
  figure: false,
};

const eventOf =
  (of: Exclude<keyof SunTimes, "noonAltitude">) =>
  (place: LightPlace): Moment | string | null => {
    if (place.sun === null) return null;
    const at = toMinute(place.sun[of]);
    return typeof at === "string" ? at : { at: instantOf(at), place: place.id };
  };

/** A rise or set of the moon, the word for a day without either, null for a day without this one. */
function moonEvent({ id, moonTimes }: LightPlace, at: number | null | undefined): Moment | string | null {
  if (moonTimes === null) return null;
  return at == null ? moonTimes.all : { at: instantOf(Math.round(at)), place: id };
}

const PLACES = columns<LightPlace, Words>()({
  id: keyKind,
  place: shown("Place", (own, { say }) => named(say, own.id)),
  rise: column("Rise", event, eventOf("rise")),
  set: column("Set", event, eventOf("set")),
  civilDawn: column("Civil dawn", event, eventOf("civilDawn")),
  civilDusk: column("Civil dusk", event, eventOf("civilDusk")),
  nauticalDawn: kept(event, eventOf("nauticalDawn")),
  nauticalDusk: kept(event, eventOf("nauticalDusk")),
  astronomicalDawn: kept(event, eventOf("astronomicalDawn")),
  astronomicalDusk: kept(event, eventOf("astronomicalDusk")),
  noon: kept(event, eventOf("noon")),
  noonAltitudeDegrees: kept(orNull(angle(0)), ({ sun }) => sun?.noonAltitude ?? null),
  moonrise: column("Moonrise", event, (own) => moonEvent(own, own.moonTimes?.rise), { spare: 3 }),
  moonset: column("Moonset", event, (own) => moonEvent(own, own.moonTimes?.set), { spare: 3 }),
  moonPhase: column("Moon", orNull(textKind), ({ moon }) => moon?.phase ?? null, {
    cell: ({ moon }) =>
      moon === null ? DASH : { text: `${moon.phase}, ${Math.round(moon.litShare * 100)} %`, raw: moon.phase },
    spare: 1,
  }),
  moonLit: kept(orNull({ ...shareKind, json: figures }), ({ moon }) => moon?.litShare ?? null),
  moonAltitudeDegrees: column("Moon height", orNull(angle(0)), ({ moon }) => moon?.altitude ?? null, { spare: 2 }),
  moonAt: kept(orNull(instantKind), ({ moon, moonAt, id: place }) => (moon === null ? null : { at: moonAt, place })),
});

/** `data` of `light`. */
const LIGHT_DATA = object<{ readonly hits: readonly LightHit[]; readonly places: readonly LightPlace[] }>()({
  hits: listKind(HITS),
  places: listKind(PLACES),
});

/** The report `light`. */
export const lightMaker = topicMaker(50, "sky", lightReport, LIGHT_DATA);
