/** `light`: sun and sky at each hit, rise and set, what to pack. */

import type { Day } from "../../day/day.ts";
import { groupBy } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import {
  cameraLux,
  LIT_SCENES,
  luminanceOfExposure,
  luxOfExposure,
  neededLux,
  stopsUnderKey,
} from "../../sky/exposure.ts";
import type { SkyResult } from "../../sky/index.ts";
import { type Instant, MINUTES_A_DAY, resolveLocal } from "../../time/index.ts";
import { line } from "../shared/blocks.ts";
import { type DayView, dayView, type TopicInput } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import { had } from "../shared/judged.ts";
import type { ReportMaker } from "../shared/report.ts";
import type { Block, Cell, ReportParts } from "../shared/view.ts";
import { zoneOfPlace } from "../shared/wording.ts";
import { lightChart } from "./chart.ts";
import { LIGHT_DATA, LIGHT_HITS, type LightHit, type LightPlace, PLACES } from "./rows.ts";

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
      LIGHT_HITS.table(view, hits, {
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

/** The report `light`. */
export const lightMaker: ReportMaker = {
  place: 50,
  topics: ["sky"],
  make: (input, { results }) => lightReport({ ...input, result: had(results.sky) }),
  schema: () => LIGHT_DATA.schema,
};
