/** The Day as a network against a second implementation without one, over random one-vehicle days. */
import { describe, expect, it } from "vitest";
import { computeDay } from "../../src/day/index.ts";
import { runs } from "../fuzz.ts";
import { at, type Description, legsOf, makePlan, text } from "./make.ts";
import { random } from "./random.ts";
import { readWithoutGraph } from "./withoutGraph.ts";

type Hits = NonNullable<Description["hits"]>;
type Tasks = NonNullable<Description["tasks"]>;

/** A day of one vehicle: 1 to 4 stops, hits and tasks in `do` order, some of them impossible. */
function randomDay(seed: number): Description {
  const dice = random(seed);
  const count = 1 + dice(4);
  const places = Array.from({ length: count }, (_, index) => `p${index}`);
  const hits: Record<string, Hits[string]> = {};
  const tasks: Record<string, Tasks[string]> = {};
  let clock = 300 + dice(120);
  const stops = places.map((place, index) => {
    clock += 30 + dice(120);
    const doing: string[] = [];
    for (let n = dice(4); n > 0; n--) {
      const id = `${place}x${n}`;
      if (dice(3) > 0) {
        const forMinutes = 2 + dice(8);
        hits[id] = { at: at(clock), forMinutes, in: place, firm: dice(3) > 0, clearMinutes: dice(4) === 0 ? dice(20) : null };
        clock += forMinutes + 10 + dice(90);
      } else {
        const window = dice(3) === 0 ? { from: at(Math.max(0, clock - dice(60))), to: at(clock + 20 + dice(240)) } : null;
        const forMinutes = 5 + dice(60);
        tasks[id] = { forMinutes, in: place, window, by: dice(6) === 0 ? at(clock + dice(200)) : null };
        clock += dice(70);
      }
      doing.push(id);
    }
    const last = index === count - 1;
    return {
      place,
      do: doing,
      leave: !last && dice(8) === 0 ? at(clock + dice(40)) : null,
      arriveBy: dice(8) === 0 ? at(clock - dice(60)) : null,
      stayMinutes: doing.length === 0 && dice(3) === 0 ? dice(50) : null,
      setUpMinutes: dice(6) === 0 ? dice(45) : null,
      waitHere: !last && dice(9) === 0,
    };
  });
  const line = ["home", ...places, "home"];
  const roads: Record<string, readonly [number, number | null]> = {};
  for (let i = 1; i < line.length; i++) {
    const drive = 5 + dice(60);
    const key = `${line[i - 1]} ${line[i]}`;
    const back = `${line[i]} ${line[i - 1]}`;
    if (roads[back] === undefined) roads[key] = [drive, dice(4) === 0 ? null : drive + dice(40)];
  }
  return {
    crew: { wren: { drives: ["wagon"] }, ilse: {} },
    vehicles: { wagon: { slower: dice(3) === 0 ? 1.1 : 1 } },
    places: Object.fromEntries(places.map((place) => [place, { shelter: dice(2) === 0 }])),
    roads,
    hits,
    tasks,
    runs: { wagon: { stops: ["home", ...stops, "home"] } },
    rules: { planDrivesAt: "bad-into-firm" },
  };
}

describe("the Day, written twice", () => {
  it("agrees on every instant and every refusal of random days", () => {
    let compared = 0;
    for (let seed = 1; compared < runs(2000, 100_000); seed++) {
      const description = randomDay(seed);
      if (Object.keys(description.hits ?? {}).length === 0) continue;
      const plan = makePlan(description);
      const { day, findings } = computeDay(plan, legsOf(plan));
      if (day === null) {
        expect(findings.map((finding) => finding.code), `seed ${seed}`).toEqual(findings.map(() => expect.stringMatching(/^(two-waits|run-unfixed)$/)));
        continue;
      }
      if (![...plan.hits.keys()].some((id) => day.instants.has(`${id}.start`))) continue;
      const other = readWithoutGraph(plan, true);
      const missed = day.activities.filter((activity) => activity.state === "missed").map((activity) => activity.id);
      if (missed.sort().join() !== [...other.missed].sort().join()) expect(missed, `seed ${seed}`).toEqual(other.missed);
      const differ = [...other.instants].filter(([name, instant]) => day.instants.get(name) !== instant);
      const told = differ.map(([name, instant]) => `${name}: ${text(day.instants.get(name) ?? null)}, second reading ${text(at(instant - at(0)))}`);
      if (told.length > 0) expect(told, `seed ${seed}`).toEqual([]);
      compared++;
    }
  }, 300_000);
});
