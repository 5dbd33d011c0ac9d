/** `signal`: path and spare of each hit, look angles, booked windows, sun outages, cable, feeds, lines. */
import type { Day } from "../day/day.ts";
import type { Finding, Say } from "../findings/finding.ts";
import type { Id } from "../plan/plan.ts";
import { beamWidth, pathDelayMs, pointingLoss } from "../signal/dish.ts";
import type { PlaceLook, SignalResult } from "../signal/index.ts";
import { ASSUMED_DISH } from "../signal/satellite.ts";
import { usesOf } from "../signal/use.ts";
import { instant, localDay, shortDateOf, type ZoneId } from "../time/index.ts";
import { type Clocks, clocksOf } from "./clocks.ts";
import { headingLine } from "./heading.ts";
import { zoneOfPlace } from "./say.ts";
import { type FeedRow, feedRows, type SignalHit, type SignalRows, signalData, signalHits } from "./signal-data.ts";
import type { Block, Cell, Report, Table } from "./view.ts";

export interface SignalOptions {
  readonly result: SignalResult;
  /** One person's view; null shows everyone. */
  readonly person: Id | null;
  /** Stands in for the control room's clock. */
  readonly clock: ZoneId | null;
  readonly findings: readonly Finding[];
}

interface View {
  readonly day: Day;
  readonly say: Say;
  readonly clocks: Clocks;
}

/** The report of one day's signal. */
export function signalReport(day: Day, say: Say, options: SignalOptions): Report {
  const { result, person } = options;
  const mine = <R extends { readonly times: { readonly who: readonly Id[] } }>(rows: readonly R[]): readonly R[] =>
    person === null ? rows : rows.filter(({ times }) => times.who.includes(person));
  const rows: SignalRows = { looks: result.looks, hits: mine(signalHits(day, result)), feeds: mine(feedRows(day)) };
  const clocks = clocksOf(day.plan, say, day.plan.places.keys(), options.clock ?? undefined);
  const view: View = { day, say, clocks };
  const tables = [
    hitsTable(view, rows.hits),
    looksTable(view, rows.looks),
    windowsTable(view),
    cableTable(view, rows.hits),
    feedsTable(view, rows.feeds),
    linesTable(view),
  ];
  const [hits, looks, ...rest] = tables.filter((table, at) => at === 0 || table.rows.length > 0);
  return {
    command: "signal",
    blocks: [
      headingLine(day, clocks),
      ...(hits === undefined ? [] : [hits]),
      ...(looks === undefined ? [] : [looks]),
      ...dishLines(view, rows.looks),
      ...rest,
    ],
    data: signalData(day, rows),
    findings: options.findings,
    say,
  };
}

const dash: Cell = { text: "–", raw: null };
const notNoted: Cell = { text: "not noted", raw: null, tone: "warn" };
const works = (ok: boolean): Cell => (ok ? { text: "ok", tone: "good" } : { text: "fails", tone: "bad" });

function hitsTable({ say, clocks }: View, hits: readonly SignalHit[]): Table {
  return {
    kind: "table",
    title: "Hits",
    columns: [
      { label: "hit", align: "left", key: "id" },
      ...clocks.columns("on air", "at"),
      { label: "place", align: "left", key: "place", spare: 1 },
      { label: "path", align: "left", key: "path" },
      { label: "is", align: "left", key: "ok" },
      { label: "spare", align: "left", key: "spare" },
      { label: "is", align: "left", key: "spareOk" },
      { label: "window from", align: "left", key: "needFrom", spare: 1 },
      { label: "to", align: "left", key: "needTo", spare: 1 },
      { label: "dish up", align: "left", key: "dishUp", spare: 2 },
    ],
    rows: hits.map(({ times, signal, need, dishUp }) => [
      { text: signal.id },
      ...clocks.cells(times.start, times.place),
      times.place === null ? { text: "on the road", raw: null } : { text: say.name(times.place), raw: times.place },
      signal.path === null ? { text: "none stated", raw: null, tone: "warn" } : { text: signal.path },
      signal.path === null ? dash : works(signal.ok),
      signal.spare === null ? { text: "none", raw: null, tone: "warn" } : { text: signal.spare },
      signal.spare !== null && signal.spareOk === null
        ? notNoted
        : signal.spareOk === null
          ? dash
          : works(signal.spareOk),
      need === null ? dash : clocks.local(need.from, times.place),
      need === null ? dash : clocks.local(need.to, times.place),
      dishUp === null ? dash : clocks.local(dishUp, times.place),
    ]),
    empty: "no hits",
  };
}

function clearWord({ look, clear, obstacle }: PlaceLook): Cell {
  if (look === null) return { text: "not known", tone: "warn" };
  if (clear === true) return { text: "clear", tone: "good" };
  if (obstacle !== null && look.elevation > 0) return { text: `hidden, skyline ${obstacle.below}°`, tone: "bad" };
  return { text: look.elevation > 0 ? "too low" : "below the horizon", tone: "bad" };
}

/** Azimuths are true; skew is clockwise positive, seen behind the dish. */
function looksTable({ say }: View, looks: readonly PlaceLook[]): Table {
  return {
    kind: "table",
    title: "Look angles (azimuth true; skew clockwise, looking at the satellite)",
    columns: [
      { label: "place", align: "left", key: "place" },
      { label: "path", align: "left", key: "path" },
      { label: "azimuth", align: "right", key: "azimuthDegrees" },
      { label: "elevation", align: "right", key: "elevationDegrees" },
      { label: "skew", align: "right", key: "skewDegrees" },
      { label: "range, km", align: "right", key: "rangeKm", spare: 1 },
      { label: "view", align: "left", key: "clear" },
    ],
    rows: looks.map((seen) => {
      const { look } = seen;
      const angle = (value: number | undefined): Cell =>
        value === undefined ? dash : { text: `${value.toFixed(1)}°`, raw: value };
      return [
        { text: say.name(seen.place), raw: seen.place },
        { text: seen.path },
        angle(look?.azimuth),
        angle(look?.elevation),
        angle(look?.skew),
        look === null ? dash : { text: look.rangeKm.toFixed(0), raw: look.rangeKm },
        clearWord(seen),
      ];
    }),
    empty: "no satellite path",
  };
}

/** For each satellite path in use: how well to point, the delay on the ear line, and when the sun stands behind it. */
function dishLines(view: View, looks: readonly PlaceLook[]): readonly Block[] {
  const uses = usesOf(view.day);
  const used = looks.filter(
    ({ look, place, path }) => look !== null && uses.some((use) => use.path.id === path && use.place?.id === place),
  );
  return used.map((seen) => ({ kind: "line", cells: [{ text: dishText(view, seen), tone: "muted" }] }));
}

function dishText({ day, say }: View, { place, path: id, look, outages, next }: PlaceLook): string {
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
  const aim = `half a degree off costs ${pointingLoss(0.5, beam).toFixed(1)} dB`;
  const delay = look === null ? "" : `, ${Math.round(pathDelayMs(look.rangeKm))} ms one way`;
  const dish = stated ? "" : ` (a dish of ${meters} m at ${gigahertz} GHz assumed)`;
  return `${id} at ${say.name(place)}: ${today}${coming}; ${aim}${delay}${dish}`;
}

function windowsTable({ day, clocks }: View): Table {
  return {
    kind: "table",
    title: "Booked windows",
    columns: [
      { label: "path", align: "left", key: "path" },
      ...clocks.columns("opens", "from"),
      ...clocks.columns("closes", "to"),
      { label: "booking", align: "left", key: "booking" },
      { label: "polarisation", align: "left", key: "polarisation", spare: 1 },
      { label: "telephone", align: "left", key: "phone" },
    ],
    rows: [...day.plan.paths.values()].flatMap((path) =>
      path.windows.map(({ from, to }) => [
        { text: path.id },
        ...clocks.cells(from, null),
        ...clocks.cells(to, null),
        path.booking === null ? dash : { text: path.booking },
        path.polarisation === null ? dash : { text: path.polarisation },
        path.phone === null ? dash : { text: path.phone },
      ]),
    ),
    empty: "none booked",
  };
}

function cableTable(_: View, hits: readonly SignalHit[]): Table {
  return {
    kind: "table",
    title: "Cable",
    columns: [
      { label: "hit", align: "left", key: "id" },
      { label: "run, m", align: "right", key: "runMeters" },
      { label: "reels, m", align: "left", key: "reelMeters" },
      { label: "joins", align: "right", key: "joins" },
      { label: "reach, m", align: "right", key: "reachMeters" },
    ],
    rows: hits.flatMap(({ signal: { id, cable } }) => {
      if (cable === null) return [];
      const { lay, reachMeters, runMeters } = cable;
      return [
        [
          { text: id },
          { text: String(runMeters), raw: runMeters },
          lay === null ? { text: "too short", raw: null, tone: "bad" as const } : { text: lay.reels.join(" + ") },
          lay === null ? dash : { text: String(lay.joins), raw: lay.joins },
          reachMeters === null ? dash : { text: String(reachMeters), raw: reachMeters },
        ],
      ];
    }),
    empty: "no cable",
  };
}

function feedsTable({ say, clocks }: View, feeds: readonly FeedRow[]): Table {
  return {
    kind: "table",
    title: "Feeds",
    columns: [
      { label: "feed", align: "left", key: "id" },
      ...clocks.columns("from", "from"),
      { label: "path", align: "left", key: "path" },
      { label: "size, MB", align: "right", key: "sizeMegabytes" },
      { label: "needs", align: "right", key: "needsMinutes" },
      { label: "done by", align: "left", key: "by" },
    ],
    rows: feeds.map(({ times, feed, path, needsMinutes }) => [
      { text: feed.id },
      ...clocks.cells(times.start, times.place),
      path === null ? dash : { text: path.id },
      feed.sizeMegabytes === null ? dash : { text: String(feed.sizeMegabytes), raw: feed.sizeMegabytes },
      needsMinutes === null ? { text: "not known", raw: null } : { text: say.length(needsMinutes), raw: needsMinutes },
      feed.by === null ? dash : clocks.local(feed.by, times.place),
    ]),
    empty: "no feeds",
  };
}

function linesTable({ day, say }: View): Table {
  return {
    kind: "table",
    title: "Lines",
    columns: [
      { label: "line", align: "left", key: "id" },
      { label: "number", align: "left", key: "number" },
      { label: "who", align: "left", key: "who" },
      { label: "spare", align: "left", key: "spare" },
    ],
    rows: [...day.plan.lines.values()].map((line) => [
      { text: line.id },
      line.number === null ? dash : { text: line.number },
      { text: line.who.length === 0 ? "all" : line.who.map((id) => say.name(id)).join(", ") },
      line.spare === null ? dash : { text: line.spare },
    ]),
    empty: "no lines",
  };
}
