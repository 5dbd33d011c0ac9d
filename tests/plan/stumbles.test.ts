/** What a stranger's evenings stumbled over: ids alike but for capitals, Greenwich time in summer. */
import { describe, expect, it } from "vitest";
import { readOnePlan } from "../../src/plan/index.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";

interface Change {
  readonly from: string;
  readonly to: string;
}

const PLAN = `daywright: 1
date: 2027-06-20
clock: America/New_York
crew:
  wren: { role: camera, drives: wagon }
vehicles:
  wagon: {}
places:
  lodge: { at: [46.60, -90.88] }
  pier: { at: [46.81, -90.82] }
hits:
  dawn: { at: "07:00", for: 3 min, place: pier }
runs:
  wagon: [lodge, pier, lodge]
zone: America/Chicago
`;

/** Code, line, sentence and hint of all findings of the plan with one text replaced. */
async function told({ from, to }: Change): Promise<readonly string[]> {
  expect(PLAN).toContain(from);
  const { findings } = await readOnePlan(PLAN.replace(from, to), { file: "day.yaml" });
  return findings.map(
    (one) => `${one.code} ${one.span?.line}: ${one.sentence(plainWording)} | ${one.hint(plainWording) ?? ""}`,
  );
}

describe("ids that differ in upper and lower case alone", () => {
  it("are said, with both lines, and the plan is read", async () => {
    const { plan, findings } = await readOnePlan(PLAN.replace("vehicles:", "  Wren: { role: lead }\nvehicles:"), {
      file: "day.yaml",
    });
    expect(plan?.crew.size).toBe(2);
    expect(findings.map(({ code, level, span, related }) => [code, level, span?.line, related[0]?.span?.line])).toEqual(
      [["id-alike", "warning", 6, 5]],
    );
  });

  it.each([
    ["vehicle", "wagon: {}", "wagon: {}\n  Wagon: {}", "vehicle", "vehicle"],
    ["place", "hits:", "  PIER: { at: [46.81, -90.82] }\nhits:", "place", "place"],
    ["hit and place", "runs:", '  Pier: { at: "08:00", for: 3 min, place: pier }\nruns:', "hit", "place"],
    ["task and person", "runs:", "tasks:\n  WREN: { place: pier, for: 10 min }\nruns:", "task", "person"],
    ["packs", "runs:", packs("brick", "Brick"), "pack", "pack"],
    ["chargers", "runs:", chargers("bench", "Bench"), "charger", "charger"],
    ["pieces", "runs:", "kit:\n  mic: { in: wagon }\n  MIC: { in: wagon }\nruns:", "piece of kit", "piece of kit"],
    ["lines", "runs:", "lines:\n  ear: { number: 555 0101 }\n  Ear: { number: 555 0102 }\nruns:", "line", "line"],
    // Ä and ä are one letter in two cases as well.
    ["other letters", "hits:", "  äsch: {}\n  Äsch: {}\nhits:", "place", "place"],
  ])("of every kind: %s", async (_, from, to, kind, otherKind) => {
    const found = (await told({ from, to })).filter((one) => one.startsWith("id-alike"));
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(`(a ${kind}) and`);
    expect(found[0]).toContain(`(a ${otherKind}) differ`);
  });

  it("three of them are two findings, and twice the same id is an error alone", async () => {
    const many = { from: "wagon: {}", to: "wagon: {}\n  Wagon: {}\n  WAGON: {}" };
    expect((await told(many)).map((one) => one.slice(0, 12))).toEqual(["id-alike 8: ", "id-alike 9: "]);
    const twice = { from: "runs:", to: '  pier: { at: "08:00", for: 3 min, place: pier }\nruns:' };
    expect((await told(twice)).filter((one) => !one.startsWith("id-twice"))).toEqual([]);
  });
});

function packs(one: string, other: string): string {
  const pack = "{ wh: 98, mount: wedge, in: wagon }";
  return `packs:\n  ${one}: ${pack}\n  ${other}: ${pack}\nruns:`;
}

function chargers(one: string, other: string): string {
  const charger = "{ mount: wedge, slots: 1, watts: 60, in: wagon }";
  return `chargers:\n  ${one}: ${charger}\n  ${other}: ${charger}\nruns:`;
}

describe("Greenwich time", () => {
  const on = (date: string, zone: string): Change => ({
    from: "date: 2027-06-20\nclock: America/New_York",
    to: `date: ${date}\nclock: ${zone}`,
  });
  const codes = async (change: Change): Promise<readonly string[]> =>
    (await told(change)).map((one) => one.slice(0, 22));

  // British summer time runs from the last Sunday of March to that of October (Summer Time Act 1972, as amended 2002):
  // 28 March and 31 October in 2027; at noon of those Sundays the clocks have changed already.
  it.each([
    ["2027-01-20", []],
    ["2027-03-27", []],
    ["2027-03-28", ["zone-without-summer 3:"]],
    ["2027-06-20", ["zone-without-summer 3:"]],
    ["2027-10-30", ["zone-without-summer 3:"]],
    ["2027-10-31", []],
  ])("on %s", async (date, expected) => expect(await codes(on(date, "GMT"))).toEqual(expected));

  it("as the zone of the places, and of one place; UTC and London say what they mean", async () => {
    expect(await codes({ from: "America/Chicago", to: "GMT" })).toContain("zone-without-summer 15");
    expect(await codes({ from: "at: [46.81, -90.82]", to: "at: [46.81, -90.82], zone: Etc/GMT" })).toContain(
      "zone-without-summer 10",
    );
    for (const zone of ["UTC", "Europe/London"]) expect(await codes(on("2027-06-20", zone))).toEqual([]);
  });
});

it("a file for a server's answers may have a number for its name", async () => {
  const routing = "routing: { url: http://localhost:5000, keep: 5 }\ncrew:";
  expect(await told({ from: "crew:", to: routing })).toEqual([]);
});

describe("a hit logged on another day than it was planned for", () => {
  const LATE = 'late: { at: "00:40 +1d", for: 3 min, place: pier }';
  const logged = (words: string): Change => ({ from: "zone:", to: `actual:\n  ${words}\nzone:` });
  const late = async (words: string): Promise<readonly string[]> => {
    const text = PLAN.replace("runs:", `  ${LATE}\nruns:`);
    const { findings } = await readOnePlan(text.replace("zone:", `actual:\n  late: { at: ${words} }\nzone:`), {
      file: "day.yaml",
    });
    return findings.map((one) => `${one.sentence(plainWording)} | ${one.hint(plainWording) ?? ""}`);
  };

  it.each([
    ['"00:44"', "`00:44` is a day before `late` was planned | 00:44 +1d"],
    ['"00:44 +2d"', "`00:44 +2d` is a day after `late` was planned | 00:44 +1d"],
    ['"2027-06-20T00:44-04:00"', "`2027-06-20T00:44-04:00` is a day before `late` was planned | correct the day"],
  ])("%s", async (words, expected) => expect(await late(words)).toEqual([expected]));

  // Six hours either side of a whole day are a slip of the day; a hit that went out six hours late is late.
  it.each(['"00:44 +1d"', '"06:39 +1d"', '"18:41"'])("is none: %s", async (words) =>
    expect(await late(words)).toEqual([]),
  );

  it("before midnight the other way round", async () => {
    expect(await told(logged('dawn: { at: "07:02 +1d" }'))).toEqual([
      "logged-day-off 16: `07:02 +1d` is a day after `dawn` was planned | 07:02",
    ]);
  });
});

describe("a log where no drive is", () => {
  const logged = (words: string): Change => ({ from: "zone:", to: `actual: { ${words} }\nzone:` });

  it.each([
    ["wagon.1: { arrived: 06:00 }", ["no-such-leg"]],
    ["wagon.3: { left: 08:40, driver: wren }", ["no-such-leg", "no-such-leg"]],
    ["wagon.1: { left: 06:00 }, wagon.2: { arrived: 06:50, left: 08:00 }, wagon.3: { arrived: 08:40 }", []],
  ])("%s", async (words, expected) =>
    expect((await told(logged(words))).map((one) => one.split(" ")[0])).toEqual(expected),
  );
});
