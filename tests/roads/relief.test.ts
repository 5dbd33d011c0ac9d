/** Relief with the real rule sets: a 16-hour leg, a three-day chase, an impossible one; each proposal judged once more. */
import { describe, expect, it } from "vitest";
import type { Day } from "../../src/day/day.ts";
import { judge } from "../../src/hours/judge.ts";
import { HOUSE_DEFAULTS, houseRules } from "../../src/hours/rules/house.ts";
import { NO_OPTIONS } from "../../src/hours/rules/options.ts";
import { usProperty } from "../../src/hours/rules/us.ts";
import type { Calendar } from "../../src/hours/spans.ts";
import type { Id, Plan } from "../../src/plan/plan.ts";
import { changesIn, compareScores, type Score } from "../../src/roads/relief/problem.ts";
import { type HoursJudge, proposeRelief, type ReliefProposal } from "../../src/roads/relief/propose.ts";
import { dayWith } from "../../src/roads/relief/rewrite.ts";
import { stretchesOf } from "../../src/roads/relief/stretches.ts";
import { personVerdict } from "../../src/roads/relief/verdict.ts";
import { instant } from "../../src/time/units.ts";
import { at, day, leg, type Trip } from "./days.ts";
import { person } from "./people.ts";
import { byId, run, vehicle } from "./plans.ts";

/** Days of six hours west of Greenwich. */
const calendar: Calendar = {
  dayOf: (when) => Math.floor((when - 360) / 1440),
  startOf: (which) => instant(which * 1440 + 360),
};

/** No meals: they are tasks, and these days have none. */
const house = houseRules({ ...HOUSE_DEFAULTS, mealEvery: 100_000 });

/** Judges a person by the house rules and, where they may drive a commercial vehicle, by 49 CFR 395.3. */
const realHours: HoursJudge = (made, who) => {
  const isCommercial = (id: Id | null): boolean => id !== null && made.plan.vehicles.get(id)?.commercial === true;
  const spans = (made.people.find(({ id }) => id === who)?.spans ?? []).map(({ from, to, is, vehicle: id }) => ({
    from,
    to,
    is,
    in: isCommercial(id) ? ("commercial" as const) : ("light" as const),
    pause: false,
  }));
  const law = made.plan.crew.get(who)?.drives.some(isCommercial) === true ? [usProperty(NO_OPTIONS)] : [];
  return personVerdict(
    who,
    [...law, house].map((rules) => judge({ spans, before: [] }, rules, calendar)),
  );
};

function propose(made: Day, parts: { everyMinutes?: number; patience?: number } = {}): ReliefProposal {
  const found = proposeRelief(made, { everyMinutes: 120, patience: 1, now: null, judge: realHours, ...parts });
  if (found === null) throw new Error("nobody has a choice");
  return found;
}

/** Breach minutes of everybody, by the real rules. */
const breaches = (made: Day): number => made.people.reduce((sum, { id }) => sum + realHours(made, id).breachMinutes, 0);

const parts = (berth: boolean, truck: readonly Id[], wagon: readonly Id[] = []): Partial<Plan> => ({
  crew: byId(
    person("tomas", ["truck"]),
    person("bea", ["truck"]),
    person("wren", ["wagon"]),
    person("ilse", ["wagon"]),
  ),
  vehicles: byId(vehicle("truck", { commercial: true, rules: ["us-property"], berth }), vehicle("wagon", { berth })),
  runs: byId(run("truck", truck), run("wagon", wagon)),
});

const sure = (from: Id, to: Id, minutes: number) => leg(from, to, minutes, minutes);

function tiles({ legs }: ReliefProposal): void {
  for (const { move, wheel } of legs) {
    expect([wheel[0]?.from, wheel.at(-1)?.to, wheel[0]?.driver]).toEqual([move.leave, move.arrive, move.driver]);
    for (const [index, stretch] of wheel.slice(1).entries()) expect(stretch.from).toBe(wheel[index]?.to);
  }
}

describe("a 16-hour leg for two drivers", () => {
  const trip: Trip = {
    vehicle: "truck",
    people: ["tomas", "bea"],
    leave: at(0),
    way: [[sure("lodge", "harbour", 960), "bad", {}]],
  };
  const made = day([trip], parts(true, ["lodge", "harbour"]));
  const found = propose(made);

  it("breaks limits with one of them and none with both", () => {
    expect(breaches(made)).toBeGreaterThan(0);
    expect([found.status, found.breachMinutes, breaches(found.day)]).toEqual(["exact", 0, 0]);
    tiles(found);
  });

  it("is as good as the best of all 256 assignments", () => {
    const stretches = stretchesOf(made, 120, null);
    expect(stretches).toHaveLength(8);
    const scores = Array.from({ length: 256 }, (_, bits): Score => {
      const drivers = stretches.map((_stretch, index) => ((bits >> index) & 1 ? "bea" : "tomas"));
      const after = dayWith(made, stretches, drivers);
      const lefts = ["tomas", "bea"].map((who) => realHours(after, who).leftMinutes);
      return {
        breachMinutes: breaches(after),
        leftMinutes: Math.min(...lefts),
        changes: changesIn(stretches, drivers),
      };
    });
    const [best] = scores.sort((a, b) => compareScores(a, b));
    expect({ breachMinutes: found.breachMinutes, leftMinutes: found.leftMinutes, changes: found.changes }).toEqual(
      best,
    );
  });

  it("is said in the plan's words", () => {
    const [leg1] = found.legs;
    expect(found.edits[0]).toEqual({ path: ["runs", "truck", 0, "driver"], value: leg1?.move.driver });
    const relieve = found.edits.find(({ path }) => path.at(-1) === "relieve")?.value;
    const handOvers = (leg1?.wheel ?? [])
      .slice(1)
      .map(({ from, driver }) => ({ after: `${from - at(0)} min`, driver }));
    expect(relieve).toEqual(handOvers);
  });

  it("without a berth the one who rides is on duty, and the window closes", () => {
    const seats = propose(day([trip], parts(false, ["lodge", "harbour"])));
    expect(seats.status).toBe("impossible");
    expect(seats.breachMinutes).toBeGreaterThan(0);
    expect(seats.breaches.map(({ limit }) => limit)).toContain("house.dutyDay");
  });
});

describe("a chase of three days, two vehicles, four people, day and night", () => {
  /** Six drives of ten hours with an hour at each stop, 66 hours in all. */
  const names = ["lodge", "locks", "bridge", "sound", "point", "cape", "harbour"];
  const chase = (which: string, people: readonly Id[]): Trip => ({
    vehicle: which,
    people,
    leave: at(0),
    way: names.slice(1).map((to, index) => [sure(names[index] ?? "lodge", to, 600), "bad", { work: 60 }]),
  });
  const made = day([chase("truck", ["tomas", "bea"]), chase("wagon", ["wren", "ilse"])], parts(true, names, names));

  it("is driven without a breach, everyone relieved and rested in the berth", () => {
    expect(breaches(made)).toBeGreaterThan(1000);
    const found = propose(made);
    expect(found.breachMinutes).toBe(0);
    expect(breaches(found.day)).toBe(0);
    expect(found.status).not.toBe("impossible");
    tiles(found);
    const drivers = new Set(found.legs.flatMap(({ wheel }) => wheel.map(({ driver }) => driver)));
    expect(drivers).toEqual(new Set(["tomas", "bea", "wren", "ilse"]));
    if (found.status === "best-found") expect(found.boundMinutes ?? 0).toBeGreaterThanOrEqual(found.leftMinutes ?? 0);
  });

  it("is the same on every run", () => {
    expect(JSON.stringify(propose(made).edits)).toBe(JSON.stringify(propose(made).edits));
  });
});

describe("an impossible one", () => {
  const alone: Trip = {
    vehicle: "wagon",
    people: ["wren", "ilse"],
    leave: at(0),
    way: [[sure("lodge", "harbour", 1800), "bad", {}]],
  };

  it("names the limits that even the least-breaching assignment breaks", () => {
    const found = propose(day([alone], parts(false, [], ["lodge", "harbour"])), { everyMinutes: 300 });
    expect(found.status).toBe("impossible");
    expect(found.breachMinutes).toBe(found.breaches.reduce((sum, { minutes }) => sum + minutes, 0));
    expect(new Set(found.breaches.map(({ limit }) => limit))).toEqual(
      new Set(["house.dutyDay", "house.wheelDay", "house.wheelBreak"]),
    );
    expect(found.boundMinutes).not.toBeNull();
  });

  it("is none where nobody aboard may relieve the driver", () => {
    const lone = { ...alone, people: ["wren", "tomas"] };
    const asked = proposeRelief(day([lone], parts(false, [], [])), {
      everyMinutes: 120,
      patience: 1,
      now: null,
      judge: realHours,
    });
    expect(asked).toBeNull();
  });
});
