/**
 * A second reader of calendar files, by the grammar of RFC 5545 alone (sections 3.1, 3.2, 3.3.11): it shares no code with the
 * writer nor with ical.js, and is stricter than both: whatever the grammar does not allow is thrown.
 */

export interface ContentLine {
  readonly name: string;
  readonly params: ReadonlyMap<string, string>;
  /** As it stands, escapes and all. */
  readonly value: string;
}

export interface Component {
  readonly name: string;
  readonly lines: readonly ContentLine[];
  readonly parts: readonly Component[];
}

/** An event with the properties that these calendars have; instants as `20270120T130000Z`. */
export interface ReadEvent {
  readonly uid: string;
  readonly sequence: number;
  readonly stamp: string;
  readonly modified: string;
  readonly start: string;
  readonly end: string | null;
  readonly summary: string;
  readonly status: string | null;
  readonly category: string;
  readonly transparent: boolean;
  /** Degrees. */
  readonly position: readonly [latitude: number, longitude: number] | null;
}

/** The calendar as it is nested. Throws for what RFC 5545 does not allow. */
export function readCalendar(text: string): Component {
  if (!text.endsWith("\r\n") || /(?<!\r)\n|\r(?!\n)/u.test(text)) throw new Error("a line does not end in CRLF");
  const lines = text
    .replace(/\r\n[ \t]/gu, "")
    .split("\r\n")
    .slice(0, -1)
    .map(contentLine);
  const root: { name: string; lines: ContentLine[]; parts: Component[] }[] = [{ name: "", lines: [], parts: [] }];
  for (const line of lines) {
    const open = root.at(-1);
    if (open === undefined) throw new Error("END without BEGIN");
    if (line.name === "BEGIN") root.push({ name: line.value, lines: [], parts: [] });
    else if (line.name === "END") {
      if (open.name !== line.value || root.length < 2) throw new Error(`END:${line.value} ends ${open.name}`);
      root.pop();
      root.at(-1)?.parts.push(open);
    } else if (root.length < 2) throw new Error(`${line.name} outside of a calendar`);
    else open.lines.push(line);
  }
  const [calendar, ...more] = root[0]?.parts ?? [];
  if (root.length !== 1 || calendar?.name !== "VCALENDAR" || more.length > 0) throw new Error("not one calendar");
  return calendar;
}

/** `name *(";" param) ":" value`, names of letters, digits and hyphens; no control characters in a value. */
function contentLine(line: string): ContentLine {
  const head = /^([A-Za-z0-9-]+)((?:;[A-Za-z0-9-]+=(?:"[^"]*"|[^";:,]*))*):(.*)$/u.exec(line);
  const [, name = "", params = "", value = ""] = head ?? [];
  if (head === null || /[\p{Cc}]/u.test(value)) throw new Error(`no content line: ${line}`);
  const each = params
    .split(";")
    .slice(1)
    .map((one): [string, string] => {
      const [key = "", ...rest] = one.split("=");
      return [key.toUpperCase(), rest.join("=")];
    });
  return { name: name.toUpperCase(), params: new Map(each), value };
}

/** Section 3.3.11: a backslash before a backslash, a comma, a semicolon or an n; none of the first three without one. */
export function textOf(value: string): string {
  if (/(?<!\\)(?:\\\\)*[,;]/u.test(value)) throw new Error(`not escaped: ${value}`);
  return value.replace(/\\(.)/gu, (whole, one: string) => {
    if (one === "n" || one === "N") return "\n";
    if ("\\,;".includes(one)) return one;
    throw new Error(`no escape: ${whole}`);
  });
}

/** The events in the order of the file. */
export function readEvents(text: string): readonly ReadEvent[] {
  return readCalendar(text)
    .parts.filter(({ name }) => name === "VEVENT")
    .map((event) => {
      const of = (name: string): string | null => {
        const own = event.lines.filter((line) => line.name === name);
        if (own.length > 1) throw new Error(`${name} twice`);
        return own[0]?.value ?? null;
      };
      const needed = (name: string): string => {
        const value = of(name);
        if (value === null) throw new Error(`${name} is missing`);
        return value;
      };
      const instant = (name: string, value: string): string => {
        if (!/^\d{8}T\d{6}Z$/u.test(value)) throw new Error(`${name}: no UTC time: ${value}`);
        return value;
      };
      const end = of("DTEND");
      const position = of("GEO");
      return {
        uid: needed("UID"),
        sequence: Number(needed("SEQUENCE")),
        stamp: instant("DTSTAMP", needed("DTSTAMP")),
        modified: instant("LAST-MODIFIED", needed("LAST-MODIFIED")),
        start: instant("DTSTART", needed("DTSTART")),
        end: end === null ? null : instant("DTEND", end),
        summary: textOf(needed("SUMMARY")),
        status: of("STATUS"),
        category: textOf(needed("CATEGORIES")),
        transparent: of("TRANSP") === "TRANSPARENT",
        position: position === null ? null : positionOf(position),
      };
    });
}

/** Section 3.8.1.6: two floats with a semicolon between, latitude first. */
function positionOf(value: string): readonly [number, number] {
  const match = /^([+-]?\d+(?:\.\d+)?);([+-]?\d+(?:\.\d+)?)$/u.exec(value);
  const [latitude, longitude] = [Number(match?.[1]), Number(match?.[2])];
  if (match === null || Math.abs(latitude) > 90 || Math.abs(longitude) > 180) throw new Error(`no position: ${value}`);
  return [latitude, longitude];
}
