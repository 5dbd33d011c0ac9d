/** Days of gear that went wrong: each with what it should say and why. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { makeReport } from "../../src/index.ts";
import { had } from "../../src/reports/shared/judged.ts";
import { wordingOf } from "../../src/reports/shared/wording.ts";
import { judgedFile, judgedText } from "./judged.ts";

const textOf = (path: string): string => readFileSync(`fixtures/cases/${path}`, "utf8");

describe("a mounted pack", () => {
  it("moves with its piece: the van has it until noon, the car from then on, in kit as in power", async () => {
    const judged = await judgedFile("fixtures/cases/together/brick.yaml");
    const track = had(judged.results.kit).track;
    const holders = (item: string) => (track?.stays(item) ?? []).map(({ holder }) => holder);
    expect(new Set(holders("brick.1"))).toEqual(new Set(["van", "car"]));
    // Where the camera is at each of its two hits, the pack is too.
    for (const id of ["noon", "three"]) {
      const at = judged.day.activities.find((one) => one.id === id)?.start;
      if (at === undefined || at === null) throw new Error(`${id} has no start`);
      expect([track?.at("brick.1", at)?.holder, track?.at("brick.1", at)?.place]).toEqual([
        track?.at("camera", at)?.holder,
        track?.at("camera", at)?.place,
      ]);
    }
    expect(track?.ends.get("brick.1")).toBe("car");
    // 95 Wh, 30 W, 15 % in reserve: one pack powers both hits.
    expect(had(judged.results.power).solution.dropped).toEqual([]);
  });
});

describe("pieces of one kind", () => {
  it("are told where two crews need one at once, and an accessory for each piece that carries it", async () => {
    const judged = await judgedFile("fixtures/cases/world/kit-count.yaml");
    const told = judged.found("kit-too-few").map(({ facts }) => [facts["item"], facts["needed"], facts["there"]]);
    // wren and bo each have a camera of the kind, bo a second one besides: three brackets.
    expect(told).toEqual([
      ["cam", 2, 1],
      ["bracket", 3, 1],
    ]);
  });

  it("are listed as too few in the report of gear, which no longer says that nothing is missing", async () => {
    const report = await makeReport("kit", await judgedFile("fixtures/cases/world/kit-count.yaml"));
    const tables = report.blocks.flatMap((block) =>
      block.kind === "table" ? [[block.title, block.empty, block.rows.map((row) => row.map(({ text }) => text))]] : [],
    );
    expect(tables.slice(0, 2)).toEqual([
      ["Missing", "All that there is, is where it is needed.", []],
      [
        "Too few",
        "",
        [
          ["cam", "h, g", "2", "1", "in all"],
          ["bracket", "h, g", "3", "1", "in all"],
        ],
      ],
    ]);
  });

  it("are enough one after the other, and where there are as many", async () => {
    const text = textOf("world/kit-count.yaml");
    const later = await judgedText(text.replace('"12:10"', '"12:40"'));
    expect(later.found("kit-too-few").map(({ facts }) => facts["item"])).toEqual(["bracket"]);
    // In position 10 min before the hit: at 12:30, as the other crew's hit ends; a minute earlier both hold the camera.
    const early = await judgedText(text.replace('"12:10"', '"12:39"'));
    expect(early.found("kit-too-few").map(({ facts }) => facts["item"])).toEqual(["cam", "bracket"]);
    const more = await judgedText(
      text.replace("in: car, needs", "in: car, count: 2, needs").replace("count: 1", "count: 3"),
    );
    expect(more.found("kit-too-few")).toEqual([]);
  });

  it("in two vehicles are stated so, and that cures: no circle of hints", async () => {
    const split = await judgedFile("fixtures/cases/world/kit-split.yaml");
    const hints = split.found("kit-missing").map((one) => one.hint(wordingOf(split.day.plan)));
    expect(hints).toEqual(["`kit.cam.in: { car: 1, van: 1 }`, one each where it is needed"]);
    const cured = await judgedText(
      textOf("world/kit-split.yaml").replace("in: car, count: 2", "in: { car: 1, van: 1 }"),
    );
    expect(cured.findings.filter(({ code }) => code.startsWith("kit-"))).toEqual([]);
  });

  it("that are out of service are not there, and power neither draws from packs for them", async () => {
    const text = textOf("together/brick.yaml").replace("watts: 30,", 'watts: 30, broken: "14:00",');
    const judged = await judgedText(text);
    // Noon is over at 12:03, three comes after 14:00.
    expect(judged.found("kit-broken").map(({ facts }) => facts["activity"])).toEqual(["three"]);
    expect(had(judged.results.power).solution.model.demands.map(({ id }) => id)).toEqual(["noon"]);
  });

  it("packs and chargers that are out of service do nothing from then on", async () => {
    const text = textOf("power/base.yaml");
    const broken = await judgedText(
      text.replace("watts: 25,", 'watts: 25, broken: { from: "18:00 -1d", to: "12:00" },'),
    );
    const [charger] = had(broken.results.power).solution.model.chargers;
    const { day } = broken;
    expect(charger?.on.every(({ from }) => from >= (day.instants.get("dawn.1.start") ?? 0))).toBe(true);
    const pack = await judgedText(
      text.replace("mount: v, charge: 20%", 'mount: v, charge: 90%, own: { brick.1: { broken: "05:00" } }'),
    );
    const { solution } = had(pack.results.power);
    expect(solution.dropped).toEqual([]);
    expect(solution.replay.uses.flatMap(({ packs }) => packs)).not.toContain("brick.1");
  });
});

describe("pieces that each person needs", () => {
  const day = (kit: string, more = "") =>
    textOf("world/kit-count.yaml")
      .replace(/^hits:.*$/m, `hits: { h: { at: "12:00", for: 30 min, place: b, who: [wren, bo]${more} } }`)
      .replace(/^kit:.*$/m, `kit: { ${kit} }`);
  const told = async (text: string) =>
    (await judgedText(text))
      .found("kit-too-few")
      .map(({ facts, level }) => [facts["item"], facts["needed"], facts["there"], facts["place"], level]);

  it("are counted by people: two on the hit, one earpiece", async () => {
    // wren and bo: two earpieces, each with a battery of its own.
    const named = ", needs: [ear]";
    expect(await told(day("ear: { in: car, per: person }", named))).toEqual([["ear", 2, 1, null, "error"]]);
    expect(await told(day("ear: { in: car, per: person, count: 2 }", named))).toEqual([]);
    expect(await told(day("ear: { in: car }", named))).toEqual([]);
    const battery = "ear: { in: car, per: person, count: 2, needs: [cell] }, cell: { in: car }";
    expect(await told(day(battery, named))).toEqual([["cell", 2, 1, null, "error"]]);
    expect(await told(day(battery.replace("cell: { in: car }", "cell: { in: car, count: 2 }"), named))).toEqual([]);
  });

  it("warn where only a word asks for them, and kinds alike are counted together", async () => {
    const word = "in: car, per: person, during: hits";
    expect(await told(day(`ear: { ${word} }`))).toEqual([["ear", 2, 1, null, "warning"]]);
    expect(await told(day(`ear: { ${word} }, old: { ${word} }`))).toEqual([]);
    expect(await told(day(`ear: { ${word}, during: tasks }`.replace(", during: hits", "")))).toEqual([]);
  });

  it("must be where the people are, whichever vehicle they came in", async () => {
    const named = ", needs: [ear]";
    // Both vehicles come to b; the van stays at a where it has no run.
    const split = day("ear: { in: { car: 1, van: 1 }, per: person }", named);
    expect(await told(split)).toEqual([]);
    const parked = split.replace("driver: wren, stops", "driver: wren, aboard: [wren, bo], stops");
    expect(await told(parked.replace(/, van: \{ driver: bo, stops: \[a, b, a\] \}/, ""))).toEqual([
      ["ear", 2, 1, "b", "error"],
    ]);
  });

  it("are needed by two crews at once, by one after the other only by the larger", async () => {
    const two = (second: string) =>
      textOf("world/kit-count.yaml")
        .replace(
          /^hits:.*$/m,
          'hits: { h: { at: "12:00", for: 30 min, place: b, who: [wren], needs: [ear] }, ' +
            `g: { at: "${second}", for: 3 min, place: b, who: [bo], needs: [ear] } }`,
        )
        .replace(/^kit:.*$/m, "kit: { ear: { in: car, per: person } }");
    expect(await told(two("12:10"))).toEqual([["ear", 2, 1, null, "error"]]);
    expect(await told(two("12:40"))).toEqual([]);
  });

  it("of forty people are forty", async () => {
    const crew = Array.from({ length: 40 }, (_, n) => `p${n + 1}`);
    const text = day("ear: { in: car, per: person, count: 39 }", ", needs: [ear]")
      .replace(
        "bo: { role: camera, drives: [van] }",
        `bo: { role: camera, drives: [van] }, ${crew
          .slice(2)
          .map((id) => `${id}: { role: guest }`)
          .join(", ")}`,
      )
      .replace("who: [wren, bo]", `who: [wren, bo, ${crew.slice(2).join(", ")}]`)
      .replace("driver: bo, stops", `driver: bo, aboard: [bo, ${crew.slice(2).join(", ")}], stops`);
    expect(await told(text)).toEqual([["ear", 40, 39, null, "error"]]);
  });
});

describe("a piece that is listed twice", () => {
  const day = (kit: string, needs: string) =>
    textOf("world/kit-count.yaml")
      .replace(/^hits:.*$/m, `hits: { h: { at: "12:00", for: 30 min, place: b, who: [wren, bo], needs: [${needs}] } }`)
      .replace(/^kit:.*$/m, `kit: { ${kit} }`);
  const told = async (text: string) =>
    (await judgedText(text))
      .found("kit-too-few")
      .map(({ facts, level }) => [facts["item"], facts["needed"], facts["there"], level]);

  it("is needed twice, and so is what each carries", async () => {
    const cams = (count: number, brackets: number) =>
      `cam: { in: car, count: ${count}, needs: [bracket] }, bracket: { in: car, count: ${brackets} }`;
    expect(await told(day(cams(1, 1), "cam, cam"))).toEqual([
      ["cam", 2, 1, "error"],
      ["bracket", 2, 1, "error"],
    ]);
    expect(await told(day(cams(2, 2), "cam, cam"))).toEqual([]);
    expect(await told(day(cams(2, 2), "cam, cam, cam"))).toEqual([
      ["cam", 3, 2, "error"],
      ["bracket", 3, 2, "error"],
    ]);
    // Named beside its camera a bracket is that camera's.
    expect(await told(day(cams(1, 1), "cam, bracket"))).toEqual([]);
  });

  it("counts so in a piece's own needs: a lamp with two stands, two lamps with four", async () => {
    const lamps = (count: number, stands: number) =>
      `lamp: { in: car, count: ${count}, needs: [stand, stand] }, stand: { in: car, count: ${stands} }`;
    expect(await told(day(lamps(1, 1), "lamp"))).toEqual([["stand", 2, 1, "error"]]);
    expect(await told(day(lamps(2, 3), "lamp, lamp"))).toEqual([["stand", 4, 3, "error"]]);
    expect(await told(day(lamps(2, 4), "lamp, lamp"))).toEqual([]);
  });

  it("warns where only a word asks for what carries it; of two that do the same one is used", async () => {
    const both = "camera: { in: car, during: hits, watts: 30, mount: v, needs: [bracket] }";
    const monitor = "monitor: { in: car, during: hits, watts: 20, mount: v, needs: [bracket] }, bracket: { in: car }";
    expect(await told(day(`${both}, ${monitor}`, ""))).toEqual([["bracket", 2, 1, "warning"]]);
    const like = monitor.replace("watts: 20", "watts: 30");
    expect(await told(day(`${both}, ${like}`, ""))).toEqual([]);
  });
});

describe("gear that the trade gives out one a person", () => {
  const day = (kit: string, needs: string, more = "") =>
    `${textOf("world/kit-count.yaml")
      .replace(/^hits:.*$/m, `hits: { h: { at: "12:00", for: 30 min, place: b, who: [wren, bo], needs: [${needs}] } }`)
      .replace(/^kit:.*$/m, `kit: { ${kit} }`)}${more}`;
  const told = async (text: string) =>
    (await judgedText(text))
      .found("kit-too-few")
      .map(({ facts, level }) => [facts["item"], facts["needed"], facts["there"], level]);

  // 29 CFR 1926.106(a), 1926.100(a), 23 CFR 634.3, from memory; earpieces: common practice, no source.
  it.each([
    "earpiece",
    "earpieces",
    "ifb",
    "inEars",
    "earset",
    "lifeJacket",
    "life-vests",
    "pfd",
    "helmet",
    "hardHats",
    "hiVisVest",
  ])("is known by its name: %s", async (id) => {
    expect(await told(day(`${id}: { in: car }`, id))).toEqual([[id, 2, 1, "warning"]]);
    expect(await told(day(`${id}: { in: car, count: 2 }`, id))).toEqual([]);
    expect(await told(day(`${id}: { in: car, per: crew }`, id))).toEqual([]);
    expect(await told(day(`${id}: { in: car, per: person }`, id))).toEqual([[id, 2, 1, "error"]]);
  });

  it.each(["gear", "bear", "earpieceCase", "helmetBag", "ears2go", "camera"])(
    "is not anything else: %s",
    async (id) => {
      expect(await told(day(`${id}: { in: car }`, id))).toEqual([]);
    },
  );

  it("is known by what people call it, and not where that is what it belongs to", async () => {
    expect(await told(day("clear: { in: car, name: clear-tube earpiece }", "clear"))).toHaveLength(1);
    expect(await told(day("box: { in: car, name: case of earpieces }", "box"))).toEqual([]);
  });

  it("goes into the ears of those on a line, where lines name someone of the hit", async () => {
    const one = "earpiece: { in: car }";
    expect(await told(day(one, "earpiece", "lines: { ear: { number: 555 0101, who: [bo] } }\n"))).toEqual([]);
    const both = "lines: { ear: { number: 555 0101, who: [bo] }, producer: { number: 555 0102, who: [wren] } }\n";
    expect(await told(day(one, "earpiece", both))).toEqual([["earpiece", 2, 1, "warning"]]);
    // A helmet has nothing to do with lines.
    const helmet = "lines: { ear: { number: 555 0101, who: [bo] } }\n";
    expect(await told(day("helmet: { in: car }", "helmet", helmet))).toEqual([["helmet", 2, 1, "warning"]]);
  });
});
