/** Fuel, distances and calendar rules against published values (`more.json`), and how many values there are in all. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { exhaust } from "../../src/cautions/findings.ts";
import { IDLE_KM_PER_HOUR } from "../../src/roads/fuel.ts";
import { ran } from "../cli/fakeIo.ts";
import { type Check, checkPublished } from "./published.ts";

const KM_A_MILE = 1.609344;

/** A day whose pier has this name, as a calendar. */
async function calendar(name: string): Promise<string> {
  const plan = readFileSync("fixtures/smallest.yaml", "utf8").replace(
    "pier:  {",
    `pier:  { name: ${JSON.stringify(name)},`,
  );
  return (await ran(["sheet", "day.yaml", "--format", "ics"], { files: { "day.yaml": plan } })).out;
}

/** The lines of a calendar with its folds undone. */
const unfolded = (text: string): readonly string[] => text.replaceAll("\r\n ", "").split("\r\n");
const octets = (line: string): number => Buffer.byteLength(line, "utf8");

describe("published values of fuel and calendars", () => {
  checkPublished(
    "./more.json",
    new Map<string, Check>([
      [
        "bat-generator-distance",
        () => Number(/A generator stands (\d+) ft from doors/.exec(exhaust.entry.why)?.[1]) * 0.3048,
      ],
    ]),
    new Map([
      ["bat-idle-fuel", "gallons of four vehicles; held below as kilometres of range"],
      ["ics-escape", "read back from a calendar below"],
      ["ics-fold", "read back from a calendar below"],
      ["ics-required", "read back from a calendar below"],
    ]),
  );

  it("bat-idle-fuel: an hour of idling takes no more than is counted, for a sedan and a truck", () => {
    // 0.39 gal/h at 25 miles a gallon, 0.84 gal/h at 8.
    for (const [gallons, miles] of [
      [0.39, 25],
      [0.84, 8],
    ] as const)
      expect(gallons * miles * KM_A_MILE).toBeLessThanOrEqual(IDLE_KM_PER_HOUR);
  });

  it("ics-escape: backslash, semicolon and comma are escaped, a colon is not", async () => {
    const lines = unfolded(await calendar("Gate B; park left, mast down: C:\\ops"));
    expect(lines.some((line) => line.includes("Gate B\\; park left\\, mast down: C:\\\\ops"))).toBe(true);
  });

  it("ics-fold: at 75 octets, with CRLF and one space, never inside a character", async () => {
    const text = await calendar(
      "Höhenweg overlook, light is −6° at 06:12, so bring both panels and four warm packs: ∀∀∀∀∀",
    );
    const lines = text.split("\r\n");
    expect(Math.max(...lines.map(octets))).toBeLessThanOrEqual(75);
    expect(lines.some((line) => line.startsWith(" "))).toBe(true);
    expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n\ufffd]/u);
  });

  it("ics-required: VERSION:2.0 and PRODID once, UID and DTSTAMP once an event", async () => {
    const lines = unfolded(await calendar("pier"));
    const count = (pattern: RegExp): number => lines.filter((line) => pattern.test(line)).length;
    const events = count(/^BEGIN:VEVENT$/);
    expect(events).toBeGreaterThan(3);
    expect([count(/^VERSION:2\.0$/), count(/^PRODID:/), count(/^UID:/), count(/^DTSTAMP:\d{8}T\d{6}Z$/)]).toEqual([
      1,
      1,
      events,
      events,
    ]);
  });
});

interface Listed {
  readonly from_memory: boolean;
  readonly document?: string;
  readonly doc?: string;
  readonly url_or_doc?: string;
  readonly expected: unknown;
}

/** Numbers, words and truths under a value. */
function leaves(value: unknown): number {
  if (value === null) return 0;
  return typeof value === "object" ? Object.values(value).reduce((sum: number, own) => sum + leaves(own), 0) : 1;
}

/** A document of somebody else's, and not a reckoning from formulas. */
const OWN_RECKONING = /^(computed|derived|algebra|as above|definition|inverse|physics|exposure equation)/;

it("there are at least 250 published values from at least 25 documents that were read", () => {
  const folder = new URL("./", import.meta.url);
  const files = readdirSync(folder).filter((name) => name.endsWith(".json") && name !== "hours.json");
  const read = files
    .flatMap((name) => JSON.parse(readFileSync(new URL(name, folder), "utf8")) as readonly Listed[])
    .map((one) => ({ ...one, text: one.document ?? one.doc ?? one.url_or_doc ?? "" }))
    .filter(({ from_memory: fromMemory, text }) => !fromMemory && text !== "" && !OWN_RECKONING.test(text));
  expect(new Set(read.map(({ text }) => text)).size).toBeGreaterThanOrEqual(25);
  expect(read.reduce((sum, { expected }) => sum + leaves(expected), 0)).toBeGreaterThanOrEqual(250);
});
