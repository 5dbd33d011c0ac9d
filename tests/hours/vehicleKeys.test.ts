/**
 * `drivers` and `dayStarts` of a vehicle: each day through a plan with the keys and through a log with the options, which
 * must be in breach of the same. What is expected is worked out by hand from the clauses named.
 */
import { describe, expect, it } from "vitest";
import { hoursJudge } from "../../src/roads/relief/hours.ts";
import { daysOfFile } from "../day/read.ts";
import {
  type Answer,
  asked,
  BERTHS,
  FROM_SIX,
  LONG_DAY,
  log,
  plan,
  type Span,
  sinceWork,
  spanLines,
} from "./vehicleDays.ts";

interface Case {
  readonly before: readonly Span[];
  readonly rules: string;
  /** Of the vehicle and of the log alike. */
  readonly keys: string;
  /** Of the vehicle alone. */
  readonly also?: string;
  readonly expected: readonly string[];
}

/** One breach of Canada's 16 h for each of the two drives: 10:00 and 16 h are 02:00 (s. 13(3)). */
const TOO_LATE = ["ca-south.elapsed 01-20T04:15 01-20T05:05", "ca-south.elapsed 01-20T06:33 01-20T07:08"];

const CASES: ReadonlyMap<string, Case> = new Map<string, Case>([
  // Art 8(5): 9 h inside 30 h leave 21 h; from 10:17 on they end at 07:17, eleven minutes before the release.
  [
    "two drivers, 21 h and 11 minutes, Reg 561/2006 Art 8(5)",
    {
      before: sinceWork("10:17"),
      rules: "eu",
      keys: "drivers: 2",
      expected: ["eu.daily-rest 01-20T07:17 01-20T07:28"],
    },
  ],
  [
    "two drivers, 21 h, Reg 561/2006 Art 8(5)",
    { before: sinceWork("10:28"), rules: "eu", keys: "drivers: 2", expected: [] },
  ],
  // Art 8(2), 8(4): 9 h inside 24 h leave 15 h; from 10:28 on they end at 01:28, in the night's duty.
  [
    "one driver, 15 h, Reg 561/2006 Art 8(2)",
    {
      before: sinceWork("10:28"),
      rules: "eu",
      keys: "drivers: 1",
      expected: ["eu.daily-rest 01-20T01:28 01-20T07:28"],
    },
  ],
  [
    "a team's split, 4 h and 4 h in the berth, SOR/2005-313 s.19",
    { before: BERTHS, rules: "ca-south", keys: "drivers: 2", also: ", berth: true", expected: [] },
  ],
  [
    "the same alone: 8 h 45 min are not 10 h, SOR/2005-313 s.18",
    { before: BERTHS, rules: "ca-south", keys: "drivers: 1", also: ", berth: true", expected: TOO_LATE },
  ],
  [
    "days from 06:00, SOR/2005-313 s.1",
    { before: LONG_DAY, rules: "ca-south", keys: 'dayStarts: "06:00"', expected: FROM_SIX },
  ],
  // Days from midnight: 11 h off on the 19th, and 13 h on duty.
  [
    "days from midnight, SOR/2005-313 s.1",
    { before: LONG_DAY, rules: "ca-south", keys: 'dayStarts: "00:00"', expected: [] },
  ],
  [
    "days from 24:00 are days from midnight",
    { before: LONG_DAY, rules: "ca-south", keys: 'dayStarts: "24:00"', expected: [] },
  ],
]);

describe("a plan with the keys and a log with the options", () => {
  for (const [name, { before, rules, keys, also = "", expected }] of CASES) {
    it(name, async () => {
      const planned = await asked(plan(before, `rules: ${rules}, ${keys}${also}`));
      const logged = await asked(log(before, rules, keys));
      expect(planned.breaches).toEqual(expected);
      expect(logged.breaches).toEqual(expected);
      const law = ({ used }: Answer) => [...used].filter(([id]) => id.startsWith(rules));
      expect(law(planned)).toEqual(law(logged));
    });
  }
});

describe("a longer way home is claimed by a vehicle as by a log, Reg 561/2006 Art 12", () => {
  const answers = async (from: string, claims: string, options: string) => [
    await asked(plan(sinceWork(from), `rules: eu${claims}`)),
    await asked(log(sinceWork(from), "eu", options)),
  ];

  // From 15:28 on 15 h end at 06:28, and the hour more at 07:28, the release.
  it("an hour more than 15 h, not an hour and a minute", async () => {
    for (const { breaches } of await answers("15:28", ", claims: [homeHour]", "homeHour: true")) {
      expect(breaches).toEqual([]);
    }
    for (const { breaches } of await answers("15:27", ", claims: [homeHour]", "homeHour: true")) {
      expect(breaches).toEqual(["eu.daily-rest 01-20T07:27 01-20T07:28"]);
    }
    for (const { breaches } of await answers("15:28", "", "drivers: 1")) {
      expect(breaches).toEqual(["eu.daily-rest 01-20T06:28 01-20T07:28"]);
    }
  });

  it("prints its conditions: to whom and where, and that the reason is to be noted", async () => {
    for (const claim of ["homeHour", "homeTwoHours", "stoppingPlace"]) {
      for (const { found } of await answers("15:28", `, claims: [${claim}]`, `${claim}: true`)) {
        const [told, ...others] = found.filter(({ code }) => code === "exception-claimed");
        expect(others).toEqual([]);
        expect(told?.who).toBe("wren");
        expect(told?.message).toMatch(/Reg 561\/2006 Art 12: .*the reason noted by hand/);
      }
    }
  });
});

describe("the hour of the carrier's days", () => {
  const hour = ({ found }: Answer): readonly string[] =>
    found.filter(({ message }) => message.includes("which hour")).map(({ message }) => message);

  it("is asked for in Canada where it is not stated, SOR/2005-313 s.1", async () => {
    const unstated = await asked(plan(LONG_DAY, "rules: ca-south"));
    expect(hour(unstated)).toHaveLength(1);
    expect(hour(unstated)[0]).toContain("cut at midnight");
    expect(hour(await asked(plan(LONG_DAY, 'rules: ca-south, dayStarts: "00:00"')))).toEqual([]);
  });

  it("is asked for where it moves along the chain, 49 CFR 395.8", async () => {
    const first = (hours: string): string => plan(LONG_DAY, `rules: us-property, dayStarts: "${hours}"`);
    const next = first("06:00")
      .replace("date: 2027-01-20", "date: 2027-01-21\nfollows: first.yaml")
      .replace(/history:[\s\S]*$/, "");
    expect(hour(await asked(next, { "first.yaml": first("05:00") }))).toEqual([
      expect.stringContaining("in the plan of 2027-01-20 the days of wagon begin at 05:00, in this one at 06:00"),
    ]);
    expect(hour(await asked(next, { "first.yaml": first("06:00") }))).toEqual([]);
  });

  // Art 4(i): a week is from Monday 00:00 to Sunday 24:00. Seven days of 8 h are the 56 h of Art 6(2); the eighth is Monday's.
  it("does not move the week of Reg 561/2006 Art 4(i)", async () => {
    const days = ["18", "19", "20", "21", "22", "23", "24"].flatMap((date): readonly Span[] => [
      [`2027-01-${date}T00:00`, "off"],
      [`2027-01-${date}T08:00`, "driving"],
      [`2027-01-${date}T16:00`, "off"],
    ]);
    const text = (last: string, from: string): string =>
      `log: 1\nzone: America/Chicago\nrules: eu\noptions: { dayStarts: "06:00" }\npeople:\n  wren:\n${spanLines([...days, [from, "driving"]], last)}`;
    const week = async (log: string): Promise<readonly string[]> =>
      (await asked(log)).breaches.filter((one) => one.startsWith("eu.week "));
    expect(await week(text("2027-01-25T03:00", "2027-01-25T00:00"))).toEqual([]);
    expect(await week(text("2027-01-25T00:00", "2027-01-24T23:59"))).toEqual(["eu.week 01-24T23:59 01-25T00:00"]);
  });

  it("is kept when relief is proposed", async () => {
    const found = async (keys: string): Promise<readonly string[]> => {
      const days = await daysOfFile("x.yaml", plan(LONG_DAY, `rules: ca-south${keys}`));
      const [day] = days;
      if (day === undefined) throw new Error("no day");
      return hoursJudge(days)
        .judge(day, "wren")
        .breaches.map(({ limit }) => limit);
    };
    expect(await found(', dayStarts: "06:00"')).toEqual(expect.arrayContaining(["ca-south.duty", "ca-south.day-off"]));
    expect((await found("")).filter((limit) => limit.startsWith("ca-"))).toEqual([]);
  });
});
