import ICAL from "ical.js";
import { describe, expect, it } from "vitest";
import { type IcsOptions, renderIcs } from "../../src/render/forms/ics.ts";
import { sheetOf } from "../../src/reports/sheet/index.ts";
import type { SheetRequest } from "../../src/reports/sheet/input.ts";
import { type Instant, after as minutesAfter } from "../../src/time/units.ts";
import { at, demoDay } from "../sheet/demoDay.ts";
import { demoInput } from "../sheet/demoInput.ts";
import { hostileInput } from "../sheet/hostile.ts";

const QUIET: IcsOptions = { alarmMinutes: null, now: null };
const file = (request: SheetRequest, options = QUIET): Promise<string> => renderIcs(sheetOf(request), options);

/** Read back by ical.js, a parser that shares no code with the writer. */
function parsed(
  text: string,
): readonly { readonly uid: string; readonly event: ICAL.Event; readonly component: ICAL.Component }[] {
  const calendar = new ICAL.Component(ICAL.parse(text));
  return calendar.getAllSubcomponents("vevent").map((component) => {
    const event = new ICAL.Event(component);
    return { uid: event.uid, event, component };
  });
}

const utc = (moment: Instant): string => new Date(moment * 60_000).toISOString();

describe("the calendar of a whole crew", () => {
  it("has a call and a release for each person, every hit, every move", async () => {
    const summaries = parsed(await file(demoInput())).map(({ event }) => event.summary.split(":")[0]);
    const count = (word: string): number => summaries.filter((one) => one === word).length;
    expect([count("Call"), count("Release"), count("Hit"), count("Drive")]).toEqual([4, 4, 6, 8]);
  });

  it("keeps the instants, as UTC, in time order", async () => {
    const events = parsed(await file(demoInput()));
    const noon = events.find(({ event }) => event.summary === "Hit: noon (midday)");
    // 11:00 Chicago in January is 17:00 UTC (UTC-06:00, tz database).
    expect(noon?.event.startDate.toJSDate().toISOString()).toBe("2027-01-20T17:00:00.000Z");
    expect(noon?.event.endDate.toJSDate().toISOString()).toBe("2027-01-20T17:05:00.000Z");
    expect(noon?.event.startDate.zone.tzid).toBe("UTC");
    const starts = events.map(({ event }) => event.startDate.toJSDate().getTime());
    expect(starts).toEqual([...starts].sort((a, b) => a - b));
  });

  it("tells the local time in the text", async () => {
    const events = parsed(await file(demoInput()));
    expect(events.find(({ event }) => event.summary === "Hit: noon (midday)")?.event.description).toContain(
      "11:00 Chicago (12:00 New York)",
    );
  });

  it("says nothing of a zone, so that no calendar can misread one", async () => {
    expect(await file(demoInput())).not.toMatch(/TZID|VTIMEZONE|X-APPLE/u);
  });
});

describe("one person's calendar", () => {
  it("has only the moves that they drive", async () => {
    const of = async (person: string): Promise<readonly string[]> =>
      parsed(await file(demoInput({ person }))).map(({ event }) => event.summary);
    expect((await of("wren")).filter((one) => one.startsWith("Drive"))).toHaveLength(4);
    expect((await of("ilse")).filter((one) => one.startsWith("Drive"))).toHaveLength(0);
    expect((await of("ilse")).filter((one) => one.startsWith("Call"))).toEqual(["Call: Ilse"]);
  });

  it("has a relief driver's move", async () => {
    const moves = demoDay.moves.map((move) =>
      move.id === "truck.4"
        ? {
            ...move,
            wheel: [
              { ...move, to: at("18:20"), from: move.leave },
              { from: at("18:20"), to: move.arrive, driver: "bea" },
            ],
          }
        : move,
    );
    const summaries = parsed(await file(demoInput({ person: "bea", day: { ...demoDay, moves } }))).map(
      ({ event }) => event.summary,
    );
    expect(summaries).toContain("Drive: Truck, Point lookout to Harbour inn");
  });
});

describe("a revision", () => {
  const named = { ...demoDay, plan: { ...demoDay.plan, id: "ice-20" } };
  const later: SheetRequest = demoInput({
    day: {
      ...named,
      plan: { ...named.plan, revision: 3, title: "Another title", file: "renamed.yaml" },
      people: demoDay.people.map((one) => ({
        ...one,
        duties: one.duties.map((duty) => ({ ...duty, call: minutesAfter(duty.call, -20) })),
      })),
    },
  });

  it("keeps every UID when a time moves, and counts SEQUENCE and DTSTAMP up", async () => {
    const [first, second] = [parsed(await file(demoInput({ day: named }))), parsed(await file(later))];
    const uids = (events: typeof first): readonly string[] => events.map(({ uid }) => uid).sort();
    expect(uids(second)).toEqual(uids(first));
    expect(second.every(({ event }) => event.sequence === 3)).toBe(true);
    const stamp = (events: typeof first): string => String(events[0]?.component.getFirstPropertyValue("dtstamp"));
    expect(stamp(first) < stamp(second)).toBe(true);
  });

  it("gives each item a UID of its own, and another plan's items others", async () => {
    const uids = parsed(await file(demoInput())).map(({ uid }) => uid);
    expect(new Set(uids).size).toBe(uids.length);
    expect(uids.every((uid) => /^[0-9a-f]{32}@daywright$/u.test(uid))).toBe(true);
    const next = demoInput({ day: { ...demoDay, plan: { ...demoDay.plan, date: "2027-01-21" } } });
    expect(parsed(await file(next)).some(({ uid }) => uids.includes(uid))).toBe(false);
  });

  it("is the same file every time, and stamps --now where it is told", async () => {
    expect(await file(demoInput())).toBe(await file(demoInput()));
    const now = at("3:00");
    const [first] = parsed(await renderIcs(sheetOf(demoInput()), { ...QUIET, now }));
    expect(first?.component.getFirstPropertyValue("dtstamp")?.toString()).toBe(utc(now).replace(".000Z", "Z"));
  });
});

describe("against an older plan", () => {
  const plan = { ...demoDay.plan, id: "ice-20", revision: 2 };
  const older = { ...demoDay, plan };
  /** A change, so that SEQUENCE has something to count. */
  const changes = {
    ...{ fromRevision: 2, toRevision: 2 },
    changes: [{ kind: "move", id: "wagon.2", who: [], how: "dropped", what: null, was: null, now: null } as const],
  };
  const uidsBy = (events: ReturnType<typeof parsed>): ReadonlyMap<string, string> =>
    new Map(events.map(({ uid, event }) => [`${event.summary} ${event.startDate.toString()}`, uid]));

  it("cancels the drive of a dropped stop and changes no other event", async () => {
    const before = uidsBy(parsed(await file(demoInput({ day: older }))));
    const day = { ...older, moves: older.moves.filter(({ id }) => id !== "wagon.2") };
    const after = parsed(await file(demoInput({ day, older, changes })));
    const status = ({ component }: (typeof after)[number]): string | null =>
      component.getFirstPropertyValue("status")?.toString() ?? null;
    expect(after.filter((one) => status(one) === "CANCELLED").map(({ event }) => event.summary)).toEqual([
      "Drive: Wagon, Pier to Ore dock",
    ]);
    expect(uidsBy(after)).toEqual(before);
  });

  it("keeps the number of the second drive of a pair where the first is gone", async () => {
    const again = older.moves.flatMap((move) =>
      move.id === "wagon.2"
        ? [
            move,
            { ...move, id: "wagon.9", leave: minutesAfter(move.leave, 300), arrive: minutesAfter(move.arrive, 300) },
          ]
        : [move],
    );
    const twice = { ...older, moves: again };
    const before = uidsBy(parsed(await file(demoInput({ day: twice }))));
    const day = { ...older, moves: again.filter(({ id }) => id !== "wagon.2") };
    const events = parsed(await file(demoInput({ day, older: twice, changes })));
    expect(uidsBy(events)).toEqual(before);
  });

  it("counts SEQUENCE on where the revision was not raised, and says so", async () => {
    const sheet = sheetOf(demoInput({ day: older, older, changes }));
    expect([sheet.revisionForgotten, sheet.sequence]).toEqual([true, 3]);
    expect(parsed(await renderIcs(sheet, QUIET)).every(({ event }) => event.sequence === 3)).toBe(true);
    const raised = sheetOf(demoInput({ day: { ...older, plan: { ...plan, revision: 3 } }, older, changes }));
    expect([raised.revisionForgotten, raised.sequence]).toEqual([false, 3]);
  });

  it("shares no id with another crew of another id, whatever else they share", async () => {
    const other = { ...older, plan: { ...plan, id: "ice-20-b" } };
    const mine = new Set(parsed(await file(demoInput({ day: older }))).map(({ uid }) => uid));
    expect(parsed(await file(demoInput({ day: other }))).some(({ uid }) => mine.has(uid))).toBe(false);
  });
});

// RFC 5545, sections 3.8.1.6 (GEO), 3.8.1.2 (CATEGORIES), 3.8.2.7 (TRANSP), 3.8.7.3 (LAST-MODIFIED).
it("an event has its position, its kind, when it was written; a release keeps nobody busy", async () => {
  const events = parsed(await file(demoInput()));
  const of = (summary: string, name: string): string | undefined =>
    events
      .find(({ event }) => event.summary.startsWith(summary))
      ?.component.getFirstPropertyValue(name)
      ?.toString();
  expect(of("Hit: noon", "geo")).toBe("46.59,-90.89");
  expect(of("Hit: noon", "categories")).toBe("Hit");
  expect(of("Hit: noon", "last-modified")).toBe(of("Hit: noon", "dtstamp"));
  expect([of("Release", "transp"), of("Call", "transp")]).toEqual(["TRANSPARENT", undefined]);
  expect(events.map(({ event }) => event.summary)).toContain("Hit: noon (midday)");
  expect(events.map(({ event }) => event.summary.split(":")[0])).toEqual(expect.arrayContaining(["Meal", "Task"]));
});

describe("the alarm", () => {
  it("rings for a call alone, and only where asked", async () => {
    expect(await file(demoInput())).not.toContain("VALARM");
    const events = parsed(await file(demoInput(), { alarmMinutes: 90, now: null }));
    for (const { event, component } of events) {
      const alarms = component.getAllSubcomponents("valarm");
      expect(alarms).toHaveLength(event.summary.startsWith("Call") ? 1 : 0);
      if (alarms.length > 0) expect(alarms[0]?.getFirstPropertyValue("trigger")?.toString()).toBe("-PT1H30M");
    }
  });
});

// RFC 5545 section 3.1: lines end in CRLF and are no longer than 75 octets without it.
describe("the bytes", () => {
  const bytes = async (request: SheetRequest): Promise<Buffer> => Buffer.from(await file(request), "utf8");

  it("end every line, the last one too, in CRLF", async () => {
    const text = (await bytes(demoInput())).toString("latin1");
    expect(text.endsWith("END:VCALENDAR\r\n")).toBe(true);
    expect(text).not.toMatch(/(?<!\r)\n|\r(?!\n)/u);
  });

  it("fold at 75 octets and never inside a letter of several", async () => {
    const name = "Æjaç 日本語の長い名前 Ünïcödé 🚚".repeat(4);
    const places = new Map([...demoDay.plan.places].map(([id, place]) => [id, { ...place, address: name }]));
    const request = demoInput({ day: { ...demoDay, plan: { ...demoDay.plan, places } } });
    const raw = await bytes(request);
    for (const line of raw.toString("latin1").split("\r\n")) expect(line.length).toBeLessThanOrEqual(75);
    expect(raw.toString("utf8")).not.toContain("\uFFFD");
    const lodge = parsed(raw.toString("utf8")).find(({ event }) => event.summary === "Call: Wren");
    expect(lodge?.event.location).toBe(`Lodge, ${name}`);
  });
});

describe("a hostile plan", () => {
  it("stays text: no property, no alarm, no attendee of its own", async () => {
    const text = await file(hostileInput());
    const unfolded = text.replaceAll("\r\n ", "");
    expect(unfolded).not.toMatch(/^(?:ATTENDEE|ORGANIZER|BEGIN:VALARM|URL|ATTACH)/mu);
    expect(text.replaceAll("\r\n", "")).not.toMatch(/[\p{Cc}\p{Bidi_Control}]/u);
    const allowed =
      /^(?:BEGIN|END|VERSION|PRODID|NAME|X-WR-CALNAME|UID|GEO|SEQUENCE|DTSTAMP|LAST-MODIFIED|CATEGORIES|TRANSP|DTSTART|DTEND|SUMMARY|LOCATION|DESCRIPTION):/u;
    for (const line of unfolded.trimEnd().split("\r\n")) expect(line).toMatch(allowed);
    expect(parsed(text)).toHaveLength(25);
  });

  it("keeps a comma, a semicolon and a backslash in the calendar's name", async () => {
    const title = "ice, snow; and \\ more";
    const text = await file(demoInput({ day: { ...demoDay, plan: { ...demoDay.plan, title } } }));
    // RFC 7986 section 5.1: NAME is a TEXT value, and so escaped; ical.js leaves both unread.
    expect(text).toContain("\r\nNAME:ice\\, snow\\; and \\\\ more\r\n");
    expect(text).toContain("X-WR-CALNAME:ice\\, snow\\; and \\\\ more\r\n");
  });
});
