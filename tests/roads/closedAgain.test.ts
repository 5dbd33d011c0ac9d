/** Places that are closed on random days, against a look at every minute: what is there and when the place first is closed. */
import { expect, it } from "vitest";
import { closedPlaces } from "../../src/roads/closed.ts";
import { solved } from "../agreement/days.ts";
import { randomPlan } from "../agreement/randomPlan.ts";
import { random } from "../day/random.ts";
import { runs } from "../fuzz.ts";

const clock = (minute: number): string =>
  `${String(Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}`;

/** One or two stretches a day, the second of which may end after midnight. */
function hours(dice: (below: number) => number): readonly (readonly [number, number])[] {
  const opens = 240 + dice(240);
  const closes = opens + 60 + dice(500);
  const again = closes + 1 + dice(120);
  const first = [opens, closes] as const;
  return dice(2) === 0 ? [first] : [first, [again, Math.min(again + 60 + dice(500), opens + 1439)]];
}

it("is each use that begins before it opens or goes on after it closes, from its first closed minute on", async () => {
  let [shut, open] = [0, 0];
  for (let seed = 1; seed <= Math.max(40, runs(60, 5000)); seed++) {
    const dice = random(seed ^ 0xc105);
    const entries = randomPlan(seed);
    const times = new Map(Object.keys(Object(entries["places"])).map((id) => [id, hours(dice)]));
    const places = Object.fromEntries(
      [...times].map(([id, spans]) => {
        const text = spans.map(([from, to]) => [clock(from), clock(to % 1440)]);
        return [id, { ...Object(Object(entries["places"])[id]), open: text.length === 1 ? text[0] : text }];
      }),
    );
    const one = await solved({ ...entries, places });
    if (one === null) continue;
    const { day } = one;
    const wanted: string[] = [];
    for (const [place, spans] of times) {
      const stops = day.stops.flatMap(({ place: own, arrive, parked, leave, activities }) => {
        const from = arrive ?? parked;
        if (own !== place || parked === null || from === null || leave === null) return [];
        return [{ what: activities.join(", "), from: from as number, to: leave as number }];
      });
      const alone = day.activities.flatMap(({ id, place: own, lineCheck, inPosition, start, end, clearEnd }) => {
        const [from, to] = [lineCheck?.from ?? inPosition ?? start, clearEnd ?? end];
        if (own !== place || from === null || to === null) return [];
        // With a vehicle's visit it is looked at as that.
        return stops.some((stop) => stop.from <= from && to <= stop.to) ? [] : [{ what: id, from, to }];
      });
      for (const { what, from, to } of [...stops, ...alone]) {
        // In May Chicago's clock is five hours behind UTC.
        const isOpen = (at: number): boolean => {
          const minute = (((at - 300) % 1440) + 1440) % 1440;
          return spans.some(([opens, closes]) => [minute, minute + 1440].some((own) => opens <= own && own < closes));
        };
        let at = from;
        while (at < to && isOpen(at)) at++;
        if (at < to) shut++;
        else open++;
        if (at < to) wanted.push(`${place} ${what} from ${from} to ${to} closed ${at}`);
      }
    }
    const found = closedPlaces(day).map(({ facts }) => {
      const { from, to, closed } = Object(facts);
      return `${facts["place"]} ${facts["what"]} from ${from.at} to ${to.at} closed ${closed.at}`;
    });
    expect(found.toSorted(), `seed ${seed}`).toEqual(wanted.toSorted());
  }
  expect(Math.min(shut, open)).toBeGreaterThan(20);
});
