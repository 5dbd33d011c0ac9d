/** A night's hit without its `+1d`: it is on the evening before, and the stops cannot be in that order. */
import { expect, test } from "vitest";
import { ran } from "../cli/fakeIo.ts";

const plan = (after: string): string => `daywright: 1
date: 2027-01-20
clock: Europe/London
zone: Europe/London
crew:
  ann: { role: camera, drives: car }
vehicles:
  car: {}
places:
  flat: { at: [54.60, -2.80] }
  beck: { at: [54.66, -2.60] }
  fell: { at: [54.70, -2.55] }
hits:
  evening: { at: "20:00", for: 3 min, place: beck }
  late: { at: "23:30", for: 3 min, place: fell }
  after: { at: "${after}", for: 3 min, place: fell }
runs:
  car: [flat, beck, { place: fell, do: [late, after] }, flat]
`;

const checked = async (after: string): Promise<readonly { readonly code: string; readonly hint: string | null }[]> => {
  const { out } = await ran(["check", "day.yaml", "--json"], { files: { "day.yaml": plan(after) } });
  return JSON.parse(out).findings.filter((one: { readonly level: string }) => one.level === "error");
};

// 00:40 lies 23 h 20 min before 23:30, and 1 h 10 min behind it a day later.
test("is offered as the day after", async () => {
  expect((await checked("00:40")).map(({ code, hint }) => [code, hint])).toEqual([
    ["order-loop", "`+1d` behind the time of after, if it is past midnight"],
  ]);
  expect(await checked("00:40 +1d")).toEqual([]);
});

// 15:00 is no time of that night: the stops are in the wrong order.
test("is not offered for an afternoon", async () => {
  const [first] = await checked("15:00");
  expect([first?.code, first?.hint?.includes("+1d")]).toEqual(["order-loop", false]);
});
