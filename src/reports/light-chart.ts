/** The day in a drawing: the sky along the top, the hits and the drives under it. */
import type { Day } from "../day/day.ts";
import type { Id } from "../plan/plan.ts";
import type { SkyResult } from "../sky/index.ts";
import { type SkyWord, skyWord } from "../sky/words.ts";
import { after, type Instant, instant, type ZoneId } from "../time/index.ts";
import type { Bar, Block, Lane } from "./view.ts";

/** The sky is looked at this often, minutes. */
const STEP = 5;
const HOUR = 60;

const STYLES: Readonly<Record<SkyWord, Bar["style"]>> = {
  day: "day",
  "low sun": "day",
  "civil twilight": "twilight",
  "nautical twilight": "twilight",
  night: "night",
};

const STYLE_WORDS: Partial<Record<Bar["style"], string>> = { day: "day", twilight: "twilight", night: "night" };

/** From the full hour before the first of what is drawn to the full hour after the last. */
function frameOf(day: Day): { readonly from: Instant; readonly to: Instant } {
  const { from, to } = day.span;
  return { from: instant(Math.floor(from / HOUR) * HOUR), to: instant(Math.ceil(to / HOUR) * HOUR) };
}

function skyLane(sky: SkyResult, place: Id, from: Instant, to: Instant): Lane {
  const bars: Bar[] = [];
  for (let at = from; at < to; at = after(at, STEP)) {
    const altitude = sky.sunAltitude(place, after(at, Math.floor(STEP / 2)));
    if (altitude === null) continue;
    const style = STYLES[skyWord(altitude)];
    const last = bars.at(-1);
    const end = instant(Math.min(to, at + STEP));
    if (last?.style === style) bars[bars.length - 1] = { ...last, to: end };
    else bars.push({ from: at, to: end, style, text: STYLE_WORDS[style] ?? "" });
  }
  return { label: "sky", bars };
}

function hitsLane(day: Day): Lane {
  const hits = day.activities.flatMap(({ activity, id, start, end }) =>
    activity.kind === "hit" && start !== null && end !== null ? [{ id, from: start, to: end }] : [],
  );
  return {
    label: "hits",
    bars: hits.map(({ id, from, to }) => ({ from, to, style: "hit", text: id })),
    marks: hits.map(({ id, from }) => ({ at: from, text: id })),
  };
}

const driveLanes = (day: Day): readonly Lane[] =>
  [...day.plan.runs.keys()].map((vehicle) => ({
    label: vehicle,
    bars: day.moves
      .filter((move) => move.vehicle === vehicle)
      .map((move) => ({ from: move.leave, to: move.arrive, style: "drive", text: "" })),
  }));

/** The chart over `place`, whose sky is drawn; none where its sky is not known. */
export function lightChart(day: Day, sky: SkyResult, place: Id | null, zone: ZoneId): readonly Block[] {
  if (place === null || sky.sunAltitude(place, day.span.from) === null) return [];
  const { from, to } = frameOf(day);
  const name = day.plan.places.get(place)?.name ?? place;
  return [
    {
      kind: "chart",
      title: `Light at ${name}`,
      description: `When it is day, twilight and night at ${name}, with the hits and the drives of each vehicle under it.`,
      from,
      to,
      zone,
      lanes: [skyLane(sky, place, from, to), hitsLane(day), ...driveLanes(day)],
    },
  ];
}
