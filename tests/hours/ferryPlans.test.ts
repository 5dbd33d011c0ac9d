/** Rest round a crossing, as a plan states it: 561/2006 Art 9(1) and SOR/2005-313 s. 17, to the minute. */
import { describe, expect, it } from "vitest";
import { type HoursCase, hoursOf } from "../cases/hoursJson.ts";

interface Crossing {
  readonly rules: string;
  readonly zone: string;
  /** Hours of work at the quay from 10:00 on. */
  readonly jobHours: number;
  /** The rest before sailing, the crossing, the rest after landing: clock times. */
  readonly eve: readonly [string, string];
  readonly ferry: readonly [string, string];
  readonly morn?: readonly [string, string];
  readonly bunk?: boolean;
}

const window = ([from, to]: readonly [string, string]) => `window: ["${from}", "${to}"]`;

/** On duty from 06:00, 4 h to the quay; 4 h from the isle to the inn. Nothing is loaded, parked or walked around. */
const hours = ({ rules, zone, jobHours, eve, ferry, morn, bunk = true }: Crossing): Promise<HoursCase> =>
  hoursOf("x.yaml", {
    "x.yaml": `daywright: 1
date: 2027-01-20
clock: ${zone}
zone: ${zone}
rules: { loading: 0 min, walkAround: 0 min, unload: 0 min, postTrip: 0 min, roundCalls: 1 min, park: 0 min }
crew: { luc: { role: engineer, drives: truck, slept: home, sleeps: inn } }
history: { luc: { released: 2027-01-18T12:00 } }
vehicles: { truck: { gross: 7 t, rules: ${rules} } }
places: { home: {}, quay: {}, isle: {}, inn: {} }
roads: [{ link: [home, quay], drive: 4 h, bad: 4 h }, { link: [isle, inn], drive: 4 h, bad: 4 h }]
tasks:
  job: { what: work, for: ${jobHours} h, place: quay, who: [luc] }
  eve: { kind: standdown, place: quay, who: [luc], ${window(eve)} }
  ${morn === undefined ? "" : `morn: { kind: standdown, place: isle, who: [luc], ${window(morn)} }`}
runs:
  truck:
    - home
    - { place: quay, do: [job, eve], ferry: { sail: "${ferry[0]}", land: "${ferry[1]}", bunk: ${bunk} } }
    - { place: isle, do: [${morn === undefined ? "" : "morn"}] }
    - inn
`,
  });

const luc = async (crossing: Crossing, limit: string) => {
  const one = await hours(crossing);
  return {
    used: one.limit("luc", limit).usedMinutes,
    law: one.law("luc"),
    questions: one.said("law-open-review").join(),
  };
};

describe("561/2006 Art 9(1): a regular daily rest, interrupted at most twice, for an hour in all", () => {
  const eu = (crossing: Omit<Crossing, "rules" | "zone">) =>
    luc({ ...crossing, rules: "eu", zone: "Europe/Paris" }, "eu.daily-rest");
  const once = { jobHours: 6, eve: ["16:00", "19:30"], ferry: ["20:00", "03:30 +1d"] } as const;

  it("3 h 30 at the quay and 7 h 30 aboard make 11 h, with half an hour between: the day begins at the landing", async () => {
    // From 03:30 to the release at 07:30.
    const one = await eu(once);
    expect([one.used, one.law]).toEqual([240, []]);
    expect(one.questions).toContain("had the driver access to a bunk (Art 9(1))?");
  });

  it("a minute less in all is no regular daily rest, and reduced ones must not be interrupted", async () => {
    // From 06:00 to 07:30; the rest of 9 h had to begin at 21:00: of it 7 h 30 were taken from 20:00.
    const one = await eu({ ...once, eve: ["16:00", "19:29"] });
    expect(one.law.some((breach) => breach.startsWith("eu.daily-rest"))).toBe(true);
  });

  it("without a bunk it is none", async () => {
    expect((await eu({ ...once, bunk: false })).law.some((breach) => breach.startsWith("eu.daily-rest"))).toBe(true);
  });

  const twice = {
    jobHours: 7,
    eve: ["17:00", "19:30"],
    ferry: ["20:00", "03:30 +1d"],
    morn: ["04:00 +1d", "06:00 +1d"],
  } as const;

  it("interrupted twice for 30 min each, 2 h 30 + 7 h 30 + 2 h are 12 h: the day begins at 06:00", async () => {
    // From 06:00 to the release at 10:00.
    const one = await eu(twice);
    expect([one.used, one.law]).toEqual([240, []]);
  });

  it("61 minutes of interruption are too many", async () => {
    const one = await eu({ ...twice, morn: ["04:01 +1d", "06:01 +1d"] });
    expect(one.law.some((breach) => breach.startsWith("eu.daily-rest"))).toBe(true);
  });
});

describe("SOR/2005-313 s. 17 (from memory): rest at the terminal, aboard and at the first stop make 8 h", () => {
  const canada = (crossing: Omit<Crossing, "rules" | "zone">) =>
    luc({ ...crossing, rules: "ca-south", zone: "America/Halifax" }, "ca-south.elapsed");
  const once = { jobHours: 8, eve: ["18:00", "19:30"], ferry: ["20:00", "02:30 +1d"] } as const;

  it("1 h 30 at the terminal and 6 h 30 aboard are 8 h: a new shift begins at the landing", async () => {
    // From 02:30 to the release at 06:30.
    const one = await canada(once);
    expect([one.used, one.law]).toEqual([240, []]);
    expect(one.questions).toContain("s. 17");
  });

  it("a minute less makes one shift of it: driving after 16 h from 06:00 (s. 13(3))", async () => {
    // At the wheel 02:29 to 06:29, all beyond 22:00; on duty 06:00 to 18:00, so 14 h on duty end at 04:00 or before.
    const one = await canada({ ...once, ferry: ["20:00", "02:29 +1d"] });
    expect(one.law).toContain("ca-south.elapsed 02:29-06:29 240");
  });

  it("a crossing of 5 h is not longer than 5 h, whatever was rested before it", async () => {
    const short = { jobHours: 5, eve: ["15:00", "19:30"] } as const;
    expect((await canada({ ...short, ferry: ["20:00", "01:01 +1d"] })).law).toEqual([]);
    expect((await canada({ ...short, ferry: ["20:00", "01:00 +1d"] })).law).toContain(
      "ca-south.elapsed 01:00-05:00 240",
    );
  });

  it("without a bunk no rest is taken aboard", async () => {
    expect((await canada({ ...once, bunk: false })).law).toContain("ca-south.elapsed 02:30-06:30 240");
  });
});
