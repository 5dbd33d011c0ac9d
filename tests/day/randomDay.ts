/** Random days of one vehicle. */
import { at, type Description } from "./make.ts";
import { random } from "./random.ts";

type Hits = NonNullable<Description["hits"]>;
type Tasks = NonNullable<Description["tasks"]>;

/** A day of one vehicle: 1 to 4 stops, hits and tasks in `do` order, some of them impossible. */
export function randomDay(seed: number): Description {
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
        hits[id] = {
          at: at(clock),
          forMinutes,
          in: place,
          firm: dice(3) > 0,
          clearMinutes: dice(4) === 0 ? dice(20) : null,
        };
        clock += forMinutes + 10 + dice(90);
      } else {
        const window =
          dice(3) === 0 ? { from: at(Math.max(0, clock - dice(60))), to: at(clock + 20 + dice(240)) } : null;
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
