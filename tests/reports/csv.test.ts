/**
 * The tables of every command as CSV, for programs: what is told by a display name in text is an id here, the same thing has
 * the same key in every command, and a number has one digit more than the text shows.
 */
import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";
import { SMALLEST } from "../cli/plans.ts";
import { parseCsv } from "../render/parseCsv.ts";

const FILES = Object.fromEntries(
  ["assignment.yaml", "2027-01-19.yaml", "2027-01-20.yaml"].map((name) => [
    name,
    readFileSync(`fixtures/days/${name}`, "utf8"),
  ]),
);
const COMMANDS = ["calls", "hours", "power", "drives", "light", "signal", "kit", "sheet", "timecard"];

interface Row {
  readonly command: string;
  readonly cells: ReadonlyMap<string, string>;
}

/** Every row of every table, under its table's keys. */
function rowsOf(command: string, csv: string): readonly Row[] {
  return csv
    .split("\r\n\r\n")
    .map((table) => parseCsv(table.endsWith("\r\n") ? table : `${table}\r\n`))
    .flatMap(([head = [], ...rows]) =>
      rows.map((row) => ({ command, cells: new Map(head.map((key, at) => [key, row[at] ?? ""])) })),
    );
}

let rows: readonly Row[] = [];
beforeAll(async () => {
  const all = await Promise.all(
    COMMANDS.map(async (command) =>
      rowsOf(command, (await ran([command, "--format", "csv", "2027-01-20.yaml"], { files: FILES })).out),
    ),
  );
  rows = all.flat();
}, 60_000);

const cellsOf = (key: string): readonly string[] => rows.flatMap(({ cells }) => cells.get(key) ?? []);

describe("csv", () => {
  it("names people, places, vehicles, hits and pieces by id", () => {
    // The ids of fixtures/days/assignment.yaml and 2027-01-20.yaml, read by eye.
    const people = /^(?:(?:wren|ilse|bea|tomas)(?: |$))*$/u;
    const places = /^(?:lodge|pier|cove|dock|dockeast|inn|harbor|)$/u;
    for (const key of ["who", "driver", "riders", "hands", "asleep"])
      for (const text of cellsOf(key)) expect(text, key).toMatch(people);
    for (const key of ["place", "fromPlace", "toPlace"])
      for (const text of cellsOf(key)) expect(text, key).toMatch(places);
    for (const text of [...cellsOf("vehicle"), ...cellsOf("riding")]) expect(text).toMatch(/^(?:truck|wagon)$/u);
    for (const text of cellsOf("hit")) expect(text).toMatch(/^(?:dawn\.[1-4]|noon|evening|)$/u);
    for (const text of cellsOf("packs")) expect(text).toMatch(/^brick\.[1-5]$/u);
    expect(cellsOf("who").length).toBeGreaterThan(50);
    expect(cellsOf("place").length).toBeGreaterThan(50);
  });

  it("has a hit's place and its time on air under the same keys everywhere", () => {
    const dawn = (command: string) =>
      rows.find((row) => row.command === command && row.cells.get("hit") === "dawn.1" && row.cells.has("start"));
    for (const command of ["calls", "light", "signal", "sheet"])
      expect([command, dawn(command)?.cells.get("place"), dawn(command)?.cells.get("start")]).toEqual([
        command,
        "pier",
        "2027-01-20T07:00-06:00",
      ]);
  });

  it("rounds every number to at most one digit more than the text", () => {
    const decimals = (text: string): number => /^-?\d+\.(?<after>\d+)$/u.exec(text)?.groups?.["after"]?.length ?? 0;
    for (const { command, cells } of rows)
      for (const [key, text] of cells) expect(decimals(text), `${command} ${key} ${text}`).toBeLessThanOrEqual(3);
    // The text has -7.1° and 112°, 12.4 Wh, 56 %, 38 150 km.
    expect(cellsOf("sunAltitudeDegrees")[0]).toMatch(/^-7\.\d{1,2}$/u);
    expect(cellsOf("sunAzimuthDegrees")[0]).toMatch(/^11[12](?:\.\d)?$/u);
    for (const text of cellsOf("marginWh")) expect(decimals(text)).toBeLessThanOrEqual(2);
  });

  it("says yes and no as true and false", () => {
    for (const key of ["ok", "spareOk", "clear", "sheltered", "farthest"]) {
      expect(cellsOf(key).length, key).toBeGreaterThan(0);
      for (const text of cellsOf(key)) expect(text, key).toMatch(/^(?:true|false)$/u);
    }
  });
});

// Nobody of the smallest plan is under a law of driving, so nothing ends it: no moment, hence an empty cell as JSON has null.
it("leaves a moment empty that no limit sets", async () => {
  const { out } = await ran(["endurance", "day.yaml", "--format", "csv"], { files: { "day.yaml": SMALLEST } });
  expect(out).toMatch(/^wagon,,,,,2027-/mu);
  expect(out).not.toContain("no limit");
});
