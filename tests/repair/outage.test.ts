/**
 * What `repair` finds where something is out of service or somebody is away. Each fault has one way out that a crew lead would
 * name at once; expected edits are by hand, and each repair printed, applied, loses nothing and brings no error.
 */
import { describe, expect, it } from "vitest";
import { firstRepair } from "./problem.ts";

/** Wagon: home 06:20, pier for dawn, then the dock for noon, home. Truck, with the dish: the same way, on its own. */
const DAY = `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
history: { wren: { released: 2027-01-19T17:00-06:00 }, ilse: { released: 2027-01-19T17:00-06:00 }, tomas: { released: 2027-01-19T17:00-06:00 } }
crew:
  wren: { role: camera, drives: wagon }
  ilse: { role: reporter, drives: wagon }
  tomas: { role: engineer, drives: truck }
vehicles: { wagon: {}, truck: {} }
places:
  lodge: { kind: lodging, mains: true, signal: good }
  pier: { shelter: true, signal: good }
  dock: { shelter: true, signal: good }
  cove: { shelter: true, signal: good }
roads:
  - { link: [lodge, pier], drive: 30 min, bad: 35 min, km: 40 }
  - { link: [pier, dock], drive: 10 min, bad: 12 min, km: 8 }
  - { link: [dock, lodge], drive: 30 min, bad: 35 min, km: 40 }
  - { link: [cove, dock], drive: 10 min, bad: 12 min, km: 8 }
  - { link: [cove, lodge], drive: 20 min, bad: 22 min, km: 20 }
hits:
  dawn: { at: "07:00", for: 3 min, place: pier, path: cell }
  noon: { at: "11:00", for: 3 min, place: dock, path: net, who: [wren, ilse, tomas] }
paths: { cell: { kind: cellular }, net: { kind: wifi } }
runs:
  wagon: { driver: wren, aboard: [wren, ilse], stops: [lodge, { place: pier, do: [dawn] }, { place: dock, do: [noon] }, lodge] }
  truck: { driver: tomas, aboard: [tomas], stops: [lodge, { place: pier, do: [dawn] }, { place: dock, do: [noon] }, lodge] }
`;

const broken = (from: string, to: string): string => {
  expect(DAY).toContain(from);
  return DAY.replace(from, to);
};

const CASES: readonly (readonly [what: string, text: string, edits: readonly string[]])[] = [
  [
    "a truck that will be out of service, known before: it stays at home and tomas rides in the wagon",
    broken("truck: {} }", 'truck: { broken: "07:10" } }'),
    ["runs.truck=", "runs.wagon.stops[0]={ place: lodge, aboard: [wren, ilse, tomas] }", "crew.tomas.slept=lodge"],
  ],
  [
    "a truck that carries the dawn hit: it is left at the pier, and tomas goes on in the wagon",
    broken("truck: {} }", 'truck: { broken: "07:10" } }')
      .replace(
        'dawn: { at: "07:00", for: 3 min, place: pier, path: cell }',
        'dawn: { at: "07:00", for: 3 min, place: pier, path: mast }',
      )
      .replace("cell: {", "mast: { kind: wifi, vehicle: truck }, cell: {"),
    [
      "runs.truck.stops[3]=",
      "runs.truck.stops[2]=",
      "runs.wagon.stops[1].aboard=[wren, ilse, tomas]",
      "crew.tomas.slept=lodge",
    ],
  ],
  [
    "a path that is down: the other one carries",
    broken("net: { kind: wifi }", 'net: { kind: wifi, broken: "09:00" }'),
    ["hits.noon.path=cell"],
  ],
  [
    "a driver who is away: another one aboard drives, and the hit is made without",
    broken("wren: { role: camera, drives: wagon }", 'wren: { role: camera, drives: wagon, away: "08:00" }'),
    // The drive to the dock begins soon after dawn, and stays wren's.
    ["runs.wagon.stops[2].driver=ilse", "hits.noon.who=[ilse, tomas]"],
  ],
];

describe("what is out of service", () => {
  it.each(CASES)("%s", { timeout: 600_000 }, async (_, text, edits) => {
    const { codes, edits: found, first, after } = await firstRepair(text);
    expect([codes, after]).toEqual([["out-of-service"], []]);
    expect(found.toSorted()).toEqual(edits.toSorted());
    // It is still out of service, which is a note then: the repair clears the error.
    expect([first.clears.map(({ code }) => code), first.eases, first.left]).toEqual([["out-of-service"], [], 0]);
  });

  it("another vehicle fetches from where it does not stop", { timeout: 600_000 }, async () => {
    // The truck alone goes to the cove, where tomas has work; the wagon, on its way from the pier to the dock, comes by.
    const text = DAY.replace("truck: {} }", 'truck: { broken: "08:20" } }').replace(
      "[tomas], stops: [lodge, { place: pier, do: [dawn] }, { place: dock, do: [noon] }",
      "[tomas], stops: [lodge, { place: cove, do: [relay] }, { place: dock, do: [noon] }",
    );
    const roads = text.replace(
      "roads:",
      'tasks: { relay: { place: cove, for: 30 min, who: [tomas], window: ["07:50", "08:20"] } }\nroads:\n  - { link: [pier, cove], drive: 15 min, bad: 18 min, km: 12 }',
    );
    const { edits, first, after } = await firstRepair(roads);
    expect(after).toEqual([]);
    expect(edits).toEqual([
      "runs.truck.stops[3]=",
      "runs.truck.stops[2]=",
      "runs.wagon.stops[2]={ place: cove, aboard: [wren, ilse, tomas] }",
      "runs.wagon.stops[3]={ place: dock, do: [noon] }",
      "runs.wagon.stops[4]=lodge",
      // Two legs in two vehicles no longer say it.
      "crew.tomas.slept=lodge",
    ]);
    expect(first.left).toBe(0);
  });
});
