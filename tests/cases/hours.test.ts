/**
 * Days and logs that hours judged wrongly, each with what it should say, by hand, and its source; with neighbours of the same
 * kind. Times on the plan's or the log's clock. Where a day is refused or allowed the JSON says so, not only the page.
 */
import { describe, expect, it } from "vitest";
import { wordingOf } from "../../src/reports/shared/wording.ts";
import { fixture, type HoursCase, hoursOf } from "./hoursJson.ts";
import { judgedFile } from "./judged.ts";

const CASES = fixture("hours");
const hours = (name: string, ...edits: readonly (readonly [string, string])[]): Promise<HoursCase> => {
  const text = edits.reduce((changed, [from, to]) => {
    if (!changed.includes(from)) throw new Error(`${name} does not say ${from}`);
    return changed.replaceAll(from, to);
  }, CASES[`${name}.yaml`] ?? "");
  return hoursOf("x.yaml", { "x.yaml": text });
};

/** Everything but the rows' order, which is the file's. */
const figures = ({ people, findings, exit }: HoursCase) => ({
  exit,
  people: people.toSorted((a, b) => (a.id < b.id ? -1 : 1)),
  codes: findings.map(({ code, message }) => `${code} ${message}`).sort(),
});

describe("a claim holds only where every vehicle of that rule set driven in the day makes it (49 CFR 395.1(e)(2))", () => {
  it("a 16 h window claimed for the small truck alone: 14 h from the call at 04:35, whichever is listed first", async () => {
    for (const name of ["claims-first", "claims-last"]) {
      const one = await hours(name);
      expect(one.exit).toBe(1);
      expect(one.law("tomas")).toEqual(["us-property.window 18:35-19:30 55"]);
      expect(one.said("exception-claimed")).toEqual([]);
      expect(one.said("hours-review").join()).toContain("nonCdlShortHaul is claimed for small and not for big");
    }
    expect(figures(await hours("claims-first"))).toEqual(figures(await hours("claims-last")));
  });

  it("claimed for both it holds", async () => {
    const both = await hours("claims-first", [
      "big: { gross: 33000 lb, rules: us-property }",
      "big: { gross: 24000 lb, rules: us-property, claims: [nonCdlShortHaul] }",
    ]);
    expect(both.law("tomas")).toEqual([]);
    expect(both.said("exception-claimed")).toHaveLength(1);
  });
});

describe("of several weeks each is judged, and the stricter printed (49 CFR 395.3(b))", () => {
  it("60 h in 7 days are used up at 07:30: 58 h in the six days before, 2 h from 05:30 on", async () => {
    for (const name of ["weekmix", "weekmix2"]) {
      const one = await hours(name);
      expect(one.law("tomas")).toEqual(["us-property.week 09:00-10:30 90"]);
      expect(one.person("tomas").drivingMustStopAt).toBe("2027-01-20T07:30-06:00");
      expect(one.said("week-too-long").join()).toContain("(t2)");
    }
    expect(figures(await hours("weekmix"))).toEqual(figures(await hours("weekmix2")));
  });

  it("alike on both, no vehicle is named", async () => {
    const alike = await hours("weekmix", ["week: 70/8, claims: [adverse]", "week: 60/7"]);
    expect(alike.said("week-too-long").join()).not.toContain("(t");
    expect(alike.law("tomas")).toEqual(["us-property.week 09:00-10:30 90"]);
  });
});

describe("561/2006 counts driving under it alone; the rest is other work (Art 6(5))", () => {
  it("the van's 4 h are other work whether or not it has rules of its own", async () => {
    const [bound, free] = [await hours("euvan"), await hours("euvan2")];
    for (const one of [bound, free]) {
      // 11:50 to 15:50 and 15:50 to 19:50 in the OB van: a break was due after 4 h 30, at 16:20.
      expect(one.limit("luc", "eu.driving").usedMinutes).toBe(480);
      expect(one.law("luc").filter((breach) => breach.startsWith("eu."))).toEqual(["eu.break 16:20-19:50 210"]);
    }
  });

  it("under the GB domestic rules driving under 561/2006 counts (from memory)", async () => {
    const one = await hours("gbmix");
    expect(one.limit("luc", "gb-domestic.driving").usedMinutes).toBe(3 * 150);
    expect(one.limit("luc", "eu.driving").usedMinutes).toBe(2 * 150);
  });
});

describe("two drivers under 561/2006", () => {
  it("45 consecutive minutes beside the other are the break (Art 7, third subparagraph)", async () => {
    const plan = await hours("eu-two-drivers");
    expect(plan.law("luc")).toEqual([]);
    expect(plan.law("ana")).toEqual([]);
    expect(plan.said("law-open-review").join()).toContain("45 consecutive minutes");
    expect((await hours("log-E11c")).law("p")).toEqual([]);
  });

  it("44 minutes are not, nor is one driver's ride", async () => {
    const short = await hours(
      "log-E11c",
      ["2026-03-02T11:15+01:00, is: riding", "2026-03-02T11:14+01:00, is: riding"],
      ["from: 2026-03-02T11:15+01:00", "from: 2026-03-02T11:14+01:00"],
    );
    // 4 h 30 from 06:00; on from 11:14 without a break: 271 minutes.
    expect(short.law("p")).toEqual(["eu.break 11:14-15:45 271"]);
    expect((await hours("log-E11c", ['"drivers": 2', '"drivers": 1'])).law("p")).toContain("eu.break 11:15-15:45 270");
  });
});

describe("a rest that is too short (Commission implementing decision of 7 June 2011)", () => {
  it("of 7 h or more ends the count of driving; what it lacks is counted once", async () => {
    // 8 h from 15:45 to 23:45 where 9 were due: an hour. 9 h at the wheel before it and after it.
    const one = await hours("log-E16");
    expect(one.law("p")).toEqual(["eu.daily-rest 23:45-00:45 60"]);
    expect(one.said("law-open-review").join()).toContain("7 June 2011");
  });

  it("a minute under 7 h ends nothing: what is driven adds up", async () => {
    const one = await hours(
      "log-E16",
      ["to: 2026-03-02T23:45+01:00, is: off", "to: 2026-03-02T22:44+01:00, is: off"],
      [
        "from: 2026-03-02T23:45+01:00, to: 2026-03-03T04:15+01:00",
        "from: 2026-03-02T22:44+01:00, to: 2026-03-03T04:15+01:00",
      ],
    );
    expect(one.law("p").some((breach) => breach.startsWith("eu.driving"))).toBe(true);
  });

  it("the fourth reduced rest between two weekly ones breaks Art 8(4), by an hour", async () => {
    const one = await hours("log-E17");
    // From 06:00 on 5 March the rest had to begin at 19:00; it begins at 20:00 and is 10 h of 11.
    expect(one.law("p")).toEqual(["eu.daily-rest 19:00-20:00 60"]);
    expect(one.person("p").breaches[0]?.clause).toBe("Reg 561/2006 Art 8(4)");
    expect(one.limit("p", "eu.daily-rest").extensionsLeft).toBe(0);
  });

  it("a minute too late is a minute, and the next day is lawful", async () => {
    expect((await hours("log-E22")).law("p")).toEqual(["eu.daily-rest 21:00-21:01 1"]);
  });

  it("a long break by day is no short rest: 8 h off at noon, then the daily rest in time", async () => {
    const spans = [
      "{ from: 2026-02-28T00:00, to: 2026-03-02T06:00, is: off }",
      "{ from: 2026-03-02T06:00, to: 2026-03-02T08:00, is: driving }",
      "{ from: 2026-03-02T08:00, to: 2026-03-02T16:00, is: off }",
      "{ from: 2026-03-02T16:00, to: 2026-03-02T19:00, is: driving }",
      "{ from: 2026-03-02T19:00, to: 2026-03-03T06:00, is: off }",
    ];
    const log = `log: 1\nzone: Europe/Paris\nrules: eu\npeople:\n  p:\n${spans.map((span) => `    - ${span}\n`).join("")}`;
    expect((await hoursOf("x.yaml", { "x.yaml": log })).law("p")).toEqual([]);
  });
});

describe("weekly rest, night work, and who is bound without driving", () => {
  it("48 h in the berth break Art 8(8); 44 h are a reduced weekly rest", async () => {
    const one = await hours("log-E20");
    expect(one.said("weekly-rest-aboard")).toHaveLength(1);
    expect(one.person("p").breaches.map(({ clause }) => clause)).toEqual(["Reg 561/2006 Art 8(8)"]);
    const reduced = await hours("log-E20", ["2026-03-08T15:00+01:00", "2026-03-08T11:00+01:00"]);
    expect(reduced.said("weekly-rest-aboard")).toEqual([]);
  });

  it("five hours between midnight and 05:00 are night work, a question (Directive 2003/88/EC Art 8, from memory)", async () => {
    const asked = ({ findings }: HoursCase) => findings.filter(({ message }) => message.includes("night work"));
    expect(asked(await hours("log-T03"))).toHaveLength(1);
    const byDay = await hours("log-T03", ["T21:00+01:00", "T19:00+01:00"], ["T06:00+01:00", "T02:59+01:00"]);
    expect(asked(byDay)).toEqual([]);
  });

  it("a camera operator is bound by contract or by name: 10 h 30 of 11 before 09:00 (Dir 2003/88/EC Art 3)", async () => {
    const contract = await hours("wtd");
    const person = await hours(
      "wtd",
      ["contract: c }", "rules: eu-working-time }"],
      ["contracts:\n  c: { rules: [eu-working-time] }\n", ""],
    );
    for (const one of [contract, person]) {
      expect(one.person("ana").rules).toEqual(["eu-working-time", "house"]);
      expect(one.law("ana")).toEqual(["eu-working-time.rest 09:00-09:30 30"]);
      // Press, radio and television may depart from it (Art 17(3)): a question.
      expect(one.said("hours-review").some((message) => message.includes("11 h daily rest"))).toBe(true);
    }
  });

  it("a 2.6 t van that crosses a border after 1 July 2026 is a question (Reg (EU) 2020/1054)", async () => {
    const asked = ({ findings }: HoursCase) => findings.filter(({ message }) => message.includes("over 2.5 t abroad"));
    const van = (more: string, gross = "2600 kg") =>
      hours(
        "euvan2",
        ["van: { gross: 3200 kg }", `van: { gross: ${gross} }`],
        ["b: { at: [48.81, 2.82] }", `b: { at: [48.81, 2.82]${more} }`],
      );
    expect(asked(await van(", zone: Europe/Brussels"))).toHaveLength(1);
    expect(asked(await van(""))).toEqual([]);
    expect(asked(await van(", zone: Europe/Brussels", "2500 kg"))).toEqual([]);
  });
});

describe("what a driver reads", () => {
  it("law and house are two figures: a break of the house's missed at 07:05, 14 h from 04:35 by law", async () => {
    const { drivingMustStopAt, houseDrivingStopsAt } = (await hours("p1b")).person("tomas");
    expect([drivingMustStopAt, houseDrivingStopsAt]).toEqual(["2027-01-20T18:35-06:00", "2027-01-20T07:05-06:00"]);
  });

  it("a stand-down of 7 h is no rest of 10 h, and says so", async () => {
    const one = await hours("m1");
    expect(one.limit("tomas", "us-property.rest")).toMatchObject({ usedMinutes: 420, short: true });
    expect(one.text).toContain("short: no new shift");
  });

  it("berth rest parts no house day, and seven hours of it start the waking time again (common practice, no source)", async () => {
    const one = await hours("ride2");
    expect(one.person("bea").breaches.map(({ limit }) => limit)).not.toContain("house.turnaround");
    // Asleep 06:00 to 13:00, at the wheel to 20:00.
    expect(one.fitness.find(({ id }) => id === "bea")?.wheel.at(-1)?.awakeMinutes).toBe(420);
    expect(one.said("awake-too-long-at-wheel").filter((message) => message.startsWith("bea"))).toEqual([]);
  });

  it("20 min of personal conveyance in a rest are a question with both answers (395.8 guidance Q26)", async () => {
    const one = await hours("log-A31");
    // 9 h 40 with it as neither, 10 h with it off duty.
    expect(one.exit).toBe(0);
    expect(one.law("p")).toEqual([]);
    expect(one.said("hours-review").some((m) => m.includes("nothing is broken; if not"))).toBe(true);
    const short = await hours(
      "log-A31",
      ["T14:20-06:00, is: personal", "T14:19-06:00, is: personal"],
      ["from: 2026-03-02T14:20-06:00", "from: 2026-03-02T14:19-06:00"],
    );
    expect(short.exit).toBe(0);
    const never = await hours(
      "log-A31",
      ["to: 2026-03-03T00:00-06:00", "to: 2026-03-02T23:59-06:00"],
      ["from: 2026-03-03T00:00-06:00", "from: 2026-03-02T23:59-06:00"],
    );
    expect(never.exit).toBe(1);
  });

  it("two more hours in the berth would do: 3 h off and 7 h in the berth make ten (395.1(g)(1)(ii))", async () => {
    const { earliestNextDrive, earliestDriveFromBerth, restSoFarMinutes } = (await hours("log-A26")).person("p");
    expect([earliestNextDrive, earliestDriveFromBerth]).toEqual(["2026-03-03T06:00-06:00", "2026-03-03T03:00-06:00"]);
    expect(restSoFarMinutes).toBe(300);
  });

  it("a day off that is 56 min short is 56 min short (SOR/2005-313 s. 14(1))", async () => {
    const one = await hours("log-C02b");
    // 8 h, then 1 h 4 from 22:56 to midnight; four breaks of 29 min are no free block.
    expect(one.law("p")).toEqual(["ca-south.day-off 00:00-00:00 56"]);
    expect(one.said("day-off-too-short").join()).toContain("56 min");
  });
});

describe("ferries", () => {
  const log = (rules: string, bunk: boolean): string => `log: 1
zone: Europe/Paris
rules: ${rules}
people:
  p:
    - { from: 2026-02-28T00:00, to: 2026-03-02T06:00, is: off }
    - { from: 2026-03-02T06:00, to: 2026-03-02T16:00, is: duty }
    - { from: 2026-03-02T16:00, to: 2026-03-02T18:00, is: off }
    - { from: 2026-03-02T18:00, to: 2026-03-02T18:30, is: driving }
    - { from: 2026-03-02T18:30, to: 2026-03-03T03:00, is: ferry, bunk: ${bunk} }
    - { from: 2026-03-03T03:00, to: 2026-03-03T03:30, is: driving }
    - { from: 2026-03-03T03:30, to: 2026-03-03T05:00, is: off }
    - { from: 2026-03-03T05:00, to: 2026-03-03T09:00, is: driving }
`;

  it("561/2006 Art 9(1): 2 h + 8 h 30 + 1 h 30 = 12 h of rest, interrupted twice for an hour in all", async () => {
    expect((await hoursOf("x.yaml", { "x.yaml": log("eu", true) })).law("p")).toEqual([]);
  });

  it("interrupted a minute longer, or without a bunk, it is no daily rest", async () => {
    const longer = log("eu", true).replaceAll("18:30", "18:31");
    for (const text of [longer, log("eu", false)])
      expect((await hoursOf("x.yaml", { "x.yaml": text })).law("p").length).toBeGreaterThan(0);
  });

  it("SOR/2005-313 s. 17: a crossing of more than 5 h counts with the rest before and after it", async () => {
    const shift = (text: string) => hoursOf("x.yaml", { "x.yaml": text });
    const used = (one: HoursCase) => one.limit("p", "ca-south.elapsed").usedMinutes;
    // 1 h 30, 6 h aboard and 1 h 30 make 9 h: a new shift from 05:00, four hours old.
    const shorter = (bunk: boolean) =>
      log("ca-south", bunk).replaceAll("16:00", "19:00").replaceAll("18:00", "20:30").replaceAll("18:30", "21:00");
    expect(used(await shift(shorter(true)))).toBe(240);
    expect(used(await shift(shorter(false)))).toBe(27 * 60);
  });
});

describe("a ride by ferry in a plan", () => {
  const plan = (ride: string) => `daywright: 1
date: 2027-01-20
clock: Europe/Paris
zone: Europe/Paris
crew: { ana: { role: camera, slept: a, sleeps: b, rules: eu-working-time } }
history: { ana: { released: 2027-01-19T18:00+01:00 } }
vehicles: { w: {} }
places: { a: { at: [48.60, 2.88] }, b: { at: [50.60, 2.88] } }
tasks: { job: { what: work, place: a, for: 4 h, who: [ana], window: ["09:00", "13:00"] } }
rides: { crossing: { from: a, to: b, leave: "14:00", arrive: "22:00", who: [ana], ${ride} } }
`;

  it("with a bunk is rest under Directive 2003/88/EC, without one it is not; by road it is a ride", async () => {
    const { judgedText } = await import("./judged.ts");
    const span = async (ride: string) => {
      const { day } = await judgedText(plan(ride));
      const found = day.people[0]?.spans.find(({ doing }) => doing === "crossing");
      return [found?.is, found?.bunk ?? false];
    };
    expect(await span("by: ferry, bunk: true")).toEqual(["ferry", true]);
    expect(await span("by: ferry")).toEqual(["ferry", false]);
    expect(await span("by: taxi")).toEqual(["riding", false]);
    const used = async (ride: string) =>
      (await hoursOf("x.yaml", { "x.yaml": plan(ride) })).limit("ana", "eu-working-time.day").usedMinutes;
    // From the call at 09:00 to the landing at 22:00; a rest of 8 h ends the day before it.
    expect(await used("by: ferry")).toBe(13 * 60);
    expect(await used("by: ferry, bunk: true")).toBeLessThan(13 * 60);
  });
});

describe("work for the gear in the evening", () => {
  it("an hour after the release is no turnaround cut short; what counts is the rest behind it", async () => {
    const { judgedText } = await import("./judged.ts");
    const plan = CASES["m1.yaml"] ?? "";
    const { day } = await judgedText(plan);
    const release = day.people.find(({ id }) => id === "bea")?.release ?? null;
    if (release === null) throw new Error("no release");
    const { assess } = await import("../../src/hours/index.ts");
    const { instant } = await import("../../src/time/units.ts");
    const at = (minutes: number, length: number) => ({
      from: instant(release + minutes),
      to: instant(release + minutes + length),
      who: "bea",
      place: "a",
      vehicle: null,
    });
    const later = day.withChores([at(60, 8)]);
    const told = assess({ days: [later], patience: 1, now: null }).findings.filter(({ who }) => who === "bea");
    expect(told.map(({ code }) => code)).not.toContain("rest-too-short");
  });
});

describe("driving by night", () => {
  it("is counted from midnight on where the drive begins before it", async () => {
    // sven drives 19:03 to 00:03, with pia and rolf after him: three minutes of the night, from 00:00 on.
    const team = await judgedFile("fixtures/cases/together/team.yaml");
    const [sven] = team.found("night-driving").filter(({ who }) => who === "sven");
    expect(sven?.sentence(wordingOf(team.day.plan))).toBe(
      "sven drives 3 min between midnight and 06:00, from Tue 00:00 Chicago on",
    );
  });
});
