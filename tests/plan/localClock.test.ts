/** `local` with no place beside it: the clock of all places where they share one, a question where they do not. */
import { expect, test } from "vitest";
import { readOnePlan } from "../../src/plan/index.ts";

const plan = (quay: string): string => `daywright: 1
date: 2027-01-20
clock: Europe/London
zone: America/Chicago
crew:
  wren: { drives: wagon }
history:
  wren: { released: "19:00 local -1d" }
vehicles:
  wagon: {}
places:
  lodge: {}
  quay: ${quay}
hits: {}
runs: {}
actual:
  wren: { released: "20:30 local" }
`;

// Chicago is UTC-6 in January: 19:00 there is 01:00 of the next day in UTC, 20:30 is 02:30.
test("all places on one clock", async () => {
  const { plan: read, findings } = await readOnePlan(plan("{}"), { file: null });
  expect(findings.map(({ code }) => code)).toEqual([]);
  expect(read?.history.get("wren")?.released).toBe(Date.UTC(2027, 0, 20, 1, 0) / 60_000);
});

test("two clocks: which one is meant is asked", async () => {
  const { findings } = await readOnePlan(plan("{ zone: America/New_York }"), { file: null });
  expect(findings.map(({ code }) => code)).toEqual(["local-nowhere", "local-nowhere"]);
});
