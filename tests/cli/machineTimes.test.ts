/** Times as scripts write them, wherever one is typed: `now`, epoch seconds, ISO 8601 with seconds. */
import { expect, test } from "vitest";
import { ran } from "./fakeIo.ts";
import { SMALLEST } from "./plans.ts";

// 2027-01-20T12:05:30Z is 07:05:30 in New York; 1800446730 seconds after 1970 began (date -u -d @1800446730).
const NOW = Date.UTC(2027, 0, 20, 12, 5, 30);
const SECONDS = String(NOW / 1000);

const LOG = `log: 1
zone: America/Chicago
rules: us-property
people:
  tomas:
    - { from: 2027-01-20T00:00, to: 2027-01-20T06:00:59, is: off }
    - { from: 20270120T060000, to: 2027-01-20T10:00-06, is: driving }
`;

test.each([
  ["now"],
  ["NOW"],
  [SECONDS],
  [`${SECONDS}.75`],
  [`${NOW}`],
  ["2027-01-20T12:05:59.9Z"],
  ["20270120T120500Z"],
])("--now %s, and hours --at, are 07:05 in New York", async (text) => {
  const want = await ran(["calls", "day.yaml", "--now", "07:05", "--json"], { files: { "day.yaml": SMALLEST } });
  const got = await ran(["calls", "day.yaml", "--now", text, "--json"], { files: { "day.yaml": SMALLEST }, now: NOW });
  expect([got.code, got.out]).toEqual([want.code, want.out]);
  const at = async (said: string): Promise<string> =>
    (await ran(["hours", "log.yaml", "--at", said, "--json"], { files: { "log.yaml": LOG }, now: NOW })).out;
  expect(await at(text)).toBe(await at("2027-01-20T06:05"));
  expect(await at(text)).toContain("2027-01-20T06:05-06:00");
});

test("seconds after 1970 are what Date says they are", () => {
  expect(SECONDS).toBe("1800446730");
});

test.each([
  [["wren", "released", "now"], "2027-01-20T07:05-05:00"],
  [["wren", "released", SECONDS], "2027-01-20T07:05-05:00"],
  [["brick.1", "35%", "now"], "2027-01-20T07:05-05:00"],
])("log %j", async (words, written) => {
  const plan = `${SMALLEST}packs:\n  brick: { count: 2, wh: 98, mount: wedge, charge: 100%, in: wagon }\n`;
  const { files, err } = await ran(["log", "day.yaml", ...words], { files: { "day.yaml": plan }, now: NOW });
  expect([err.includes("error"), files.get("/plans/day.yaml")?.includes(`"${written}"`)]).toEqual([false, true]);
});

test("log keeps the words of a note, and seconds as they are typed", async () => {
  const { files } = await ran(["log", "day.yaml", "wren", "note", "now"], {
    files: { "day.yaml": SMALLEST },
    now: NOW,
  });
  expect(files.get("/plans/day.yaml")).toContain('wren: { note: "now" }');
  const { code } = await ran(["log", "day.yaml", "dawn", "at", "2027-01-20T12:00:30.5Z"], {
    files: { "day.yaml": SMALLEST },
  });
  expect(code).toBe(0);
});

test("a time without its date is offered with one", async () => {
  const { code, err } = await ran(["hours", "log.yaml", "--at", "0830"], { files: { "log.yaml": LOG } });
  expect([code, err]).toEqual([2, expect.stringContaining("write the date as well: 2027-01-20T08:30\n")]);
});

test("a date without its time is offered with one", async () => {
  const { code, err } = await ran(["hours", "log.yaml", "--at", "2027-01-20"], { files: { "log.yaml": LOG } });
  expect([code, err]).toEqual([2, expect.stringContaining("with the time of day: 2027-01-20T08:00\n")]);
});
