/** `signal`: what each place has to send with, lines, cell and dish, and what is in its way. */
import type { Id } from "../../plan/plan.ts";
import { beamWidth, pathDelayMs, pointingLoss, standOffMeters } from "../../signal/dish/look.ts";
import { ASSUMED_DISH } from "../../signal/dish/satellite.ts";
import type { PlaceLook, SignalResult } from "../../signal/index.ts";
import { usesOf } from "../../signal/use.ts";
import { instant, localDay, shortDateOf } from "../../time/index.ts";
import { line } from "../shared/blocks.ts";
import { type DayView, dayView, type TopicInput } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import { topicMaker } from "../shared/report.ts";
import type { Block, ReportParts } from "../shared/view.ts";
import { zoneOfPlace } from "../shared/wording.ts";
import {
  CABLES,
  DISH_LOOKS,
  FEEDS,
  feedRows,
  LINES,
  SIGNAL_DATA,
  SIGNAL_HITS,
  type SignalRows,
  signalHits,
  WINDOWS,
  windowsOf,
} from "./rows.ts";

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
    SIGNAL_HITS.table(view, rows.hits, {
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

/** The report `signal`. */
export const signalMaker = topicMaker(60, "signal", signalReport, SIGNAL_DATA);
