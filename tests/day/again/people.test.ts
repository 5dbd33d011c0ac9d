/** What everyone does from minute to minute on random days of several vehicles, teams, rides, chores and logs, read a second time. */
import { beforeAll, describe, expect, it } from "vitest";
import type { Chore, Day } from "../../../src/day/day.ts";
import { type Instant, instant } from "../../../src/time/units.ts";
import { type Solved, solved } from "../../agreement/days.ts";
import { clock, type Entries, randomPlan } from "../../agreement/randomPlan.ts";
import { runs } from "../../fuzz.ts";
import { actual } from "../parts.ts";
import { random } from "../random.ts";
import { type Lived, lived } from "./people.ts";

const COUNT = Math.max(40, runs(60, 3000));

/** Some plans with a dish, a standby round a hit, a rest, other steps of the clock, and one who comes and goes by rides of others. */
function withMore(entries: Entries, seed: number): Entries {
  const dice = random(seed ^ 0x9e0);
  const [hits, tasks, runsOf] = [Object(entries["hits"]), Object(entries["tasks"]), Object(entries["runs"])];
  const [vehicle, run] = Object.entries<Entries>(runsOf)[0] ?? [];
  if (vehicle === undefined || run === undefined) return entries;
  const made: Record<string, Entries[string]> = { ...entries, rules: { roundCalls: `${dice(4) * 5} min` } };
  let stops = [Object(run["stops"])].flat();
  const [hit] = Object.keys(hits);
  if (dice(2) === 0 && hit !== undefined) {
    made["paths"] = { dish: { kind: "satellite", vehicle } };
    made["hits"] = { ...hits, [hit]: { ...hits[hit], path: "dish" } };
  }
  const place = stops[1]?.place ?? "s1";
  const who = [Object.keys(Object(entries["crew"]))[0] ?? "p0"];
  if (dice(3) === 0 && hit !== undefined && /^\d\d:\d\d$/u.test(hits[hit].at)) {
    const [hours, minutes] = hits[hit].at.split(":").map(Number);
    const at = hours * 60 + minutes;
    made["tasks"] = {
      ...tasks,
      b0: {
        kind: "standby",
        place: hits[hit].place,
        window: [clock(at - 20 - dice(40)), clock(at + 10 + dice(60))],
        who,
      },
    };
    stops = stops.map((one) => (one.do?.includes(hit) ? { ...one, do: ["b0", ...one.do] } : one));
  } else if (dice(3) === 0) {
    made["tasks"] = { ...tasks, r0: { kind: "rest", for: `${10 + dice(40)} min`, place, who } };
    stops = stops.map((one, n) => (n === 1 ? { ...one, do: [...(one.do ?? []), "r0"] } : one));
  }
  made["runs"] = { ...runsOf, [vehicle]: { ...run, stops } };
  if (Array.isArray(run["aboard"]) && stops[0] === "s0" && stops.at(-1) === "s0" && dice(2) === 0) {
    const by = dice(2) === 0 ? { by: "ferry", bunk: dice(2) === 0 } : { by: "taxi" };
    made["crew"] = { ...Object(entries["crew"]), z: { slept: "inn", sleeps: "inn" } };
    made["places"] = { ...Object(entries["places"]), inn: {} };
    made["rides"] = {
      out: {
        from: "inn",
        to: "s0",
        leave: clock(60 + dice(60)),
        arrive: clock(130 + dice(60)),
        who: ["z"],
        lead: `${dice(3) * 15} min`,
        ...by,
      },
      back: {
        from: "s0",
        to: "inn",
        leave: clock(1440 + 300 + dice(60)),
        arrive: clock(1440 + 370 + dice(60)),
        who: ["z"],
      },
    };
    made["history"] = {
      ...Object(entries["history"]),
      z: { released: Object(Object(entries["history"])["p0"])["released"] },
    };
    made["runs"] = {
      ...runsOf,
      [vehicle]: {
        ...run,
        aboard: [...run["aboard"], "z"],
        stops: stops.map((one) => (one.aboard === undefined ? one : { ...one, aboard: [...one.aboard, "z"] })),
      },
    };
  }
  return made;
}

const days: { readonly seed: number; readonly one: Solved }[] = [];
beforeAll(async () => {
  for (let seed = 501; seed < 501 + COUNT; seed++) {
    const one = (await solved(withMore(randomPlan(seed), seed))) ?? (await solved(randomPlan(seed)));
    if (one !== null) days.push({ seed, one });
  }
});

const said = (one: ReturnType<Lived["at"]>) => {
  if (one === null) return null;
  const { doing, is, place, vehicle, activity } = one;
  return { doing, is, place, vehicle, activity };
};

/** Holds call, release, duties, spans and terms of one person against what is read; gives all that they do. */
function hold(day: Day, who: string, chores: readonly Chore[], told: string): readonly string[] {
  const mine = lived(day, who, chores);
  const person = day.people.find(({ id }) => id === who);
  if (person === undefined) throw new Error(told);
  expect([person.call, person.release], told).toEqual([mine.call, mine.release]);
  const { call, release, spans, terms, duties } = person;
  if (call === null || release === null) return [];
  const cuts = [...mine.cuts, ...spans.flatMap(({ from, to }) => [from, to])].flatMap((at) => [at - 1, at]);
  const minutes = [...new Set([call, ...cuts])].filter((at) => call <= at && at < release).toSorted((a, b) => a - b);
  const expected: { call: number; release: number }[] = [];
  minutes.forEach((at, n) => {
    const span = spans.find(({ from, to }) => from <= at && at < to);
    const wanted = said(mine.at(at));
    expect(span === undefined ? null : said(span), `${told} at +${at - call}`).toEqual(wanted);
    const term = terms.find(({ from, to }) => from <= at && at < to);
    expect(term?.name, `${told} at +${at - call}`).toBe(wanted?.doing);
    if (mine.isDown(at)) return;
    const last = expected.at(-1);
    const to = minutes[n + 1] ?? release;
    if (last !== undefined && last.release === at) last.release = to;
    else expected.push({ call: at, release: to });
  });
  expect(
    duties.map((one) => ({ call: one.call, release: one.release })),
    told,
  ).toEqual(expected);
  // Every call and release but the first call and the last release has its number.
  const numbered = (what: string, n: number): number | undefined => day.instants.get(`${who}.${what}.${n + 1}`);
  expect(
    [...expected, null].map((_, n) => [numbered("call", n), numbered("release", n)]),
    told,
  ).toEqual(
    [...expected, null].map((one, n) => [
      n === 0 ? undefined : one?.call,
      n < expected.length - 1 ? one?.release : undefined,
    ]),
  );
  // The places of a duty's ends: where the first and the last minute are, or where one was last before.
  const placeAt = (minute: number): string | null => {
    const place = minutes.findLast((at) => at <= minute && (mine.at(at)?.place ?? null) !== null);
    return place === undefined ? person.slept : (mine.at(place)?.place ?? null);
  };
  expect(
    duties.map((one) => one.callPlace),
    told,
  ).toEqual(expected.map((one) => placeAt(one.call)));
  const bunks = spans.filter(({ is }) => is === "ferry").map(({ doing, bunk }) => [doing, bunk === true]);
  const byOthers = day.rides.map(({ ride }): [string, boolean] => [ride.id, ride.by === "ferry" && ride.bunk]);
  for (const [doing, bunk] of bunks) {
    const crossed = day.moves.some(({ leg }) => leg.ferry?.bunk === true);
    expect(bunk, `${told} ${doing}`).toBe(new Map(byOthers).get(String(doing)) ?? crossed);
  }
  return spans.map(({ doing }) => doing);
}

/** Chores of one person that follow each other, from the evening before to the night after. */
function choresOf(day: Day, who: string, dice: (below: number) => number): readonly Chore[] {
  const person = day.people.find(({ id }) => id === who);
  const [from, to] = [person?.previousRelease ?? day.span.from, (person?.release ?? day.span.to) + 180];
  const chores: Chore[] = [];
  if (person?.call != null && person.release !== null && dice(3) === 0) {
    // At the minute at which a chore joins a call, a release or a stand-down, one before and one after.
    const join = day.plan.rules.choreJoin;
    const near = (): number => join + dice(3) - 1;
    const here = { who, place: "s0", vehicle: null };
    for (const { call, release } of person.duties) {
      const [ends, begins] = [call - near(), release + near()];
      if (dice(2) === 0) chores.push({ ...here, from: instant(ends - 5), to: instant(ends) });
      if (dice(2) === 0) chores.push({ ...here, from: instant(begins), to: instant(begins + 5) });
    }
    return chores;
  }
  let at: number = from - 20;
  for (let n = 1 + dice(6); n > 0 && at < to; n--) {
    const begins = at + dice(Math.ceil((to - at) / n));
    const ends = begins + 2 + dice(25);
    const aboard = dice(4) === 0 ? [...day.plan.vehicles.keys()][0] : undefined;
    const where = aboard === undefined ? { place: "s0", vehicle: null } : { place: null, vehicle: aboard };
    chores.push({ who, from: instant(begins), to: instant(ends), ...where });
    at = ends + dice(30);
  }
  return chores;
}

describe("what everyone does", () => {
  it("is the weightiest of what they take part in, and a wait where there is nothing", { timeout: 60_000 }, () => {
    const doings = new Set<string>();
    for (const { seed, one } of days)
      for (const { id } of one.day.people)
        for (const doing of hold(one.day, id, [], `seed ${seed} ${id}`)) doings.add(doing);
    const often = [
      "drive",
      "ride",
      "ferry",
      "lead",
      "out",
      "back",
      "walk-around",
      "loading",
      "park",
      "set-up",
      "dish-up",
    ];
    const seldom = [
      "line check",
      "in position",
      "clear",
      "strike",
      "unload",
      "post-trip",
      "rounding",
      "b0",
      "r0",
      "wait",
    ];
    for (const doing of [...often, ...seldom]) expect(doings).toContain(doing);
  });

  it("is shortened and lengthened by chores that join a call or a release, which others part", {
    timeout: 60_000,
  }, () => {
    for (const { seed, one } of days) {
      const dice = random(seed * 31);
      const chores = one.day.people.flatMap(({ id }) => choresOf(one.day, id, dice));
      const day = one.day.withChores(chores);
      for (const { id } of day.people)
        hold(
          day,
          id,
          chores.filter(({ who }) => who === id),
          `seed ${seed} ${id}`,
        );
    }
  });

  it("begins and ends as it is logged", { timeout: 60_000 }, () => {
    for (const { seed, one } of days) {
      const dice = random(seed * 37);
      const people = new Map(
        one.day.people.map(({ id, duties }) => {
          const duty = duties[dice(duties.length)];
          const call: Instant | null = duty === undefined || dice(2) === 0 ? null : instant(duty.call - dice(50));
          const released: Instant | null =
            duty === undefined || dice(2) === 0
              ? null
              : instant(Math.max(duty.release - 10 + dice(60), (call ?? 0) + 1));
          return [id, { call, released }];
        }),
      );
      const day = one.again({ ...one.plan, actual: actual({ people }) });
      for (const { id } of day.people) hold(day, id, [], `seed ${seed} ${id}`);
    }
  });
});
