/** Chains of days, as hours and time cards read them: what each should say, by hand, with its source. */
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";
import { fixture, hoursOf } from "./hoursJson.ts";

const CHAIN = fixture("chain");

describe("a day with the car alone between two days with the truck", () => {
  it("keeps the truck's rows, for the next drive, and finds nothing by them", async () => {
    const second = await hoursOf("d2.yaml", CHAIN);
    expect(second.person("tomas").rules).toEqual(["us-property", "house"]);
    expect(second.text).toContain("for the next drive");
    // 70 h in 8 days: 11 h 50 of the first day (06:30 to 18:25 less nothing off), 15 h of the second; any duty counts (395.2).
    const [first, third] = [await hoursOf("d1.yaml", CHAIN), await hoursOf("d3.yaml", CHAIN)];
    const week = (one: typeof second) => one.limit("tomas", "us-property.week").usedMinutes ?? 0;
    expect(week(second)).toBeGreaterThan(week(first));
    expect(week(third)).toBeGreaterThan(week(second));
    expect(second.law("tomas")).toEqual([]);
    // 8 h 45 between release and call are no 10 h (49 CFR 395.3(a)(1)): both drives of the third day.
    expect(third.law("tomas")).toEqual(["us-property.rest 07:00-08:00 60", "us-property.rest 11:05-12:05 60"]);
  });
});

describe("a day without a file inside a chain is unknown time", () => {
  const files = Object.fromEntries(
    Object.entries(CHAIN).flatMap(([path, text]) =>
      path.startsWith("unknown-day/") ? [[path.slice("unknown-day/".length), text] as const] : [],
    ),
  );

  it("gives no rest and no restart: an error of law, and figures that are a least", async () => {
    const one = await hoursOf("h3.yaml", files);
    expect(one.exit).toBe(1);
    const errors = one.findings.filter(({ level }) => level === "error");
    expect(errors.map(({ code, who }) => [code, who])).toEqual([["rest-not-stated", "tomas"]]);
    expect(errors[0]?.hint).toContain("totals: { 2027-03-14: { duty: 0 h, driving: 0 h } }");
    expect(one.said("days-missing")).toHaveLength(1);
    // 8 to 15 March: 11 + 10 + 10 + 10 + 8 h of history, 10 h 55 on the 13th, 5 h 55 on the 15th.
    expect(one.limit("tomas", "us-property.week")).toMatchObject({ usedMinutes: 49 * 60 + 655 + 355, atLeast: true });
    // Of the night before, what is known: from midnight to the call at 06:30.
    expect(one.person("tomas")).toMatchObject({ restBeforeMinutes: 390, restAtLeast: true });
    expect(one.text).toContain("at least");
  });

  it("gives no rest before it either, be it longer than what is known after it", async () => {
    const first = `daywright: 1
date: 2027-03-10
clock: America/Chicago
zone: America/Chicago
crew: { tomas: { role: engineer, drives: truck, slept: lodge, sleeps: lodge } }
history: { tomas: { released: 2027-03-09T16:00-06:00 } }
vehicles: { truck: { gross: 16000 lb, rules: us-property, week: 70/8 } }
places: { lodge: { kind: lodging }, pier: {} }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 30 min }]
hits: { noon: { at: "12:00", for: 3 min, place: pier } }
runs: { truck: [lodge, pier, lodge] }
`;
    const second = first
      .replace("2027-03-10", "2027-03-16")
      .replace(/^history.*\n/mu, "follows: h1.yaml\n")
      .replace('"12:00"', '"11:00"');
    const one = await hoursOf("h2.yaml", { "h1.yaml": first, "h2.yaml": second });
    // From the release on the 10th at 13:23 to midnight are 10 h 37, but work may have ended at midnight on the 16th. The call
    // for 11:00 is at 09:05: 10 min in position, 10 line check, 30 set-up, 5 to park, 30 drive, 15 loading, 15 walk-around.
    expect(one.person("tomas")).toMatchObject({ restBeforeMinutes: 545, restAtLeast: true });
    expect(one.limit("tomas", "us-property.rest")).toMatchObject({ usedMinutes: 545, atLeast: true });
  });

  it("stated as a day off it is one: a restart of 34 h (49 CFR 395.3(c))", async () => {
    const stated = `${files["h3.yaml"]}history:\n  tomas: { totals: { 2027-03-14: { duty: 0 h, driving: 0 h } } }\n`;
    const one = await hoursOf("h3.yaml", { ...files, "h3.yaml": stated });
    expect(one.findings.filter(({ level }) => level === "error")).toEqual([]);
    expect(one.said("days-missing")).toEqual([]);
    expect(one.limit("tomas", "us-property.week")).toMatchObject({ usedMinutes: 355, atLeast: false });
    expect(one.person("tomas").restAtLeast).toBe(false);
  });

  it("stated with work, its minutes count and its rest does not", async () => {
    const stated = `${files["h3.yaml"]}history:\n  tomas: { totals: { 2027-03-14: { duty: 4 h, driving: 1 h } } }\n`;
    const one = await hoursOf("h3.yaml", { ...files, "h3.yaml": stated });
    expect(one.limit("tomas", "us-property.week").usedMinutes).toBe(49 * 60 + 655 + 355 + 240);
    expect(one.said("rest-not-stated").length).toBeGreaterThan(0);
  });

  it("follows the day before, nothing is missing", async () => {
    const next = (files["h3.yaml"] ?? "").replace("2027-03-15", "2027-03-14");
    const one = await hoursOf("h3.yaml", { ...files, "h3.yaml": next });
    expect(one.said("days-missing")).toEqual([]);
    expect(one.person("tomas").restAtLeast).toBe(false);
  });
});

describe("awake since when", () => {
  const eve = fixture("facts")["eve.yaml"] ?? "";
  const wheel = async (text: string) => {
    const one = await hoursOf("eve.yaml", { "eve.yaml": text });
    return { ...one, last: one.fitness[0]?.wheel.at(-1), night: one.fitness[0] };
  };

  it("after a whole night off, 07:00 is assumed for a call at 20:20: 19 h 3 at 02:03", async () => {
    const one = await wheel(eve);
    expect(one.night).toMatchObject({ upAssumed: true, up: "2027-01-20T07:00-06:00" });
    expect(one.last?.awakeMinutes).toBe(19 * 60 + 3);
    expect(one.said("awake-too-long-at-wheel").join()).toContain("assumed");
    // Asleep 00:00 to 07:00 as stated; of that 02:03 to 07:00 lies in the last 24 h.
    expect(one.last?.sleepMinutes).toBe(4 * 60 + 57);
    expect(one.text).toContain("taken to be up");
  });

  it("sleep by day of five hours starts the waking time again, of two only adds (common practice, no source)", async () => {
    const slept = (to: string) =>
      wheel(eve.replace("slept: lodge,", `slept: lodge, inBed: [["23:00 -1d", "07:00"], ["12:00", "${to}"]],`));
    const long = await slept("17:00");
    expect(long.last?.awakeMinutes).toBe(9 * 60 + 3);
    expect(long.night?.upAssumed).toBe(false);
    const nap = await slept("16:59");
    expect(nap.last?.awakeMinutes).toBe(19 * 60 + 3);
    // 02:03 to 07:00 and 12:00 to 16:59.
    expect(nap.last?.sleepMinutes).toBe(4 * 60 + 57 + 4 * 60 + 59);
    const short = await slept("13:59");
    expect(short.last?.sleepMinutes).toBe(4 * 60 + 57);
  });

  it("getting up that is stated beats the estimate", async () => {
    const one = await wheel(eve.replace("slept: lodge,", 'slept: lodge, up: "10:00",'));
    expect(one.last?.awakeMinutes).toBe(16 * 60 + 3);
    expect(one.night?.upAssumed).toBe(false);
  });

  it("before an early call after days off, the night before it is slept in", async () => {
    const early = eve
      .replace("released: 2027-01-19T17:00-06:00, asleep: 7 h", "released: 2027-01-17T17:00-06:00")
      .replace('at: "23:30"', 'at: "08:00"');
    expect((await wheel(early)).night?.upAssumed).toBe(false);
  });
});

describe("time cards", () => {
  const card = async (file: string, files: Readonly<Record<string, string>>) => {
    const { out } = await ran(["timecard", file, "--json"], { files: { ...files } });
    return JSON.parse(out).data.people;
  };

  it("four days of 12 h: daily overtime is creditable, 8 h and not 14 (29 U.S.C. 207(h)(2), from memory)", async () => {
    const [bea] = await card("overtime/2027-01-14.yaml", CHAIN);
    expect(bea.totals).toMatchObject({ workedMinutes: 48 * 60, straightMinutes: 40 * 60, overtimeMinutes: 480 });
  });

  it("a meal of 20 min is worked under either law (29 CFR 785.18, from memory), one of 21 is asked", async () => {
    const logs = fixture("hours");
    for (const name of ["log-tc3", "log-tc4"]) {
      const ride = (await card("x.yaml", { "x.yaml": logs[`${name}.yaml`] ?? "" }))[2];
      // 4 h riding, 3 h standing by, 20 min, 3 h.
      expect(ride.totals.workedMinutes).toBe(10 * 60 + 20);
    }
    const longer = (logs["log-tc4.yaml"] ?? "").replaceAll("13:20", "13:21").replace("16:20", "16:21");
    const [, , ride] = await card("x.yaml", { "x.yaml": longer });
    expect(ride.totals.workedMinutes).toBe(10 * 60);
    const { out } = await ran(["hours", "x.yaml", "--json"], { files: { "x.yaml": longer } });
    const asked = JSON.parse(out).findings.filter(({ message }: { message: string }) => message.includes("785.19"));
    expect(asked.map(({ who }: { who: string }) => who)).toEqual(["ride"]);
  });

  it("11 h without a meal miss one under California Labor Code 226.7 (from memory), a day over midnight says its workday", async () => {
    const text = fixture("hours")["log-tc3.yaml"] ?? "";
    const people = await card("x.yaml", { "x.yaml": text });
    expect(people.map(({ totals }: { totals: { mealsMissed: number } }) => totals.mealsMissed)).toEqual([1, 1, 1]);
    const { out } = await ran(["timecard", "x.yaml"], { files: { "x.yaml": text } });
    expect(out).toContain("night: a shift over midnight");
    expect(out).not.toContain("nomeal: a shift over midnight");
  });

  it("of a folder: the last day brings those it follows; every row of the CSV has a date and a file", async () => {
    const { out, code } = await ran(["timecard", "overtime", "--format", "csv"], { files: CHAIN });
    expect(code).toBe(0);
    const rows = out.trim().split("\r\n");
    const head = rows[0]?.split(",") ?? [];
    const cells = (key: string) => rows.slice(1).map((row) => row.split(",")[head.indexOf(key)]);
    expect(cells("date")).toEqual(["2027-01-11", "2027-01-12", "2027-01-13", "2027-01-14", "2027-01-11/2027-01-14"]);
    expect(new Set(cells("file"))).toEqual(new Set(["overtime/2027-01-14.yaml"]));
  });

  it("hours of a folder: a report a day, with date and file in every row of the CSV", async () => {
    const { out } = await ran(["hours", "overtime", "--format", "csv"], { files: CHAIN });
    const tables = out.split("\r\n\r\n").filter((table) => table.startsWith("who,drivingMustStopAt"));
    expect(tables.map((table) => table.trim().split("\r\n")[1]?.split(",").slice(-2))).toEqual(
      [11, 12, 13, 14].map((day) => [`2027-01-${day}`, `overtime/2027-01-${day}.yaml`]),
    );
    const { out: nothing, err, code } = await ran(["hours", "empty"], { files: { "empty/notes.yaml": "a: 1\n" } });
    expect([nothing, code]).toEqual(["", 2]);
    expect(err).toContain("no plan in empty");
  });
});

describe("a bed that a shared file states", () => {
  const SHARED = `clock: America/Chicago
zone: America/Chicago
crew: { wren: { drives: wagon, slept: lodge } }
vehicles: { wagon: {} }
places: { lodge: { kind: lodging }, inn: { kind: lodging }, pier: { shelter: true } }
roads: [{ link: [lodge, pier], drive: 60 min, bad: 75 min }, { link: [inn, pier], drive: 30 min, bad: 35 min }]
`;
  const day = (date: string, from: string, more: string) =>
    `daywright: 1\nuses: shared.yaml\ndate: ${date}\nhits: { dawn: { at: "07:00", for: 30 min, place: pier } }
runs: { wagon: { driver: wren, aboard: [wren], stops: [${from}, { place: pier, do: [dawn] }, inn] } }\n${more}`;
  const calls = async (more: string) =>
    (
      await ran(["calls", "two.yaml", "--width", "0"], {
        files: {
          "shared.yaml": SHARED,
          "one.yaml": day("2027-01-20", "lodge", ""),
          "two.yaml": day("2027-01-21", "inn", `follows: one.yaml\n${more}`),
        },
      })
    ).out;

  it("is the first day's: on the next everybody begins where they ended", async () => {
    // 07:00 less 10, 10, 30, 5 and 35 of road is 05:30; 15 to load.
    expect(await calls("")).toMatch(/wren +05:15 +lobby, inn +05:30/);
  });

  it("is the day's own where its file states it", async () => {
    expect(await calls("crew: { wren: { slept: lodge } }")).not.toContain("05:15");
  });
});
