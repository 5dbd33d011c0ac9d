/** What surrounds the packs of random days, against a second reading minute by minute. */
import { beforeAll, describe, expect, it } from "vitest";
import { buildModel, type DayModel, NO_CARRIED_PACKS } from "../../../src/power/day/build.ts";
import { chargerOf, warmFrom } from "../../../src/power/day/chargers.ts";
import { frozenMinutes, hotMinutes } from "../../../src/power/day/idleChargers.ts";
import { coldDrawFactor } from "../../../src/power/day/surroundings.ts";
import { touchesOf } from "../../../src/power/day/touches.ts";
import { derate } from "../../../src/power/physics.ts";
import { instant } from "../../../src/time/units.ts";
import { random } from "../../day/random.ts";
import { runs as times } from "../../fuzz.ts";
import * as again from "./minutes.ts";
import { powerDay } from "./plans.ts";

interface One {
  readonly told: string;
  readonly built: DayModel;
  readonly mine: again.Around;
  readonly bays: readonly string[];
}

let days: readonly One[] = [];
beforeAll(async () => {
  const found: One[] = [];
  for (let seed = 1; seed <= Math.max(16, times(16, 2000)); seed++) {
    const day = await powerDay(seed);
    if (day === null) continue;
    const built = buildModel(day, { sky: null, carried: NO_CARRIED_PACKS, bounds: new Map(), gear: null });
    const { presence, span } = built.around;
    const bays = [...day.plan.vehicles.keys(), ...day.plan.places.keys()];
    found.push({ told: `seed ${seed}`, built, mine: { day, presence, from: span.from }, bays });
  }
  days = found;
});

it("are of every kind", () => {
  expect(days.length).toBeGreaterThan(10);
  const overloads = days.filter(({ built }) => built.overloads.length > 0).length;
  const frost = days.filter(({ built, bays }) => bays.some((bay) => frozenMinutes(built, bay) > 0)).length;
  const heat = days.filter(({ built, bays }) => bays.some((bay) => hotMinutes(built, bay) > 0)).length;
  const slow = days.filter(({ built }) => built.demands.some(({ coldest }) => coldest !== null && coldest < 5)).length;
  expect(Math.min(overloads, frost, heat, slow)).toBeGreaterThan(0);
});

describe("a bay", () => {
  it("is where it is, as warm as it is, and its engine runs, whatever minute is asked for first", () => {
    for (const { told, built, mine, bays } of days) {
      const { around } = built;
      const dice = random(mine.from);
      const length = around.span.to - around.span.from;
      for (let n = 0; n < 150; n++) {
        const at = instant(around.span.from - 30 + dice(length + 60));
        for (const bay of bays) {
          const place = again.placeOf(mine, bay, at);
          const found = [
            around.placeOf(bay, at),
            around.runs(bay, at),
            around.inside(bay, at),
            around.outdoors(place, at),
          ];
          expect(found, `${told} ${bay} at ${at}`).toEqual([
            ...[place, again.runs(mine, bay, at), again.inside(mine, bay, at), again.outdoors(mine, place, at)],
          ]);
        }
      }
    }
  });

  it("is warm, after an hour of frost, when it has been in the warm for long enough", () => {
    let waits = 0;
    for (const { told, built, mine, bays } of days)
      for (const bay of bays)
        for (let at = built.model.from + 7; at <= built.model.to; at += 37) {
          const found = warmFrom(built.around, bay, instant(at));
          if (found > at) waits++;
          expect(found, `${told} ${bay} at ${at}`).toBe(again.warmFrom(mine, bay, at));
        }
    expect(waits).toBeGreaterThan(0);
  });

  it("with an inverter runs in the frost, or has power in the heat, for so many minutes", () => {
    for (const { told, built, mine, bays } of days)
      for (const bay of bays) {
        const { vehicles, places } = mine.day.plan;
        let [frost, heat] = [0, 0];
        for (let minute: number = built.model.from; minute < built.model.to; minute++) {
          const at = instant(minute);
          const celsius = again.inside(mine, bay, at) ?? 20;
          const engine = vehicles.get(bay)?.inverterWatts != null && again.runs(mine, bay, at);
          if (engine && celsius < 0) frost++;
          if ((engine || places.get(again.placeOf(mine, bay, at) ?? "")?.mains === true) && celsius > 45) heat++;
        }
        expect([frozenMinutes(built, bay), hotMinutes(built, bay)], `${told} ${bay}`).toEqual([frost, heat]);
      }
  });

  it("makes packs give less in the cold: a draw grows by the mean of one through the share of each minute", () => {
    for (const { told, built, mine, bays } of days)
      for (const bay of bays) {
        const [from, to] = [built.model.from + 91, Math.min(built.model.to, built.model.from + 700)];
        let sum = 0;
        for (let at = from; at < to; at++) sum += 1 / derate(again.inside(mine, bay, instant(at)) ?? 20);
        const during = { from: instant(from), to: instant(to) };
        const found = coldDrawFactor(built.around, during, (at) => built.around.inside(bay, at));
        expect(found, `${told} ${bay}`).toBeCloseTo(sum / (to - from), 9);
      }
  });
});

it("chargers charge in the same minutes", () => {
  for (const { told, built, mine } of days)
    for (const charger of mine.day.plan.chargers.values()) {
      const { on } = chargerOf(built.around, charger, charger.in, built.model).charger;
      const minutes = on.flatMap(({ from, to }) => Array.from({ length: to - from }, (_, n) => from + n));
      const wanted = [...again.chargingMinutes(mine, charger, built.model)];
      expect(minutes, `${told} ${charger.id}`).toEqual(wanted);
      // Stretches do not touch one another.
      expect(on.every(({ from }, n) => n === 0 || from > (on[n - 1]?.to ?? 0))).toBe(true);
    }
});

it("hands are offered at the same moments, with the same reach", () => {
  for (const { told, built, mine } of days) {
    const found = touchesOf(built.around, built.handBays).map(({ at, where, hands, reach }) =>
      [
        at,
        where,
        hands.map(({ who, doing, from, to }) => `${who} ${doing} ${from}-${to}`).toSorted(),
        reach.toSorted(),
      ].join(" "),
    );
    const wanted = again.offered(mine, built.handBays).map((one) => one.join(" "));
    expect(found.toSorted(), told).toEqual(wanted.toSorted());
  }
});
