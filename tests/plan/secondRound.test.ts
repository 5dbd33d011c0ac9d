/** Keys that came with the second round of the format: each is read into its typed field. Instants by hand: New York is UTC-5, Chicago UTC-6 in January. */
import { expect, test } from "vitest";
import { readOnePlan } from "../../src/plan/index.ts";
import type { Plan } from "../../src/plan/plan.ts";
import { isoUtc } from "../../src/time/format.ts";
import type { Instant } from "../../src/time/units.ts";
import { everything, smallest } from "./plans.ts";

async function planOf(text: string): Promise<Plan> {
  const { plan, findings } = await readOnePlan(text, { file: "day.yaml" });
  if (plan === null) throw new Error(findings.map(({ code, facts }) => `${code} ${JSON.stringify(facts)}`).join("; "));
  return plan;
}

const iso = (at: Instant | null | undefined): string | null => (at == null ? null : isoUtc(at));
const whole = await planOf(everything);

test("the day's own name, which no shared file gives", async () => {
  expect(whole.id).toBe("ore-2");
  expect((await planOf(smallest)).id).toBeNull();
  const files = { read: () => ({ kind: "text" as const, text: "id: shared\n" }) };
  const { plan, findings } = await readOnePlan(`uses: all.yaml\n${smallest}`, { file: "day.yaml", files });
  expect([findings, plan?.id]).toEqual([[], null]);
});

test("people: up, in bed, bound, away", () => {
  const [wren, bea] = [whole.crew.get("wren"), whole.crew.get("bea")];
  expect(iso(wren?.up)).toBe("2027-01-20T07:50Z");
  expect(wren?.inBed.map(({ from, to }) => [iso(from), iso(to)])).toEqual([["2027-01-20T02:30Z", "2027-01-20T07:40Z"]]);
  expect(wren?.rules).toEqual(["eu-working-time"]);
  expect(bea?.inBed.map(({ from, to }) => [iso(from), iso(to)])).toEqual([["2027-01-20T03:00Z", null]]);
  expect([iso(bea?.away?.from), iso(bea?.away?.to)]).toEqual(["2027-01-20T23:00Z", "2027-01-21T00:00Z"]);
  expect(whole.crew.get("tomas")).toMatchObject({ up: null, inBed: [], rules: [], away: null });
  expect(whole.contracts.get("day10")?.rules).toEqual(["california", "eu-working-time"]);
});

test("out of service: a vehicle, a path, a charger, one pack of several, a piece", () => {
  const stretches = [
    whole.vehicles.get("truck")?.broken,
    whole.paths.get("cell")?.broken,
    whole.paths.get("dish")?.broken,
    whole.chargers.get("bench")?.broken,
    whole.packs.get("brick.1")?.broken,
    whole.packs.get("brick.2")?.broken,
    whole.kit.get("cones")?.broken,
  ];
  expect(stretches.map((one) => one && [iso(one.from), iso(one.to)])).toEqual([
    ["2027-01-21T01:00Z", null],
    null,
    ["2027-01-20T15:00Z", null],
    ["2027-01-21T03:00Z", null],
    null,
    ["2027-01-20T11:00Z", null],
    ["2027-01-21T02:00Z", null],
  ]);
  expect(whole.vehicles.get("truck")?.keys).toBe("behind the desk");
});

test("places: opening hours past midnight, hospital, rooms, declination", () => {
  const { pier, inn, airport } = Object.fromEntries(whole.places);
  expect(pier?.open).toEqual([
    { fromMinute: 270, toMinute: 540 },
    { fromMinute: 600, toMinute: 1560 },
  ]);
  expect(airport?.open).toEqual([{ fromMinute: 330, toMinute: 1320 }]);
  expect(pier?.hospital).toEqual({ name: "St Ann", km: 12, phone: "0555 0102", address: "Main St 2" });
  expect(pier?.declination).toBe(-1);
  expect(inn?.rooms.map(({ who, nights, booking }) => [who, nights, booking])).toEqual([
    [["wren", "ilse"], ["2027-01-20", "2027-01-21"], "H-4711"],
    [["bea"], ["2027-01-20"], null],
  ]);
});

test.each([
  ['["16:00", "02:00"]', [{ fromMinute: 960, toMinute: 1560 }]],
  ['["16:00", "24:00"]', [{ fromMinute: 960, toMinute: 1440 }]],
  ['["00:00", "24:00"]', [{ fromMinute: 0, toMinute: 1440 }]],
])("open: %s", async (open, spans) => {
  const plan = await planOf(smallest.replace("-90.82]", `-90.82], open: ${open}`));
  expect(plan.places.get("pier")?.open).toEqual(spans);
});

test("a hospital as text is its name", async () => {
  const plan = await planOf(smallest.replace("-90.82]", "-90.82], hospital: St Ann 12 km"));
  expect(plan.places.get("pier")?.hospital).toEqual({ name: "St Ann 12 km", km: null, phone: null, address: null });
});

test("permits, one called after its place", () => {
  const { dock, street } = Object.fromEntries(whole.permits);
  expect([dock?.place, iso(dock?.from), iso(dock?.to)]).toEqual(["dock", "2027-01-20T11:00Z", "2027-01-21T02:00Z"]);
  expect(dock).toMatchObject({ what: "filming on the ice", holder: "Wren Ode", number: "0077" });
  expect([street?.place, street?.from, street?.to]).toEqual(["pier", null, null]);
});

test("ferries: a stop's, a ride's, a span's", () => {
  const ferry = whole.runs.get("truck")?.stops[2]?.ferry;
  // 17:00 at the dock and 18:10 at the inn, which is on Detroit's clock, UTC-5.
  expect([iso(ferry?.sail), iso(ferry?.land), ferry?.bunk]).toEqual(["2027-01-20T23:00Z", "2027-01-20T23:10Z", true]);
  expect(whole.rides.get("crossing")).toMatchObject({ by: "ferry", bunk: true });
  expect(whole.history.get("tomas")?.spans.map(({ is, bunk }) => [is, bunk])).toEqual([
    ["duty", false],
    ["driving", false],
    ["ferry", true],
  ]);
});

test("pieces of one kind in several vehicles, and when a rented one goes back", () => {
  const { cones, bracket } = Object.fromEntries(whole.kit);
  expect(cones).toMatchObject({ in: "truck", count: 6 });
  expect([...(cones?.bays ?? [])]).toEqual([
    ["truck", 2],
    ["wagon", 4],
  ]);
  expect([...(bracket?.bays ?? [])]).toEqual([["wagon", 1]]);
  expect([bracket?.due?.place, iso(bracket?.due?.at)]).toEqual(["airport", "2027-01-21T00:00Z"]);
});

test("house rules choreJoin and warmUp, and their defaults", async () => {
  expect([whole.rules.choreJoin, whole.rules.warmUp]).toEqual([20, 90]);
  const { rules } = await planOf(smallest);
  expect([rules.choreJoin, rules.warmUp]).toEqual([15, 60]);
});

test("what can be a fact", () => {
  const { people, activities, stops, packs, vehicles, pieces } = whole.actual;
  const wren = people.get("wren");
  expect([iso(wren?.up), iso(wren?.inBed[0]?.from), wren?.note]).toEqual([
    "2027-01-20T08:55Z",
    "2027-01-20T02:40Z",
    "woke twice",
  ]);
  expect(activities.get("dawn2")).toMatchObject({ signalPath: "cell", note: "dish iced", done: true });
  expect(stops.get("wagon.1")).toMatchObject({ driver: "tomas", arrived: null });
  expect(packs.get("brick.1")).toEqual({ charge: 0.35, at: null, in: null, note: null });
  expect(packs.get("brick.2")).toMatchObject({ charge: 0.4, in: "wagon" });
  expect(iso(packs.get("brick.2")?.at)).toBe("2027-01-20T11:25Z");
  expect(iso(vehicles.get("truck")?.fuelAt)).toBe("2027-01-20T11:50Z");
  expect(vehicles.get("truck")?.fuel).toBe(0.6);
  expect(pieces.get("monitor")).toEqual({ in: "wagon", note: "cracked" });
});
