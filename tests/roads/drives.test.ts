import { describe, expect, it } from "vitest";
import type { Day } from "../../src/day/day.ts";
import { legKey } from "../../src/legs/leg.ts";
import { featureCollection } from "../../src/render/forms/geojson.ts";
import { toGpx, xmlText } from "../../src/render/forms/gpx.ts";
import { drivesReport } from "../../src/reports/drives/index.ts";
import { dayMap } from "../../src/reports/drives/map.ts";
import type { DrivesInput } from "../../src/reports/drives/rows.ts";
import type { Json, Table } from "../../src/reports/shared/view.ts";
import { assess } from "../../src/roads/assess.ts";
import { gapsOf } from "../../src/roads/gaps.ts";
import { ran } from "../cli/fakeIo.ts";
import { SMALLEST } from "../cli/plans.ts";
import { byId, leg, place, road, run, stop, vehicle } from "../day/parts.ts";
import { inputFor } from "../reports/inputFor.ts";
import { at, day, type Trip } from "./days.ts";

const wagon: Trip = {
  vehicle: "wagon",
  people: ["wren", "ilse"],
  leave: at(600),
  way: [
    [leg("lodge", "pier", 35, 50, { km: 41.04, noSignal: true }), "bad", { wait: 20, work: 40, hit: "dawn" }],
    [
      leg("pier", "point", 31.4, null, {
        km: 30.6,
        basis: "estimated",
        range: { lowMinutes: 26.7, highMinutes: 44.2 },
      }),
      "drive",
      { wait: 45, work: 200, hit: "noon" },
    ],
    [leg("point", "inn", 20, 30), "drive", {}],
  ],
};
const made = day(
  [
    wagon,
    {
      vehicle: "truck",
      people: ["tomas"],
      leave: at(590),
      way: [[leg("lodge", "pier", 40, 60), "bad", { hit: "dawn" }]],
    },
  ],
  {
    places: byId(
      place("lodge", { at: { latitude: 46.6, longitude: -90.88 } }),
      place("pier", { at: { latitude: 46.81, longitude: -90.82 } }),
      place("point"),
      place("inn"),
      place("bluff"),
    ),
    roads: [
      road("pier", "bluff", { driveMinutes: 25, badMinutes: 40 }),
      road("bluff", "point", { driveMinutes: 20, badMinutes: 35 }),
    ],
    vehicles: byId(vehicle("wagon", { rangeKm: 400, fuel: 0.5 })),
    runs: byId(run("wagon", [], { stops: [stop("wagon.1", "lodge"), stop("wagon.2", "pier", { do: ["dawn"] })] })),
  },
);

async function report(parts: Partial<DrivesInput> = {}, of: Day = made) {
  const { result, findings } = assess({ days: [of], patience: 1, now: null });
  const gaps = await gapsOf(of);
  return drivesReport({ ...inputFor(of), result, findings, gaps, relief: null, wanted: null, ...parts });
}

type Fields = { readonly [key: string]: Json };
const isFields = (value: Json | undefined): value is Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const rows = (data: Json, key: string): readonly Fields[] => {
  const list = isFields(data) ? data[key] : undefined;
  return Array.isArray(list) ? list.filter(isFields) : [];
};

describe("the JSON of `drives`", () => {
  it("has every documented key, in order, then ours", async () => {
    const { data } = await report();
    expect(Object.keys(data ?? {})).toEqual(["legs", "gaps", "hits", "waits", "noSignal", "fuel", "relief"]);
    expect(Object.keys(rows(data, "legs")[0] ?? {})).toEqual([
      "vehicle",
      "from",
      "to",
      "km",
      "likelyMinutes",
      "badMinutes",
      "basis",
      "leaveBy",
      "slackMinutes",
      "chance",
      "chanceIndependent",
      "chanceSameLuck",
      "id",
      "hit",
      "chanceIndependentHigh",
      "leaveByChance",
      "leave",
      "arrive",
      "plannedMinutes",
      "plannedAt",
      "range",
      "noSignal",
      "dark",
      "ferry",
    ]);
    expect(Object.keys(rows(data, "gaps")[0] ?? {})).toEqual([
      "vehicle",
      "from",
      "to",
      "place",
      "stayMinutes",
      "turnBack",
      "basis",
      "outMinutes",
      "backMinutes",
      "km",
      "farthest",
      "planned",
      "plannedMinutes",
    ]);
  });

  it("gives legs in time order with both bounds, the same luck, and the smaller", async () => {
    const legs = rows((await report()).data, "legs");
    expect(legs.map(({ id, hit }) => [id, hit])).toEqual([
      ["truck.1", "dawn"],
      ["wagon.1", "dawn"],
      ["wagon.2", "noon"],
      ["wagon.3", null],
    ]);
    expect(legs[0]).toMatchObject({ chance: 0.95, chanceIndependent: 0.95, chanceSameLuck: 0.95 });
    expect(legs[2]).toMatchObject({
      km: 30.6,
      likelyMinutes: 32,
      basis: "estimated",
      range: { lowMinutes: 26, highMinutes: 45 },
    });
    expect(legs[3]).toMatchObject({
      chance: null,
      chanceIndependent: null,
      chanceSameLuck: null,
      km: null,
      leaveBy: null,
      slackMinutes: null,
    });
  });

  it("multiplies two vehicles at one hit and says that this is a lower bound", async () => {
    const [dawn] = rows((await report()).data, "hits");
    expect(dawn).toMatchObject({ id: "dawn", lowerBound: true });
    expect(Number(dawn?.["chance"])).toBeLessThan(0.95);
  });

  it("says when to leave for a wanted chance, and nothing where none is wanted", async () => {
    const of = async (wanted: number | null) => rows((await report({ wanted })).data, "legs")[1]?.["leaveByChance"];
    expect(await of(null)).toBeNull();
    expect(await of(0.95)).toBe("2027-01-20T04:20-06:00"); // 20 minutes of wait after a bad drive, 10:00Z + 20
  });

  it("of one person keeps their legs, hits, waits and vehicles", async () => {
    const { data } = await report({ person: "tomas" });
    expect(rows(data, "legs").map(({ id }) => id)).toEqual(["truck.1"]);
    expect(rows(data, "hits").map(({ id }) => id)).toEqual(["dawn"]);
    expect(rows(data, "noSignal")).toEqual([]);
    expect(rows(data, "fuel")).toEqual([]);
  });
});

describe("the tables of `drives`", () => {
  it("have as many cells in each row as columns, none empty of meaning", async () => {
    const tables = (await report({ wanted: 0.9 })).blocks.filter((block): block is Table => block.kind === "table");
    expect(tables.map(({ title }) => title)).toEqual([
      "Drives",
      "Chance to be in position",
      "Gaps between hits",
      "Waits",
      "Out of reach",
      "Fuel, as range",
    ]);
    for (const { rows: lines, columns } of tables) for (const line of lines) expect(line).toHaveLength(columns.length);
  });

  it("label an estimate with its range wherever its figure stands", async () => {
    const [legs] = (await report()).blocks.filter((block): block is Table => block.kind === "table");
    expect(legs?.rows[2]?.map(({ text }) => text)).toContain("32 min, estimated (26 min to 45 min)");
  });
});

describe("the map", () => {
  const shape = {
    minutes: 35,
    km: 41,
    line: [
      [-90.88, 46.6],
      [-90.85, 46.7],
      [-90.82, 46.81],
    ] as const,
  };

  it("as GeoJSON: longitude first, straight lines said to be so", () => {
    const map = featureCollection(dayMap(made));
    expect(map).toMatchObject({ type: "FeatureCollection" });
    const features = rows(map, "features");
    expect(features[0]).toMatchObject({
      geometry: { type: "Point", coordinates: [-90.88, 46.6] },
      properties: { kind: "place", id: "lodge" },
    });
    const drive = features.find(({ properties }) => isFields(properties) && properties["id"] === "wagon.1");
    expect(drive).toMatchObject({
      geometry: {
        type: "LineString",
        coordinates: [
          [-90.88, 46.6],
          [-90.82, 46.81],
        ],
      },
      properties: { straight: true, note: "a straight line: the road is not known", leave: "2027-01-20T04:00-06:00" },
    });
  });

  it("follows the road where a routing server gave its shape", () => {
    const routed = new Map([[legKey("lodge", "pier"), shape]]);
    const features = rows(featureCollection(dayMap(made, routed)), "features");
    const drive = features.find(({ properties }) => isFields(properties) && properties["id"] === "wagon.1");
    expect(drive).toMatchObject({ geometry: { coordinates: shape.line }, properties: { straight: false, note: null } });
    const text = toGpx(dayMap(made, routed));
    expect(text).toContain('<trkpt lat="46.700000" lon="-90.850000"/>');
    expect(text).not.toContain("straight");
  });

  it("as GPX: waypoints, and routes of two points for straight lines", () => {
    const text = toGpx(dayMap(made));
    expect(text).toContain('<wpt lat="46.600000" lon="-90.880000"><name>lodge</name></wpt>');
    expect(text).toContain("<name>wagon: lodge to pier</name><desc>a straight line: the road is not known</desc>");
    expect(text.match(/<rtept /g)).toHaveLength(4);
    expect(text.endsWith("</gpx>\n")).toBe(true);
  });

  it("names what is not on it, on standard error: places that the day comes to without coordinates", async () => {
    // `bluff` is on the way of nobody.
    expect(dayMap(made).without).toEqual(["point", "inn"]);
    const bare = SMALLEST.replace("pier:  { at: [46.81, -90.82] }", "pier:  {}");
    for (const form of ["geojson", "gpx"]) {
      const { code, out, err } = await ran(["drives", "day.yaml", "--format", form], { files: { "day.yaml": bare } });
      expect(code).toBe(0);
      expect(out).toContain("lodge");
      expect(err).toContain(
        "day.yaml: not on the map, without coordinates: pier\n  try: pier: { at: [latitude, longitude] } under `places`\n",
      );
    }
    const whole = await ran(["drives", "day.yaml", "--format", "gpx"], { files: { "day.yaml": SMALLEST } });
    expect(whole.err).not.toContain("coordinates");
  });

  it("makes hostile names inert", () => {
    expect(xmlText(`<a href="x">&'\u0000\u001b\u202e]]>`)).toBe(
      "&lt;a href=&quot;x&quot;&gt;&amp;&apos;\ufffd\ufffd\ufffd]]&gt;",
    );
    const named = { ...made, plan: { ...made.plan, title: "</name><wpt/>" } };
    expect(toGpx(dayMap(named))).toContain("<name>&lt;/name&gt;&lt;wpt/&gt;, 2027-01-20</name>");
  });
});
