/** What outages take from random days, against a second reading in one pass. */
import { expect, it } from "vitest";
import type { Day } from "../../../src/day/day.ts";
import { lossOf, type ServiceOutage } from "../../../src/day/outage/outage.ts";
import { instant } from "../../../src/time/units.ts";
import { solved } from "../../agreement/days.ts";
import { type Entries, randomPlan } from "../../agreement/randomPlan.ts";
import { runs } from "../../fuzz.ts";
import { random } from "../random.ts";
import { leftOf } from "./outage.ts";

/** With two paths, one of them of a vehicle, on hits here and there. */
function withPaths(plan: Entries, dice: (below: number) => number): Entries {
  const vehicles = Object.keys(Object(plan["vehicles"]));
  const hits = Object.entries(Object(plan["hits"])).map(([id, hit]) => [
    id,
    { ...Object(hit), ...[{}, { path: "dish" }, { path: "dish", spare: "cell" }, { path: "cell" }][dice(4)] },
  ]);
  const dish = { kind: "satellite", vehicle: vehicles[dice(vehicles.length)] ?? "v0" };
  return { ...plan, hits: Object.fromEntries(hits), paths: { dish, cell: { kind: "cellular" } } };
}

function randomOutages({ plan, people, span }: Day, dice: (below: number) => number): readonly ServiceOutage[] {
  const all: ServiceOutage[] = [];
  const kinds = { vehicle: [...plan.runs.keys()], path: [...plan.paths.keys()], person: people.map(({ id }) => id) };
  for (let n = 1 + dice(2); n > 0; n--) {
    const kind = (["vehicle", "path", "person"] as const)[dice(3)] ?? "vehicle";
    const id = kinds[kind][dice(kinds[kind].length)];
    const from = instant(span.from + dice(span.to - span.from));
    const to = dice(2) === 0 ? null : instant(from + 1 + dice(240));
    if (id !== undefined && all.every((one) => one.id !== id)) all.push({ kind, id, during: { from, to } });
  }
  return all;
}

it("the same is lost, left where it is, and ridden by the same people", async () => {
  let [lost, stranded, stands, roads, spared, kept] = [0, 0, 0, 0, 0, 0];
  for (let seed = 1; seed <= Math.max(40, runs(60, 5000)); seed++) {
    const dice = random(seed ^ 0x0a7);
    const one = await solved(withPaths(randomPlan(seed), dice));
    if (one === null) continue;
    const { day } = one;
    for (let n = 0; n < 8; n++) {
      const outages = randomOutages(day, dice);
      for (const outage of outages) {
        const mine = leftOf(day, day.plan, outage, outages);
        const loss = lossOf(day, day.plan, outage, outages);
        const told = `seed ${seed}, ${JSON.stringify(outages)}`;
        const found = {
          lost: loss.lost,
          stranded: Object.fromEntries(loss.stranded),
          place: loss.place,
          road: loss.road,
          standing: Object.fromEntries(loss.standing),
          from: loss.from,
          stops: Object.fromEntries([...loss.plan.runs].map(([id, { stops }]) => [id, stops.length])),
        };
        const { riders, ...others } = mine;
        expect(found, told).toEqual(others);
        // What is left of the plan: no lost activity, the people who are aboard, the spare path where the main one is out.
        const left = [...loss.plan.hits.keys(), ...loss.plan.tasks.keys()];
        const all = [...day.plan.hits.keys(), ...day.plan.tasks.keys()];
        expect(left, told).toEqual(all.filter((id) => !mine.lost.includes(id)));
        for (const { vehicle, stops } of loss.plan.runs.values())
          for (const [index, stop] of stops.entries()) {
            expect(
              (stop.do ?? []).filter((id) => mine.lost.includes(id)),
              told,
            ).toEqual([]);
            const was = day.plan.runs.get(vehicle)?.stops[index];
            expect(stop.do, told).toEqual(was?.do?.filter((id) => !mine.lost.includes(id)) ?? null);
            const aboard = riders[stop.id];
            if (aboard !== undefined && index + 1 < stops.length)
              expect(stop.aboard, `${told} ${stop.id}`).toEqual(aboard);
          }
        // A run that lost something leaves when it did, which that may have fixed.
        for (const { vehicle, stops } of loss.plan.runs.values()) {
          const was = day.plan.runs.get(vehicle)?.stops ?? [];
          const own = new Set(was.map(({ id }) => id));
          const isPoorer = day.activities.some(
            ({ id, stops: of }) => mine.lost.includes(id) && of.some((stop) => own.has(stop)),
          );
          const [first] = was;
          const left = day.moves.find(({ id }) => id === first?.id)?.leave ?? null;
          const isFree = isPoorer && stops.length > 1 && first?.leave === null && first.ferry === null;
          expect(stops[0]?.leave, `${told} ${vehicle}`).toBe(isFree ? left : first?.leave);
          if (isFree) kept++;
        }
        for (const hit of loss.plan.hits.values()) {
          const start = day.activities.find(({ id }) => id === hit.id)?.start ?? null;
          const was = day.plan.hits.get(hit.id);
          const out = outages.some(
            ({ kind, id, during }) =>
              kind === "path" &&
              id === was?.signalPath &&
              start !== null &&
              during.from <= start &&
              (during.to === null || start < during.to),
          );
          const spare = was?.spare ?? null;
          const isSpareOut = outages.some(
            ({ kind, id, during }) =>
              kind === "path" && id === spare && start !== null && during.from <= start && (during.to ?? 1e12) > start,
          );
          const path = out && spare !== null && !isSpareOut ? spare : (was?.signalPath ?? null);
          if (path !== was?.signalPath) spared++;
          expect(hit.signalPath, `${told} ${hit.id}`).toBe(path);
        }
        lost += mine.lost.length;
        stranded += Object.keys(mine.stranded).length;
        stands += Object.keys(mine.standing).length;
        if (mine.road !== null) roads++;
      }
    }
  }
  expect(Math.min(lost, stranded, stands, roads, spared, kept)).toBeGreaterThan(5);
});
