/**
 * Random days for what engines must agree on: one to three vehicles that meet, people who change vehicles, two calls, teams
 * that sleep aboard. As a plan's entries; every id is a letter and a number.
 */
import { random } from "../day/random.ts";

type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };
export type Entries = Record<string, Json>;

interface Site {
  readonly id: string;
  readonly vehicles: readonly number[];
}

export const DATE = "2027-05-10";
/** The evening before, in minutes before midnight. */
const LAST_EVENING = [6 * 60, 9 * 60] as const;

const two = (n: number): string => String(n).padStart(2, "0");

/** `07:05`, with the days that it lies after the date. */
export function clock(minute: number): string {
  const day = Math.floor(minute / 1440);
  const rest = minute - day * 1440;
  const time = `${two(Math.floor(rest / 60))}:${two(rest % 60)}`;
  return day === 0 ? time : `${time} ${day > 0 ? "+" : "-"}${Math.abs(day)}d`;
}

const stamp = (date: string, minutesBefore: number): string => {
  const minute = 1440 - minutesBefore;
  const [year = 0, month = 0, day = 0] = date.split("-").map(Number);
  const before = new Date(Date.UTC(year, month - 1, day - 1)).toISOString().slice(0, 10);
  return `${before}T${two(Math.floor(minute / 60))}:${two(minute % 60)}-05:00`;
};

export function randomPlan(seed: number, date = DATE): Entries {
  const dice = random(seed);
  // What was thought of later has numbers of its own, so that a seed keeps its day otherwise.
  const more = random(seed ^ 0x5eed);
  const entries =
    dice(6) === 0 ? teamDay(dice, more, date) : withCrossing(daysWork(dice, more, date), random(seed ^ 0xfe44));
  const weather = more(4) === 0 ? { weather: roadWeather(more) } : {};
  return { ...entries, ...weather, ...(more(3) === 0 ? { crew: withNights(entries["crew"], more) } : {}) };
}

/** A random day most of whose stops leave out what they do, and some of whose hits and tasks leave out who does them. */
export function unlistedPlan(seed: number, date = DATE): Entries {
  const dice = random(seed ^ 0x77);
  const { runs, hits, tasks, ...others } = randomPlan(seed, date);
  const each = (all: Json | undefined, of: (one: Readonly<Record<string, Json>>) => Json): Json =>
    Object.fromEntries(Object.entries(Object(all)).map(([id, one]) => [id, of(Object(one))]));
  const without = (key: string, one: Readonly<Record<string, Json>>): Readonly<Record<string, Json>> =>
    Object.fromEntries(Object.entries(one).filter(([other]) => other !== key));
  const stopOf = (stop: Json): Json => {
    if (typeof stop === "string" || dice(3) === 0) return stop;
    const left = without("do", Object(stop));
    return Object.keys(left).length === 1 ? (left["place"] ?? "") : left;
  };
  const stopsLess = each(runs, (run) => ({ ...run, stops: [...Object(run["stops"])].map(stopOf) }));
  const peopleLess = (one: Readonly<Record<string, Json>>): Json => (dice(3) === 0 ? without("who", one) : one);
  return { ...others, runs: stopsLess, hits: each(hits, peopleLess), tasks: each(tasks, peopleLess) };
}

/** A team's truck with a camera, its packs and a charger aboard: what is done to them falls into somebody's sleep or not. */
export function randomTeamWithPacks(seed: number): Entries {
  const dice = random(seed);
  const team = teamDay(dice, random(seed ^ 0x5eed), DATE);
  return {
    ...team,
    vehicles: {
      v0: { ...Object(Object(team["vehicles"])["v0"]), inside: "20 C", inverter: `${120 + dice(400)} W` },
    },
    kit: { cam: { in: "v0", watts: 40 + dice(40), mount: "m0", during: "hits" } },
    chargers: { rack: { in: "v0", mount: "m0", slots: 1 + dice(3), watts: 60 } },
    packs: { k0: { count: 2 + dice(3), wh: 98, mount: "m0", in: "v0", charge: `${20 + dice(80)}%` } },
  };
}

/** Of some days with one vehicle that comes to its first site by a ferry, or home by the last of the day. */
function withCrossing(entries: Entries, dice: (below: number) => number): Entries {
  const all: readonly (readonly [string, Json])[] = Object.entries(Object(entries["runs"]));
  const [vehicle, run] = all[dice(Math.max(1, all.length))] ?? [];
  if (dice(6) !== 0 || vehicle === undefined) return entries;
  const stops: readonly Json[] = Object(run)["stops"];
  const [first, ...others] = stops;
  const hits: readonly string[] = (Object(others[0])["do"] ?? []).filter((id: string) => id.startsWith("h"));
  const at = minuteOf(String(Object(Object(entries["hits"])[hits[0] ?? ""])["at"]));
  const sail = 1200 + dice(200);
  const out = { sail: clock(at - 120 - dice(60)), land: clock(at - 60 - dice(40)) };
  const home = { sail: clock(sail), land: clock(sail + 45 + dice(200)) };
  const crossed =
    dice(2) === 0 && first === "s0" && !Number.isNaN(at)
      ? [{ place: "s0", ferry: out }, ...others]
      : stops.map((stop, n) => (n === stops.length - 2 && n > 0 ? { ...Object(stop), ferry: home } : stop));
  return { ...entries, runs: { ...Object(entries["runs"]), [vehicle]: { ...Object(run), stops: crossed } } };
}

/** The minute of the day that `07:05` is; not a number of anything else. */
const minuteOf = (text: string): number => {
  const [, hours, minutes] = /^(\d\d):(\d\d)$/u.exec(text) ?? [];
  return Number(hours) * 60 + Number(minutes);
};

/** When some of them slept, or got up: before the first call that any day here has. */
function withNights(crew: Json | undefined, dice: (below: number) => number): Json {
  const people: readonly (readonly [string, Json])[] = Object.entries(Object(crew));
  return Object.fromEntries(
    people.map(([id, person]): [string, Json] => {
      const up = 120 + dice(120);
      const bed = clock(up - 1440 + 1440 - 300 - dice(120));
      const nights: readonly Json[] = [{}, { up: clock(up) }, { inBed: [[bed, clock(up)]] }];
      return [id, { ...Object(person), ...Object(nights[dice(nights.length)]) }];
    }),
  );
}

/** Snow or ice on all roads for some hours. */
function roadWeather(dice: (below: number) => number): Json {
  const from = 240 + dice(900);
  return [{ from: clock(from), to: clock(from + 60 + dice(400)), road: dice(2) === 0 ? "snow" : "ice", temp: "-5 C" }];
}

/** A truck whose two or three drivers sleep in turn, overnight; sometimes its last leg is a ferry. */
function teamDay(dice: (below: number) => number, more: (below: number) => number, date: string): Entries {
  const team = Array.from({ length: 2 + dice(2) }, (_, index) => `p${index}`);
  const legs = 2 + dice(3);
  const sites = Array.from({ length: legs + 1 }, (_, index) => `s${index}`);
  const drives = Array.from({ length: legs }, () => 60 + dice(300));
  const hits: Record<string, Json> = {};
  const tasks: Record<string, Json> = {};
  let at = 16 * 60 + dice(180);
  const stops = sites.map((place, index): Json => {
    const driver = team[index % team.length] ?? "p0";
    const asleep = team.filter((id) => id !== driver && dice(4) > 0);
    const doing: string[] = [];
    if (index > 0 && index < legs && dice(2) === 0) {
      tasks[`t${index}`] = { kind: "fuel", place, for: `${10 + dice(25)} min`, who: [driver] };
      doing.push(`t${index}`);
    }
    if (index > 0) at += (drives[index - 1] ?? 0) + 60;
    if (index > 0 && (index === legs - 1 || dice(3) === 0)) {
      hits[`h${index}`] = { at: clock(at + 45), for: "3 min", place, who: [driver] };
      doing.push(`h${index}`);
      at += 90;
    }
    if (index === legs) return place;
    const sail = at + 60 + more(60);
    const crosses = index === legs - 1 && more(3) === 0;
    const ferry = crosses
      ? { ferry: { sail: clock(sail), land: clock(sail + 45 + more(200)), bunk: more(2) === 0 } }
      : {};
    return { place, do: doing, driver, asleep, ...ferry };
  });
  return {
    daywright: 1,
    date,
    until: "+1d",
    clock: "America/Chicago",
    zone: "America/Chicago",
    crew: Object.fromEntries(team.map((id) => [id, { drives: "v0", slept: "s0", sleeps: `s${legs}` }])),
    history: Object.fromEntries(team.map((id) => [id, { released: stamp(date, LAST_EVENING[0] + dice(400)) }])),
    vehicles: { v0: { gross: "16000 lb", rules: "us-property", week: "70/8", berth: dice(4) > 0 } },
    places: Object.fromEntries(sites.map((id) => [id, dice(2) === 0 ? { shelter: true } : {}])),
    roads: drives.map((drive, index) => ({
      link: [`s${index}`, `s${index + 1}`],
      drive: `${drive} min`,
      bad: `${drive + dice(40)} min`,
    })),
    hits,
    tasks,
    runs: { v0: { aboard: team, stops } },
  };
}

/** One to three vehicles from one lodge and back. */
function daysWork(dice: (below: number) => number, more: (below: number) => number, date: string): Entries {
  const count = 1 + dice(3);
  const vehicles = Array.from({ length: count }, (_, index) => index);
  const sites: readonly Site[] = Array.from({ length: 2 + dice(3) }, (_, index) => ({
    id: `s${index + 1}`,
    vehicles: vehicles.filter(() => dice(2) === 0),
  }));
  const crew: Record<string, Json> = {};
  const aboard: string[][] = vehicles.map(() => []);
  vehicles.forEach((v) => {
    crew[`p${v}`] = { drives: [`v${v}`], slept: "s0", sleeps: "s0", role: dice(3) === 0 ? "reporter" : "camera" };
    aboard[v]?.push(`p${v}`);
  });
  const riders = dice(4);
  for (let index = 0; index < riders; index++) {
    crew[`p${count + index}`] = { slept: "s0", sleeps: "s0" };
    aboard[dice(count)]?.push(`p${count + index}`);
  }
  const setOut = aboard.map((all) => [...all]);
  const hits: Record<string, Json> = {};
  const tasks: Record<string, Json> = {};
  const clocks = vehicles.map(() => 360 + dice(200));
  const stops: Json[][] = vehicles.map(() => ["s0"]);
  const drives = new Map<string, number>();
  const here = vehicles.map(() => "s0");
  const drive = (from: string, to: string): number => {
    if (from === to) return 0;
    const key = [from, to].toSorted().join(" ");
    if (!drives.has(key)) drives.set(key, 8 + dice(70));
    return drives.get(key) ?? 0;
  };
  let made = 0;
  for (const [index, site] of sites.entries()) {
    for (const v of site.vehicles) {
      clocks[v] = (clocks[v] ?? 0) + drive(here[v] ?? "s0", site.id) + 60;
      here[v] = site.id;
    }
    const lists = new Map(site.vehicles.map((v): [number, string[]] => [v, []]));
    const meet = site.vehicles.length > 1 && dice(2) === 0;
    const together = Math.max(...site.vehicles.map((v) => clocks[v] ?? 0));
    if (meet) {
      const id = `h${made++}`;
      hits[id] = { at: clock(together + dice(40)), for: `${2 + dice(6)} min`, place: site.id, firm: dice(3) > 0 };
      for (const v of site.vehicles) {
        lists.get(v)?.push(id);
        clocks[v] = together + 60;
      }
    }
    for (const v of site.vehicles) {
      for (let n = dice(3); n > 0; n--) {
        const who = aboard[v]?.slice(0, 1 + dice(3)) ?? [];
        const start = (clocks[v] ?? 0) + dice(45);
        if (dice(2) === 0) {
          const id = `h${made++}`;
          hits[id] = { at: clock(start), for: `${2 + dice(8)} min`, place: site.id, who, firm: dice(3) > 0 };
          clocks[v] = start + 25;
        } else {
          const id = `t${made++}`;
          const window = dice(3) === 0 ? { window: [clock(start), clock(start + 90 + dice(90))] } : {};
          const kind = dice(4) === 0 ? { kind: "meal" } : {};
          tasks[id] = { ...kind, for: `${10 + dice(50)} min`, place: site.id, who, ...window };
          clocks[v] = start + 70;
        }
        lists.get(v)?.push(
          Object.keys(hits)
            .concat(Object.keys(tasks))
            .find((id) => id.endsWith(String(made - 1))) ?? "",
        );
      }
    }
    const changes = meet && more(2) === 0 && changesVehicle(site.vehicles, aboard, more);
    for (const v of site.vehicles) {
      const doing = lists.get(v) ?? [];
      const from = changes ? { aboard: [...(aboard[v] ?? [])] } : {};
      stops[v]?.push({
        place: site.id,
        do: doing,
        ...from,
        ...(doing.length === 0 ? { stay: `${5 + dice(20)} min` } : {}),
      });
    }
    const down = site.vehicles[0];
    if (index === 1 && down !== undefined && dice(4) === 0) {
      const from = (clocks[down] ?? 0) + drive(here[down] ?? "s0", "s0") + 60;
      const id = `t${made++}`;
      tasks[id] = {
        kind: "standdown",
        place: "s0",
        window: [clock(from), clock(from + 120 + dice(200))],
        who: aboard[down] ?? [],
      };
      stops[down]?.push({ place: "s0", do: [id] });
      here[down] = "s0";
      clocks[down] = from + 400;
    }
  }
  const used = vehicles.filter((v) => (stops[v]?.length ?? 0) > 1);
  for (const v of used) {
    drive(here[v] ?? "s0", "s0");
    stops[v]?.push("s0");
  }
  return {
    daywright: 1,
    date,
    until: "+1d",
    clock: dice(2) === 0 ? "America/New_York" : "America/Chicago",
    zone: "America/Chicago",
    crew,
    history: Object.fromEntries(
      Object.keys(crew).map((id) => [id, { released: stamp(date, LAST_EVENING[0] + dice(LAST_EVENING[1])) }]),
    ),
    vehicles: Object.fromEntries(vehicles.map((v) => [`v${v}`, dice(3) === 0 ? { slower: 1.1 } : {}])),
    places: {
      s0: { kind: "lodging", mains: true },
      ...Object.fromEntries(sites.map(({ id }) => [id, dice(2) === 0 ? { shelter: true } : {}])),
    },
    roads: [...drives].map(([link, minutes]) => ({
      link: link.split(" "),
      drive: `${minutes} min`,
      bad: `${minutes + dice(40)} min`,
    })),
    hits,
    tasks,
    runs: Object.fromEntries(
      used.map((v) => [`v${v}`, { driver: `p${v}`, aboard: setOut[v] ?? [], stops: bounded(stops[v] ?? [], hits) }]),
    ),
  };
}

/** A rider of one of the vehicles at a site goes on in another; false where there is none. */
function changesVehicle(here: readonly number[], aboard: string[][], dice: (below: number) => number): boolean {
  const from = here[dice(here.length)] ?? 0;
  const to = here.find((v) => v !== from) ?? from;
  const who = aboard[from]?.splice(1, 1) ?? [];
  aboard[to]?.push(...who);
  return who.length > 0;
}

/** A run without a hit leaves at a time of its own. */
function bounded(stops: readonly Json[], hits: Entries): readonly Json[] {
  const text = JSON.stringify(stops);
  if (Object.keys(hits).some((id) => text.includes(`"${id}"`))) return stops;
  return [{ place: "s0", leave: "06:30" }, ...stops.slice(1)];
}
