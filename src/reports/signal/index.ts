/** `signal`: path and spare of each hit, look angles, booked windows, sun outages, cable, feeds, lines. */
import type { Day } from "../../day/day.ts";
import type { Say } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import { beamWidth, pathDelayMs, pointingLoss, standOffMeters } from "../../signal/dish/dish.ts";
import { ASSUMED_DISH } from "../../signal/dish/satellite.ts";
import type { PlaceLook, SignalResult } from "../../signal/index.ts";
import { usesOf } from "../../signal/use.ts";
import { instant, localDay, shortDateOf } from "../../time/index.ts";
import {
  column,
  crewCell,
  DASH,
  figureColumn,
  flagCell,
  lengthCell,
  meant,
  named,
  numberCell,
  placeCell,
  privateCell,
  statedCell,
  textCell,
} from "../shared/cells.ts";
import { placesInOrder } from "../shared/clocks.ts";
import { type DayView, dayView, type PersonOptions, type TopicOptions } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import type { Block, Cell, Report, Table } from "../shared/view.ts";
import { zoneOfPlace } from "../shared/wording.ts";
import { type FeedRow, feedRows, type SignalHit, type SignalRows, signalData, signalHits } from "./data.ts";

export interface SignalOptions extends TopicOptions<SignalResult>, PersonOptions {
  /** Leaves out telephone and line numbers and bookings. */
  readonly redact: boolean;
}

/** The report of one day's signal. */
export function signalReport(day: Day, say: Say, options: SignalOptions): Report {
  const { result, person, redact } = options;
  const mine = <R extends { readonly times: { readonly who: readonly Id[] } }>(rows: readonly R[]): readonly R[] =>
    person === null ? rows : rows.filter(({ times }) => times.who.includes(person));
  const rows: SignalRows = { looks: result.looks, hits: mine(signalHits(day, result)), feeds: mine(feedRows(day)) };
  const view = dayView(day, say, placesInOrder(day), options.clock);

  const tables = [
    hitsTable(view, rows.hits),
    looksTable(view, rows.looks),
    windowsTable(view, redact),
    cableTable(view, rows.hits),
    feedsTable(view, rows.feeds),
    linesTable(view, redact),
  ];
  const [hits, looks, ...rest] = tables.filter((table, at) => at === 0 || table.rows.length > 0);
  return {
    command: "signal",
    blocks: [
      headingLine(day, view.clocks),
      ...(hits === undefined ? [] : [hits]),
      ...(looks === undefined ? [] : [looks]),
      ...dishLines(view, rows.looks),
      ...rest,
    ],
    data: signalData(day, rows, redact),
    findings: options.findings,
    say,
  };
}

const notNoted: Cell = { text: "not noted", raw: null, tone: "warn" };
const works = (ok: boolean): Cell => (ok ? flagCell(ok, "ok", "good") : flagCell(ok, "fails", "bad"));

function hitsTable({ say, clocks }: DayView, hits: readonly SignalHit[]): Table {
  return {
    kind: "table",
    title: "Hits",
    columns: [
      column("Hit", "hit"),
      ...clocks.columns("On air", "start"),
      column("Place", "place", 1),
      column("Path", "path"),
      column("Works", "ok"),
      column("Spare", "spare"),
      column("Spare works", "spareOk"),
      column("Window from", "needFrom", 1),
      column("Window to", "needTo", 1),
      column("Dish up", "dishUp", 2),
    ],
    rows: hits.map(({ times, signal, need, dishUp }) => [
      { text: signal.id },
      ...clocks.cells(times.start, times.place),
      placeCell(say, times.place),
      signal.path === null ? { text: "none stated", raw: null, tone: "warn" } : named(say, signal.path),
      signal.path === null ? DASH : works(signal.ok),
      signal.spare === null ? { text: "none", raw: null, tone: "warn" } : { text: signal.spare },
      signal.spare !== null && signal.spareOk === null
        ? notNoted
        : signal.spareOk === null
          ? DASH
          : works(signal.spareOk),
      need === null ? DASH : clocks.local(need.from, times.place),
      need === null ? DASH : clocks.local(need.to, times.place),
      dishUp === null ? DASH : clocks.local(dishUp, times.place),
    ]),
    empty: "No hits.",
  };
}

function clearWord({ look, clear, obstacle }: PlaceLook): Cell {
  if (look === null) return { text: "not known", raw: null, tone: "warn" };
  if (clear === true) return flagCell(true, "clear", "good");
  if (obstacle !== null && look.elevation > 0) return flagCell(false, `hidden, skyline ${obstacle.below}°`, "bad");
  return flagCell(false, look.elevation > 0 ? "too low" : "below the horizon", "bad");
}

/** Azimuths are true; skew is clockwise positive, seen behind the dish. */
function looksTable({ say }: DayView, looks: readonly PlaceLook[]): Table {
  return {
    kind: "table",
    title: "Look angles (azimuth true; skew clockwise, looking at the satellite)",
    columns: [
      column("Place", "place"),
      column("Path", "path"),
      figureColumn("Azimuth", "azimuthDegrees"),
      figureColumn("Elevation", "elevationDegrees"),
      figureColumn("Skew", "skewDegrees"),
      figureColumn("Range", "rangeKm", 1),
      column("View", "clear"),
    ],
    rows: looks.map((seen) => {
      const { look } = seen;
      const angle = (value: number | undefined): Cell => numberCell(value ?? null, 1, "°");
      return [
        named(say, seen.place),
        { text: seen.path },
        angle(look?.azimuth),
        angle(look?.elevation),
        angle(look?.skew),
        numberCell(look?.rangeKm ?? null, 0, " km"),
        clearWord(seen),
      ];
    }),
    empty: "No satellite path.",
  };
}

/** For each satellite path in use: how well to point, the delay on the ear line, and when the sun stands behind it. */
function dishLines(view: DayView, looks: readonly PlaceLook[]): readonly Block[] {
  const uses = usesOf(view.day);
  const used = looks.filter(
    ({ look, place, path }) => look !== null && uses.some((use) => use.path.id === path && use.place?.id === place),
  );
  return used.map((seen) => ({ kind: "line", cells: [{ text: dishText(view, seen), tone: "muted" }] }));
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
      : `; ${standOffMeters(look.elevation, 1, 0).toFixed(1)} m off for each metre that something stands above the dish`;
  const aim = `half a degree off costs ${pointingLoss(0.5, beam).toFixed(1)} dB`;
  const delay = look === null ? "" : `, ${Math.round(pathDelayMs(look.rangeKm))} ms one way`;
  const dish = stated ? "" : ` (a dish of ${meters} m at ${gigahertz} GHz assumed)`;
  return `${id} at ${say.name(place)}: ${today}${coming}${off}; ${aim}${delay}${dish}`;
}

function windowsTable({ day, clocks }: DayView, redact: boolean): Table {
  return {
    kind: "table",
    title: "Booked windows",
    columns: [
      column("Path", "path"),
      ...clocks.columns("Opens", "from"),
      ...clocks.columns("Closes", "to"),
      column("Booking", "booking"),
      column("Polarisation", "polarisation", 1),
      column("Telephone", "phone"),
    ],
    rows: [...day.plan.paths.values()].flatMap((path) =>
      path.windows.map(({ from, to }) => [
        { text: path.id },
        ...clocks.cells(from, null),
        ...clocks.cells(to, null),
        privateCell(path.booking, redact),
        textCell(path.polarisation),
        privateCell(path.phone, redact),
      ]),
    ),
    empty: "None booked.",
  };
}

function cableTable(_: DayView, hits: readonly SignalHit[]): Table {
  return {
    kind: "table",
    title: "Cable",
    columns: [
      column("Hit", "hit"),
      figureColumn("Run", "runMeters"),
      column("Reels", "reelMeters"),
      figureColumn("Joins", "joins"),
      figureColumn("Reach", "reachMeters"),
    ],
    rows: hits.flatMap(({ signal: { id, cable } }) => {
      if (cable === null) return [];
      const { lay, reachMeters, runMeters } = cable;
      return [
        [
          { text: id },
          statedCell(runMeters, " m"),
          lay === null
            ? { text: "too short", raw: null, tone: "bad" as const }
            : { text: lay.reels.map((meters) => `${meters} m`).join(" + "), raw: lay.reels.join(" ") },
          lay === null ? DASH : { text: String(lay.joins), raw: lay.joins },
          statedCell(reachMeters, " m"),
        ],
      ];
    }),
    empty: "No cable.",
  };
}

function feedsTable({ clocks }: DayView, feeds: readonly FeedRow[]): Table {
  return {
    kind: "table",
    title: "Feeds",
    columns: [
      column("Feed", "feed"),
      ...clocks.columns("From", "start"),
      column("Path", "path"),
      figureColumn("Size", "sizeMegabytes"),
      figureColumn("Needs", "needsMinutes"),
      column("Done by", "by"),
    ],
    rows: feeds.map(({ times, feed, path, needsMinutes }) => [
      { text: feed.id },
      ...clocks.cells(times.start, times.place),
      path === null ? DASH : { text: path.id },
      statedCell(feed.sizeMegabytes, " MB"),
      needsMinutes === null ? { text: "not known", raw: null } : lengthCell(needsMinutes),
      feed.by === null ? DASH : clocks.local(feed.by, times.place),
    ]),
    empty: "No feeds.",
  };
}

function linesTable({ day, say }: DayView, redact: boolean): Table {
  return {
    kind: "table",
    title: "Lines",
    columns: [column("Line", "line"), column("Number", "number"), column("Who", "who"), column("Spare", "spare")],
    rows: [...day.plan.lines.values()].map((line) => [
      { text: line.id },
      privateCell(line.number, redact),
      crewCell(say, meant(day.plan, line), day.plan.crew.size),
      privateCell(line.spare, redact),
    ]),
    empty: "No lines.",
  };
}
