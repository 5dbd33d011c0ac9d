/** Neighbours of the cases: a minute less or more, the other order, other rule sets, the clock change. By hand, each with its source. */
import { describe, expect, it } from "vitest";
import { fixture, hoursOf } from "../cases/hoursJson.ts";

const lengthOf = (text: string): number => {
  const [, hours = "0", minutes = "0"] = /^(?:(\d+)h)?(\d+)?$/.exec(text) ?? [];
  return Number(hours) * 60 + Number(minutes);
};

/** A log in UTC from 1 March 2026 on, spans as `kind length`: `off 8h, duty 13h30`. */
function log(rules: string, spans: string, options = ""): string {
  let at = Date.parse("2026-03-01T00:00Z");
  const written = spans.split(", ").map((span) => {
    const [is = "", length = ""] = span.split(" ");
    const from = new Date(at).toISOString().slice(0, 16);
    at += lengthOf(length) * 60_000;
    return `    - { from: ${from}, to: ${new Date(at).toISOString().slice(0, 16)}, is: ${is} }\n`;
  });
  return `log: 1\nzone: UTC\nrules: ${rules}\n${options}people:\n  p:\n${written.join("")}`;
}

const lawOf = async (text: string, who = "p") => (await hoursOf("x.yaml", { "x.yaml": text })).law(who);

describe("the break beside the other driver (561/2006 Art 7, third subparagraph): 45 minutes in one piece", () => {
  // 4 h at the wheel, what is in question, 3 h 30: after 4 h 30 at the wheel a break is due.
  const broken = async (between: string) =>
    (
      await lawOf(
        log("eu", `off 54h, driving 4h, ${between}, driving 3h30, riding 1h, off 12h`, "options: { drivers: 2 }\n"),
      )
    ).length > 0;

  it.each(["riding 45", "riding 46", "duty 5, riding 45", "off 15, driving 30, off 30", "off 45"])(
    "%s is one",
    async (between) => {
      expect(await broken(between)).toBe(false);
    },
  );

  it.each([
    "riding 44",
    "riding 15, driving 30, riding 30",
    "off 15, riding 30",
    "riding 15, off 30",
    "riding 20, berth 25",
  ])("%s is none: no piece of it has 45 minutes, and 15 + 30 are no parts beside the other", async (between) => {
    expect(await broken(between)).toBe(true);
  });
});

describe("10 h off in a day, in blocks of half an hour or more (SOR/2005-313 s. 14): short by minutes", () => {
  const short = async (day: string) =>
    (await lawOf(log("ca-south", `off 24h, ${day}, off 10h`))).filter((one) => one.startsWith("ca-south.day-off"));

  it.each(["off 8h, duty 14h, off 2h", "off 8h, duty 13h30, off 30, duty 30, off 1h30"])("%s: 10 h", async (day) => {
    expect(await short(day)).toEqual([]);
  });

  it.each([
    ["off 8h, duty 14h1, off 1h59", 1],
    ["off 8h, duty 13h30, off 29, duty 31, off 1h30", 30],
    ["off 8h, duty 13h, off 30, duty 1h, off 1h29, duty 1", 1],
  ])("%s: %i min short", async (day, minutes) => {
    expect(await short(day)).toEqual([`ca-south.day-off 00:00-00:00 ${minutes}`]);
  });
});

/** Out in one truck at 06:00, back in another at 18:30, 2 h each; on duty from 05:30. */
const twoTrucks = (first: string, second: string, turned = false): string => {
  const vehicles = [`t1: { gross: 14000 lb, ${first} }`, `t2: { gross: 14000 lb, ${second} }`];
  if (turned) vehicles.reverse();
  return `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew: { tomas: { role: engineer, drives: [t1, t2], slept: a, sleeps: a } }
history: { tomas: { released: 2027-01-19T18:00-06:00 } }
vehicles:
  ${vehicles.join("\n  ")}
places: { a: { at: [46.60, -90.88] }, b: { at: [46.81, -90.82] } }
roads: [{ link: [a, b], drive: 2 h, bad: 2 h }]
runs:
  t1: { driver: tomas, stops: [{ place: a, leave: "06:00" }, b] }
  t2: { driver: tomas, stops: [{ place: b, leave: "18:30" }, a] }
`;
};

describe("a claim for one of two vehicles of a set is none (49 CFR 395.1)", () => {
  const window = ["us-property.window 19:30-20:30 60"];

  it.each(["sixteenHour", "adverse", "shortHaul", "nonCdlShortHaul"])(
    "%s, whichever vehicle claims it and is listed first",
    async (claim) => {
      const [claims, none] = [`rules: us-property, claims: [${claim}]`, "rules: us-property"];
      for (const turned of [false, true]) {
        // 14 h from 05:30 end at 19:30.
        expect(await lawOf(twoTrucks(claims, none, turned), "tomas")).toEqual(window);
        expect(await lawOf(twoTrucks(none, claims, turned), "tomas")).toEqual(window);
      }
    },
  );

  it.each(["sixteenHour", "adverse", "nonCdlShortHaul"])("%s for both holds: 16 h end at 21:30", async (claim) => {
    const claims = `rules: us-property, claims: [${claim}]`;
    expect(await lawOf(twoTrucks(claims, claims), "tomas")).toEqual([]);
  });

  it("each set by itself: what us-property claims does not hold under ca-south, and the other way round", async () => {
    const both = await lawOf(twoTrucks("rules: us-property, claims: [adverse]", "rules: ca-south"), "tomas");
    // 15 h 20 on duty from 05:30: 8 h 40 off of 10 h (s. 14), and 14 h on duty end at 19:30 (s. 12(2)).
    expect(both).toEqual(["ca-south.day-off 00:00-00:00 80", "ca-south.duty 19:30-20:30 60"]);
  });
});

it("p1b with the claim for both trucks: 9 of 11 h are driven, the release is at 16:50, so law says 18:50", async () => {
  // 16 h from 04:35 end at 20:35, later than that. The house still stops at a break missed at 07:05.
  const text = (fixture("hours")["p1b.yaml"] ?? "").replace(
    "big: { gross: 33000 lb, rules: us-property }",
    "big: { gross: 24000 lb, rules: us-property, claims: [nonCdlShortHaul] }",
  );
  const tomas = (await hoursOf("x.yaml", { "x.yaml": text })).person("tomas");
  expect(tomas.drivingMustStopAt).toBe("2027-01-20T18:50-06:00");
  expect(tomas.houseDrivingStopsAt).toBe("2027-01-20T07:05-06:00");
});

describe("a day of which nothing is known, under each rule set (agreement of facts and what is not known)", () => {
  const files = Object.fromEntries(
    Object.entries(fixture("chain")).flatMap(([path, text]) =>
      path.startsWith("unknown-day/") ? [[path.slice("unknown-day/".length), text] as const] : [],
    ),
  );
  const chain = async (rules: string, stated = "") => {
    const own = Object.fromEntries(
      Object.entries(files).map(([path, text]) => [path, text.replace("us-property", rules)]),
    );
    const one = await hoursOf("h3.yaml", { ...own, "h3.yaml": `${own["h3.yaml"]}${stated}` });
    return one.findings.flatMap(({ code, level, source }) => (level === "error" ? [`${code} ${source?.clause}`] : []));
  };
  const DAY_OFF = "history:\n  tomas: { totals: { 2027-03-14: { duty: 0 h, driving: 0 h } } }\n";

  it.each([
    // 10 h 55 on duty on the 13th and 5 h 55 on the 15th are more than 15 h without 8 h off between.
    ["us-passenger", ["rest-not-stated 49 CFR 395.5(a)(2)"]],
    ["us-production", ["rest-not-stated 49 CFR 395.1(p)(2)"]],
    // 16 h between two rests of 8 h, from the 13th at 08:30.
    ["ca-south", ["rest-not-stated SOR/2005-313 s.13(3)"]],
    ["eu", ["rest-not-stated Reg 561/2006 Art 8(2)"]],
    ["[eu, eu-working-time]", ["rest-not-stated Reg 561/2006 Art 8(2)", "rest-not-stated Dir 2003/88/EC Art 3"]],
    // The GB domestic rules ask for no rest: each day is counted by itself.
    ["gb-domestic", []],
  ])("%s", async (rules, errors) => {
    expect(await chain(rules)).toEqual(errors);
    expect(await chain(rules, DAY_OFF)).toEqual([]);
  });
});

describe("10 h of rest in the night of a clock change are 10 h that passed (49 CFR 395.3(a)(1))", () => {
  const day = (date: string, released: string): string =>
    twoTrucks("rules: us-property", "rules: us-property")
      .replace("2027-01-20", date)
      .replace("2027-01-19T18:00-06:00", released)
      .replace('leave: "06:00"', 'leave: "08:00"')
      .replace('leave: "18:30"', 'leave: "14:00"');

  it("in spring 20:30 to 07:30 by the clock, in autumn 22:30 to 07:30; a minute less is a breach", async () => {
    expect(await lawOf(day("2027-03-14", "2027-03-13T20:30-06:00"), "tomas")).toEqual([]);
    expect((await lawOf(day("2027-03-14", "2027-03-13T20:31-06:00"), "tomas"))[0]).toBe(
      "us-property.rest 08:00-10:00 120",
    );
    expect(await lawOf(day("2026-11-01", "2026-10-31T22:30-05:00"), "tomas")).toEqual([]);
    expect((await lawOf(day("2026-11-01", "2026-10-31T22:31-05:00"), "tomas"))[0]).toBe(
      "us-property.rest 08:00-10:00 120",
    );
  });
});
