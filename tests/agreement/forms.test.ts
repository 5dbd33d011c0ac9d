/** The times of a sheet are the same instants in its text, its calendar, its CSV and its JSON, and those of the day. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { judge, readPlan, solveDay } from "../../src/index.ts";
import { toCsv } from "../../src/render/forms/csv.ts";
import { renderIcs } from "../../src/render/forms/ics.ts";
import { wordingOf } from "../../src/reports/shared/wording.ts";
import { sheetFacts } from "../../src/reports/sheet/facts.ts";
import { sheetOf, sheetReport } from "../../src/reports/sheet/index.ts";
import { FILES, read } from "./fixtures.ts";

const DAYS = FILES.filter((file) => /fixtures\/(days|edges)\//.test(file));
const ISO = /\d{4}-\d\d-\d\dT\d\d:\d\d(?:Z|[-+]\d\d:\d\d)/g;

async function sheet(file: string) {
  const reading = await readPlan(readFileSync(file, "utf8"), { file, files: { read } });
  if (!reading.ok) throw new Error(`${file} is no plan`);
  const solved = await solveDay(reading);
  if (!solved.ok) throw new Error(`${file} has no day`);
  const judged = await judge(solved);
  const { day, findings } = judged;
  const rest = { say: wordingOf(day.plan), desk: null, person: null, redact: false, changes: null };
  return { day, made: sheetOf({ day, facts: sheetFacts(judged), findings, ...rest }) };
}

/** Minutes since the epoch, by the standard's own parser. */
const minute = (iso: string): number => Date.parse(iso) / 60_000;
const ordered = (all: readonly number[]): readonly number[] => all.toSorted((a, b) => a - b);
/** `20270120T100000Z` of RFC 5545, 3.3.5, form 2. */
const utc = (text: string): number =>
  minute(text.replace(/^(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)Z$/, "$1-$2-$3T$4:$5:$6Z"));

describe.each(DAYS)("%s", (file) => {
  it("has the day's instants in the calendar", async () => {
    const { day, made } = await sheet(file);
    const text = await renderIcs(made, { alarmMinutes: null, now: null });
    const events = text.split("BEGIN:VEVENT").slice(1);
    const starts = events.map((event) => utc(/^DTSTART:(\w+)/m.exec(event)?.[1] ?? ""));
    expect(ordered(starts)).toEqual(ordered(made.events.map(({ start }) => start)));
    const hits = day.activities.flatMap(({ activity, start }) => (activity.kind === "hit" ? (start ?? []) : []));
    const inCalendar = events.flatMap((event, at) => (/^CATEGORIES:Hit/m.test(event) ? (starts[at] ?? []) : []));
    expect(ordered(inCalendar)).toEqual(ordered(hits));
  });

  it("has them in the JSON, each with the offset of its clock", async () => {
    const { made } = await sheet(file);
    const events = /"events":(\[.*?\}\])/s.exec(JSON.stringify(made.data))?.[1] ?? "[]";
    const from = [...events.matchAll(/"from":"([^"]+)"/g)].map(([, iso = ""]) => minute(iso));
    expect(from).toEqual(made.events.map(({ start }) => start));
    const to = [...events.matchAll(/"to":"([^"]+)"/g)].map(([, iso = ""]) => minute(iso));
    expect(to).toEqual(made.events.flatMap(({ end }) => end ?? []));
  });

  it("has them in the CSV, and the text of each cell is its clock", async () => {
    const { day, made } = await sheet(file);
    const known = new Set<number>([...day.instants.values()]);
    for (const section of made.sections) {
      for (const block of section.blocks) {
        if (block.kind !== "table") continue;
        for (const cell of block.rows.flat()) {
          if (typeof cell.raw !== "string" || cell.raw.match(ISO)?.[0] !== cell.raw) continue;
          expect(cell.text, `${section.id} ${cell.raw}`).toContain(cell.raw.slice(11, 16));
        }
      }
    }
    const csv = toCsv(sheetReport(made), { bom: false });
    const [calls = "", hits = "", moves = ""] = ["who,call", "hit,start", "vehicle,leave"].map(
      (head) => csv.split("\r\n\r\n").find((table) => table.startsWith(head)) ?? "",
    );
    const leaves = moves
      .split("\r\n")
      .slice(1)
      .flatMap((row) => row.match(ISO)?.[0] ?? []);
    expect(leaves.filter((iso) => !known.has(minute(iso)))).toEqual([]);
    const starts = hits
      .split("\r\n")
      .slice(1)
      .flatMap((row) => row.match(ISO)?.slice(0, 2) ?? []);
    expect(starts.filter((iso) => !known.has(minute(iso)))).toEqual([]);
    const called = calls
      .split("\r\n")
      .slice(1)
      .flatMap((row) => row.match(ISO)?.[0] ?? []);
    const duties = day.people.flatMap(({ duties: all }) => all.map(({ call }) => Number(call)));
    expect(called.filter((iso) => !duties.includes(minute(iso)))).toEqual([]);
  });
});
