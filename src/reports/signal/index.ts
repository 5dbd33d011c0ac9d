/** `signal`: what each place has to send with, lines, cell and dish, and what is in its way. */

import type { Day } from "../../day/day.ts";
import { feedMinutes } from "../../day/feed.ts";
import type { Id, Line } from "../../plan/plan.ts";
import { beamWidth, magnetic, pathDelayMs, pointingLoss, standOffMeters } from "../../signal/dish/look.ts";
import type { SunOutage } from "../../signal/dish/outage.ts";
import { ASSUMED_DISH } from "../../signal/dish/satellite.ts";
import { windowFor } from "../../signal/dish/windows.ts";
import type { HitSignal, PlaceLook, SignalResult } from "../../signal/index.ts";
import { linesOf, onCamera, satellitePhone } from "../../signal/lines.ts";
import { type PathUse, usesOf } from "../../signal/use.ts";
import { dateText, type Instant, type Interval, instant, localDay, shortDateOf } from "../../time/index.ts";
import { line } from "../shared/blocks.ts";
import { crewCell, DASH, flagCell, lengthCell, meant, named, placeCell, statedCell } from "../shared/cells.ts";
import { clockColumn, column, columns, kept, object, shown } from "../shared/columns.ts";
import { type DayView, dayView, type TopicInput } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import {
  angle,
  flagKind,
  idsKind,
  instantKind,
  keyKind,
  km,
  listKind,
  moment,
  numberKind,
  orNull,
  secretKind,
  textKind,
  type Words,
  wholeKind,
} from "../shared/kinds.ts";
import { topicMaker } from "../shared/report.ts";
import type { Block, Cell, ReportParts } from "../shared/view.ts";
import { zoneOfPlace } from "../shared/wording.ts";

/** The report of one day's signal. */
function signalReport(input: TopicInput<SignalResult>): ReportParts {
  const { day, result, person } = input;
  const mine = <R extends { readonly times: { readonly who: readonly Id[] } }>(rows: readonly R[]): readonly R[] =>
    person === null ? rows : rows.filter(({ times }) => times.who.includes(person));
  const rows: SignalRows = { looks: result.looks, hits: mine(signalHits(day, result)), feeds: mine(feedRows(day)) };
  const view = dayView(input);

  const cables = rows.hits.flatMap(({ signal: { id, cable } }) => (cable === null ? [] : [{ id, cable }]));
  // A compass shows something else only at places whose declination the plan states.
  const stated = rows.looks.some(({ look, declination }) => look !== null && declination !== null);
  const compass = stated ? (["magneticDegrees"] as const) : [];
  const tables = [
    HITS.table(view, rows.hits, {
      title: "Hits",
      show: ["hit", "start", "place", "path", "ok", "spare", "spareOk", "needFrom", "needTo", "dishUp"],
      empty: "No hits.",
    }),
    DISH_LOOKS.table(view, rows.looks, {
      title: "Look angles (azimuth true; skew clockwise, looking at the satellite)",
      show: ["place", "path", "azimuthDegrees", ...compass, "elevationDegrees", "skewDegrees", "rangeKm", "clear"],
      empty: "No satellite path.",
    }),
    WINDOWS.table(view, windowsOf(day), { title: "Booked windows", empty: "None booked." }),
    CABLES.table(view, cables, {
      title: "Cable",
      show: ["hit", "runMeters", "reelMeters", "joins", "reachMeters"],
      empty: "No cable.",
    }),
    FEEDS.table(view, rows.feeds, {
      title: "Feeds",
      show: ["feed", "start", "path", "sizeMegabytes", "needsMinutes", "by"],
      empty: "No feeds.",
    }),
    LINES.table(view, [...day.plan.lines.values()], {
      title: "Lines",
      show: ["line", "number", "who", "spare"],
      empty: "No lines.",
    }),
  ];
  const [hits, looks, ...rest] = tables.filter((table, at) => at === 0 || table.rows.length > 0);
  return {
    blocks: [
      headingLine(day, view.clocks),
      ...(hits === undefined ? [] : [hits]),
      ...(looks === undefined ? [] : [looks]),
      ...dishLines(view, rows.looks),
      ...rest,
    ],
    data: SIGNAL_DATA.json(rows, view),
  };
}

/** For each satellite path in use: how well to point, the delay on the ear line, and when the sun stands behind it. */
function dishLines(view: DayView, looks: readonly PlaceLook[]): readonly Block[] {
  const uses = usesOf(view.day);
  const used = looks.filter(
    ({ look, place, path }) => look !== null && uses.some((use) => use.path.id === path && use.place?.id === place),
  );
  return used.map((seen) => line(dishText(view, seen), "muted"));
}

function dishText({ day, say }: DayView, { place, path: id, look, outages, next }: PlaceLook): string {
  const path = day.plan.paths.get(id);
  const meters = path?.dishMeters ?? ASSUMED_DISH.meters;
  const gigahertz = path?.bandGigahertz ?? ASSUMED_DISH.gigahertz;
  const stated = path?.dishMeters != null && path.bandGigahertz !== null;
  const beam = beamWidth(gigahertz, meters);
  const zone = zoneOfPlace(day.plan, place);
  const moment = (at: number): string => say.clock(instant(Math.round(at)), zone);
  const date = (at: number): string => shortDateOf(localDay(instant(Math.round(at)), zone));
  const season = next();
  const [first, last] = [season[0], season.at(-1)];
  const today =
    outages.length === 0
      ? "no sun outage this day"
      : `sun outage ${outages.map((own) => `${moment(Math.floor(own.from))} to ${moment(Math.ceil(own.to))}`).join(", ")}`;
  const coming =
    first === undefined || last === undefined
      ? ""
      : `, next ${date(first.peak)} to ${date(last.peak)} about ${moment(first.peak)} local`;
  const off =
    look === null || look.elevation <= 0
      ? ""
      : `; park ${standOffMeters(look.elevation, 1, 0).toFixed(1)} m away for each metre that something stands above the dish`;
  const aim = `aiming half a degree off costs ${pointingLoss(0.5, beam).toFixed(1)} dB`;
  const delay = look === null ? "" : `; ${Math.round(pathDelayMs(look.rangeKm))} ms one way`;
  const dish = stated ? "" : ` (a dish of ${meters} m at ${gigahertz} GHz assumed)`;
  return `${id} at ${say.name(place)}: ${today}${coming}${off}; ${aim}${delay}${dish}`;
}

interface SignalRows {
  readonly looks: readonly PlaceLook[];
  readonly hits: readonly ReturnType<typeof signalHits>[number][];
  readonly feeds: readonly ReturnType<typeof feedRows>[number][];
}

/** Every hit with what it needs of a window. */
function signalHits(day: Day, result: SignalResult) {
  const uses = usesOf(day);
  return result.hits.flatMap((signal) => {
    const times = day.activities.find((own) => own.id === signal.id);
    if (times === undefined) return [];
    const use = uses.find((own) => own.activity.id === signal.id && own.path.kind === "satellite");
    // What a booked window must hold, and when the dish is up; null where the hit is on no satellite or has no time.
    return [{ times, signal, need: use ? needOf(day, use) : null, dishUp: use ? dishUpOf(day, use) : null }];
  });
}

function needOf(day: Day, use: PathUse): Interval | null {
  const [first] = windowFor(day, use).need;
  return first === undefined || use.onAir === null ? null : { from: first.from, to: use.onAir.to };
}

/** The end of dish-up at the path's vehicle, else of set-up, at the stop of this visit. */
function dishUpOf(day: Day, { times, path }: PathUse): Instant | null {
  const stop = day.stops.find((own) => times.stops.includes(own.stop.id) && own.vehicle === path.vehicle);
  return stop?.terms.findLast((term) => term.name === "dish-up" || term.name === "set-up")?.to ?? null;
}

/** Every feed with the time its size needs. */
export function feedRows(day: Day) {
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

const notKnown: Cell = { text: "not known", raw: null, tone: "warn" };
const works = (ok: boolean | null): Cell =>
  ok === null ? notKnown : ok ? flagCell(ok, "ok", "good") : flagCell(ok, "fails", "bad");

const cable = object<NonNullable<HitSignal["cable"]>, unknown>()({
  runMeters: numberKind,
  reelMeters: kept(listKind(numberKind), (own) => own.lay?.reels ?? []),
  joins: kept(orNull(wholeKind), (own) => own.lay?.joins ?? null),
  reachMeters: orNull(numberKind),
});

const earLine = object<{ readonly who: Id; readonly lines: readonly Id[] }, unknown>()({
  who: keyKind,
  lines: listKind(keyKind),
});

const HITS = columns<SignalRows["hits"][number], DayView>()({
  id: kept(keyKind, ({ signal }) => signal.id),
  hit: shown("Hit", ({ signal }) => ({ text: signal.id })),
  start: clockColumn("On air", ({ times }) => moment(times.start, times.place)),
  path: column("Path", orNull(keyKind), ({ signal }) => signal.path, {
    cell: ({ signal: { path } }, { say }) =>
      path === null ? { text: "none stated", raw: null, tone: "warn" } : named(say, path),
  }),
  spare: column("Spare", orNull(keyKind), ({ signal }) => signal.spare, {
    cell: ({ signal: { spare } }) => (spare === null ? { text: "none", raw: null, tone: "warn" } : { text: spare }),
  }),
  ok: column("Works", orNull(flagKind), ({ signal }) => signal.ok, {
    cell: ({ signal }) => (signal.path === null ? DASH : works(signal.ok)),
  }),
  place: column("Place", orNull(keyKind), ({ times }) => times.place, {
    cell: ({ times }, { say }) => placeCell(say, times.place),
    spare: 1,
  }),
  spareOk: column("Spare works", orNull(flagKind), ({ signal }) => signal.spareOk, {
    cell: ({ signal: { spare, spareOk: ok } }) => (spare === null ? DASH : works(ok)),
  }),
  needFrom: column("Window from", orNull(instantKind), ({ need, times }) => moment(need?.from, times.place), {
    spare: 1,
  }),
  needTo: column("Window to", orNull(instantKind), ({ need, times }) => moment(need?.to, times.place), { spare: 1 }),
  dishUp: column("Dish up", orNull(instantKind), ({ dishUp, times }) => moment(dishUp, times.place), { spare: 2 }),
  cable: kept(orNull(cable), ({ signal }) => signal.cable),
  earLines: kept(listKind(earLine), ({ times }, { day }) =>
    onCamera(day, times).map(({ id }) => ({ who: id, lines: linesOf(day, "ear", id).map((line) => line.id) })),
  ),
});

/** The cable of a hit. */
const CABLES = columns<{ readonly id: Id; readonly cable: NonNullable<HitSignal["cable"]> }, unknown>()({
  hit: shown("Hit", ({ id }) => ({ text: id })),
  runMeters: shown("Run", ({ cable: own }) => statedCell(own.runMeters, " m"), { figure: true }),
  reelMeters: shown("Reels", ({ cable: { lay } }) =>
    lay === null
      ? { text: "too short", raw: null, tone: "bad" }
      : { text: lay.reels.map((meters) => `${meters} m`).join(" + "), raw: lay.reels.join(" ") },
  ),
  joins: shown("Joins", ({ cable: { lay } }) => orNull(wholeKind).cell(lay?.joins ?? null, null), { figure: true }),
  reachMeters: shown("Reach", ({ cable: own }) => statedCell(own.reachMeters, " m"), { figure: true }),
});

const outage = object<ReturnType<typeof outagesAt>[number], DayView>()({
  date: kept(textKind, ({ place, outage: { peak } }, { day }) =>
    dateText(instant(Math.round(peak)), zoneOfPlace(day.plan, place)),
  ),
  from: kept(instantKind, ({ place, outage: { from } }) => ({ at: instant(Math.floor(from)), place })),
  to: kept(instantKind, ({ place, outage: { to } }) => ({ at: instant(Math.ceil(to)), place })),
  minutes: kept(numberKind, ({ outage: { from, to } }) => Math.round((to - from) * 10) / 10),
  closestDegrees: kept(angle(1), ({ outage: { closest } }) => closest),
});

const outagesAt = (place: Id, outages: readonly SunOutage[]) => outages.map((one) => ({ place, outage: one }));

function clearWord({ look, clear, obstacle }: PlaceLook): Cell {
  if (look === null) return { text: "not known", raw: null, tone: "warn" };
  if (clear === true) return flagCell(true, "clear", "good");
  if (obstacle !== null && look.elevation > 0) return flagCell(false, `hidden, skyline ${obstacle.below}°`, "bad");
  return flagCell(false, look.elevation > 0 ? "too low" : "below the horizon", "bad");
}

/** Azimuths are true; skew is clockwise positive, seen behind the dish. */
const DISH_LOOKS = columns<PlaceLook, DayView>()({
  place: column("Place", keyKind, { cell: (seen, { say }) => named(say, seen.place) }),
  path: column("Path", keyKind),
  azimuthDegrees: column("Azimuth", orNull(angle(1)), ({ look }) => look?.azimuth ?? null),
  magneticDegrees: column<PlaceLook, number | null, DayView>(
    "By compass",
    orNull(angle(1)),
    ({ look, declination }) => (look === null || declination === null ? null : magnetic(look.azimuth, declination)),
    { spare: 2 },
  ),
  elevationDegrees: column("Elevation", orNull(angle(1)), ({ look }) => look?.elevation ?? null),
  rangeKm: column("Range", orNull(km), ({ look }) => look?.rangeKm ?? null, { spare: 1 }),
  skewDegrees: column("Skew", orNull(angle(1)), ({ look }) => look?.skew ?? null),
  clear: column("View", orNull(flagKind), { cell: clearWord }),
  outages: kept(listKind(outage), (seen) => outagesAt(seen.place, seen.outages)),
  nextOutages: kept(listKind(outage), (seen) => outagesAt(seen.place, seen.next())),
  blockedBelowDegrees: kept(orNull(numberKind), ({ obstacle }) => obstacle?.below ?? null),
});

const WINDOWS = columns<ReturnType<typeof windowsOf>[number], DayView>()({
  path: column("Path", keyKind, ({ path }) => path.id),
  from: clockColumn("Opens", ({ from }) => ({ at: from, place: null }), { kind: instantKind }),
  to: clockColumn("Closes", ({ to }) => ({ at: to, place: null }), { kind: instantKind }),
  booking: column("Booking", secretKind, ({ path }) => path.booking),
  polarisation: column("Polarisation", orNull(textKind), ({ path }) => path.polarisation, { spare: 1 }),
  phone: column("Telephone", secretKind, ({ path }) => path.phone),
});

/** The booked windows of a day. */
const windowsOf = (day: Day) =>
  [...day.plan.paths.values()].flatMap((path) => path.windows.map(({ from, to }) => ({ path, from, to })));

const FEEDS = columns<SignalRows["feeds"][number], Words>()({
  id: kept(keyKind, ({ feed }) => feed.id),
  feed: shown("Feed", ({ feed }) => ({ text: feed.id })),
  path: column("Path", orNull(keyKind), ({ path }) => path?.id ?? null),
  sizeMegabytes: column("Size", orNull(numberKind), ({ feed }) => feed.sizeMegabytes, {
    cell: ({ feed }) => statedCell(feed.sizeMegabytes, " MB"),
  }),
  rateMegabits: kept(orNull(numberKind), ({ path }) => path?.rateMegabits ?? null),
  needsMinutes: column("Needs", orNull(numberKind), {
    cell: ({ needsMinutes: needs }) => (needs === null ? { text: "not known", raw: null } : lengthCell(needs)),
  }),
  from: kept(orNull(instantKind), ({ times }) => moment(times.start, times.place)),
  start: clockColumn("From", ({ times }) => moment(times.start, times.place)),
  to: kept(orNull(instantKind), ({ times }) => moment(times.end, times.place)),
  by: column("Done by", orNull(instantKind), ({ feed, times }) => moment(feed.by, times.place)),
});

const LINES = columns<Line, DayView>()({
  id: keyKind,
  line: shown("Line", (line) => ({ text: line.id })),
  number: column("Number", secretKind),
  who: column("Who", idsKind, {
    cell: (line, { say, day }) => crewCell(say, meant(day.plan, line), day.plan.crew.size),
  }),
  spare: column("Spare", secretKind),
});

/** `data` of `signal`. */
const SIGNAL_DATA = object<SignalRows, DayView>()({
  looks: listKind(DISH_LOOKS),
  hits: listKind(HITS),
  windows: kept(listKind(WINDOWS), (_, { day }) => windowsOf(day)),
  feeds: listKind(FEEDS),
  lines: kept(listKind(LINES), (_, { day }) => [...day.plan.lines.values()]),
  satellitePhone: kept(orNull(keyKind), (_, { day }) => satellitePhone(day)),
});

/** The report `signal`. */
export const signalMaker = topicMaker(60, "signal", signalReport, SIGNAL_DATA);
