/** A file of rows has its headers even where a day has nothing to put below them, so that a script reads it all the same. */
import { expect, it } from "vitest";
import { ran } from "./fakeIo.ts";

/** Somebody at a motel, and nothing to do. */
const QUIET = `daywright: 1
date: 2027-03-03
clock: America/New_York
crew: { kaia: { role: reporter } }
vehicles: {}
places: { motel: { at: [38.56, -92.19], kind: lodging, zone: America/Chicago } }
hits: {}
runs: {}
`;

const COMMANDS =
  "calls hours power drives light signal kit bookings check changes compare repair endurance sheet now asrun handover timecard";

it.each(COMMANDS.split(" "))("%s", async (command) => {
  const { code, out } = await ran([command, "day.yaml", "--format", "csv"], { files: { "day.yaml": QUIET } });
  expect(code).toBe(0);
  const [head = ""] = out.split("\r\n");
  expect(head).toMatch(/^[a-zA-Z]+(?:,[a-zA-Z]+)+$/);
});
