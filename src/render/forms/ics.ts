/**
 * A sheet as an iCalendar file (RFC 5545): an entry for each call, hit, task, meal, feed, drive and release.
 *
 * Instants are UTC, because calendars misread named zones; the local time stands in the description. UIDs come from what
 * an event is, so that a newer file replaces the older; SEQUENCE is the revision; what an older plan alone has is cancelled.
 */
import { createHash } from "node:crypto";
import type { ICalEventData } from "ical-generator";
import type { Sheet, SheetEvent } from "../../reports/sheet/view.ts";
import { dayNumber, type Instant, instant, MINUTES_A_DAY, type ZoneId, zone } from "../../time/index.ts";
import type { DeclaredForm } from "../form.ts";
import { isolate, plainLine } from "../text/printable.ts";

/** Minutes before an event that an alarm rings, and the stamp of the file. */
export interface IcsOptions {
  /** Minutes before the call at which the calendar rings; null for none. Nothing but the call ever rings. */
  readonly alarmMinutes: number | null;
  /** The moment of writing, for DTSTAMP; null takes the plan's date and revision, so that the file is reproducible. */
  readonly now: Instant | null;
}

/** An instant in the form that the generator takes without a look at the machine's zone: a luxon value. */
type Dated = (at: Instant) => NonNullable<ICalEventData["stamp"]>;

/** Makes the file, lines ended by CRLF and folded at 75 octets. The generator and luxon are loaded only here. */
export async function renderIcs(sheet: Sheet, options: IcsOptions): Promise<string> {
  const [{ default: ical, ICalAlarmType, ICalEventStatus, ICalEventTransparency }, { dateTimeOf }] = await Promise.all([
    import("ical-generator"),
    import("../../time/luxon.ts"),
  ]);
  const utc = utcZone();
  const dated: Dated = (at) => dateTimeOf(at, utc);
  const stamp = stampOf(sheet, options.now);
  const calendar = ical({
    name: escaped(plainLine(sheet.story ?? sheet.title)),
    prodId: "//daywright//call sheet//EN",
  });
  for (const event of sheet.events) {
    const entry = calendar.createEvent({
      ...entryOf(sheet, event, { stamp, dated }),
      // A moment at the end of the day keeps no one busy.
      ...(event.kind === "release" ? { transparency: ICalEventTransparency.TRANSPARENT } : {}),
      ...(event.cancelled ? { status: ICalEventStatus.CANCELLED } : {}),
    });
    if (event.kind === "call" && !event.cancelled && options.alarmMinutes !== null) {
      entry.createAlarm({
        type: ICalAlarmType.display,
        trigger: options.alarmMinutes * 60,
        description: isolate(plainLine(event.title)),
      });
    }
  }
  // ical-generator 10.2.0 leaves out the last line end that RFC 5545 section 3.1 asks for.
  return `${withPositions(calendar.toString(), sheet)}\r\n`;
}

function entryOf(sheet: Sheet, event: SheetEvent, { stamp, dated }: { stamp: Instant; dated: Dated }): ICalEventData {
  // A plain text: with coordinates the generator would add a vendor's own property. The `geo:` link is a line of text.
  return {
    id: uidOf(sheet, event),
    sequence: sheet.sequence,
    stamp: dated(stamp),
    lastModified: dated(stamp),
    categories: [{ name: CATEGORIES[event.kind] }],
    start: dated(event.start),
    ...(event.end === null ? {} : { end: dated(event.end) }),
    summary: isolate(plainLine(event.title)),
    description: [...event.lines, ...mapLine(event)].map((line) => isolate(plainLine(line))).join("\n"),
    location: event.place === null ? null : isolate(plainLine(event.place)),
  };
}

const mapLine = (event: SheetEvent): readonly string[] => (event.map === null ? [] : [`Map ${event.map}`]);

function utcZone(): ZoneId {
  const utc = zone("UTC");
  if (utc === null) throw new Error("the zone table has no UTC");
  return utc;
}

/** `--now`, else the first minute of the plan's date in UTC and a minute more for every revision. */
const stampOf = (sheet: Sheet, now: Instant | null): Instant =>
  now ?? instant(dayNumber(sheet.date) * MINUTES_A_DAY + (sheet.revision ?? 0));

/** The same for an event in every revision of a plan, and for no other event. */
const uidOf = ({ identity }: Sheet, { kind, subject, number }: SheetEvent): string =>
  `${createHash("sha256").update(`${identity}\n${kind}\n${subject}\n${number}`).digest("hex").slice(0, 32)}@daywright`;

const CATEGORIES: Readonly<Record<SheetEvent["kind"], string>> = {
  call: "Call",
  hit: "Hit",
  move: "Drive",
  release: "Release",
  task: "Task",
  meal: "Meal",
  feed: "Feed",
  packs: "Packs",
};

/** `geo:46.81,-90.82` as RFC 5870 has it becomes `GEO:46.81;-90.82` as RFC 5545 has it (section 3.8.1.6). */
function withPositions(text: string, sheet: Sheet): string {
  const maps = new Map(sheet.events.map((event) => [uidOf(sheet, event), event.map]));
  // The generator states a position only together with a vendor's own property.
  return text.replace(/^UID:(\S+)\r\n/gmu, (line, uid: string) => {
    const map = maps.get(uid) ?? null;
    return map === null ? line : `${line}GEO:${map.slice("geo:".length).replace(",", ";")}\r\n`;
  });
}

/** ical-generator 10.2.0 escapes every text but the calendar's name (RFC 5545 section 3.3.11). */
const escaped = (text: string): string => text.replace(/[\\;,]/gu, (character) => `\\${character}`);

/** The calendar. */
export const icsForm: DeclaredForm<"sheet"> = {
  name: "ics",
  suffixes: [".ics"],
  commands: ["sheet"],
  place: 80,
  takes: "sheet",
  print: renderIcs,
};
