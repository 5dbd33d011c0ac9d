/** What someone does where stretches overlap, minute by minute on random stretches, and what two neighbours make one. */
import { expect, it } from "vitest";
import { AS_PLANNED } from "../../../src/day/facts/fit.ts";
import { tile } from "../../../src/day/people/tile.ts";
import type { TimelineStretch } from "../../../src/day/people/timeline.ts";
import { type Instant, instant } from "../../../src/time/units.ts";
import { runs } from "../../fuzz.ts";
import { random } from "../random.ts";

function stretches(seed: number): readonly TimelineStretch[] {
  const dice = random(seed);
  return Array.from({ length: 1 + dice(7) }, (): TimelineStretch => {
    const from = dice(30);
    return {
      name: ["dawn", "noon", "strike", "clear"][dice(4)] ?? "",
      from: instant(from),
      to: instant(from + 1 + dice(12)),
      is: dice(3) === 0 ? "meal" : "duty",
      weight: dice(3),
      where: null,
      place: dice(2) === 0 ? "pier" : null,
      vehicle: dice(3) === 0 ? "van" : null,
      activity: dice(3) === 0 ? "dawn" : null,
      ends: ["a", "b"],
    };
  });
}

/** The weightier; else what began later; else what ends sooner; else by name. */
const before = (a: TimelineStretch, b: TimelineStretch): number =>
  b.weight - a.weight || b.from - a.from || a.to - b.to || (a.name < b.name ? -1 : a.name > b.name ? 1 : 0);

const sayOf = ({
  name,
  is,
  place,
  vehicle,
  activity,
}: Pick<TimelineStretch, "name" | "is" | "place" | "vehicle" | "activity">) =>
  [name, is, place, vehicle, activity].join(" ");

it("is one thing at a time: the weightiest, the latest, the shortest, by name; a wait where there is none", () => {
  const placeAt = (at: Instant): string => (at < 15 ? "pier" : "lodge");
  for (let seed = 1; seed <= Math.max(200, runs(400, 50_000)); seed++) {
    const all = stretches(seed);
    const found = tile(all, placeAt, AS_PLANNED);
    const [first, last] = [Math.min(...all.map(({ from }) => from)), Math.max(...all.map(({ to }) => to))];
    expect(found[0]?.from, `seed ${seed}`).toBe(first);
    expect(found.at(-1)?.to, `seed ${seed}`).toBe(last);
    // Where a wait begins decides where it is: at the end of what was before it.
    let waitPlace = "";
    for (let at = first; at < last; at++) {
      const over = all.filter(({ from, to }) => from <= at && at < to).toSorted(before);
      if (all.some(({ to, from }) => to === at || from === at) || at === first) waitPlace = placeAt(instant(at));
      const [top] = over;
      const same = over.filter((one) => top !== undefined && before(top, one) === 0).map(sayOf);
      const mine = found.filter(({ from, to }) => from <= at && at < to);
      expect(mine.length, `seed ${seed} at ${at}`).toBe(1);
      const wait = sayOf({ name: "wait", is: "duty", place: waitPlace, vehicle: null, activity: null });
      expect(same.length === 0 ? [wait] : same, `seed ${seed} at ${at}`).toContain(mine.map(sayOf)[0]);
    }
    for (const [n, one] of found.slice(1).entries()) {
      expect(one.from, `seed ${seed}`).toBe(found[n]?.to);
      expect(sayOf(one), `seed ${seed}`).not.toBe(found.slice(n, n + 1).map(sayOf)[0]);
    }
  }
});
