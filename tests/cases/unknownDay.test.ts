/**
 * Neighbours of unknown-day: what the file behind a missing day may state of that day, in spans, as a total or as a release.
 * 13 March ends 19:25 (off 09:00, 1 h, 5 to park, 8 h of work, 1 h, 10 to unload, 10 of post-trip); 15 March is called 06:30. The
 * clocks go forward on the 14th. In eight days to the 15th: 49 h of history, 10 h 55 of the 13th, 5 h 55 of the 15th.
 */
import { expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";
import { fixture, hoursOf } from "./hoursJson.ts";

const CHAIN = fixture("chain");
const [H1 = "", H3 = ""] = [CHAIN["unknown-day/h1.yaml"], CHAIN["unknown-day/h3.yaml"]];

const DAY = ["2027-03-14T00:00-06:00", "2027-03-15T00:00-05:00"] as const;
const span = (from: string, to: string, is: string): string => `{ from: ${from}, to: ${to}, is: ${is} }`;
const [TEN, NOON] = ["2027-03-14T10:00-05:00", "2027-03-14T12:00-05:00"];
const OFF_ALL_DAY = `spans: [${span(...DAY, "off")}]`;
const TWO_HOURS = `spans: [${span(DAY[0], TEN, "off")}, ${span(TEN, NOON, "duty")}, ${span(NOON, DAY[1], "off")}]`;
const TOTAL = "totals: { 2027-03-14: { duty: 2 h, driving: 0 h } }";
const WEEK = 49 * 60 + 655 + 355;
const RESTARTED = 355;

const known = (history: string) =>
  hoursOf("h3.yaml", { "h1.yaml": H1, "h3.yaml": `${H3}history: { tomas: { ${history} } }\n` });

it.each([
  // 19:25 to 06:30 two days on, less the hour that the clocks skip: 34 h 05, a restart (49 CFR 395.3(c)).
  ["off all day", OFF_ALL_DAY, 34 * 60 + 5, false, RESTARTED, 0],
  [
    "off in two spans",
    `spans: [${span(DAY[0], NOON, "off")}, ${span(NOON, DAY[1], "berth")}]`,
    2045,
    false,
    RESTARTED,
    0,
  ],
  // 12:00 to 06:30.
  ["two hours of work", TWO_HOURS, 18 * 60 + 30, false, WEEK + 120, 0],
  ["the same two hours as a total as well", `${TOTAL}, ${TWO_HOURS}`, 18 * 60 + 30, false, WEEK + 120, 0],
  // Of the day no more is known than that work ended at 18:00: 12 h 30 are left, and the figures are a least.
  ["a release", "released: 2027-03-14T18:00-05:00", 12 * 60 + 30, true, WEEK, 1],
  ["half a day off", `spans: [${span(DAY[0], NOON, "off")}]`, 390, true, WEEK, 1],
] as const)("%s", async (_, history, rest, atLeast, week, missing) => {
  const one = await known(history);
  expect(one.person("tomas")).toMatchObject({ restBeforeMinutes: rest, restAtLeast: atLeast });
  expect(one.limit("tomas", "us-property.rest").usedMinutes).toBe(rest);
  expect(one.limit("tomas", "us-property.week").usedMinutes).toBe(week);
  expect(one.said("days-missing")).toHaveLength(missing);
  expect(one.said("rest-not-stated")).toHaveLength(rest < 600 ? 1 : 0);
});

it.each([
  // The same two ends as in `hours`: what lies between the two midnights is not off.
  [
    "nothing",
    "",
    [
      ["2027-03-13T19:25-06:00", DAY[0], "off"],
      [...DAY, "unknown"],
      [DAY[1], "2027-03-15T06:30-05:00", "off"],
    ],
  ],
  ["all of it", OFF_ALL_DAY, [["2027-03-13T19:25-06:00", "2027-03-15T06:30-05:00", "off"]]],
  [
    "its first half",
    `spans: [${span(DAY[0], NOON, "off")}]`,
    [
      ["2027-03-13T19:25-06:00", NOON, "off"],
      [NOON, DAY[1], "unknown"],
      [DAY[1], "2027-03-15T06:30-05:00", "off"],
    ],
  ],
] as const)("calls says off only of what is known to be off: %s", async (_, history, off) => {
  const more = history === "" ? "" : `history: { tomas: { ${history} } }\n`;
  const { out } = await ran(["calls", "h3.yaml", "--json"], { files: { "h1.yaml": H1, "h3.yaml": `${H3}${more}` } });
  const spans: readonly Record<string, unknown>[] = JSON.parse(out).data.people[0].spans;
  const before = spans.slice(
    0,
    spans.findIndex(({ is }) => is === "duty"),
  );
  expect(before.map(({ from, to, is }) => [from, to, is])).toEqual(off);
});
