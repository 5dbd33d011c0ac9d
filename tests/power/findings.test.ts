/** Each finding of the batteries: the plan that raises it at the limit, and the same a little better that does not. By hand. */
import { describe, expect, it } from "vitest";
import { codesOf } from "../../src/findings/catalogue.ts";
import type { Finding } from "../../src/findings/finding.ts";
import * as power from "../../src/power/findings.ts";
import { assess } from "../../src/power/index.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import { daysOf } from "./plans.ts";

interface Parts {
  readonly packs?: string;
  readonly kit?: string;
  readonly chargers?: string;
  readonly wagon?: string;
  readonly hits?: string;
  readonly more?: string;
}

/** One hit at 07:00 New York; the camera draws from the line check at 06:40 until 07:13, 33 minutes. No mains on the way. */
const plan = ({ packs, kit, chargers, wagon, hits, more }: Parts): string => `
daywright: 1
date: 2027-01-20
clock: America/New_York
zone: America/Chicago
crew:
  wren: { role: camera, drives: wagon }
  ilse: { role: reporter }
vehicles: { wagon: { ${wagon ?? ""} } }
places: { lodge: { kind: lodging, mains: true }, pier: {}, airport: {} }
roads: [{ link: [lodge, pier], drive: 35 min, bad: 50 min }]
hits: { ${hits ?? 'dawn: { at: "07:00", for: 3 min, place: pier }'} }
kit: { ${kit ?? "camera: { in: wagon, watts: 40, mount: wedge, during: hits }"} }
packs: { ${packs ?? "brick: { wh: 100, mount: wedge, charge: 100%, in: wagon }"} }
chargers: { ${chargers ?? ""} }
runs: { wagon: { aboard: [wren, ilse], stops: [lodge, pier, lodge] } }
${more ?? ""}
`;

async function judged(parts: Parts): Promise<readonly Finding[]> {
  return (await assess({ days: await daysOf(plan(parts)), patience: 1, now: null }, null)).findings;
}

const FROST = "weather: [{ temp: -14 C }]";
const FLIGHT =
  'rides: { flight: { from: lodge, to: airport, leave: "12:00", arrive: "14:00", who: [wren], lead: 1 h, by: air } }';
const bench = (watts: number): string => `bench: { mount: wedge, slots: 3, watts: ${watts}, in: wagon }`;
const brick = (charge: string): string => `brick: { wh: 100, mount: wedge, charge: ${charge}, in: wagon }`;
const twoHits = 'dawn: { at: { from: "07:00", every: 60 min, times: 2 }, for: 3 min, place: pier }';

const LIMITS: readonly (readonly [code: string, worse: Parts, better: Parts])[] = [
  // 40 W for 33 min = 22 Wh; with 15 % of 100 Wh in reserve 37 Wh are needed.
  [
    "hit-unpowered",
    { packs: "brick: { wh: 100, mount: wedge, charge: 36.9%, in: wagon }" },
    { packs: "brick: { wh: 100, mount: wedge, charge: 37%, in: wagon }" },
  ],
  // At -14 °C a pack gives 0.67: 32.84 Wh; the reserve is 25 %: 57.84 Wh.
  [
    "hit-unpowered",
    { packs: "brick: { wh: 100, mount: wedge, charge: 57.8%, in: wagon }", more: FROST },
    { packs: "brick: { wh: 100, mount: wedge, charge: 57.9%, in: wagon }", more: FROST },
  ],
  // Two hits an hour apart: 06:40 to 07:03, then 07:50 to 08:13 New York: 46 min, 30.67 Wh, and the reserve.
  ["hit-unpowered", { hits: twoHits, packs: brick("45.6%") }, { hits: twoHits, packs: brick("45.7%") }],
  // One of the two alone needs 15.33 Wh, and the reserve.
  ["hit-left-out", { hits: twoHits, packs: brick("30.3%") }, { hits: twoHits, packs: brick("30.4%") }],
  // 30 W for 46 min, and between the hits 12 W for 47 min: 32.4 Wh and the reserve.
  ["standby-unpowered", standbyWith("47.3%"), standbyWith("47.4%")],
  ["pack-charge-unstated", { packs: "brick: { wh: 100, mount: wedge, in: wagon }" }, {}],
  ["load-fits-no-pack", { kit: "camera: { in: wagon, watts: 40, mount: plate, during: hits }" }, {}],
  // The camera and the charger have wedge, and nothing has wegde.
  [
    "packs-fit-nothing",
    { packs: "brick: { wh: 100, mount: wegde, charge: 100%, in: wagon }", chargers: bench(60) },
    { chargers: bench(60) },
  ],
  ["load-without-mount", { kit: "camera: { in: wagon, watts: 40, during: hits }" }, {}],
  [
    "charger-fits-no-pack",
    { chargers: "bench: { mount: plate, slots: 3, watts: 60, in: wagon }" },
    { chargers: bench(60) },
  ],
  [
    "charger-over-inverter",
    { chargers: bench(51), wagon: "inverter: 150 W" },
    { chargers: bench(50), wagon: "inverter: 150 W" },
  ],
  [
    "charger-in-frost",
    { chargers: bench(50), wagon: "inverter: 150 W", more: FROST },
    { chargers: bench(50), wagon: "inverter: 150 W, inside: 0 C", more: FROST },
  ],
  [
    "charger-in-heat",
    { chargers: bench(50), wagon: "inverter: 150 W", more: "weather: [{ temp: 45.1 C }]" },
    { chargers: bench(50), wagon: "inverter: 150 W", more: "weather: [{ temp: 45 C }]" },
  ],
  ["packs-beyond-table", { more: "weather: [{ temp: -20.1 C }]" }, { more: "weather: [{ temp: -20 C }]" }],
  [
    "packs-not-for-cabin",
    { packs: "brick: { count: 3, wh: 100.1, mount: wedge, charge: 100%, in: wagon }", more: FLIGHT },
    { packs: "brick: { count: 3, wh: 100, mount: wedge, charge: 100%, in: wagon }", more: FLIGHT },
  ],
];

function standbyWith(charge: string): Parts {
  return {
    hits: twoHits,
    kit: "camera: { in: wagon, watts: 30, standby: 12 W, mount: wedge, during: hits }",
    packs: `brick: { wh: 100, mount: wedge, charge: ${charge}, in: wagon }`,
  };
}

describe("findings of the batteries", () => {
  it.each(LIMITS)("%s, and a little better not", async (code, worse, better) => {
    const found = await judged(worse);
    expect(found.map((one) => one.code)).toContain(code);
    expect((await judged(better)).map((one) => one.code)).not.toContain(code);
    const [one] = found.filter((finding) => finding.code === code);
    expect(one?.sentence(plainWording)).not.toMatch(/undefined|NaN|null|\[object/);
  });

  it.each([
    ["load-fits-no-pack", { kit: "camera: { in: wagon, watts: 40, mount: wegde, during: hits }" }],
    ["charger-fits-no-pack", { chargers: "bench: { mount: wegde, slots: 3, watts: 60, in: wagon }" }],
  ])("%s names the packs' mount where it is near", async (code, parts) => {
    const found = (await judged(parts)).find((one) => one.code === code);
    expect(found?.hint(plainWording)).toBe("`mount: wedge`, as the packs have it");
  });

  it("a slip at the packs is marked there, and not at what it was meant to fit; one thing alone is as likely wrong", async () => {
    const packs = "brick: { wh: 100, mount: wegde, charge: 100%, in: wagon }";
    const codes = async (parts: Parameters<typeof judged>[0]) => (await judged(parts)).map(({ code }) => code);
    const both = await judged({ packs, chargers: bench(60) });
    expect(both.map(({ code }) => code)).toEqual(["packs-fit-nothing"]);
    expect(both[0]?.path).toEqual(["packs", "brick", "mount"]);
    expect(both[0]?.hint(plainWording)).toBe("`mount: wedge`, as pieces and chargers have it");
    expect(await codes({ packs, chargers: "" })).toEqual(["load-fits-no-pack"]);
    const far = "brick: { wh: 100, mount: plate, charge: 100%, in: wagon }";
    expect(await codes({ packs: far, chargers: bench(60) })).toEqual(["load-fits-no-pack", "charger-fits-no-pack"]);
  });

  it("has a limit for every code but those that need a search past its budget and a day before", () => {
    const tried = new Set(LIMITS.map(([code]) => code));
    expect(
      codesOf(power)
        .map((one) => one.code)
        .filter((code) => !tried.has(code)),
    ).toEqual(["power-undecided", "pack-charge-restated"]);
  });

  it("says how much is missing: 37 Wh needed, 30 Wh there", async () => {
    const [one] = await judged({ packs: "brick: { wh: 100, mount: wedge, charge: 30%, in: wagon }" });
    expect(one?.facts["missingWh"]).toBeCloseTo(7, 0);
    expect(one?.hint(plainWording)).toContain("one more pack (brick) at");
  });

  it("asks nothing of the gear of a spare path while the main one carries the hit", async () => {
    const carried = (path: string, spare: string): Parts => ({
      kit: "unit: { in: wagon, watts: 40, mount: wedge, during: cell }",
      packs: brick("36.9%"),
      hits: `dawn: { at: "07:00", for: 3 min, place: pier, path: ${path}, spare: ${spare} }`,
      more: "paths: { cell: { kind: cellular }, net: { kind: wifi } }",
    });
    expect((await judged(carried("cell", "net"))).map((one) => one.code)).toContain("hit-unpowered");
    expect((await judged(carried("net", "cell"))).map((one) => one.code)).not.toContain("hit-unpowered");
  });

  it("says of a charger that draws too much that alone, in frost and in heat too", async () => {
    const codes = async (watts: number, celsius: number) =>
      (await judged({ chargers: bench(watts), wagon: "inverter: 150 W", more: `weather: [{ temp: ${celsius} C }]` }))
        .map(({ code }) => code)
        .filter((code) => code.startsWith("charger"));
    // Three slots of 60 W are 180, of 50 W 150.
    expect([await codes(60, -14), await codes(60, 46)]).toEqual([["charger-over-inverter"], ["charger-over-inverter"]]);
    expect([await codes(50, -14), await codes(50, 46)]).toEqual([["charger-in-frost"], ["charger-in-heat"]]);
  });

  it("names what a stand-by cannot go together with: hits by their names, and itself by its load", async () => {
    // 23 Wh of both hits and 9.4 between them: without any of the three 47.3 % would do.
    const found = (await judged(standbyWith("47.3%"))).find(({ code }) => code === "standby-unpowered");
    expect(found?.facts["blocking"]).toEqual(["dawn.1", "dawn.2", "camera.standby.1"]);
  });

  it("asks nothing of a piece that is not there", async () => {
    const away = await judged({ kit: "camera: { in: lodge, watts: 40, mount: wedge, during: [dawn] }" });
    expect(away.map((one) => one.code)).toEqual([]);
  });

  const sentence = async (parts: Parts): Promise<string> =>
    (await judged(parts)).find((one) => one.code === "hit-unpowered")?.sentence(plainWording) ?? "";

  it("names what is short, and by how much", async () => {
    // Three cameras at once, one pack.
    const three = "camera: { in: wagon, watts: 40, mount: wedge, during: hits, count: 3 }";
    expect(await sentence({ kit: three })).toContain("3 packs are needed at once, there is 1: 2 short");
    // 37 Wh needed, 30 there; no charger, then one on no mains (the wagon stands at the pier, the lodge has them only at night).
    expect(await sentence({ packs: brick("30%") })).toMatch(/: 7 Wh short, and the plan has no charger$/);
    const pier = "bench: { mount: wedge, slots: 1, watts: 60, in: pier }";
    expect(await sentence({ packs: brick("30%"), chargers: pier })).toMatch(
      /: 7 Wh short, and until then no charger has mains or a running engine$/,
    );
    // The pack lies in a vehicle of its own that nobody comes to: no charge helps.
    const parked = "brick: { wh: 100, mount: wedge, charge: 100%, in: lodge }";
    const away = { packs: parked, kit: "camera: { in: pier, watts: 40, mount: wedge, during: hits }" };
    expect(await sentence(away)).toMatch(
      /: no charge would help: at none of the \d+ moments at which someone is free can/,
    );
  });

  // Up at 05:00, on mains until the wagon rolls; 5 Wh at first, 37 Wh needed: what one slot of 60 W does not make good.
  it("tells the charging there is and how much longer it would take", async () => {
    const weak = { packs: brick("5%"), chargers: bench(6) };
    const told = await sentence(weak);
    const [, lacks, longer] =
      /: (\d+) Wh short, about (.+) more in a charger; until then the 3 slots have power for .+$/.exec(told) ?? [];
    expect(Number(lacks)).toBeGreaterThan(0);
    // At 6 W ten minutes are one Wh; the shortage is told rounded up, the time from what it is.
    const minutes = /^(?:(\d+) h ?)?(?:(\d+) min)?$/.exec(longer ?? "");
    const total = Number(minutes?.[1] ?? 0) * 60 + Number(minutes?.[2] ?? 0);
    expect(total).toBeGreaterThan((Number(lacks) - 1) * 10);
    expect(total).toBeLessThanOrEqual(Number(lacks) * 10);
  });
});
