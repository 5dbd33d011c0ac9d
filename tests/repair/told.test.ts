/** What `repair` prints: one person with the same code by two rules is told apart, and what is printed can be set. */
import { expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";

/** Eight hours to a hit, and three more before the next: over the 11 h of 49 CFR 395.3(a)(3)(i) and over the house's 10 h. */
const DAY = `daywright: 1
date: 2027-01-20
until: +1d
clock: America/Chicago
zone: America/Chicago
history:
  wren: { released: 2027-01-19T18:00-06:00, asleep: 8 h }
  bea: { released: 2027-01-19T18:00-06:00, asleep: 8 h }
crew:
  wren: { role: camera, drives: truck }
  bea: { role: producer, drives: truck }
vehicles:
  truck: { gross: 16000 lb, rules: us-property, week: 70/8, seats: 3 }
places: { lodge: {}, locks: {}, dock: {} }
roads:
  - { link: [lodge, locks], drive: 8 h, bad: 8 h }
  - { link: [locks, dock], drive: 4 h, bad: 4 h }
hits:
  one: { at: "16:00", for: 5 min, place: locks }
  two: { at: "23:30", for: 5 min, place: dock }
runs:
  truck: { driver: wren, aboard: [wren, bea], stops: [lodge, locks, dock] }
`;
const files = { "day.yaml": DAY };

it("names the rule where a person has the same code by another", async () => {
  const { out } = await ran(["repair", "day.yaml"], { files });
  expect(out).toContain("driving-too-long (wren: 11 h driving, wren: 10 h a day at the wheel)");
  const alone = await ran(["repair", "day.yaml"], {
    files: { "day.yaml": DAY.replace("until", "rules: { wheelDay: 13 h }\nuntil") },
  });
  expect(alone.out).toContain("driving-too-long (wren)");
});

it("looks for another driver where the window of 14 h is over, as where the driving is too long", async () => {
  const { out } = await ran(["repair", "day.yaml"], { files });
  expect(out).toContain("window-over (wren)");
  expect(out).not.toContain("No edit of the plan helps");
});

it("prints edits that --set takes, a new entry among them", async () => {
  // Two hits at the locks, at 07:00 and 13:30, half an hour away.
  const day = DAY.replace("drive: 8 h, bad: 8 h", "drive: 30 min, bad: 30 min")
    .replace('"16:00"', '"07:00"')
    .replace('two: { at: "23:30", for: 5 min, place: dock }', 'two: { at: "13:30", for: 5 min, place: locks }')
    .replace("lodge, locks, dock]", "lodge, locks]");
  const own = { files: { "day.yaml": day } };
  const { out } = await ran(["repair", "day.yaml", "--json", "--code", "meal-late"], own);
  const [best] = JSON.parse(out).data.repairs as readonly { edits: readonly { path: string; new: string | null }[] }[];
  const edits = (best?.edits ?? []).map((edit) => `${edit.path}=${edit.new ?? ""}`);
  expect(edits.some((edit) => edit.startsWith("tasks.meal={"))).toBe(true);
  const after = await ran(["check", "day.yaml", "--json", ...edits.flatMap((edit) => ["--set", edit])], own);
  const codes = (JSON.parse(after.out).findings as readonly { code: string }[]).map(({ code }) => code);
  expect(codes).not.toContain("meal-late");
});
