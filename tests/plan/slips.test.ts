/**
 * Slips of a tired hand in a large plan. Each is told once, at its own spot, with the repair that its author would make;
 * the repairs are written by hand from what the words mean.
 */
import { describe, expect, test } from "vitest";
import { readOnePlan } from "../../src/plan/index.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import { findingView, slipped, WHOLE } from "./slipped.ts";

test("the plan itself has none", async () => {
  expect(await findingView(WHOLE)).toEqual([]);
});

describe("a comma between braces", () => {
  test.each([
    ["gross: 16000 lb", "gross: 9,800 lb", "9,800 lb", "`9800 lb`"],
    ["odometer: 48210", "odometer: 1,048,210", "1,048,210", "`1048210`"],
    ["drive: 35 min", "drive: 1,5 h", "1,5 h", "`1.5 h`"],
    ["at: [46.5, -90.1]", "at: 46.5, -90.1", "46.5, -90.1", "`[46.5, -90.1]`"],
    ["at: [46.5, -90.1]", "at: (46.5, -90.1)", "(46.5, -90.1)", "`[46.5, -90.1]`"],
    ["do: [dawn, block]", "do: dawn, block", "dawn, block", "`[dawn, block]`"],
    ["what: the ice", "what: the ice, then the cutter", "the ice, then the cutter", '`"the ice, then the cutter"`'],
    ["role: engineer", "role: engineer, lead", "engineer, lead", "`[engineer, lead]`"],
  ])("%s as %s", async (right, wrong, marked, hint) => {
    expect(await findingView(slipped(right, wrong))).toEqual([`comma-in-value: ${marked}: ${hint}`]);
  });

  test("does not hide a mistyped key", async () => {
    expect(await findingView(slipped("firm: false", "frim"))).toEqual(["key-unknown: frim: `firm`"]);
  });
});

describe("a value of the wrong kind", () => {
  test.each([
    ["at: [46.5, -90.1]", 'at: "46.5, -90.1"', '"46.5, -90.1": `[46.5, -90.1]`'],
    ["at: [46.5, -90.1]", "at: 46.5 -90.1", "46.5 -90.1: `[46.5, -90.1]`"],
    ["at: [46.5, -90.1]", "at: 46.5\u00b0N 90.1\u00b0W", "46.5\u00b0N 90.1\u00b0W: `[46.5, -90.1]`"],
    ["mains: true, checkIn", "mains: yes, checkIn", "yes: `true`"],
    ["mains: true, checkIn", "mains: on, checkIn", "on: `true`"],
    ["mains: true, checkIn", "mains: treu, checkIn", "treu: `true`"],
    ["berth: false", "berth: no", "no: `false`"],
    ["berth: false", 'berth: "false"', '"false": `false`'],
    ["firm: false", "firm: 0", "0: `false`"],
    [
      "window: [07:30 local, 11:00 local]",
      "window: 07:30 local - 11:00 local",
      '07:30 local - 11:00 local: `["07:30 local", "11:00 local"]`',
    ],
    ["windows: [[05:15, 09:15]]", "windows: 05:15\u201309:15", '05:15\u201309:15: `[["05:15", "09:15"]]`'],
    ["open: [05:30, 22:00]", "open: 05:30 to 22:00", '05:30 to 22:00: `["05:30", "22:00"]`'],
    ["link: [lodge, pier]", 'link: "lodge, pier"', '"lodge, pier": `[lodge, pier]`'],
  ])("%s as %s", async (right, wrong, told) => {
    expect(await findingView(slipped(right, wrong))).toEqual([`value-kind: ${told}`]);
  });
});

describe("an id", () => {
  const CREW = "wren, ilse, tomas, bea, camera, lead, reporter, engineer, producer, all, aboard";
  test.each([
    ["who: [ilse, camera]", "who: [ilse, camrea]", "camrea: `camera`"],
    ["who: aboard", "who: abord", "abord: `aboard`"],
    ["aboard: all", "aboard: alll", "alll: `all`"],
    // One letter off `all`, two off `ilse`: everyone is not offered for someone.
    ["aboard: all", "aboard: ill", `ill: one of: ${CREW}`],
    ["drives: [truck, wagon]", "drives: [truk, wagon]", "truk: `truck`"],
    ["who: aboard", "who: ils", "ils: `ilse`"],
    ["who: aboard", "who: xyz", `xyz: one of: ${CREW}`],
    ["drives: none", "drives: non", "non: `none`"],
    ["during: hits", "during: hit", "hit: `hits`"],
    ["driver: tomas, aboard", "driver: al, aboard", "al: one of: wren, ilse, tomas, bea"],
    ["stops: [lodge, {", "stops: [lodeg, {", "lodeg: `lodge`"],
    ["place: aboard wagon", "place: aboard wagn", "aboard wagn: `wagon`"],
  ])("%s as %s", async (right, wrong, told) => {
    expect(await findingView(slipped(right, wrong))).toEqual([`id-unknown: ${told}`]);
  });

  test("that cannot be one is told once and never offered", async () => {
    const renamed = (id: string): string => WHOLE.replaceAll(/\bbea\b/g, id);
    for (const id of ["all", "no", "yes", "on", "true"])
      expect(await findingView(renamed(id))).toContain(`id-reserved: ${id}: choose another id`);
    expect(await findingView(renamed("be\u2013a"))).toEqual(["id-bad: be\u2013a: `be-a`, and the full name in `name`"]);
    expect(await findingView(slipped("  bea:", "  be\u2013a:").replaceAll(/\bbea\b/g, "be-a"))).toEqual([
      "id-bad: be\u2013a: `be-a`, and the full name in `name`",
    ]);
    const offered = await findingView(renamed("all").replace("driver: tomas, aboard", "driver: al, aboard"));
    expect(offered).toContain("id-unknown: al: one of: wren, ilse, tomas");
  });
});

describe("a mistyped section", () => {
  test.each([
    ["vehicles:", "vehicels"],
    ["crew:", "crwe"],
    ["places:", "palces"],
    ["hits:", "htis"],
    ["packs:", "pakcs"],
    ["labels:", "lables"],
    ["date:", "daet"],
    ["clock:", "clokc"],
  ])("%s as %s is the only thing told", async (right, wrong) => {
    expect(await findingView(slipped(`\n${right}`, `\n${wrong}:`))).toEqual([
      `key-unknown: ${wrong}: \`${right.slice(0, -1)}\``,
    ]);
  });

  test("does not hide what is wrong inside it", async () => {
    const text = slipped("\nvehicles:", "\nvehicels:").replace("range: 300 mi", "range: 28 miles");
    expect(await findingView(text)).toEqual(["key-unknown: vehicels: `vehicles`", "unit-wrong: 28 miles: `28 mi`"]);
  });

  test("in a file that the day uses is told there, alone", async () => {
    const { head, vehicles } = {
      head: WHOLE.slice(0, WHOLE.indexOf("vehicles:")),
      vehicles: WHOLE.slice(WHOLE.indexOf("vehicles:")),
    };
    const shared = `${vehicles.replace("vehicles:", "vehicels:")}`;
    const { findings } = await readOnePlan(`uses: shared.yaml\n${head}vehicles:\n  wagon: { seats: 4 }\n`, {
      file: "day.yaml",
      files: { read: () => ({ kind: "text", text: shared }) },
    });
    expect(findings.map(({ code, span }) => `${span?.file}:${span?.line} ${code}`)).toEqual([
      "shared.yaml:1 key-unknown",
    ]);
  });
});

describe("a section that is missing", () => {
  const without = (from: string, to: string): string =>
    WHOLE.slice(0, WHOLE.indexOf(`\n${from}:`)) + WHOLE.slice(WHOLE.indexOf(`\n${to}:`));

  test("is told with the first id that it should declare", async () => {
    const told = await findingView(without("vehicles", "places"));
    expect(told.filter((line) => line.includes("vehicles"))).toEqual([
      // drives: wagon; [truck, wagon]; aboard wagon; the two runs; wagon and truck in moves; and so on below.
      expect.stringMatching(/^id-unknown: wagon: declare it under `vehicles`; \d+ more errors follow from this one$/),
    ]);
  });

  test("or an entry, named often, is told once", async () => {
    // tomas drives the truck, rides in it, relieves in the wagon, drove from wagon.1 on; his history is his own.
    const text = slipped("\n  tomas: { role", "\n  thomas: { role").replace(/\n {2}tomas:\n(?: {4}.*\n)+/, "\n");
    expect(await findingView(text)).toEqual(["id-unknown: tomas: `thomas`; 3 more like it"]);
  });

  test("makes no mistake of `local`", async () => {
    const told = await findingView(without("places", "roads"));
    expect(told.filter((line) => line.startsWith("local-nowhere"))).toEqual([]);
    expect(told.filter((line) => line.includes("under `places`"))).toHaveLength(1);
  });
});

describe("a sign that only looks right", () => {
  test.each([
    ["at: 01:30 +1d", "at: \u201c01:30 +1d\u201d", "\u201c01:30 +1d\u201d: type a straight quote"],
    ["cloud: thin", "cloud: \u2018thin\u2019", "\u2018thin\u2019: type a straight quote"],
    ["what: the ice", "what: \u201cthe ice: blue\u201d", "\u201c: type a straight quote"],
    ["seats: 5", "seats:\u00a05", "seats:\u00a05: type a plain space"],
    ["\n  noon: {", "\n\u00a0\u00a0noon: {", "\u00a0: type a plain space"],
    ["\n  - { temp: 10 F", "\n  -\u00a0{ temp: 10 F", "\u00a0: type a plain space"],
    ["\n  - { temp: 10 F", "\n  \u2013 { temp: 10 F", "\u2013: type the hyphen of a list"],
    ["seats: 5", "seats\uff1a 5", "seats\uff1a 5: type a colon and a space"],
    ["\nrevision: 3", "\nrevision\uff1a 3", "\uff1a: type a colon and a space"],
  ])("%s as %s", async (right, wrong, told) => {
    expect(await findingView(slipped(right, wrong))).toEqual([`yaml-odd-sign: ${told}`]);
  });

  // A tab behind a colon is white space to YAML (1.2, section 6.1); a byte order mark and CRLF are line noise to it (5.2, 5.4).
  test.each([
    ["a tab behind a colon", WHOLE.replace("seats: 5", "seats:\t5")],
    ["a byte order mark", `\ufeff${WHOLE}`],
    ["CRLF", WHOLE.replaceAll("\n", "\r\n")],
    ["a no-break space in a list", WHOLE.replace("[ilse, camera]", "[ilse,\u00a0camera]")],
    ["curly quotes inside text", WHOLE.replace("what: the ice", "what: the \u201cice\u201d")],
  ])("%s is read right", async (_, text) => {
    expect(await findingView(text)).toEqual([]);
  });

  test("and one that nobody sees is shown", async () => {
    const { findings } = await readOnePlan(slipped("kind: standby", "kind: stand\u200bby"), { file: "day.yaml" });
    expect(findings.map((one) => one.sentence(plainWording))).toEqual([
      "the invisible character U+200B is not allowed in a plan",
    ]);
  });
});

describe("YAML", () => {
  test.each([
    ["\nrevision: 3", "\nrevision 3", "yaml-no-colon: revision: revision: 3"],
    ["\nrevision: 3", "\nrevision = 3", "yaml-no-colon: revision: revision: 3"],
    ["\ncrew:", "\ncrew", "yaml-no-colon: crew: crew:"],
    ["place: pier, who: [ilse", "place: pier who: [ilse", "yaml-comma-missing: pier who: pier, who:"],
    ["seats: 5, range", "seats: 5,, range", "yaml-comma-alone: ,: remove it"],
    ["\n  home: {}", "\n  home: {},", "yaml-comma-alone: ,: remove it"],
    ["\nzone:", "\n zone:", "yaml-indent: zone: America/Chicago: begin it in the same column as its neighbours"],
  ])("%s as %s", async (right, wrong, told) => {
    expect(await findingView(slipped(right, wrong))).toEqual([told]);
  });
});

describe("a word of one's own", () => {
  test.each([
    ["role: reporter", "role: repoter", "repoter: `reporter`"],
    ["role: [camera, lead]", "role: [camrea, lead]", "[camrea, lead]: `camera`"],
    ["role: reporter", "role: correspondent", "correspondent: `reporter`"],
    ["kind: lodging, mains: true, checkIn", "kind: hotel, mains: true, checkIn", "hotel: `lodging`"],
    ["by: air", "by: flight", "flight: `air`"],
    ["hazards: [ice, water]", "hazards: [iec 20 cm, water]", "[iec 20 cm, water]: `ice`"],
    ["crosses: road", "crosses: the raod", "the raod: `road`"],
  ])("%s as %s is told, and no error", async (right, wrong, told) => {
    const findings = await findingView(slipped(right, wrong).replace("who: [ilse, camera]", "who: [ilse]"));
    expect(findings).toEqual([`word-near: ${told}, if that is meant`]);
  });

  test.each([
    ["role: reporter", "role: runner"],
    ["role: reporter", "role: on-air reporter"],
    ["kind: lodging, mains: true, checkIn", "kind: harbour, mains: true, checkIn"],
    ["by: air", "by: bus"],
    ["hazards: [ice, water]", "hazards: [white ice 20 cm, snow, road]"],
    ["crosses: road", "crosses: the main road"],
  ])("%s as %s is left alone", async (right, wrong) => {
    expect(await findingView(slipped(right, wrong))).toEqual([]);
  });
});

describe("a flight", () => {
  // A practice of travel, no source: an airline closes its desk before it leaves, a bus does not.
  test.each([
    [/, lead: 90 min/u, "", 1],
    [/, lead: 90 min(.*), by: air/u, "$1, by: bus", 0],
    [/, lead: 90 min/u, ", lead: 0 min", 0],
    [/, lead: 90 min/u, ", lead: 1 min", 0],
  ] as const)("with %s as `%s` is asked how long before it one must be there: %i", async (right, wrong, times) => {
    expect(WHOLE).toMatch(right);
    const { findings } = await readOnePlan(WHOLE.replace(right, wrong), { file: "day.yaml" });
    expect(findings.filter(({ code }) => code === "lead-unstated").map(({ level }) => level)).toEqual(
      times === 0 ? [] : ["note"],
    );
  });
});

describe("other slips", () => {
  test.each([
    // A series with a mistyped key would else be a map of hits called so, and none of them on air.
    ["from: 05:30 CT, every", "form: 05:30 CT, every", "key-unknown: form: `from`"],
    ["times: 5 }", "tmies: 5 }", "key-unknown: tmies: `times`"],
    ["from: 05:30 CT, every: 30 min, times: 5", "from: 05:30 CT, every: 30 min", /key-missing: .*: add `times`/],
    ["late: { at: 01:30 +1d", "late: { at: 3:30p", 'time-bad: 3:30p: "15:30"'],
    ["who: [ilse, camera]", "who: ilse and camera", "id-unknown: ilse and camera: `[ilse, camera]`"],
    ["do: [dawn, block]", "do: dawn block", "id-unknown: dawn block: `[dawn, block]`"],
    ["taper: 80%", "taper: 0.8", "unit-missing: 0.8: 80%"],
    ["reels: [50 m, 100 m]", "reels: 50 m, 100 m", "comma-in-value: 50 m, 100 m: `[50 m, 100 m]`"],
    ["link: [lodge, pier]", "link: lodge - pier", "value-kind: lodge - pier: `[lodge, pier]`"],
    ["brick.2: { health", "brick2: { health", "id-unknown: brick2: `brick.2`"],
    ["brick.1: 35%", "brick1: 35%", "id-unknown: brick1: `brick.1`"],
    ["seats: 3", "seats: 3 seats", "value-bad: 3 seats: 3"],
    ["count: 5", "count: five", "value-bad: five: 5"],
    ["facing: 330", "facing: NW", "value-bad: NW: 315"],
    ["place: pier, do", "place: pier do", "yaml-comma-missing: pier do: pier, do:"],
    ["why: agreed", "reason: agreed", "key-unknown: reason: `why`"],
    ["berth: false", "berth: none", "value-kind: none: `false`"],
    ["checkIn: 15:00", "check-in: 15:00", "key-unknown: check-in: `checkIn`"],
  ])("%s as %s", async (right, wrong, told) => {
    const expected = typeof told === "string" ? told : expect.stringMatching(told);
    expect(await findingView(slipped(right, wrong))).toEqual([expected]);
  });
});
