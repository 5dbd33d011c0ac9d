/**
 * `drivers` and `dayStarts` of a vehicle: each day through a plan with the keys and through a log with the options, which
 * must be in breach of the same. What is expected is worked out by hand from the clauses named.
 */
import { describe, expect, it } from "vitest";
import { hoursJudge } from "../../src/roads/relief/hours.ts";
import { ran } from "../cli/fakeIo.ts";
import { daysOfFile } from "../day/read.ts";

interface Told {
  readonly code: string;
  readonly level: string;
  readonly who: string | null;
  readonly message: string;
}

interface Answer {
  readonly found: readonly Told[];
  /** `us-property.week` to minutes. */
  readonly used: ReadonlyMap<string, number | null>;
  /** Of law, as `limit from to`. */
  readonly breaches: readonly string[];
}

interface Shown {
  readonly id: string;
  readonly limits: readonly { readonly id: string; readonly usedMinutes: number | null }[];
  readonly breaches: readonly { readonly limit: string; readonly from: string; readonly to: string }[];
}

async function asked(text: string, files: Readonly<Record<string, string>> = {}): Promise<Answer> {
  const { out } = await ran(["hours", "x.yaml", "--json"], { files: { ...files, "x.yaml": text } });
  const answer: { findings: readonly Told[]; data: { people: readonly Shown[] } | null } = JSON.parse(out);
  expect(answer.data, out).not.toBeNull();
  const wren = answer.data?.people.find(({ id }) => id === "wren");
  return {
    found: answer.findings,
    used: new Map((wren?.limits ?? []).map(({ id, usedMinutes }) => [id, usedMinutes])),
    breaches: (wren?.breaches ?? [])
      .filter(({ limit }) => !limit.startsWith("house."))
      .map(({ limit, from, to }) => `${limit} ${from.slice(5, 16)} ${to.slice(5, 16)}`),
  };
}

type Span = readonly [from: string, is: string];

const spanLines = (spans: readonly Span[], until: string): string =>
  spans
    .map(
      ([from, is], index) => `    - { from: ${from}-06:00, to: ${spans[index + 1]?.[0] ?? until}-06:00, is: ${is} }\n`,
    )
    .join("");

const PARTS = {
  wren: "{ role: camera, drives: all }",
  runs: "  wagon: { driver: wren, stops: [lodge, pier, lodge] }\n",
};

/** What was before the call at 03:45, and a morning with one hit in vehicles that state `wagon` and others. */
const plan = (
  before: readonly Span[],
  wagon: string,
  more: Partial<typeof PARTS> & { others?: string } = {},
): string => {
  const { wren, runs, others = "" } = { ...PARTS, ...more };
  return `daywright: 1
date: 2027-01-20
clock: America/New_York
zone: America/Chicago
crew:
  wren: ${wren}
  ilse: { role: reporter, drives: all }
vehicles:
  wagon: { gross: 5 t, ${wagon} }
${others}places:
  lodge: { at: [46.60, -90.88] }
  pier: { at: [46.81, -90.82] }
roads:
  - { link: [lodge, pier], drive: 35 min, bad: 50 min }
hits:
  dawn: { at: "07:00", for: 3 min, place: pier }
runs:
${runs}history:
  ilse: { released: 2027-01-19T17:00-06:00 }
  wren:
    spans:
${spanLines(before, "2027-01-20T03:45").replaceAll("    -", "      -")}`;
};

/** Walk-around and loading, 15 min each; 50 min there, into a firm hit; 35 min back from 06:33 on; 10 min each to unload and after the trip. */
const MORNING: readonly Span[] = [
  ["2027-01-20T03:45", "duty"],
  ["2027-01-20T04:15", "driving"],
  ["2027-01-20T05:05", "duty"],
  ["2027-01-20T06:33", "driving"],
  ["2027-01-20T07:08", "duty"],
];

const log = (before: readonly Span[], rules: string, options: string): string =>
  `log: 1\nzone: America/Chicago\nrules: ${rules}\noptions: { ${options} }\npeople:\n  wren:\n${spanLines([...before, ...MORNING], "2027-01-20T07:28")}`;

/** A weekly rest up to `work`, then duty. */
const sinceWork = (work: string): readonly Span[] => [
  ["2027-01-16T08:00", "off"],
  [`2027-01-19T${work}`, "duty"],
];

/** 5 h, 4 h in the berth, 4 h, 4 h 45 min in the berth. */
const BERTHS: readonly Span[] = [
  ["2027-01-18T20:00", "off"],
  ["2027-01-19T10:00", "duty"],
  ["2027-01-19T15:00", "berth"],
  ["2027-01-19T19:00", "duty"],
  ["2027-01-19T23:00", "berth"],
];

/** 13 h on duty from 06:00 on, 8 h 45 min off. */
const LONG_DAY: readonly Span[] = [
  ["2027-01-18T10:00", "off"],
  ["2027-01-19T06:00", "duty"],
  ["2027-01-19T19:00", "off"],
];

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

/**
 * Days from 06:00: 13 h and 2 h 15 min on duty leave 8 h 45 min of the 10 h off (s. 14(1)); the 14th hour ends at 04:45
 * (s. 12(2)), 20 minutes before the pier. The last drive lies in the next day.
 */
const FROM_SIX = ["ca-south.day-off 01-19T06:00 01-20T06:00", "ca-south.duty 01-20T04:45 01-20T05:05"];

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

describe("two drivers are a claim", () => {
  const conditions = ({ found }: Answer): readonly string[] =>
    found.filter(({ code }) => code === "exception-claimed").map(({ who, message }) => `${who}: ${message}`);

  it("whose conditions are told to each driver it binds, as a note", async () => {
    const eu = await asked(plan(sinceWork("12:00"), "rules: eu, drivers: 2"));
    expect(conditions(eu)).toHaveLength(1);
    expect(conditions(eu)[0]).toMatch(/^wren: .*two drivers, Reg 561\/2006 Art 8\(5\)/);
    const canada = await asked(plan(LONG_DAY, "rules: ca-south, drivers: 2, berth: true"));
    expect(conditions(canada)[0]).toMatch(/^wren: .*team, SOR\/2005-313 s.19/);
    expect(conditions(await asked(plan(LONG_DAY, "rules: eu, drivers: 1")))).toEqual([]);
    expect(conditions(await asked(plan(LONG_DAY, "rules: eu")))).toEqual([]);
  });

  /** Wren alone up to the pier, where ilse slept. */
  const joins = (rules: string, bad: number): string =>
    plan(sinceWork("12:00"), `rules: ${rules}, drivers: 2, berth: true`, {
      runs: "  wagon: { driver: wren, stops: [{ place: lodge, aboard: [wren] }, { place: pier, aboard: [wren, ilse] }, lodge] }\n",
    })
      .replace("bad: 50 min", `bad: ${bad} min`)
      .replace("drives: all }\nvehicles", "drives: all, slept: pier }\nvehicles");
  const missing = async (text: string): Promise<readonly Told[]> =>
    (await asked(text)).found.filter(({ code }) => code === "second-driver-missing");

  it("who may join within the first hour, Reg 561/2006 Art 4(o)", async () => {
    expect(await missing(joins("eu", 60))).toEqual([]);
    const [told] = await missing(joins("eu", 61));
    expect(told).toMatchObject({ level: "error", who: "wren" });
    expect(told?.message).toMatch(/no one aboard except wren may drive it; 1 min in all/);
  });

  it("not in Canada, where a team is two, SOR/2005-313 s.19", async () => {
    expect((await missing(joins("ca-south", 60)))[0]?.message).toMatch(/; 1 h in all/);
  });

  it("one of whom must be there at all: the first hour alone is no multi-manning", async () => {
    const alone = plan(sinceWork("12:00"), "rules: eu, drivers: 2", {
      runs: "  wagon: { driver: wren, aboard: [wren], stops: [lodge, pier, lodge] }\n",
    });
    expect((await missing(alone))[0]?.message).toMatch(/; 1 h 25 min in all/);
    expect(await missing(plan(sinceWork("12:00"), "rules: eu, drivers: 2"))).toEqual([]);
  });
});

/** There in the wagon, back in the van. */
const two = (before: readonly Span[], wagon: string, van: string): string =>
  plan(before, wagon, {
    others: `  van: { gross: 5 t, ${van} }\n`,
    runs: "  wagon: { driver: wren, stops: [lodge, pier] }\n  van: { driver: wren, stops: [{ place: pier, after: wagon.2 }, lodge] }\n",
  });

describe("one person who drives two vehicles", () => {
  const review = ({ found }: Answer): string =>
    found
      .filter(({ code }) => code === "hours-review")
      .map(({ message }) => message)
      .join("\n");

  it("is judged by each rule set in the days of its own vehicle", async () => {
    const total = (text: string): string =>
      text.replace("    spans:", "    totals: { 2027-01-12: { duty: 10 h } }\n    spans:");
    // 13 h and 3 h 58 min, from 03:45 to 07:43. At 07:43 the 8 days of 395.3(b)(2) from noon on are those of the 12th to
    // the 19th, with its 10 h; from 06:00 on those of the 13th to the 20th, without.
    const noon = await asked(
      total(two(LONG_DAY, 'rules: ca-south, dayStarts: "06:00"', 'rules: us-property, dayStarts: "12:00"')),
    );
    expect(noon.used.get("us-property.week")).toBe(780 + 238 + 600);
    expect(noon.breaches.filter((one) => one.startsWith("ca-"))).toEqual(FROM_SIX);
    expect(review(noon)).not.toContain("which hour");
    const six = await asked(
      total(two(LONG_DAY, 'rules: ca-south, dayStarts: "00:00"', 'rules: us-property, dayStarts: "06:00"')),
    );
    expect(six.used.get("us-property.week")).toBe(780 + 238);
    expect(six.breaches.filter((one) => one.startsWith("ca-"))).toEqual([]);
    // 24:00 is the next day's 00:00, and the 12th is as far away.
    const late = await asked(total(two(LONG_DAY, "rules: eu", 'rules: us-property, dayStarts: "24:00"')));
    expect(late.used.get("us-property.week")).toBe(780 + 238);
  });

  it("with what is known only from before a hole, too", async () => {
    // 10 h on the 13th, of which the 4 h before 06:00 are the 12th's where days begin then, and out of the 8 days.
    const before: readonly Span[] = [["2027-01-13T02:00", "duty"]];
    const holed = (starts: string): string =>
      two(LONG_DAY, "rules: eu", `rules: us-property, dayStarts: "${starts}"`).replace(
        "    spans:\n",
        `    spans:\n${spanLines(before, "2027-01-13T12:00").replace("    -", "      -")}`,
      );
    expect((await asked(holed("06:00"))).used.get("us-property.week")).toBe(780 + 238 + 360);
    expect((await asked(holed("00:00"))).used.get("us-property.week")).toBe(780 + 238 + 600);
  });

  it("under one rule set with two day starts is judged by the stricter, and that is asked", async () => {
    for (const [a, b] of [
      ["06:00", "00:00"],
      ["00:00", "06:00"],
    ]) {
      const mixed = await asked(
        two(LONG_DAY, `rules: ca-south, dayStarts: "${a}"`, `rules: ca-south, dayStarts: "${b}"`),
      );
      expect(mixed.breaches).toEqual(FROM_SIX);
      expect(review(mixed)).toContain(`for wagon at ${a}, for van at ${b}: which hour`);
    }
    const alike = await asked(
      two(LONG_DAY, 'rules: ca-south, dayStarts: "06:00"', 'rules: ca-south, dayStarts: "06:00"'),
    );
    expect(review(alike)).not.toContain("which hour");
  });

  it("shares the wheel only where each is claimed for two, Reg 561/2006 Art 4(o)", async () => {
    const both = await asked(two(sinceWork("10:43"), "rules: eu, drivers: 2", "rules: eu, drivers: 2"));
    expect(both.breaches).toEqual([]);
    expect(review(both)).toBe("");
    for (const [a, b] of [
      ["drivers: 2", "drivers: 1"],
      ["drivers: 1", "drivers: 2"],
    ]) {
      const one = await asked(two(sinceWork("10:43"), `rules: eu, ${a}`, `rules: eu, ${b}`));
      // 15 h from 10:43 on.
      expect(one.breaches).toEqual(["eu.daily-rest 01-20T01:43 01-20T07:43"]);
      expect(review(one)).toContain("Counted as one driver");
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
