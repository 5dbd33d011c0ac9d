/** A load that no pack could run to the end is no question of charging; and a pack that cannot serve is no spare. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { judgedText } from "../cases/judged.ts";
import { ran } from "../cli/fakeIo.ts";

/** Three bricks of 98 Wh, full; a camera of 45 W at 5 °C, three hits 40 min apart. */
const BASE = readFileSync("fixtures/cases/power/base.yaml", "utf8").replace("charge: 20%", "charge: 100%");
const ONE = 'dawn: { at: { from: "07:00", every: 40 min, times: 3 }, for: 5 min';
const of = (hit: string): string => BASE.replace(ONE, `dawn: { at: "07:00", for: ${hit}`);

describe("a hit longer than any pack", () => {
  // At 5 °C a pack gives 0.91 of its energy: 45 W count as 49.45. In position 10 min and a line check of 10 before three
  // hours, 10 min until the desk clears: 3 h 30, 173.1 Wh. A full brick gives 85 % of 98 Wh: 83.3.
  it("says what one pack needs and gives, and what size would do: 173.1 / 0.85 = 203.6 Wh", async () => {
    const day = await judgedText(of("3 h"));
    expect(day.said("hit-unpowered")).toEqual([
      "dawn cannot be powered (camera): camera needs 174 Wh on one pack, and a full one gives 83 Wh; charging does not help",
    ]);
    const { out } = await ran(["power", "day.yaml"], { files: { "day.yaml": of("3 h") } });
    expect(out).toContain(
      "What helps: draw less, make the hit shorter or split it, or bring a pack of 210 Wh or more.",
    );
    expect((await judgedText(of("3 h").replace("wh: 98", "wh: 200"))).said("hit-unpowered")).toHaveLength(1);
    expect((await judgedText(of("3 h").replace("wh: 98", "wh: 210"))).said("hit-unpowered")).toEqual([]);
  });

  // 83.3 Wh last 101.07 min at 49.45 W: 71 min on air with 30 around them, not 72.
  it("is the reason from the minute on at which a full pack no longer does", async () => {
    expect((await judgedText(of("71 min"))).said("hit-unpowered")).toEqual([]);
    expect((await judgedText(of("72 min"))).said("hit-unpowered")[0]).toContain("charging does not help");
  });

  it("is not the reason where a charged pack would do", async () => {
    const flat = of("60 min").replace("charge: 100%", "charge: 20%").replace("watts: 25", "watts: 1");
    expect((await judgedText(flat)).said("hit-unpowered")[0]).toMatch(/Wh short, about .* more in a charger/);
  });
});

/** A pack of which nobody says how full it is counts as empty: to say it comes before all that could be brought or moved. */
describe("a charge that is not stated", () => {
  const unstated = (charge: string): string =>
    of("60 min").replace(", charge: 100%", charge).replace("watts: 25", "watts: 1");

  it("is what is asked for, where a charge would help and some pack has none", async () => {
    const day = await judgedText(unstated(""));
    const [finding] = day.findings.filter(({ code }) => code === "hit-unpowered");
    expect(finding?.facts).toMatchObject({ unstated: ["brick.1", "brick.2", "brick.3"], cure: null, edits: [] });
    const { out } = await ran(["check", "day.yaml"], { files: { "day.yaml": unstated("") } });
    expect(out).toContain("try: state the charge of brick.1, brick.2, brick.3 first: taken as empty");
    const power = await ran(["power", "day.yaml"], { files: { "day.yaml": unstated("") } });
    expect(power.out).toContain("What helps: state the charge of brick.1, brick.2, brick.3 first: taken as empty.");
    expect(power.out).not.toContain("No single change");
  });

  it("is not asked for where it is stated or no charge would help", async () => {
    for (const text of [unstated(", charge: 20%"), of("3 h").replace(", charge: 100%", "")]) {
      const [finding] = (await judgedText(text)).findings.filter(({ code }) => code === "hit-unpowered");
      expect(finding?.facts["unstated"]).toEqual([]);
    }
    expect((await judgedText(unstated(", charge: 100%"))).said("hit-unpowered")).toEqual([]);
  });
});

describe("spare packs", () => {
  const spares = async (packs: string): Promise<string | undefined> => {
    const text = BASE.replace("count: 3, wh: 98, mount: v, charge: 100%", packs);
    const { out } = await ran(["power", "day.yaml", "--width", "0"], { files: { "day.yaml": text } });
    return out.split("\n").find((one) => one.startsWith("Spare packs"));
  };

  it("are neither broken nor empty; below the reserve of 15 % a pack powers nothing", async () => {
    const wh = "wh: 98, mount: v, charge: [100%, 16%, 15%, 0%]";
    expect(await spares(wh)).toMatch(/^Spare packs: brick\.2\. At or below the reserve: brick\.3, brick\.4\. 15 % of/);
    const broken = 'count: 2, wh: 98, mount: v, charge: 100%, own: { brick.2: { broken: "00:00" } }';
    expect(await spares(broken)).toMatch(/^Spare packs: none\. Out of service: brick\.2\. /);
    const before = broken.replace('"00:00"', '{ from: "00:00", to: "05:00" }');
    expect(await spares(before)).toMatch(/^Spare packs: brick\.2\. 15 % of/);
  });
});
