/** The times without duty round a day of which no release before is known, and what chores leave of them; by hand. */
import { expect, it } from "vitest";
import { restsOf } from "../../src/power/day/rests.ts";
import { instant } from "../../src/time/units.ts";
import { daysOf } from "./plans.ts";

const PLAN = `
daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew: { wren: { drives: wagon }, odo: { slept: lodge } }
vehicles: { wagon: {} }
places: { lodge: { kind: lodging }, pier: {} }
roads: [{ link: [lodge, pier], drive: 35 min, bad: 50 min }]
hits: { dawn: { at: "07:00", for: 3 min, place: pier } }
runs: { wagon: { driver: wren, aboard: [wren], stops: [lodge, pier, lodge] } }
`;

it("reach from long before to the call and from the release on, where the release before is not known", async () => {
  const [day] = await daysOf(PLAN);
  const wren = day?.people.find(({ id }) => id === "wren");
  const { call = null, release = null } = wren ?? {};
  if (day === undefined || call === null || release === null) throw new RangeError("no call");
  const rests = restsOf(day, new Map([["wren", { lawMinutes: 600, houseMinutes: 660 }]]));
  const span = (from: number, to: number) => ({ from: instant(from), to: instant(to) });
  const night = rests.restAt("wren", span(call - 3000, call - 2990));
  expect(night?.to).toBe(call);
  expect(night?.from).toBeLessThan(call - 100_000);
  expect(rests.restAt("wren", span(call - 1, call))?.to).toBe(call);
  expect(rests.restAt("wren", span(call, release))).toBeNull();
  const after = rests.restAt("wren", span(release, release + 1));
  expect(after?.from).toBe(release);
  expect(after?.to).toBeGreaterThan(release + 100_000);
  // No call, no release: nothing is known of odo's rest.
  expect(rests.restAt("odo", span(call - 100, call))).toBeNull();
  // 10 h by law, 11 by the house; a rest of 8 h must stay what it is by law, and may lose its ends by the house.
  if (night === null) return;
  expect([rests.needed("wren", night), rests.neededByLaw("wren", night)]).toEqual([660, 600]);
  const short = span(call - 480, call);
  expect([rests.needed("wren", short), rests.neededByLaw("wren", short)]).toEqual([480, 480]);
  const house = restsOf(day, new Map([["wren", { lawMinutes: null, houseMinutes: 660 }]]));
  // Twice the 15 minutes within which a chore joins a call or a release.
  expect([house.needed("wren", short), house.neededByLaw("wren", short)]).toEqual([450, 0]);
  expect([rests.needed("ilse", short), rests.neededByLaw("ilse", short)]).toEqual([0, 0]);
  // A chore from 3 h to 2 h 50 before the call leaves those; one that joins the call takes its minutes.
  expect(rests.kept(night, [span(call - 180, call - 170)])).toBe(170);
  expect(rests.kept(short, [span(call - 20, call - 15)])).toBe(460);
  expect(rests.kept(short, [span(call - 20, call - 16)])).toBe(16);
  expect([rests.joins(short, span(call - 20, call - 15)), rests.joins(short, span(call - 20, call - 16))]).toEqual([
    true,
    false,
  ]);
});
