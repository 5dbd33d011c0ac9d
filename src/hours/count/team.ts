/** Where a vehicle is claimed for two drivers and a day shows one: the condition of the claim that a plan can be held to. */

import type { Day, Move } from "../../day/day.ts";
import type { Finding } from "../../findings/finding.ts";
import { sumOf } from "../../lists.ts";
import type { Vehicle } from "../../plan/plan.ts";
import { type Interval, instant } from "../../time/units.ts";
import { secondDriverMissing } from "../findings.ts";
import { declarationOf } from "../rules/index.ts";
import type { TeamRule } from "../rules/rule.ts";

const mayDrive = (day: Day, { vehicle, driver, riders }: Move): number =>
  [driver, ...riders].filter((id) => day.plan.crew.get(id)?.drives.includes(vehicle) === true).length;

/** Driving with no one aboard who could take over; all of it where the second never joins. */
function alone(day: Day, { id }: Vehicle, { aloneAtFirst }: TeamRule): readonly (Interval & { driver: string })[] {
  const moves = day.moves.filter(({ vehicle }) => vehicle === id).toSorted((a, b) => a.leave - b.leave);
  const single = moves.filter((move) => mayDrive(day, move) < 2);
  const start = moves[0]?.leave;
  if (start === undefined) return [];
  const free = single.length < moves.length ? instant(start + aloneAtFirst) : start;
  return single.flatMap(({ wheel }) =>
    wheel.flatMap(({ from, to, driver }) => (to > free ? [{ from: instant(Math.max(from, free)), to, driver }] : [])),
  );
}

/** One finding a vehicle and rule set. */
export const teamFindings = (day: Day): readonly Finding[] =>
  [...day.plan.vehicles.values()].flatMap((vehicle) =>
    vehicle.rules.flatMap((name): readonly Finding[] => {
      const { team, title } = declarationOf(name);
      if (vehicle.drivers !== 2 || team === null) return [];
      const stretches = alone(day, vehicle, team);
      const [first] = stretches;
      if (first === undefined) return [];
      const minutes = sumOf(stretches, ({ from, to }) => to - from);
      const facts = { who: first.driver, vehicle: vehicle.id, from: { at: first.from }, to: { at: first.to }, minutes };
      const path = [...vehicle.path, "drivers"];
      return [
        secondDriverMissing.raise(facts, {
          who: first.driver,
          at: first.from,
          path,
          source: { title, clause: team.clause },
        }),
      ];
    }),
  );
