/** `light`: sun and sky at each hit, rise and set, what to pack. */

import type { Day } from "../../day/day.ts";
import type { Say } from "../../findings/finding.ts";
import { groupBy } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import { type Crossing, toMinute } from "../../sky/almanac.ts";
import {
  cameraLux,
  LIT_SCENES,
  luminanceOfExposure,
  luxOfExposure,
  neededLux,
  stopsUnderKey,
} from "../../sky/exposure.ts";
import type { SkyResult } from "../../sky/index.ts";
import { type Instant, instant, MINUTES_A_DAY, resolveLocal } from "../../time/index.ts";
import { column, DASH, figureColumn, named, numberCell, placeCell, textCell } from "../shared/cells.ts";
import { placesInOrder } from "../shared/clocks.ts";
import { type DayView, dayView, type PersonOptions, type TopicOptions } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import type { Block, Cell, Report, Table } from "../shared/view.ts";
import { zoneOfPlace } from "../shared/wording.ts";
import { lightChart } from "./chart.ts";
import { type LightHit, type LightPlace, lightData } from "./data.ts";

export type LightOptions = TopicOptions<SkyResult> & PersonOptions;

/** The report of one day's light. */
export function lightReport(day: Day, say: Say, options: LightOptions): Report {
  const { result, person } = options;
  const hits = hitsOf(day, result, person);
  const places = [...day.plan.places.keys()].map((id) => placeOf(day, result, id));
  const view = dayView(day, say, placesInOrder(day), options.clock);

  const over =
    hits.find((hit) => hit.light !== null)?.times.place ?? places.find((own) => own.sun !== null)?.id ?? null;
  return {
    command: "light",
    blocks: [
      headingLine(day, view.clocks),
      ...lightChart(day, result, over, zoneOfPlace(day.plan, over)),
      hitsTable(view, hits),
      ...packing(view, hits),
      placesTable(view, places),
    ],
    data: lightData(day.plan, hits, places),
    findings: options.findings,
    say,
  };
}

function hitsOf(day: Day, sky: SkyResult, person: Id | null): readonly LightHit[] {
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

function placeOf(day: Day, sky: SkyResult, id: Id): LightPlace {
  const noon = clockNoon(day, id);
  const moonAt = day.activities.find((own) => own.place === id && own.start !== null)?.start ?? noon;
  return { id, sun: sky.sunTimes(id, noon), moon: sky.moon(id, moonAt), moonAt };
}

function hitsTable({ say, clocks }: DayView, hits: readonly LightHit[]): Table {
  return {
    kind: "table",
    title: "Hits",
    columns: [
      column("Hit", "hit"),
      ...clocks.columns("On air", "start"),
      column("Place", "place", 2),
      figureColumn("Sun height", "sunAltitudeDegrees"),
      figureColumn("Sun azimuth", "sunAzimuthDegrees", 1),
      column("Sky", "sky"),
      column("Sun stands", "sunSide"),
      figureColumn("Lux", "lux"),
    ],
    rows: hits.map(({ times, at, light }) => [
      { text: times.id },
      ...clocks.cells(at, times.place),
      placeCell(say, times.place),
      ...(light === null
        ? [DASH, DASH, { text: "not known", raw: null, tone: "warn" as const }, DASH, DASH]
        : [
            numberCell(light.sun.altitude, 1, "°"),
            numberCell(light.sun.azimuth, 0, "°"),
            { text: light.sky },
            textCell(light.side),
            luxCell(light.lux),
          ]),
    ]),
    empty: "No hits.",
  };
}

/** Two digits are plenty for an eye: `11 000`, `450`, `3.4`, `0.002`. */
function luxCell(lux: number): Cell {
  const shown = Number(lux.toPrecision(2));
  const text = shown >= 10_000 ? `${Math.floor(shown / 1000)} ${String(shown % 1000).padStart(3, "0")}` : `${shown}`;
  return { text, raw: Number(lux.toPrecision(3)) };
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
  return [{ kind: "line", cells: [{ text: `Lit backgrounds: ${scenes.join("; ")}`, tone: "muted" }] }];
}

function cameraLine(): Block {
  const needed = Math.round(neededLux(2.8, 1 / 60, 800));
  const marked = [0, 6, 12].map((gain) => `${Math.round(cameraLux(11, 2.8, gain))} at ${gain} dB`).join(", ");
  const text = `At f/2.8 a face needs ${needed} lx with 1/60 s and ISO 800; a camera marked f/11 at 2000 lx needs ${marked}`;
  return { kind: "line", cells: [{ text, tone: "muted" }] };
}

function placesTable(view: DayView, places: readonly LightPlace[]): Table {
  const { say, clocks } = view;
  const cell = (event: Crossing | undefined, id: Id): Cell => {
    if (event === undefined) return DASH;
    const at = toMinute(event);
    return typeof at === "string" ? { text: at } : clocks.local(instant(at), id);
  };
  return {
    kind: "table",
    title: "Sun and moon, on each place's own clock",
    columns: [
      column("Place", "place"),
      column("Civil dawn", "civilDawn"),
      column("Rise", "rise"),
      column("Set", "set"),
      column("Civil dusk", "civilDusk"),
      column("Moon", "moonPhase", 1),
      figureColumn("Moon height", "moonAltitudeDegrees", 2),
    ],
    rows: places.map(({ id, sun, moon }) => [
      named(say, id),
      cell(sun?.civilDawn, id),
      cell(sun?.rise, id),
      cell(sun?.set, id),
      cell(sun?.civilDusk, id),
      moon === null ? DASH : { text: `${moon.phase}, ${Math.round(moon.litShare * 100)} %`, raw: moon.phase },
      numberCell(moon?.altitude ?? null, 0, "°"),
    ]),
    empty: "No places.",
  };
}
