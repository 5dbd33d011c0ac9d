/** The day in a drawing: the sky along the top, the hits and the drives under it. */
import type { ActivityTimes, Day } from "../../day/day.ts";
import type { Id } from "../../plan/plan.ts";
import type { SkyResult } from "../../sky/index.ts";
import { type SkyWord, skyWord } from "../../sky/words.ts";
import { after, type Instant, type Interval, instant, startOnClock, type ZoneId } from "../../time/index.ts";
import type { Bar, Block, Lane } from "../shared/view.ts";

const HOUR = 60;
const DAY = 24 * HOUR;

/**
 * From the full hour before the first of what is drawn to the full hour after the last; of the night before no more than a day,
 * since it begins with the last release, which may be years ago where days are missing.
 */
function frameOf({ plan, span }: Day): Interval {
  const from = Math.max(span.from, startOnClock(plan.date, -DAY, plan.zone));
  return { from: instant(Math.floor(from / HOUR) * HOUR), to: instant(Math.ceil(span.to / HOUR) * HOUR) };
}

/** The hits that have a time, with a mark at the beginning of each. */
export function hitsLane(activities: readonly ActivityTimes[]): Lane {
  const hits = activities.flatMap(({ activity, id, start, end }) =>
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
  if (place === null) return [];
  const frame = frameOf(day);
  const lane = skyLane((at) => sky.sunAltitude(place, at), frame);
  if (lane === null) return [];
  const name = day.plan.places.get(place)?.name ?? place;
  return [
    {
      kind: "chart",
      title: `Light at ${name}`,
      description: `When it is day, twilight and night at ${name}, with the hits and the drives of each vehicle under it.`,
      ...frame,
      zone,
      lanes: [lane, hitsLane(day.activities), ...driveLanes(day)],
    },
  ];
}

/** The sky is looked at this often, minutes; where it has changed in between, at every minute. */
const STEP = 5;

const STYLES: Readonly<Record<SkyWord, Bar["style"]>> = {
  day: "day",
  "low sun": "day",
  "civil twilight": "twilight",
  "nautical twilight": "twilight",
  night: "night",
};

const WORDS: Partial<Record<Bar["style"], string>> = { day: "daylight", twilight: "twilight", night: "dark" };

/** Dark, twilight and daylight by the sun's altitude, each to its first minute; null where the altitude is not known. */
export function skyLane(sunAltitude: (at: Instant) => number | null, { from, to }: Interval): Lane | null {
  const styleAt = (at: Instant): Bar["style"] | null => {
    const altitude = sunAltitude(at);
    return altitude === null ? null : STYLES[skyWord(altitude)];
  };
  const bars: Bar[] = [];
  for (let at = from; at < to; at = after(at, STEP)) {
    const style = styleAt(at);
    if (style === null) return null;
    const last = bars.at(-1);
    if (last?.style === style) continue;
    let start = at;
    while (last !== undefined && styleAt(after(start, -1)) === style) start = after(start, -1);
    if (last !== undefined) bars[bars.length - 1] = { ...last, to: start };
    bars.push({ from: start, to, style, text: WORDS[style] ?? "" });
  }
  return { label: "sky", bars };
}
