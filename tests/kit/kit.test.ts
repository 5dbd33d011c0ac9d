/** Gear: where it is, what is missing and until when it can be moved, the loading list. */
import { describe, expect, it } from "vitest";
import { assess, trackKit } from "../../src/kit/index.ts";
import { wordingOf } from "../../src/reports/shared/wording.ts";
import { assess as assessSky } from "../../src/sky/index.ts";
import { isoLocal, zone } from "../../src/time/index.ts";
import { dayFrom, inputOf, plan, sentences } from "../sky/days.ts";

const judge = async (...lines: readonly string[]) => {
  const day = await dayFrom(plan(...lines));
  const sky = await assessSky(inputOf(day));
  return { day, ...assess(inputOf(day), sky.result) };
};
const codes = async (...lines: readonly string[]): Promise<readonly string[]> =>
  (await judge(...lines)).findings.map((finding) => finding.code);

const chicago = zone("America/Chicago");
const local = (at: number): string => {
  if (chicago === null) throw new Error("no zone");
  return isoLocal(at as Parameters<typeof isoLocal>[0], chicago).slice(11, 16);
};

/** Two vehicles: the wagon makes the hit at the pier, the truck goes to the dock by 07:00 Chicago. */
const two = (truck: string, more: readonly string[]) => [
  "crew: { wren: { role: camera, drives: wagon }, tomas: { role: engineer, drives: truck } }",
  "vehicles: { wagon: {}, truck: {} }",
  "places: { lodge: { at: [46.60, -90.88] }, pier: { at: [46.81, -90.82] }, dock: { at: [46.60, -90.86] } }",
  "roads: [{ link: [lodge, pier], drive: 35 min, bad: 50 min }, { link: [lodge, dock], drive: 10 min, bad: 15 min }, { link: [pier, dock], drive: 35 min, bad: 50 min }]",
  'hits: { dawn: { at: "07:00", for: 3 min, place: pier, who: [wren], needs: [monitor] } }',
  `runs: { wagon: { driver: wren, stops: [lodge, { place: pier, do: [dawn] }, lodge] }, truck: { driver: tomas, stops: ${truck} } }`,
  ...more,
];
const toDock = '[{ place: lodge, leave: "05:20" }, { place: dock, stay: 4 h }, lodge]';

describe("kit-missing", () => {
  it("says what is missing, where it is instead, and the last moment to move it", async () => {
    const kit = "kit: { monitor: { in: wagon, needs: [bracket] }, bracket: { in: truck } }";
    const { day, result, findings } = await judge(...two(toDock, [kit]));
    // The wagon rolls at 05:15 New York, 04:15 Chicago (the format's example); both stand at the lodge until then.
    const [missing] = result.missing;
    expect(missing).toMatchObject({
      item: "bracket",
      for: "monitor",
      activities: ["dawn"],
      holder: "truck",
      by: "stated",
    });
    expect(missing?.lastMove).toMatchObject({ place: "lodge", into: "wagon" });
    expect(local(missing?.lastMove?.at ?? 0)).toBe("04:15");
    expect(sentences(findings, "kit-missing", day)).toEqual([
      "dawn needs bracket (monitor needs it), and it is in truck, at dock",
    ]);
    expect(findings[0]?.hint(wordingOf(day.plan))).toBe("put it into wagon at lodge by 05:15 New York (04:15 Chicago)");
    const better = "kit: { monitor: { in: wagon, needs: [bracket] }, bracket: { in: wagon } }";
    expect(await codes(...two(toDock, [better]))).not.toContain("kit-missing");
  });

  it("follows needs through any number of pieces, and a ring of them ends", async () => {
    const kit =
      "kit: { monitor: { in: wagon, needs: [arm] }, arm: { in: wagon, needs: [clamp] }, clamp: { in: truck, needs: [monitor] } }";
    const { result } = await judge(...two(toDock, [kit]));
    expect(result.missing.map((own) => [own.item, own.for])).toEqual([["clamp", "arm"]]);
  });

  it("says so where it cannot come in time", async () => {
    // The bracket lies at the dock, where the wagon never is before the hit.
    const { day, result, findings } = await judge(...two(toDock, ["kit: { monitor: { in: dock } }"]));
    expect(result.missing[0]?.lastMove).toBe(null);
    expect(sentences(findings, "kit-missing", day)).toEqual(["dawn needs monitor, and it is at dock"]);
  });

  it("takes a piece in any vehicle that stands at the place, from the line check to the end", async () => {
    const kit = "kit: { monitor: { in: truck } }";
    const stays = (leave: string, start = "05:20") =>
      two(`[{ place: lodge, leave: "${start}" }, { place: pier, leave: "${leave}" }, lodge]`, [kit]);
    expect(await codes(...stays("07:03"))).not.toContain("kit-missing");
    expect(await codes(...stays("07:02"))).toContain("kit-missing");
    // 35 min of road; the line check begins 07:00 - 10 - 10 = 06:40.
    expect(await codes(...stays("07:03", "06:05"))).not.toContain("kit-missing");
    expect(await codes(...stays("07:03", "06:06"))).toContain("kit-missing");
  });

  it("is a warning where only a word asks, and none where a like piece is there", async () => {
    const one = "kit: { monitor: { in: wagon }, camera: { in: truck, watts: 38, mount: wedge, during: hits } }";
    expect((await judge(...two(toDock, [one]))).findings.find((own) => own.code === "kit-missing")?.level).toBe(
      "warning",
    );
    const pair = one.replace("}, camera", "}, second: { in: wagon, watts: 38, mount: wedge, during: hits }, camera");
    expect(await codes(...two(toDock, [pair]))).not.toContain("kit-missing");
    const lamp = "kit: { monitor: { in: wagon }, lamp: { in: truck, during: dark } }";
    expect(await codes(...two(toDock, [lamp]))).toContain("kit-missing");
  });

  it("takes an id, a path or a group in `during` as a need by name", async () => {
    for (const word of ["dawn", "cell"]) {
      const lines = two(toDock, [
        `kit: { monitor: { in: wagon }, unit: { in: truck, during: ${word} } }`,
        "paths: { cell: { kind: cellular } }",
        'hits: { dawn: { at: "07:00", for: 3 min, place: pier, who: [wren], path: cell, needs: [monitor] } }',
      ]);
      const { findings } = await judge(...lines);
      expect(findings.find((own) => own.code === "kit-missing")).toMatchObject({
        level: "error",
        facts: { item: "unit" },
      });
    }
  });

  it("needs the gear of a spare path there as well", async () => {
    const lines = (where: string): readonly string[] =>
      two(toDock, [
        `kit: { monitor: { in: wagon }, unit: { in: ${where}, during: cell } }`,
        "paths: { dish: { kind: satellite, slot: 101 west }, cell: { kind: cellular } }",
        'hits: { dawn: { at: "07:00", for: 3 min, place: pier, who: [wren], path: dish, spare: cell } }',
      ]);
    expect(await codes(...lines("truck"))).toContain("kit-missing");
    expect(await codes(...lines("wagon"))).not.toContain("kit-missing");
  });

  it("takes `tasks` for work with gear and not for fuel or a stand-by, `dark` for hits and stand-bys and not for tasks", async () => {
    const missed = async (during: string, task: string): Promise<boolean> => {
      const lines = two(toDock, [
        `kit: { monitor: { in: wagon }, jack: { in: truck, during: ${during} } }`,
        `tasks: { early: { place: pier, who: [wren], ${task} } }`,
        // Noon in New York is broad day at the pier; 06:00 is night.
        'hits: { dawn: { at: "12:00", for: 3 min, place: pier, who: [wren], needs: [monitor] } }',
      ]).map((line) => line.replace("do: [dawn]", "do: [early, dawn]"));
      return (await codes(...lines)).includes("kit-missing");
    };
    expect(await missed("tasks", "for: 10 min")).toBe(true);
    expect(await missed("tasks", "for: 10 min, kind: fuel")).toBe(false);
    expect(await missed("tasks", 'kind: standby, window: ["06:00", "06:10"]')).toBe(false);
    expect(await missed("dark", 'kind: standby, window: ["06:00", "06:10"]')).toBe(true);
    expect(await missed("dark", 'for: 10 min, window: ["06:00", "06:10"]')).toBe(false);
    expect(await missed("tasks", 'for: 10 min, window: ["06:00", "06:10"]')).toBe(true);
  });

  it("tells hits of one visit that lack the same once", async () => {
    const hits =
      'hits: { a: { at: "07:00", for: 3 min, place: pier, who: [wren], needs: [monitor] }, b: { at: "07:30", for: 3 min, place: pier, who: [wren], needs: [monitor] } }';
    const lines = two(toDock, ["kit: { monitor: { in: truck } }", hits]).map((line) =>
      line.replace("do: [dawn]", "do: [a, b]"),
    );
    expect((await judge(...lines)).result.missing.map((own) => own.activities)).toEqual([["a", "b"]]);
  });
});

describe("moves", () => {
  const moving = (
    stops: string,
    wagon = "[lodge, { place: pier, do: [dawn], leave: '08:00' }, { place: dock, stay: 30 min, moves: { monitor: truck } }, lodge]",
  ) =>
    two(stops, ["kit: { monitor: { in: wagon } }"]).map((line) =>
      line.startsWith("runs")
        ? `runs: { wagon: { driver: wren, stops: ${wagon} }, truck: { driver: tomas, stops: ${stops} } }`
        : line,
    );

  it("need both vehicles and a hand there: from the moment they are together", async () => {
    const { result, findings } = await judge(
      ...moving('[{ place: lodge, leave: "05:20" }, { place: dock, leave: "10:00" }, lodge]'),
    );
    expect(findings.map((own) => own.code)).not.toContain("move-impossible");
    const [move] = result.track?.moves ?? [];
    expect(move).toMatchObject({ item: "monitor", from: "wagon", to: "truck", place: "dock" });
    expect(move?.hands).toContain("wren");
    // Left the pier at 08:00 New York, 35 minutes on the road.
    expect(local(move?.at ?? 0)).toBe("07:35");
    expect(result.track?.ends.get("monitor")).toBe("truck");
  });

  it("of a piece in several vehicles all that is not there already goes along", async () => {
    const lines = moving('[{ place: lodge, leave: "05:20" }, { place: dock, leave: "10:00" }, lodge]').map((line) =>
      line.replace("monitor: { in: wagon }", "monitor: { in: { wagon: 2, truck: 4 } }"),
    );
    const { result, findings } = await judge(...lines);
    expect(findings.map((own) => own.code)).not.toContain("move-impossible");
    expect(result.track?.moves.map(({ item, from, to }) => [item, from, to])).toEqual([
      ["monitor.wagon", "wagon", "truck"],
    ]);
    expect(["monitor.wagon", "monitor.truck"].map((item) => result.track?.ends.get(item))).toEqual(["truck", "truck"]);
  });

  it("move-impossible: a minute after the other has left, and while it is still there", async () => {
    // The wagon reaches the dock exactly at 08:35 New York.
    const until = (leave: string) =>
      moving(`[{ place: lodge, leave: "05:20" }, { place: dock, leave: "${leave}" }, lodge]`);
    const { day, findings } = await judge(...until("08:35"));
    expect(sentences(findings, "move-impossible", day)).toEqual([
      "monitor cannot go into truck at dock: truck is not there then",
    ]);
    expect(await codes(...until("08:36"))).not.toContain("move-impossible");
  });

  it("tiles every item's time without gap, whatever is moved", async () => {
    const { day, result } = await judge(
      ...moving('[{ place: lodge, leave: "05:20" }, { place: dock, leave: "10:00" }, lodge]'),
    );
    const stays = result.track?.stays("monitor") ?? [];
    expect(stays.length).toBeGreaterThan(3);
    for (const [i, stay] of stays.slice(1).entries()) expect(stay.from).toBe(stays[i]?.to);
    expect(stays[0]?.from).toBeLessThanOrEqual(day.span.from);
  });
});

describe("from day to day", () => {
  it("a piece stays where the day before left it, unless the day's own text puts it elsewhere", async () => {
    const first = await dayFrom(
      plan(
        ...two(
          '[{ place: lodge, leave: "05:20" }, { place: pier, leave: "08:00", moves: { monitor: truck } }, lodge]',
          ["kit: { monitor: { in: wagon } }"],
        ),
      ),
    );
    expect(trackKit([first])?.ends.get("monitor")).toBe("truck");
    const second = await dayFrom(plan(...two(toDock, ["kit: { monitor: { in: wagon } }"])));
    // The same text states it again, so it counts as stated.
    expect(trackKit([first, second])?.stays("monitor")[0]?.holder).toBe("wagon");
    const shared = { ...second, plan: { ...second.plan, file: "elsewhere.yaml" } };
    expect(trackKit([first, shared])?.stays("monitor")[0]?.holder).toBe("truck");
  });

  it("kit-left-behind: a charger at a lodging that everybody leaves", async () => {
    const runs = "runs: { wagon: [lodge, { place: pier, do: [dawn] }, inn] }";
    const places =
      "places: { lodge: { at: [46.60, -90.88] }, pier: { at: [46.81, -90.82] }, inn: { at: [46.62, -89.81] } }";
    expect(await codes(runs, places, "kit: { stand: { in: lodge } }")).toContain("kit-left-behind");
    expect(await codes(runs, places, "kit: { stand: { in: wagon } }")).not.toContain("kit-left-behind");
    expect(await codes("kit: { stand: { in: lodge } }")).not.toContain("kit-left-behind");
  });
});

describe("tonight's loading", () => {
  it("lists by vehicle what is in it when it first rolls, packs of a kind on one line, and what must come from elsewhere", async () => {
    const { result } = await judge(
      ...two('[{ place: lodge, leave: "05:20", moves: { tripod: truck } }, dock, lodge]', [
        "kit: { monitor: { in: wagon, count: 2 }, tripod: { in: lodge } }",
        "packs: { brick: { count: 3, wh: 98, mount: wedge, charge: 100%, in: wagon } }",
      ]),
    );
    expect(
      result.loading.map(({ vehicle, place, items }) => ({
        vehicle,
        place,
        items: items.map((own) => [own.id, own.count, own.from]),
      })),
    ).toEqual([
      {
        vehicle: "wagon",
        place: "lodge",
        items: [
          ["monitor", 2, null],
          ["brick", 3, null],
        ],
      },
      { vehicle: "truck", place: "lodge", items: [["tripod", 1, "lodge"]] },
    ]);
  });
});
