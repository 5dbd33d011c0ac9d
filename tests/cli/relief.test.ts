/** `drives --relief --write` over a plan's text: proposed, written with its comments kept, lawful when read again. */
import { describe, expect, it } from "vitest";
import { ran } from "./fakeIo.ts";

const LONG = `# a long one
daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
history:
  tomas: { released: 2027-01-18T18:00-06:00, asleep: 9 h }
  bea: { released: 2027-01-18T18:00-06:00, asleep: 9 h }
crew:
  tomas: { role: engineer, drives: truck }
  bea: { role: producer, drives: truck }
vehicles:
  truck: { gross: 9000 lb, berth: true }
places:
  lodge: {}
  harbour: {}
roads:
  - { link: [lodge, harbour], drive: 16 h, bad: 18 h }
runs:
  truck: { driver: tomas, aboard: [tomas, bea], stops: [{ place: lodge, leave: "04:00" }, harbour] } # all night
`;

type Fields = Readonly<Record<string, unknown>>;
const isFields = (value: unknown): value is Fields => typeof value === "object" && value !== null;
const at = (value: unknown, ...keys: readonly (string | number)[]): unknown =>
  keys.reduce<unknown>((inner, key) => (isFields(inner) ? inner[key] : undefined), value);
const list = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);

const errors = (json: string): readonly unknown[] =>
  list(at(JSON.parse(json), "findings"))
    .filter((finding) => at(finding, "level") === "error")
    .map((finding) => at(finding, "code"));

describe("a 16-hour leg for two drivers", () => {
  it("breaks the house rules as planned, and not as proposed and written", async () => {
    const before = await ran(["hours", "day.yaml", "--json"], { files: { "day.yaml": LONG } });
    expect(errors(before.out).length).toBeGreaterThan(0);
    const asked = await ran(["drives", "day.yaml", "--relief", "--write", "--json"], { files: { "day.yaml": LONG } });
    const relief = at(JSON.parse(asked.out), "data", "relief");
    expect([at(relief, "status"), at(relief, "breachMinutes"), at(relief, "breaches")]).toEqual(["exact", 0, []]);
    const text = asked.files.get("/plans/day.yaml") ?? "";
    expect(text).not.toBe(LONG);
    expect(text.startsWith("# a long one\n")).toBe(true);
    expect(text).toContain("# all night");
    const after = await ran(["hours", "day.yaml", "--json"], { files: { "day.yaml": text } });
    expect(errors(after.out)).toEqual([]);
    const breaches = list(at(JSON.parse(after.out), "data", "people")).flatMap((person) =>
      list(at(person, "breaches")),
    );
    expect(breaches).toEqual([]);
  });

  it("tiles each leg with its drivers, and says it in words", async () => {
    const asked = await ran(["drives", "day.yaml", "--relief", "--json"], { files: { "day.yaml": LONG } });
    const wheel = list(at(JSON.parse(asked.out), "data", "relief", "legs", 0, "wheel"));
    expect(at(wheel[0], "from")).toBe("2027-01-20T04:00-06:00");
    expect(at(wheel.at(-1), "to")).toBe("2027-01-20T20:00-06:00");
    for (const [index, stretch] of wheel.slice(1).entries()) expect(at(stretch, "from")).toBe(at(wheel[index], "to"));
    const { out } = await ran(["drives", "day.yaml", "--relief"], { files: { "day.yaml": LONG } });
    expect(out).toContain("Relief: who drives");
    expect(out).toContain("Lawful; no better assignment exists:");
  });

  it("writes a bare place as a stop with fields", async () => {
    const bare = LONG.replace(
      '{ place: lodge, leave: "04:00" }, harbour]',
      'lodge, { place: harbour, arriveBy: "22:00" }]',
    );
    const asked = await ran(["drives", "day.yaml", "--relief", "--write"], { files: { "day.yaml": bare } });
    expect(asked.files.get("/plans/day.yaml")).toMatch(
      /stops: \[\{ place: lodge, driver: \w+, relieve: \[\{ after: \d+ min, driver: \w+ \}/u,
    );
  });
});

it("--write alone, and from standard input, is wrong usage", async () => {
  expect((await ran(["drives", "day.yaml", "--write"], { files: { "day.yaml": LONG } })).code).toBe(2);
  expect((await ran(["drives", "-", "--relief", "--write"], { stdin: LONG })).code).toBe(2);
});
