/** `calls`: the smallest plan gives the times worked out by hand; chains add up; both clocks; one person's view. */
import { describe, expect, it } from "vitest";
import { ran } from "./fakeIo.ts";
import { SMALLEST } from "./plans.ts";

const calls = (words: string, plan = SMALLEST) =>
  ran(["calls", "day.yaml", ...words.split(" ").filter(Boolean)], { files: { "day.yaml": plan } });
const data = async (words = "", plan = SMALLEST) => JSON.parse((await calls(`--json ${words}`, plan)).out).data;

interface Term {
  readonly name: string;
  readonly from: string;
  readonly to: string;
  readonly minutes: number;
}

/** Elapsed minutes by the host's own parser of ISO 8601. */
const minutesBetween = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / 60_000;

describe("the smallest plan", () => {
  it("has the people's times on the local clock", async () => {
    const { people } = await data();
    for (const person of people) {
      expect(person).toMatchObject({
        call: "2027-01-20T04:00-06:00",
        release: "2027-01-20T07:18-06:00",
        place: "lodge",
        duties: [{ call: "2027-01-20T04:00-06:00", release: "2027-01-20T07:18-06:00" }],
      });
      expect(minutesBetween(person.call, person.release)).toBe(198);
    }
  });

  it("has the stops, moves and the hit", async () => {
    const { stops, moves, activities } = await data();
    expect(stops).toEqual([
      { id: "wagon.1", vehicle: "wagon", place: "lodge", arrive: null, parked: null, leave: "2027-01-20T04:15-06:00" },
      {
        id: "wagon.2",
        vehicle: "wagon",
        place: "pier",
        arrive: "2027-01-20T05:05-06:00",
        parked: "2027-01-20T05:10-06:00",
        leave: "2027-01-20T06:33-06:00",
      },
      { id: "wagon.3", vehicle: "wagon", place: "lodge", arrive: "2027-01-20T07:08-06:00", parked: null, leave: null },
    ]);
    expect(moves[0]).toEqual({
      id: "wagon.1",
      vehicle: "wagon",
      driver: "wren",
      riders: ["ilse"],
      ferry: false,
      from: "lodge",
      to: "pier",
      leave: "2027-01-20T04:15-06:00",
      arrive: "2027-01-20T05:05-06:00",
      plannedMinutes: 50,
      plannedAt: "bad",
      likelyMinutes: 35,
      badMinutes: 50,
      leaveBy: "2027-01-20T04:15-06:00",
      slackMinutes: 0,
      overLikelyMinutes: 15,
    });
    expect(activities).toEqual([
      {
        id: "dawn",
        kind: "hit",
        place: "pier",
        who: ["wren", "ilse"],
        inPosition: "2027-01-20T05:50-06:00",
        start: "2027-01-20T06:00-06:00",
        end: "2027-01-20T06:03-06:00",
        state: "fixed",
        slackMinutes: 0,
        stops: ["wagon.2"],
      },
    ]);
  });

  it("prints both clocks, and says the zone once", async () => {
    const { out } = await calls("");
    expect(out).toMatch(/wren +04:00 +05:00 +lobby, lodge +04:15 +05:50 +07:18 +08:18 +3 h 18 min/u);
    expect(out).toMatch(/dawn +06:00 +07:00 +3 min +pier +05:50/u);
    expect(out).toContain("times on Chicago (UTC-06:00) and New York (UTC-05:00)");
  });
});

describe("chains", () => {
  it("tile from call to release, and their ends meet", async () => {
    for (const person of (await data()).people) {
      const terms: readonly Term[] = person.terms;
      expect(terms[0]?.from).toBe(person.call);
      expect(terms.at(-1)?.to).toBe(person.release);
      for (const [at, term] of terms.entries()) {
        expect(minutesBetween(term.from, term.to)).toBe(term.minutes);
        if (at > 0) expect(Date.parse(terms[at - 1]?.to ?? "")).toBe(Date.parse(term.from));
      }
    }
  });

  it("say why a call is when it is, with the plan's lines, and add up", async () => {
    const { why } = await data("--why wren.call");
    expect(why).toMatchObject({
      id: "wren.call",
      at: "2027-01-20T04:00-06:00",
      fixedBy: { id: "dawn.start", at: "2027-01-20T06:00-06:00", where: { file: "day.yaml", line: 16 } },
    });
    const sum = why.terms.reduce((total: number, term: Term) => total + term.minutes, 0);
    expect(sum).toBe(120);
    const { out } = await calls("--why wren.call");
    expect(out).toContain("wren.call is at 05:00 New York (04:00 Chicago), to be ready for dawn.start");
    expect(out).toMatch(/drive, wagon +50 min +day\.yaml:14\n/u);
    expect(out).toMatch(/06:00 +07:00 +in all +2 h\n/u);
  });
});

describe("a time that the day does not have", () => {
  it.each([
    ["wren.cal", "wren.call"],
    ["wrne.call", "wren.call"],
    ["wren.released", "wren.release"],
    ["wagn.1.leaves", "wagon.1.leave"],
    ["dawn.strat", "dawn.start"],
    ["wren", "wren.call or wren.release"],
    // Nothing is near: some that this day has, each of another.
    ["zzz.q", "wren.call or ilse.call or wagon.1.leave"],
  ])("%s suggests this plan's own: %s", async (typed, like) => {
    const { code, err } = await calls(`--why ${typed}`);
    expect([code, err]).toEqual([2, `error: this day has no instant \`${typed}\`\ntry: --why ${like}\n`]);
  });
});

describe("views", () => {
  it("name the weekday of another day and count the clocks' dates by themselves", async () => {
    const late = SMALLEST.replace('"07:00", for: 3 min', '"23:50", for: 20 min');
    const { out } = await calls("", late);
    expect(out).toMatch(/dawn +22:50 +23:50/u);
    expect(out).toMatch(/wren .* Thu 00:25 +Thu 01:25/u);
  });

  it("name a clock by the plan's label, and show one column where all clocks agree", async () => {
    const labelled = SMALLEST.replace("crew:", "labels: { ET: America/New_York, CT: America/Chicago }\ncrew:");
    expect((await calls("", labelled)).out).toContain("Call, CT  ET");
    const one = SMALLEST.replace("zone: America/Chicago", "zone: America/New_York");
    expect((await calls("", one)).out).toMatch(/Who +Call +Where/u);
  });

  it("take a departure on its origin's clock and an arrival on its destination's", async () => {
    const across = SMALLEST.replace(
      "pier:  { at: [46.81, -90.82] }",
      "pier:  { at: [46.81, -90.82], zone: America/Detroit }",
    );
    const [out, back] = (await data("", across)).moves;
    expect([out.leave, out.arrive]).toEqual(["2027-01-20T04:15-06:00", "2027-01-20T06:05-05:00"]);
    expect([back.leave, back.arrive]).toEqual(["2027-01-20T07:33-05:00", "2027-01-20T07:08-06:00"]);
  });

  it("show one person's times, and say who has nothing to do", async () => {
    const third = SMALLEST.replace(
      "vehicles:",
      "  bea: { role: producer, slept: lodge, sleeps: lodge }\nvehicles:",
    ).replace("wagon: [lodge, pier, lodge]", "wagon: { aboard: [wren, ilse], stops: [lodge, pier, lodge] }");
    const all = await data("", third);
    expect(all.people.map((person: { id: string }) => person.id)).toEqual(["wren", "ilse", "bea"]);
    expect(all.people[2]).toMatchObject({ call: null, release: null, place: null, duties: [], terms: [] });
    const bea = await data("--for bea", third);
    expect([bea.people.length, bea.moves, bea.activities, bea.stops]).toEqual([1, [], [], []]);
    expect((await calls("--for bea", third)).out).toMatch(/bea +nothing to do/u);
  });

  it("keep ids such as __proto__ and constructor apart from everything else", async () => {
    const odd = SMALLEST.replaceAll("ilse", "constructor").replaceAll("wren", "toString");
    const { people } = await data("", odd);
    expect(people.map((person: { id: string }) => person.id)).toEqual(["toString", "constructor"]);
  });
});

describe("a meal that says no length", () => {
  const meal = async (rules = "") => {
    const plan = `${SMALLEST}tasks:\n  lunch: { kind: meal, place: pier }\n${rules}`;
    const { activities } = await data("", plan);
    const lunch = activities.find((one: { readonly id: string }) => one.id === "lunch");
    return minutesBetween(lunch.start, lunch.end);
  };

  it("lasts as the house rule `mealFor` says, 30 min by default", async () => {
    expect(await meal()).toBe(30);
    expect(await meal("rules: { mealFor: 45 min }\n")).toBe(45);
  });
});

it("judges no rest: a rest that is too short is an error of `hours` and `check` (help promises)", async () => {
  // Released 23:00, called 04:00 Chicago: 5 h of the 10 h of the house's turnaround.
  const plan = SMALLEST.replace("hits:", 'history: { wren: { released: "2027-01-19T23:00-06:00" } }\nhits:');
  const codes = ["calls", "hours", "check"].map(async (name) => {
    const { code } = await ran([name, "day.yaml"], { files: { "day.yaml": plan } });
    return code;
  });
  expect(await Promise.all(codes)).toEqual([0, 1, 1]);
});
