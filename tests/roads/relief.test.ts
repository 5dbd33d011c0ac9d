/** Relief with the real rule sets: a 16-hour leg, a three-day chase, an impossible one; each proposal judged once more. */
import { describe, expect, it } from "vitest";
import type { Day } from "../../src/day/day.ts";
import { computeDay } from "../../src/day/index.ts";
import type { Calendar } from "../../src/hours/count/spans.ts";
import { judgeRecord } from "../../src/hours/judge/judge.ts";
import { houseSet, ruleSet } from "../../src/hours/rules/index.ts";
import { NO_OPTIONS } from "../../src/hours/rules/options.ts";
import { houseDefaults } from "../../src/plan/houseRules.ts";
import type { Id, Plan, Stop } from "../../src/plan/plan.ts";
import { hoursJudge } from "../../src/roads/relief/hours.ts";
import { changesIn, compareScores, type Score } from "../../src/roads/relief/problem.ts";
import { type HoursJudge, proposeRelief, type ReliefProposal } from "../../src/roads/relief/propose.ts";
import { dayWith } from "../../src/roads/relief/rewrite.ts";
import { drivingStretches } from "../../src/roads/relief/stretches.ts";
import { breachTotal, leastLeft, longestSleep, personVerdict } from "../../src/roads/relief/verdict.ts";
import { instant } from "../../src/time/units.ts";
import { at as clock, legsOf as legsByHand, makePlan } from "../day/make.ts";
import { byId, leg, person, run, vehicle } from "../day/parts.ts";
import { at, day, type Trip } from "./days.ts";

/** Days of six hours west of Greenwich. */
const calendar: Calendar = {
  dayOf: (when) => Math.floor((when - 360) / 1440),
  startOf: (which) => instant(which * 1440 + 360),
};

/** No meals: they are tasks, and these days have none. */
const house = houseSet({ ...houseDefaults(), mealEvery: 100_000 });

/** Judges a person by the house rules and, where they may drive a commercial vehicle, by 49 CFR 395.3. */
function verdictsOf(made: Day, who: Id) {
  const isCommercial = (id: Id | null): boolean => id !== null && made.plan.vehicles.get(id)?.commercial === true;
  const spans = (made.people.find(({ id }) => id === who)?.spans ?? []).map(({ from, to, is, vehicle: id }) => ({
    from,
    to,
    is,
    in: isCommercial(id) ? ("commercial" as const) : ("light" as const),
    pause: false,
  }));
  const law =
    made.plan.crew.get(who)?.drives.some(isCommercial) === true
      ? [ruleSet("us-property", NO_OPTIONS, houseDefaults())]
      : [];
  return [...law, house].map((rules) => judgeRecord({ spans, before: [] }, rules, calendar));
}

const realHours: HoursJudge = {
  judge: (made, who) =>
    personVerdict(
      breachTotal(who, verdictsOf(made, who)),
      longestSleep(made.people.find(({ id }) => id === who)?.spans ?? []),
    ),
  leastLeft: (made, who) => leastLeft(verdictsOf(made, who)),
};

const brokenBy = (hours: HoursJudge, made: Day, who: Id): number => {
  const { lawMinutes, houseMinutes } = hours.judge(made, who);
  return lawMinutes + houseMinutes;
};

function propose(made: Day, parts: { everyMinutes?: number; patience?: number } = {}): ReliefProposal {
  const found = proposeRelief(made, { everyMinutes: 120, patience: 1, now: null, judge: realHours, ...parts });
  if (found === null) throw new Error("nobody has a choice");
  return found;
}

/** Breach minutes of everybody, by the real rules. */
const breaches = (made: Day): number => made.people.reduce((sum, { id }) => sum + brokenBy(realHours, made, id), 0);

const parts = (berth: boolean, truck: readonly Id[], wagon: readonly Id[] = []): Partial<Plan> => ({
  crew: byId(
    person("tomas", { drives: ["truck"] }),
    person("bea", { drives: ["truck"] }),
    person("wren", { drives: ["wagon"] }),
    person("ilse", { drives: ["wagon"] }),
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
    const stretches = drivingStretches(made, 120, null);
    expect(stretches).toHaveLength(8);
    const scores = Array.from({ length: 256 }, (_, bits): Score => {
      const drivers = stretches.map((_stretch, index) => ((bits >> index) & 1 ? "bea" : "tomas"));
      const after = dayWith(made, stretches, drivers);
      const verdicts = ["tomas", "bea"].map((who) => realHours.judge(after, who));
      return {
        lawMinutes: verdicts.reduce((sum, own) => sum + own.lawMinutes, 0),
        houseMinutes: verdicts.reduce((sum, own) => sum + own.houseMinutes, 0),
        sleepMinutes: Math.min(...verdicts.map((own) => own.sleepMinutes)),
        changes: changesIn(stretches, drivers),
      };
    });
    const [best] = scores.sort((a, b) => compareScores(a, b));
    const { lawMinutes, houseMinutes, sleepMinutes, changes } = found;
    expect({ lawMinutes, houseMinutes, sleepMinutes, changes }).toEqual(best);
  });

  it("is the same on every run", () => {
    expect(JSON.stringify(propose(made).edits)).toBe(JSON.stringify(found.edits));
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
    // 16 h of duty are there whoever drives.
    expect(seats.unavoidable.map(({ limit }) => limit)).toContain("house.dutyDay");
  });
});

describe("a chase of three days, two vehicles, four people, day and night", () => {
  /** Thirty drives of under two hours with half an hour at each stop: seventy hours, from a Day worked out the usual way. */
  const names = Array.from({ length: 31 }, (_, index) => `stop${index}`);
  const chase = (driver: Id, second: Id) => ({
    driver,
    aboard: [driver, second],
    stops: names.map((place, index) => ({
      place,
      ...(index === 0 ? { leave: clock("06:00") } : index < 30 ? { stayMinutes: 30 } : {}),
    })),
  });
  const plan = makePlan({
    crew: {
      tomas: { drives: ["truck"] },
      bea: { drives: ["truck"] },
      wren: { drives: ["wagon"] },
      ilse: { drives: ["wagon"] },
    },
    vehicles: { truck: { commercial: true, rules: ["us-property"], berth: true }, wagon: { berth: true } },
    roads: Object.fromEntries(names.slice(1).map((to, index) => [`${names[index]} ${to}`, [110, 110] as const])),
    runs: { truck: chase("tomas", "bea"), wagon: chase("wren", "ilse") },
    rules: { mealEvery: 900 }, // nobody has placed a meal on this one
  });
  const released = { released: clock(-600), asleepMinutes: null, totals: [], spans: [], path: ["history"] };
  const rested = { ...plan, history: new Map([...plan.crew.keys()].map((id) => [id, released])) };
  const made = computed(rested);
  const real = hoursJudge([made]);
  const broken = (of: Day): number => of.people.reduce((sum, { id }) => sum + brokenBy(real, of, id), 0);
  const found = proposeRelief(made, { everyMinutes: 120, patience: 1, now: null, judge: real });

  it("is driven without a breach, everyone relieved and rested in the berth", () => {
    expect(broken(made)).toBeGreaterThan(1000);
    if (found === null) throw new Error("nobody has a choice");
    expect([found.breachMinutes, found.breaches, broken(found.day)]).toEqual([0, [], 0]);
    expect(found.status).not.toBe("impossible");
    tiles(found);
    const drivers = new Set(found.legs.flatMap(({ wheel }) => wheel.map(({ driver }) => driver)));
    expect(drivers).toEqual(new Set(["tomas", "bea", "wren", "ilse"]));
    if (found.status === "best-found") expect(found.boundMinutes).toBeNull();
  });

  it("is the day that the plan gives with these edits in it", () => {
    if (found === null) throw new Error("nobody has a choice");
    const runs = new Map(
      [...made.plan.runs].map(([id, own]) => [id, { ...own, stops: own.stops.map((stop) => edited(stop, found)) }]),
    );
    const again = computed({ ...made.plan, runs });
    expect(again.moves.map(({ id, wheel, asleep }) => ({ id, wheel: joined(wheel), asleep }))).toEqual(
      found.day.moves.map(({ id, wheel, asleep }) => ({ id, wheel, asleep })),
    );
    expect(broken(again)).toBe(0);
    const lengthOf = (of: Day, is: string) =>
      of.people.map(({ spans }) => spans.reduce((sum, span) => sum + (span.is === is ? span.to - span.from : 0), 0));
    const kinds = (of: Day) => ["off", "berth", "duty", "driving", "riding"].map((is) => lengthOf(of, is));
    expect(kinds(again)).toEqual(kinds(found.day));
  });
});

/** The Day of a plan without mistakes. */
function computed(plan: Plan): Day {
  const { day: made } = computeDay(plan, legsByHand(plan));
  if (made === null) throw new Error("the plan gives no day");
  return made;
}

/** A stop with the edits of a proposal in it. */
function edited(stop: Stop, { edits }: ReliefProposal): Stop {
  const own = edits.filter(({ path }) => path.slice(0, -1).join() === stop.path.join());
  const value = (key: string) => own.find(({ path }) => path.at(-1) === key)?.value;
  const [driver, relieve, asleep] = [value("driver"), value("relieve"), value("asleep")];
  const changes = Array.isArray(relieve)
    ? relieve.flatMap((one) =>
        typeof one === "string" ? [] : [{ afterMinutes: Number.parseInt(one.after, 10), driver: one.driver }],
      )
    : stop.relieve;
  const sleepers = Array.isArray(asleep) ? asleep.filter((one): one is string => typeof one === "string") : stop.asleep;
  return { ...stop, driver: typeof driver === "string" ? driver : stop.driver, relieve: changes, asleep: sleepers };
}

/** Neighbouring stretches of one driver as one: a plan may say that somebody takes over from themselves. */
function joined(wheel: Day["moves"][number]["wheel"]): Day["moves"][number]["wheel"] {
  const row: Day["moves"][number]["wheel"][number][] = [];
  for (const next of wheel.filter(({ from, to }) => to > from)) {
    const last = row.at(-1);
    if (last?.driver === next.driver && last.to === next.from) row[row.length - 1] = { ...last, to: next.to };
    else row.push(next);
  }
  return row;
}

describe("one that only house rules forbid", () => {
  const alone: Trip = {
    vehicle: "wagon",
    people: ["wren", "ilse"],
    leave: at(0),
    way: [[sure("lodge", "harbour", 1800), "bad", {}]],
  };

  it("is lawful, and names the house rules that give way; what rides alone break is apart", () => {
    const found = propose(day([alone], parts(false, [], ["lodge", "harbour"])), { everyMinutes: 300 });
    expect([found.status, found.lawMinutes]).toEqual(["exact", 0]);
    expect(found.houseMinutes).toBe(found.breaches.reduce((sum, { minutes }) => sum + minutes, 0));
    expect(new Set(found.breaches.map(({ limit }) => limit))).toEqual(new Set(["house.wheelDay", "house.wheelBreak"]));
    // 30 h of duty for each, 14 allowed: both ride all the way.
    expect(found.unavoidable.map(({ who, limit, minutes }) => [who, limit, minutes])).toEqual([
      ["wren", "house.dutyDay", 960],
      ["ilse", "house.dutyDay", 960],
    ]);
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
