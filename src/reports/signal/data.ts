/** `data` of `signal`: looks, hits, booked windows, feeds and lines. */
import type { ActivityTimes, Day } from "../../day/day.ts";
import { feedMinutes } from "../../day/feed.ts";
import type { Id, SignalPath, Task } from "../../plan/plan.ts";
import type { Outage } from "../../signal/dish/outage.ts";
import { windowFor } from "../../signal/dish/windows.ts";
import type { HitSignal, PlaceLook, SignalResult } from "../../signal/index.ts";
import { linesOf, onCamera, satellitePhone } from "../../signal/lines.ts";
import { type Use, usesOf } from "../../signal/use.ts";
import { dateText, type Instant, instant } from "../../time/index.ts";
import { degrees } from "../light/data.ts";
import { isoAt } from "../shared/stamps.ts";
import type { Json } from "../shared/view.ts";
import { zoneOfPlace } from "../shared/wording.ts";

export interface SignalHit {
  readonly times: ActivityTimes;
  readonly signal: HitSignal;
  /** What a booked window must hold; null where the hit is on no satellite or has no time. */
  readonly need: { readonly from: Instant; readonly to: Instant } | null;
  /** When the dish is up, from the stop of its vehicle; null where there is none. */
  readonly dishUp: Instant | null;
}

export interface FeedRow {
  readonly times: ActivityTimes;
  readonly feed: Task;
  readonly path: SignalPath | null;
  readonly needsMinutes: number | null;
}

export interface SignalRows {
  readonly looks: readonly PlaceLook[];
  readonly hits: readonly SignalHit[];
  readonly feeds: readonly FeedRow[];
}

/** Every hit with what it needs of a window. */
export function signalHits(day: Day, result: SignalResult): readonly SignalHit[] {
  const uses = usesOf(day);
  return result.hits.flatMap((signal) => {
    const times = day.activities.find((own) => own.id === signal.id);
    if (times === undefined) return [];
    const use = uses.find((own) => own.activity.id === signal.id && own.path.kind === "satellite");
    return [
      {
        times,
        signal,
        need: use === undefined ? null : needOf(day, use),
        dishUp: use === undefined ? null : dishUpOf(day, use),
      },
    ];
  });
}

function needOf(day: Day, use: Use): SignalHit["need"] {
  const [first] = windowFor(day, use).need;
  return first === undefined || use.onAir === null ? null : { from: first.from, to: use.onAir.to };
}

/** The end of dish-up at the path's vehicle, else of set-up, at the stop of this visit. */
function dishUpOf(day: Day, { times, path }: Use): Instant | null {
  const stop = day.stops.find((own) => times.stops.includes(own.stop.id) && own.vehicle === path.vehicle);
  return stop?.terms.findLast((term) => term.name === "dish-up" || term.name === "set-up")?.to ?? null;
}

/** Every feed with the time its size needs. */
export function feedRows(day: Day): readonly FeedRow[] {
  return day.activities.flatMap((times) => {
    const { activity } = times;
    if (activity.kind !== "feed") return [];
    const path = activity.signalPath === null ? null : (day.plan.paths.get(activity.signalPath) ?? null);
    const rate = path?.rateMegabits ?? null;
    const needsMinutes =
      rate === null || activity.sizeMegabytes === null ? null : feedMinutes(activity.sizeMegabytes, rate);
    return [{ times, feed: activity, path, needsMinutes }];
  });
}

export const signalData = (day: Day, rows: SignalRows, redact: boolean): Json => ({
  looks: rows.looks.map((look) => lookJson(day, look)),
  hits: rows.hits.map((hit) => hitJson(day, hit)),
  windows: [...day.plan.paths.values()].flatMap((path) =>
    path.windows.map(({ from, to }) => ({
      path: path.id,
      from: isoAt(day.plan, from, null),
      to: isoAt(day.plan, to, null),
      booking: redact ? null : path.booking,
      polarisation: path.polarisation,
      phone: redact ? null : path.phone,
    })),
  ),
  feeds: rows.feeds.map((feed) => feedJson(day, feed)),
  lines: [...day.plan.lines.values()].map(({ id, number, who, spare }) => ({
    id,
    number: redact ? null : number,
    who,
    spare: redact ? null : spare,
  })),
  satellitePhone: satellitePhone(day),
});

export const outageJson = (day: Day, place: Id, { from, to, peak, closest }: Outage): Json => ({
  date: dateText(instant(Math.round(peak)), zoneOfPlace(day.plan, place)),
  from: isoAt(day.plan, instant(Math.floor(from)), place),
  to: isoAt(day.plan, instant(Math.ceil(to)), place),
  minutes: Math.round((to - from) * 10) / 10,
  closestDegrees: degrees(closest),
});

function lookJson(day: Day, seen: PlaceLook): Json {
  const { look, place } = seen;
  return {
    place,
    path: seen.path,
    azimuthDegrees: look === null ? null : degrees(look.azimuth),
    elevationDegrees: look === null ? null : degrees(look.elevation),
    rangeKm: look === null ? null : Math.round(look.rangeKm * 10) / 10,
    skewDegrees: look === null ? null : degrees(look.skew),
    clear: seen.clear,
    outages: seen.outages.map((outage) => outageJson(day, place, outage)),
    nextOutages: seen.next().map((outage) => outageJson(day, place, outage)),
    blockedBelowDegrees: seen.obstacle?.below ?? null,
  };
}

function hitJson(day: Day, { times, signal, need, dishUp }: SignalHit): Json {
  const { cable } = signal;
  const at = (when: Instant | null): string | null => isoAt(day.plan, when, times.place);
  return {
    id: signal.id,
    path: signal.path,
    spare: signal.spare,
    ok: signal.ok,
    place: times.place,
    spareOk: signal.spareOk,
    needFrom: at(need?.from ?? null),
    needTo: at(need?.to ?? null),
    dishUp: at(dishUp),
    cable:
      cable === null
        ? null
        : {
            runMeters: cable.runMeters,
            reelMeters: cable.lay?.reels ?? [],
            joins: cable.lay?.joins ?? null,
            reachMeters: cable.reachMeters,
          },
    earLines: onCamera(day, times).map(({ id }) => ({
      who: id,
      lines: linesOf(day, "ear", id).map((line) => line.id),
    })),
  };
}

const feedJson = (day: Day, { times, feed, path, needsMinutes }: FeedRow): Json => ({
  id: feed.id,
  path: path?.id ?? null,
  sizeMegabytes: feed.sizeMegabytes,
  rateMegabits: path?.rateMegabits ?? null,
  needsMinutes,
  from: isoAt(day.plan, times.start, times.place),
  to: isoAt(day.plan, times.end, times.place),
  by: isoAt(day.plan, feed.by, times.place),
});
