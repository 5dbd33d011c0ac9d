/**
 * A hit that two vehicles come to and no stop lists is everyone's. An edit that lists it at one of them would take it from the
 * people of the other: whatever is suggested or found leaves each hit with whom it had.
 */
import { beforeAll, describe, expect, it } from "vitest";
import { type Repairs, repairsOf } from "../../src/repair/index.ts";
import { fillUpAt } from "../../src/repair/kinds/things.ts";
import { leavesSomeoneOut } from "../../src/repair/standing.ts";
import { suggestedEdits } from "../../src/repair/suggested.ts";
import { doEdits } from "../../src/repair/writing.ts";
import { finding } from "./finding.ts";
import { editText, type Posed, posed } from "./posed.ts";

/** Both vehicles are at the bluff for the second hit; everybody works longer than six hours and waits on the way. */
const DAY = `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew:
  wren: { role: camera, drives: wagon }
  ilse: { role: reporter }
  sam: { role: uplink engineer, drives: truck }
vehicles: { wagon: { range: 400 km, fuel: 90% }, truck: {} }
places: { lodge: { kind: lodging }, pier: {}, bluff: {} }
roads:
  - { link: [lodge, pier], drive: 10 min, bad: 10 min, km: 8 }
  - { link: [lodge, bluff], drive: 40 min, bad: 40 min, km: 40 }
  - { link: [pier, bluff], drive: 40 min, bad: 40 min, km: 40 }
hits:
  early: { at: "01:30", for: 4 min, place: pier }
  sunrise: { at: "07:00", for: 3 min, place: bluff }
history:
  wren: { released: 2027-01-19T12:00-06:00 }
  ilse: { released: 2027-01-19T12:00-06:00 }
  sam: { released: 2027-01-19T12:00-06:00 }
runs:
  wagon: { driver: wren, aboard: [wren, ilse], stops: [lodge, pier, lodge, bluff, lodge] }
  truck: { driver: sam, aboard: [sam], stops: [lodge, pier, bluff, lodge] }
`;

describe("a hit of two vehicles that no stop lists", () => {
  let plan: Posed;
  let found: Repairs;

  beforeAll(async () => {
    const one = await posed("day.yaml", DAY);
    if (one === null) throw new Error("refused");
    plan = one;
    const targets = plan.now.findings.filter(({ code }) => code === "meal-late");
    found = await repairsOf({ now: plan.now, text: DAY, targets }, plan.judgeEdits, { patience: 1, most: 5 });
  });

  const attendance = ({ now: { day } }: Pick<Posed, "now">) => day.activities.map(({ id, who }) => [id, who]);
  const stopAt = (vehicle: string, place: string) =>
    plan.now.day.stops.find((one) => one.vehicle === vehicle && one.place === place);

  it("is everyone's", () => {
    expect(attendance(plan)).toEqual([
      ["early", ["wren", "ilse", "sam"]],
      ["sunrise", ["wren", "ilse", "sam"]],
    ]);
  });

  it("keeps its people in every repair, and two meals can be had in one", () => {
    expect(found.repairs.length).toBeGreaterThan(0);
    for (const { outcome } of found.repairs)
      expect(attendance({ now: outcome }).filter(([id]) => id === "early" || id === "sunrise")).toEqual(
        attendance(plan),
      );
    // Sam waits at the bluff, the others at the lodge.
    expect(found.repairs[0]?.left).toBe(0);
    expect(found.repairs[0]?.edits.filter(({ path }) => path[0] === "tasks").length).toBe(2);
  });

  it("keeps them where a meal is suggested and made", async () => {
    const hungry = plan.now.findings.find(({ code, who }) => code === "meal-late" && who === "sam");
    const [edits = []] = hungry === undefined ? [] : (suggestedEdits(plan.now, DAY, hungry) ?? []);
    expect(editText(edits)).toMatch(/truck\.stops\.2=\{ place: bluff, do: \[meal, sunrise\] \}/u);
    expect(editText(edits)).toMatch(/wagon\.stops\.3=\{ place: bluff, do: \[sunrise\] \}/u);
    const after = await plan.judgeEdits(edits);
    expect(after?.day.activities.find(({ id }) => id === "sunrise")?.who).toEqual(["wren", "ilse", "sam"]);
  });

  it("keeps them where a vehicle fills up or an order is stated", () => {
    const bluff = stopAt("wagon", "bluff");
    if (bluff === undefined) throw new Error("no stop");
    expect(editText(fillUpAt(plan.now.day, DAY, bluff, []) ?? [])).toMatch(
      /truck\.stops\.2=\{ place: bluff, do: \[sunrise\]/u,
    );
    const order = finding({ code: "order-unstated", facts: { missed: null, stop: bluff.stop.id, order: ["sunrise"] } });
    const [stated = []] = suggestedEdits(plan.now, DAY, order) ?? [];
    expect(stated.length).toBe(2);
  });

  it("is not listed where one of its stops stands in another file", () => {
    const pier = stopAt("wagon", "pier");
    if (pier === undefined) throw new Error("no stop");
    const cut = DAY.slice(0, DAY.indexOf("  truck: { driver"));
    expect(doEdits(plan.now.day, DAY, new Map([[pier.stop, ["early"]]]))?.length).toBe(2);
    expect(doEdits(plan.now.day, cut, new Map([[pier.stop, ["early"]]]))).toBe(null);
  });

  it("with fewer people than planned is no way out, with as many or missed it may be", async () => {
    const before = plan.now.day;
    const less = await plan.judgeEdits([
      { path: ["runs", "truck", "stops", 2], value: "{ place: bluff, do: [sunrise] }" },
    ]);
    const other = await plan.judgeEdits([{ path: ["hits", "sunrise", "at"], value: '"07:30"' }]);
    const gone = await plan.judgeEdits([{ path: ["hits", "sunrise"], value: null }]);
    expect([less, other, gone].map((one) => one !== null && leavesSomeoneOut(before, one.day))).toEqual([
      true,
      false,
      false,
    ]);
  });
});
