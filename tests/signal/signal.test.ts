/** The signal of a day: each finding and the same a minute, a metre or a degree better. */
import { describe, expect, it } from "vitest";
import { feedRows } from "../../src/reports/signal/index.ts";
import { assess } from "../../src/signal/index.ts";
import { dayFrom, inputOf, plan, sentences } from "../sky/days.ts";

const judge = async (...lines: readonly string[]) => {
  const day = await dayFrom(plan(...lines));
  return { day, ...(await assess(inputOf(day))) };
};
const found = async (...lines: readonly string[]) => (await judge(...lines)).findings;
const codes = async (...lines: readonly string[]): Promise<readonly string[]> =>
  (await found(...lines)).map((finding) => finding.code);

const dish = (more: string) =>
  `paths: { dish: { kind: satellite, vehicle: wagon, slot: 101 west${more} }, cell: { kind: cellular } }`;
const dawn = (more: string) =>
  `hits: { dawn: { at: "07:00", for: 3 min, place: pier, path: dish, spare: cell${more} } }`;

/**
 * Of a dish of 1.2 m at 11.95 GHz half the beam is 35 × 0.02509 / 1.2 = 0.73 degrees, and 0.73 / cos 35.3 = 0.90 of the
 * compass. At the pier 101 west stands at 193.8 degrees, 35.3 high (tests/world/signal.test.ts holds look angles on an orbit package).
 */
describe("look angles in a day", () => {
  const at = (blocked: string) =>
    `places: { lodge: { at: [46.60, -90.88] }, pier: { at: [46.81, -90.82], signal: good, blocked: [${blocked}] } }`;

  it("skyline-blocks: what reaches higher than the satellite in its direction", async () => {
    expect(await codes(dish(""), dawn(""), at("{ from: 150, to: 200, below: 36 }"))).toContain("skyline-blocks");
    expect(await codes(dish(""), dawn(""), at("{ from: 150, to: 200, below: 35 }"))).toContain("skyline-blocks");
    expect(await codes(dish(""), dawn(""), at("{ from: 150, to: 200, below: 34.5 }"))).not.toContain("skyline-blocks");
    // 3.7 m at the same frequency: 0.24 degrees.
    expect(await codes(dish(", size: 3.7 m"), dawn(""), at("{ from: 150, to: 200, below: 35 }"))).not.toContain(
      "skyline-blocks",
    );
    expect(await codes(dish(""), dawn(""), at("{ from: 194, to: 200, below: 36 }"))).toContain("skyline-blocks");
    expect(await codes(dish(""), dawn(""), at("{ from: 194.8, to: 200, below: 36 }"))).not.toContain("skyline-blocks");
    expect(await codes(dish(""), dawn(""), at("{ from: 193, to: 200, below: 36 }"))).toContain("skyline-blocks");
    expect(await codes(dish(""), dawn(""), at("{ from: 300, to: 200, below: 36 }"))).toContain("skyline-blocks");
    expect(await codes(dish(""), dawn(""), at("{ from: 200, to: 190, below: 36 }"))).not.toContain("skyline-blocks");
  });

  it("is a warning for a spare, and the hit's own path stays ok", async () => {
    const { findings, result } = await judge(
      dish(""),
      'hits: { dawn: { at: "07:00", for: 3 min, place: pier, path: cell, spare: dish } }',
      at("{ from: 150, to: 200, below: 36 }"),
    );
    expect(findings.find((finding) => finding.code === "skyline-blocks")?.level).toBe("warning");
    expect(result.hits[0]).toMatchObject({ ok: true, spareOk: false });
  });

  it("slot-too-low: lower than the path allows, and exactly a degree less asked", async () => {
    expect(await codes(dish(", above: 36"), dawn(""))).toContain("slot-too-low");
    expect(await codes(dish(", above: 35"), dawn(""))).not.toContain("slot-too-low");
  });

  it("slot-below-horizon: a slot on the other side of the world, and at the pole", async () => {
    const far = "paths: { dish: { kind: satellite, vehicle: wagon, slot: 60 east }, cell: { kind: cellular } }";
    expect(await codes(far, dawn(""))).toContain("slot-below-horizon");
    const pole = "places: { lodge: { at: [90, 0] }, pier: { at: [90, 0], signal: good } }";
    const { day, findings, result } = await judge(dish(""), dawn(""), pole);
    expect(findings.map((finding) => finding.code)).toContain("slot-below-horizon");
    expect(sentences(findings, "slot-below-horizon", day)[0]).toMatch(/8\.\d degrees below the horizon at pier/);
    expect(result.hits[0]?.ok).toBe(false);
  });

  it("look-unknown: no coordinates, no slot; says which answers it cannot give", async () => {
    const { day, findings } = await judge(dish(""), dawn(""), "places: { lodge: {}, pier: { signal: good } }");
    expect(sentences(findings, "look-unknown", day)).toEqual([
      "the place has no coordinates: look angle, skew, skyline and sun outage of dish are not known at pier",
    ]);
    expect(await codes("paths: { dish: { kind: satellite }, cell: { kind: cellular } }", dawn(""))).toContain(
      "look-unknown",
    );
    expect(await codes(dish(""), dawn(""))).not.toContain("look-unknown");
  });

  it("dish-elsewhere: the truck's dish serves only where the truck stands", async () => {
    const two = [
      "crew: { wren: { role: camera, drives: wagon }, tomas: { role: engineer, drives: truck } }",
      "vehicles: { wagon: {}, truck: {} }",
      "paths: { dish: { kind: satellite, vehicle: truck, slot: 101 west }, cell: { kind: cellular } }",
      'hits: { dawn: { at: "07:00", for: 3 min, place: pier, path: dish, spare: cell, who: [wren] } }',
    ];
    const runs = (truck: string) =>
      `runs: { wagon: { driver: wren, stops: [lodge, { place: pier, do: [dawn] }, lodge] }, truck: { driver: tomas, stops: ${truck} } }`;
    const there = runs("[lodge, { place: pier, do: [dawn] }, lodge]");
    const { day, findings } = await judge(...two, runs("[lodge, { place: pier, arriveBy: '09:00' }, lodge]"));
    expect(sentences(findings, "dish-elsewhere", day)).toEqual([
      "dawn needs dish, which is on truck; that is at lodge, not at pier",
    ]);
    expect(await codes(...two, there)).not.toContain("dish-elsewhere");
  });
});

/** In position 06:50, line check from 06:40, line-up from 06:30, on air to 07:03, all New York (by hand). */
describe("booked windows", () => {
  const window = (from: string, to: string) => dish(`, lineUp: 10 min, windows: [["${from}", "${to}"]]`);

  it("hold line-up, line check, hit and late, to the minute", async () => {
    expect(await codes(window("06:30", "07:08"), dawn(", late: 5 min"))).not.toContain("window-too-short");
    const late = await found(window("06:31", "07:08"), dawn(", late: 5 min"));
    expect(late.find((finding) => finding.code === "window-too-short")).toMatchObject({
      shortMinutes: 1,
      level: "error",
    });
    const early = (await found(window("06:30", "07:07"), dawn(", late: 5 min"))).find(
      (own) => own.code === "window-too-short",
    );
    expect(early?.facts).toMatchObject({ shortBefore: 0, shortAfter: 1 });
    expect(early?.chain.map((term) => [term.name, term.minutes])).toEqual([
      ["line-up", 10],
      ["line check", 10],
      ["in position", 10],
      ["dawn", 3],
      ["late", 5],
    ]);
  });

  it("ask for no second line-up of a later hit in the same window, and for one in another window", async () => {
    const hits =
      'hits: { a: { at: "07:00", for: 3 min, place: pier, path: dish, spare: cell }, b: { at: "08:00", for: 3 min, place: pier, path: dish, spare: cell } }';
    expect(await codes(dish(', lineUp: 10 min, windows: [["06:30", "08:03"]]'), hits)).not.toContain(
      "window-too-short",
    );
    // By hand: in position 07:50, line-up from 07:40; a visit's second hit on the same path has no line check.
    const apart = (from: string) => dish(`, lineUp: 10 min, windows: [["06:30", "07:05"], ["${from}", "08:03"]]`);
    expect(await codes(apart("07:40"), hits)).not.toContain("window-too-short");
    expect(await codes(apart("07:41"), hits)).toContain("window-too-short");
  });

  it("window-missing: none at all for that hit; window-not-booked: none on the path", async () => {
    expect(await codes(window("10:00", "11:00"), dawn(""))).toContain("window-missing");
    expect(await codes(window("06:30", "07:03"), dawn(""))).not.toContain("window-missing");
    expect(await codes(dish(""), dawn(""))).toContain("window-not-booked");
    expect(await codes(window("06:30", "07:03"), dawn(""))).not.toContain("window-not-booked");
  });
});

describe("sun-outage-on-air", () => {
  // By hand: from 45 N the satellite is seen at atan(-6378 sin 45 / (42164 - 6378 cos 45)) = -6.8 degrees of declination, the
  // sun's on 3 March 2027; it is then due behind 101 west.
  const march = (at: string) => [
    "date: 2027-03-03",
    dish(", size: 1.2 m, band: 11.95 GHz"),
    `hits: { noon: { at: "${at}", for: 2 min, place: pier, path: dish, spare: cell } }`,
  ];

  it("tells a hit that the outage of the day meets, and not one after it", async () => {
    const { result } = await judge(...march("13:00"));
    const [outage] = result.looks.find((look) => look.place === "pier")?.outages ?? [];
    if (outage === undefined) throw new Error("no outage on the peak day");
    expect(outage.to - outage.from).toBeGreaterThan(6);
    const clock = (at: number): string => new Date((at - 300) * 60_000).toISOString().slice(11, 16);
    expect(await codes(...march(clock(Math.floor(outage.to))))).toContain("sun-outage-on-air");
    const clear = Math.ceil(outage.to) + 10 + 10;
    expect(await codes(...march(clock(clear)))).not.toContain("sun-outage-on-air");
  });

  it("knows the next season from a day in January, and none on that day", async () => {
    const { result } = await judge(dish(", size: 1.2 m, band: 11.95 GHz"), dawn(""));
    const pier = result.looks.find((look) => look.place === "pier");
    expect(pier?.outages).toEqual([]);
    const dates = pier?.next().map((outage) => new Date(outage.peak * 60_000).toISOString().slice(0, 10));
    expect(dates?.[0]?.startsWith("2027-02-2") || dates?.[0]?.startsWith("2027-03-0")).toBe(true);
    expect(dates?.length).toBeGreaterThanOrEqual(4);
  });
});

describe("cable", () => {
  const line = (reels: string, rate = ", rate: 3 Gbit/s") =>
    `paths: { line: { kind: cable, reels: [${reels}]${rate} }, cell: { kind: cellular } }`;
  const hit = (run: string) =>
    `hits: { dawn: { at: "07:00", for: 3 min, place: pier, path: line, spare: cell${run} } }`;
  const run = (meters: number, crosses = "") => hit(`, run: { cable: ${meters} m${crosses} }`);

  // Reach at 2970 Mb/s: 76.1 m (tests/world/signal.json, coax-length-series6), in whole metres 76; 90 % of it 68.4.
  it("cable-too-short: the reels together, to the metre", async () => {
    expect(await codes(line("50 m"), run(51))).toContain("cable-too-short");
    expect(await codes(line("50 m"), run(50))).not.toContain("cable-too-short");
  });

  it("cable-beyond-reach, cable-near-reach", async () => {
    expect(await codes(line("80 m"), run(77))).toContain("cable-beyond-reach");
    expect(await codes(line("76 m"), run(76))).not.toContain("cable-beyond-reach");
    expect(await codes(line("70 m"), run(69))).toContain("cable-near-reach");
    expect(await codes(line("70 m"), run(68))).not.toContain("cable-near-reach");
  });

  it("takes a tenth off for a join, and for cable stiff at -20", async () => {
    expect(await codes(line("40 m, 40 m"), run(69))).toContain("cable-beyond-reach");
    expect(await codes(line("40 m, 40 m"), run(68))).not.toContain("cable-beyond-reach");
    expect(await codes(line("70 m"), run(69), "weather: [{ temp: -20 C }]")).toContain("cable-beyond-reach");
    expect(await codes(line("70 m"), run(69), "weather: [{ temp: -19 C }]")).not.toContain("cable-beyond-reach");
  });

  it("reel-beyond-reach: the signal passes through the whole reel", async () => {
    expect(await codes(line("100 m"), run(60))).toContain("reel-beyond-reach");
    expect(await codes(line("76 m"), run(60))).not.toContain("reel-beyond-reach");
    expect(await codes(line("50 m, 100 m"), run(50))).not.toContain("reel-beyond-reach");
  });

  it("cable-across-road: never, whatever it is called", async () => {
    for (const crosses of ["road", "the highway", "tracks"]) {
      expect(await codes(line("50 m"), run(40, `, crosses: ${crosses}`))).toContain("cable-across-road");
    }
    expect(await codes(line("50 m"), run(40, ", crosses: footpath"))).not.toContain("cable-across-road");
  });

  it("cable-run-missing, cable-rate-unknown", async () => {
    expect(await codes(line("50 m"), hit(""))).toContain("cable-run-missing");
    expect(await codes(line("50 m"), run(40))).not.toContain("cable-run-missing");
    expect(await codes(line("50 m", ""), run(40))).toContain("cable-rate-unknown");
    expect(await codes(line("50 m"), run(40))).not.toContain("cable-rate-unknown");
  });
});

describe("cellular", () => {
  const cell = "paths: { cell: { kind: cellular }, dish: { kind: satellite, slot: 101 west } }";
  const hit = 'hits: { dawn: { at: "07:00", for: 3 min, place: pier, path: cell, spare: dish } }';
  const signal = (is: string) => `places: { lodge: { at: [46.60, -90.88] }, pier: { at: [46.81, -90.82]${is} } }`;

  it.each([
    [", signal: none", "cellular-signal-none", ", signal: weak"],
    [", signal: weak", "cellular-signal-weak", ", signal: good"],
    ["", "cellular-signal-unknown", ", signal: good"],
  ])("%s raises %s", async (is, code, better) => {
    expect(await codes(cell, hit, signal(is))).toContain(code);
    expect(await codes(cell, hit, signal(better))).not.toContain(code);
  });

  it("satellite-phone-missing: where no telephone works", async () => {
    expect(await codes(cell, hit, signal(", signal: none"))).toContain("satellite-phone-missing");
    const phone = "kit: { satphone: { name: satellite telephone, in: wagon } }";
    expect(await codes(cell, hit, signal(", signal: none"), phone)).not.toContain("satellite-phone-missing");
    expect(await codes(cell, hit, signal(", signal: weak"))).not.toContain("satellite-phone-missing");
  });
});

describe("who is on which path", () => {
  it("path-double-booked: from line check until the desk lets go, to the minute", async () => {
    const crew = "crew: { wren: { role: camera, drives: wagon }, ilse: { role: reporter }, bea: { drives: car } }";
    const more = [crew, "vehicles: { wagon: {}, car: {} }", "paths: { cell: { kind: cellular, rate: 100 Mbit/s } }"];
    const runs =
      "runs: { wagon: { driver: wren, aboard: [wren, ilse], stops: [lodge, { place: pier, do: [dawn] }, lodge] }, car: { driver: bea, stops: [lodge, { place: pier, do: [send] }, lodge] } }";
    const hits = 'hits: { dawn: { at: "07:00", for: 3 min, clear: 10 min, place: pier, path: cell } }';
    // The hit holds the path from 06:40 to 07:13.
    const send = (from: string, to: string) =>
      `tasks: { send: { kind: feed, path: cell, for: 10 min, place: pier, window: ["${from}", "${to}"] } }`;
    expect(await codes(...more, runs, hits, send("07:12", "07:22"))).toContain("path-double-booked");
    expect(await codes(...more, runs, hits, send("07:13", "07:23"))).not.toContain("path-double-booked");
    expect(await codes(...more, runs, hits, send("06:31", "06:41"))).toContain("path-double-booked");
    expect(await codes(...more, runs, hits, send("06:30", "06:40"))).not.toContain("path-double-booked");
    // A spare is held by nobody until it is needed.
    const paths = "paths: { cell: { kind: cellular, rate: 100 Mbit/s }, wire: { kind: wifi } }";
    const spare = hits.replace("path: cell", "path: wire, spare: cell");
    const shared = more.map((line) => (line.startsWith("paths") ? paths : line));
    expect(await codes(...shared, runs, spare, send("07:00", "07:10"))).not.toContain("path-double-booked");
  });

  it("path-missing, spare-missing: one finding for all hits; a note where the plan has no paths", async () => {
    const notes = await found();
    expect(notes.find((finding) => finding.code === "path-missing")?.level).toBe("note");
    const some = await found("paths: { cell: { kind: cellular } }");
    expect(some.find((finding) => finding.code === "path-missing")?.level).toBe("warning");
    const lone = 'hits: { dawn: { at: "07:00", for: 3 min, place: pier, path: cell } }';
    expect(await codes("paths: { cell: { kind: cellular } }", lone)).toContain("spare-missing");
    expect(await codes(dish(""), dawn(""))).not.toContain("spare-missing");
  });

  it.each([
    ["a: { kind: cellular }, b: { kind: backpack }", true],
    ["a: { kind: cellular }, b: { kind: wifi }", false],
    [
      "a: { kind: satellite, vehicle: wagon, slot: 101 west }, b: { kind: satellite, vehicle: wagon, slot: 91 west }",
      true,
    ],
    [
      "a: { kind: satellite, vehicle: wagon, slot: 101 west }, b: { kind: satellite, vehicle: car, slot: 91 west }",
      false,
    ],
    ["a: { kind: satellite, slot: 101 west }, b: { kind: satellite, slot: 101 west }", true],
    ["a: { kind: satellite, slot: 101 west }, b: { kind: satellite, slot: 91 west }", false],
    ["a: { kind: cable, reels: [50 m] }, b: { kind: cable, reels: [50 m] }", true],
    ["a: { kind: wifi }, b: { kind: wifi }", true],
  ])("spare-fails-too: %s is %s", async (paths, fails) => {
    const hits = 'hits: { dawn: { at: "07:00", for: 3 min, place: pier, path: a, spare: b } }';
    const told = await codes("vehicles: { wagon: {}, car: {} }", `paths: { ${paths} }`, hits);
    expect(told.includes("spare-fails-too")).toBe(fails);
  });
});

describe("feeds", () => {
  // 900 MB are 7200 Mb; at 12 Mb/s 600 s, ten minutes.
  const feed = (more: string) => [
    "paths: { cell: { kind: cellular, rate: 12 Mbit/s } }",
    `tasks: { send: { kind: feed, path: cell, place: pier${more} } }`,
    "runs: { wagon: [lodge, { place: pier, do: [dawn, send] }, lodge] }",
  ];
  it("feed-too-slow: a minute less than the size needs, and exactly enough", async () => {
    const slow = (await found(...feed(", size: 900 MB, for: 9 min"))).find(
      (finding) => finding.code === "feed-too-slow",
    );
    expect(slow).toMatchObject({ shortMinutes: 1, facts: { needs: 10, has: 9 } });
    expect(await codes(...feed(", size: 900 MB, for: 10 min"))).not.toContain("feed-too-slow");
  });
  it("lasts in the day what it needs by its size, also where binary fractions would add a minute", async () => {
    // 84 MB are 672 Mb; at 0.7 Mb/s 960 s, 16 minutes exactly (16.000000000000004 in binary). 84.1 MB: 961.1 s.
    const sent = async (size: string) => {
      const { day, findings } = await judge(
        "paths: { cell: { kind: cellular, rate: 700 kbit/s } }",
        `tasks: { send: { kind: feed, path: cell, place: pier, size: ${size} } }`,
        "runs: { wagon: [lodge, { place: pier, do: [dawn, send] }, lodge] }",
      );
      expect(findings.map(({ code }) => code)).not.toContain("feed-too-slow");
      const send = day.activities.find(({ id }) => id === "send");
      const needs = feedRows(day)[0]?.needsMinutes;
      return { lasts: (send?.end ?? 0) - (send?.start ?? 0), needs };
    };
    expect(await sent("84 MB")).toEqual({ lasts: 16, needs: 16 });
    expect(await sent("84.1 MB")).toEqual({ lasts: 17, needs: 17 });
  });
  it("feed-rate-missing: nothing to reckon with", async () => {
    expect(await codes(...feed(", for: 9 min"))).toContain("feed-rate-missing");
    expect(await codes(...feed(", size: 900 MB"))).not.toContain("feed-rate-missing");
  });
});

describe("lines", () => {
  const ear = "lines: { ear: { number: 555 0101, who: [ilse] }, producer: { number: 555 0102, who: [wren] } }";
  it("ear-line-missing: for everyone who appears", async () => {
    const none = (await found("lines: { producer: { number: 555 0102 } }")).find(
      (finding) => finding.code === "ear-line-missing",
    );
    expect(none).toMatchObject({ who: "ilse", level: "warning" });
    expect(await codes(ear)).not.toContain("ear-line-missing");
    const guest = [
      "crew: { wren: { role: camera, drives: wagon }, ilse: { role: reporter }, tomas: {} }",
      'hits: { dawn: { at: "07:00", for: 3 min, place: pier, who: [ilse, wren, tomas] } }',
      "runs: { wagon: { aboard: [wren, ilse, tomas], stops: [lodge, pier, lodge] } }",
    ];
    expect((await found(ear, ...guest)).filter((own) => own.code === "ear-line-missing").map((own) => own.who)).toEqual(
      ["tomas"],
    );
  });
  it("producer-line-missing: for the camera", async () => {
    expect(await codes("lines: { ear: { number: 555 0101 } }")).toContain("producer-line-missing");
    expect(await codes(ear)).not.toContain("producer-line-missing");
    expect((await found()).find((finding) => finding.code === "producer-line-missing")?.level).toBe("note");
  });
});

describe("who is at a hit, by the roles that are stated", () => {
  /** The findings of a hit that only `who` rides to; everyone else stays at the lodge. */
  const uncrewed = async (crew: string, who: string) =>
    (
      await found(
        `crew: { ${crew} }`,
        `hits: { dawn: { at: "07:00", for: 3 min, place: pier, who: [${who}] } }`,
        `runs: { wagon: { driver: wren, aboard: [wren, ${who}], stops: [lodge, { place: pier, do: [dawn] }, lodge] } }`,
      )
    ).flatMap(({ code, level, facts }) => (code === "hit-uncrewed" ? [[level, facts["missing"]]] : []));
  const wren = "wren: { role: engineer, drives: wagon }";

  it("hit-uncrewed: a warning where someone who has the role is elsewhere, else a note", async () => {
    const three = `${wren}, ilse: { role: reporter }, odo: { role: camera, slept: lodge }`;
    expect(await uncrewed(three, "ilse")).toEqual([["warning", ["camera"]]]);
    expect(await uncrewed(three, "ilse, odo")).toEqual([]);
    expect(await uncrewed(`${wren}, ilse: { role: reporter }`, "ilse")).toEqual([["note", ["camera"]]]);
    expect(await uncrewed(`${wren}, ilse: { role: [reporter, camera] }`, "ilse")).toEqual([]);
    expect(await uncrewed(wren, "wren")).toEqual([["note", ["camera", "reporter"]]]);
  });
  it("nothing is said where a role is not stated, or is one of the plan's own", async () => {
    expect(await uncrewed(`${wren}, ilse: {}`, "wren, ilse")).toEqual([]);
    expect(await uncrewed(`${wren}, ilse: { role: presenter }`, "wren, ilse")).toEqual([]);
  });
});
