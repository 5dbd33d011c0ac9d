/** Days of gear that went wrong: each with what it should say and why. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { had } from "../../src/reports/shared/judged.ts";
import { sayOf } from "../../src/reports/shared/wording.ts";
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

  it("are enough one after the other, and where there are as many", async () => {
    const text = textOf("world/kit-count.yaml");
    const later = await judgedText(text.replace('"12:10"', '"12:40"'));
    expect(later.found("kit-too-few").map(({ facts }) => facts["item"])).toEqual(["bracket"]);
    const more = await judgedText(
      text.replace("in: car, needs", "in: car, count: 2, needs").replace("count: 1", "count: 3"),
    );
    expect(more.found("kit-too-few")).toEqual([]);
  });

  it("in two vehicles are stated so, and that cures: no circle of hints", async () => {
    const split = await judgedFile("fixtures/cases/world/kit-split.yaml");
    const hints = split.found("kit-missing").map((one) => one.hint(sayOf(split.day.plan)));
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
