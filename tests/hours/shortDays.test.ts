/** Two days in a row with too little time off, SOR/2005-313 s. 14: each runs out at a minute of its own. */
import { expect, it } from "vitest";
import { answerTo, logText } from "./logs.ts";

it("driving stops where the second day would be left less than 10 h, in blocks of 30 min", async () => {
  const spans: { from: string; to: string; is: string }[] = [];
  let at = Date.parse("2027-01-18T00:00Z");
  const add = (is: string, minutes: number): void => {
    const to = at + minutes * 60_000;
    spans.push({ from: new Date(at).toISOString().slice(0, 16), to: new Date(to).toISOString().slice(0, 16), is });
    at = to;
  };
  // Monday: 8 h and 1 h 59 min off, a minute too little. Tuesday: off until 06:01, then until 15:00 no block of 30 min.
  for (const [is, minutes] of [
    ["off", 480],
    ["duty", 841],
    ["off", 119 + 361],
  ] as const) {
    add(is, minutes);
  }
  for (let n = 0; n < 4; n++) {
    add("duty", 100);
    add("off", 20);
  }
  add("duty", 59);
  const { person } = await answerTo(logText({ zone: "UTC", rules: "ca-south", spans }), null);
  expect(person.breaches.map(({ limit, from }) => [limit, from])).toEqual([
    ["ca-south.day-off", "2027-01-18T00:00+00:00"],
  ]);
  // 6 h 1 min free before, 3 h 59 min after: 10 h of Tuesday.
  expect(person.drivingMustStopAt).toBe("2027-01-19T20:01+00:00");
});
