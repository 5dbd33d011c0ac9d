/**
 * Random pairs of days from one bed and back, as two files of which the second follows the first, and as one plan with a
 * stand-down in place of the night.
 */
import { random } from "../day/random.ts";
import { clock, DATE, type Entries } from "./randomPlan.ts";

const NEXT_DATE = "2027-05-11";
const DAY = 1440;

interface Crewed {
  readonly vehicle: string;
  readonly people: readonly string[];
}

interface Half {
  readonly hits: Entries;
  readonly tasks: Entries;
  /** By vehicle: the stops between leaving the bed and coming back to it. */
  readonly stops: ReadonlyMap<string, readonly Entries[]>;
}

export interface TwoDays {
  readonly first: Entries;
  /** `follows` the first as `first.yaml`. */
  readonly second: Entries;
  /** Both in one; by person the night from the first day's release to the second day's call. */
  whole(nights: ReadonlyMap<string, readonly [from: number, to: number]>): Entries;
  readonly crews: readonly Crewed[];
}

/** `packs` gives each vehicle a camera with packs and a charger, which has mains at the bed. */
export function twoDays(seed: number, packs: boolean): TwoDays {
  const dice = random(seed);
  const crews = Array.from({ length: 1 + dice(2) }, (_, v): Crewed => {
    const people = Array.from({ length: 1 + dice(2) }, (__, n) => `p${v}${n}`);
    return { vehicle: `v${v}`, people };
  });
  const sites = ["s1", "s2", "s3"];
  const roads = ["s0", ...sites].flatMap((a, index) =>
    sites.slice(index).map((b) => {
      const drive = 10 + dice(50);
      return { link: [a, b], drive: `${drive} min`, bad: `${drive + dice(30)} min` };
    }),
  );
  const commercial = dice(3) === 0;
  const shared: Entries = {
    daywright: 1,
    clock: "America/Chicago",
    zone: "America/Chicago",
    crew: Object.fromEntries(
      crews.flatMap(({ vehicle, people }) =>
        people.map((id, n) => [
          id,
          { slept: "s0", sleeps: "s0", role: "camera", ...(n === 0 ? { drives: [vehicle] } : {}) },
        ]),
      ),
    ),
    vehicles: Object.fromEntries(
      crews.map(({ vehicle }) => [
        vehicle,
        commercial ? { gross: "16000 lb", rules: "us-property", week: "70/8", inside: "20 C" } : { inside: "20 C" },
      ]),
    ),
    places: {
      s0: { kind: "lodging", mains: true },
      s1: { shelter: true },
      s2: { shelter: true },
      s3: { shelter: true },
    },
    roads,
    paths: Object.fromEntries(crews.map((_, n) => [`on${n}`, { kind: "cellular" }])),
    ...(packs ? gear(crews) : {}),
  };
  const halves = [half(crews, sites, "a", dice), half(crews, sites, "b", dice)] as const;
  const [one, two] = halves;
  const released = Object.fromEntries(
    crews.flatMap(({ people }) => people.map((id) => [id, { released: `2027-05-09T${17 + dice(3)}:00-05:00` }])),
  );
  const runsOf = ({ stops }: Half): Entries =>
    Object.fromEntries(
      crews.map(({ vehicle, people }) => [
        vehicle,
        { driver: people[0] ?? "", aboard: people, stops: ["s0", ...(stops.get(vehicle) ?? []), "s0"] },
      ]),
    );
  const charged = packs ? { packs: packsOf(crews, true) } : {};
  return {
    crews,
    first: { ...shared, ...charged, date: DATE, history: released, ...timed(one, 0), runs: runsOf(one) },
    second: {
      ...shared,
      ...(packs ? { packs: packsOf(crews, false) } : {}),
      ...{ date: NEXT_DATE, follows: "first.yaml", ...timed(two, 0), runs: runsOf(two) },
    },
    whole: (nights) => {
      const downs = crews.flatMap(({ people }) =>
        people.map((id): [string, Entries] => {
          const [from, to] = nights.get(id) ?? [0, 0];
          return [`night${id}`, { kind: "standdown", place: "s0", window: [clock(from), clock(to)], who: [id] }];
        }),
      );
      const [a, b] = [timed(one, 0), timed(two, DAY)];
      return {
        ...{ ...shared, ...charged, date: DATE, until: "+1d", history: released },
        hits: { ...a.hits, ...b.hits },
        tasks: { ...a.tasks, ...b.tasks, ...Object.fromEntries(downs) },
        runs: Object.fromEntries(
          crews.map(({ vehicle, people }) => [
            vehicle,
            {
              driver: people[0] ?? "",
              aboard: people,
              stops: [
                "s0",
                ...(one.stops.get(vehicle) ?? []),
                // The second day's calls are rounded earlier: what is left goes before the departure, as in a day of its own.
                { place: "s0", do: people.map((id) => `night${id}`), wait: "here" },
                ...(two.stops.get(vehicle) ?? []),
                "s0",
              ],
            },
          ]),
        ),
      };
    },
  };
}

function gear(crews: readonly Crewed[]): Entries {
  return {
    kit: Object.fromEntries(
      crews.map(({ vehicle }, n) => [`cam${n}`, { in: vehicle, watts: 60, mount: `m${n}`, during: [`on${n}`] }]),
    ),
    chargers: Object.fromEntries(
      crews.map(({ vehicle }, n) => [`rack${n}`, { in: vehicle, mount: `m${n}`, slots: 2, watts: 60 }]),
    ),
  };
}

const packsOf = (crews: readonly Crewed[], charged: boolean): Entries =>
  Object.fromEntries(
    crews.map(({ vehicle }, n) => [
      `k${n}`,
      { count: 2, wh: 98, mount: `m${n}`, in: vehicle, ...(charged ? { charge: "80%" } : {}) },
    ]),
  );

const timed = ({ hits, tasks }: Half, later: number): { readonly hits: Entries; readonly tasks: Entries } => ({
  hits: Object.fromEntries(
    Object.entries(hits).map(([id, hit]) => {
      const { at, ...others } = Object(hit);
      return [id, { ...others, at: clock(Number(at) + later) }];
    }),
  ),
  tasks,
});

/** Hits with the minute of their day in `at`. */
function half(crews: readonly Crewed[], sites: readonly string[], name: string, dice: (below: number) => number): Half {
  const [hits, tasks]: [Entries, Entries] = [{}, {}];
  const stops = new Map<string, Entries[]>();
  crews.forEach(({ vehicle, people }, n) => {
    let at = 420 + dice(180);
    const own: Entries[] = [];
    for (let count = 1 + dice(2); count > 0; count--) {
      const place = sites[dice(sites.length)] ?? "s1";
      const hit = `${name}h${vehicle}${own.length}`;
      at += 150 + dice(60);
      hits[hit] = { at, for: `${2 + dice(6)} min`, place, who: people, path: `on${n}` };
      const doing = [hit];
      if (dice(2) === 0) {
        const task = `${name}t${vehicle}${own.length}`;
        tasks[task] = { for: `${10 + dice(40)} min`, place, who: people, ...(dice(2) === 0 ? { kind: "meal" } : {}) };
        doing.push(task);
      }
      own.push({ place, do: doing });
      at += 60;
    }
    stops.set(vehicle, own);
  });
  return { hits, tasks, stops };
}
