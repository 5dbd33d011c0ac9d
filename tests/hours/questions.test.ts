/**
 * What the regulations leave to people: each question with a log or plan that gives reason to ask it, and the same
 * without the reason. The questions are those of the regulations named beside them; none is a verdict.
 */
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";
import { SMALLEST } from "../cli/plans.ts";

interface Told {
  readonly code: string;
  readonly level: string;
  readonly message: string;
}

async function told(text: string, files: Readonly<Record<string, string>> = {}): Promise<readonly Told[]> {
  const { out } = await ran(["hours", "x.yaml", "--json"], { files: { ...files, "x.yaml": text } });
  const answer = JSON.parse(out);
  expect(answer.data, out).not.toBeNull();
  return answer.findings.filter(({ code }: Told) => code.endsWith("-review"));
}

const start = Date.parse("2027-01-18T00:00Z") / 60_000;
const iso = (minute: number): string => `${new Date((start + minute) * 60_000).toISOString().slice(0, 16)}Z`;

/** A log of spans given as `kind minutes`, a `*` behind the kind for a light vehicle. */
function log(rules: string, spans: string, more: { options?: string; zone?: string; from?: number } = {}): string {
  let at = more.from ?? 0;
  const lines = spans.split(", ").map((span) => {
    const [is = "", length = "0"] = span.split(" ");
    const light = is.endsWith("*") ? ", in: light" : "";
    const line = `    - { from: "${iso(at)}", to: "${iso(at + Number(length))}", is: ${is.replace("*", "")}${light} }`;
    at += Number(length);
    return line;
  });
  const options = more.options === undefined ? "" : `options: { ${more.options} }\n`;
  return `log: 1\nzone: ${more.zone ?? "UTC"}\nrules: ${rules}\n${options}people:\n  tomas:\n${lines.join("\n")}\n`;
}

const RESTED = `${SMALLEST}history:
  wren: { released: 2027-01-19T17:00-06:00 }
  ilse: { released: 2027-01-19T17:00-06:00 }
`;
const wagon = (facts: string): string => RESTED.replace("wagon: {}", `wagon: { ${facts} }`);

/** A meal for all between two hits, at the pier or at the lodge. */
const meal = (place: "pier" | "lodge"): string =>
  wagon("gross: 16000 lb, rules: us-property")
    .replace("  lodge: { at: [46.60, -90.88] }", "  lodge: { at: [46.60, -90.88], kind: lodging }")
    .replace("runs:", `tasks:\n  lunch: { kind: meal, for: 40 min, place: ${place} }\nruns:`)
    .replace(
      "wagon: [lodge, pier, lodge]",
      place === "pier"
        ? "wagon: [lodge, { place: pier, do: [dawn, lunch] }, lodge]"
        : "wagon: [lodge, { place: pier, do: [dawn] }, { place: lodge, do: [lunch] }]",
    );

/** A stand-down for all after the hit, at the pier or at the lodge. */
const standDown = (place: "pier" | "lodge"): string =>
  meal(place).replace(
    `lunch: { kind: meal, for: 40 min, place: ${place} }`,
    `lunch: { kind: standdown, window: ["09:00", "13:00"], place: ${place} }`,
  );

/** The night of the clock change in Chicago, 2027-03-14 at 08:00 UTC; 9 h 59 min of real rest are 10 h 59 min on the wall. */
const SPRING = Date.parse("2027-03-13T14:00Z") / 60_000 - start;
/** The same in Berlin, 2027-03-28 at 01:00 UTC (Directive 2000/84/EC): 8 h 59 min are 9 h 59 min on the wall. */
const BERLIN = { zone: "Europe/Berlin", from: Date.parse("2027-03-27T07:00Z") / 60_000 - start };

const CONTRACT = (turnaround: string): string =>
  `${RESTED.replace("wren: { role: camera, drives: wagon }", "wren: { role: camera, drives: wagon, contract: day }")}contracts:\n  day: { turnaround: ${turnaround} }\n`;

/** Under Reg 561/2006, from Monday 18 January 2027 00:00 UTC on: five days of 10 h from 06:00, and their nights. */
const DAY = "duty 600, off 840";
const FIVE = `${DAY}, ${DAY}, ${DAY}, ${DAY}, ${DAY}`;
const FOUR_AND_OFF = `${DAY}, ${DAY}, ${DAY}, ${DAY}, duty 600`;
/** A sixth, then 24 h off up to Sunday 16:00 and an hour of work: 21 h are owed by the end of the fourth week. */
const REDUCED = `${FIVE}, duty 600, off 1440, duty 60, off 780`;
/** Off from Friday 16:00 to Monday 06:00. */
const REGULAR = `${FOUR_AND_OFF}, off 3720`;
/** 30 h from Tuesday 16:00 on, and no other weekly rest up to Sunday 09:00. */
const NO_OTHER = `${DAY}, duty 600, off 1800, duty 60, off 420, ${DAY}, ${DAY}, duty 600, off 960, duty 60`;

/** By subject: the words, what raises them, what does not. */
const ASKED: ReadonlyMap<string, readonly [words: string, raises: string, better: string]> = new Map([
  [
    "1 production site, 49 CFR 395.1(p)",
    ["production site", log("us-production", "off 480, driving 60"), log("us-property", "off 600, driving 60")],
  ],
  [
    "2 interstate, 49 CFR 390.5T",
    ["interstate", wagon("gross: 16000 lb, rules: us-property"), wagon("gross: 9000 lb")],
  ],
  [
    "3 carriage of goods, Reg 561/2006 Art 13(1)(h)",
    ["carriage of goods", wagon("gross: 5 t, rules: eu"), wagon("gross: 5 t, rules: gb-domestic")],
  ],
  // 11 h at the wheel are lawful, a minute more is a breach: only then does it matter what the vehicle and the way are.
  [
    "4 a vehicle outside the rules, 49 CFR 395.1(n)",
    [
      "claim needs counsel",
      log("us-property", "off 600, driving 480, off 30, driving 181"),
      log("us-property", "off 600, driving 480, off 30, driving 180"),
    ],
  ],
  [
    "6 the way to bed in the vehicle, 395.8 guidance Q26",
    [
      "way to bed",
      log("us-property", "off 600, driving 480, off 30, driving 181, duty 60, off 600"),
      log("us-property", "off 600, driving 480, off 30, driving 180, duty 60, off 600"),
    ],
  ],
  [
    "6 a drive with work behind it is no way to bed",
    [
      "way to bed",
      log("us-property", "off 600, driving 480, off 30, driving 181, duty 60, off 600"),
      log("us-property", "off 600, driving 480, off 30, driving 181, duty 61, off 600"),
    ],
  ],
  ["5 a meal at a venue, 49 CFR 395.2", ["free to leave", meal("pier"), meal("lodge")]],
  ["5 a stand-down at a venue, 49 CFR 395.2", ["the stand-down is counted", standDown("pier"), standDown("lodge")]],
  [
    "5 a meal in a log",
    [
      "free to leave",
      log("us-property", "off 600, driving 60, meal 30, duty 60"),
      log("us-property", "off 600, driving 60, duty 90"),
    ],
  ],
  [
    "6 personal conveyance, 395.8 guidance Q26",
    [
      "personal conveyance",
      log("us-property", "off 600, driving 60, personal 20, off 600"),
      log("us-property", "off 600, driving 60, off 620"),
    ],
  ],
  // 2 h, 2 h and 8 h in the berth: with the first two hours the second count in the 14 h, which run out in the last drive.
  [
    "7 which two rests are a pair, 49 CFR 395.1(g)(1)(ii)",
    [
      "could form the pair",
      log(
        "us-property",
        "off 600, duty 60, berth 120, duty 240, berth 120, duty 120, berth 480, duty 300, driving 120",
      ),
      log("us-property", "off 600, duty 60, duty 120, duty 240, berth 120, duty 120, berth 480, duty 300, driving 120"),
    ],
  ],
  [
    "8 the seat on both sides of the berth, 49 CFR 395.2",
    [
      "split before and after",
      log("us-property", "off 600, driving 60, riding 90, berth 420, riding 90, duty 60"),
      log("us-property", "off 600, driving 60, duty 90, berth 420, riding 180, duty 60"),
    ],
  ],
  [
    "9 a break missed before short haul was lost, 49 CFR 395.1(e)(1)",
    [
      "short-haul exception was lost",
      log("us-property", "off 600, driving 540, duty 301, off 600", { options: "shortHaul: true" }),
      log("us-property", "off 600, driving 540, duty 300, off 600", { options: "shortHaul: true" }),
    ],
  ],
  [
    "10 a clock change inside a rest",
    [
      "clocks change",
      log("us-property", "off 720, duty 60, off 599, duty 60", { zone: "America/Chicago", from: SPRING }),
      log("us-property", "off 720, duty 60, off 600, duty 60", { zone: "America/Chicago", from: SPRING }),
    ],
  ],
  [
    "10 a clock change inside a reduced daily rest, Reg 561/2006 Art 4(g)",
    [
      "clocks change",
      log("eu", "off 720, duty 60, off 539, duty 60", BERLIN),
      log("eu", "off 720, duty 60, off 540, duty 60", BERLIN),
    ],
  ],
  [
    "11 adverse conditions and the 16 h, SOR/2005-313 s. 76",
    [
      "s. 76",
      log("ca-south", "off 600, driving 60", { options: "adverse: true" }),
      log("ca-south", "off 600, driving 60"),
    ],
  ],
  [
    "11 the day's other two hours, SOR/2005-313 s. 14",
    [
      "other 2 h",
      log("ca-south", "off 600, duty 600, off 600, duty 719, off 600"),
      log("ca-south", "off 600, duty 300, off 120, duty 300, off 600"),
    ],
  ],
  [
    "11 a border day",
    [
      "border day",
      log("[us-property, ca-south]", "off 600, driving 60"),
      log("[us-property, house]", "off 600, driving 60"),
    ],
  ],
  [
    "12 a way to the vehicle, Reg 561/2006 Art 9",
    ["ferry", log("eu", "off 660, riding 60, driving 60"), log("eu", "off 660, duty 60, driving 60")],
  ],
  [
    "12 availability, Directive 2002/15/EC Art 3",
    ["availability", log("eu", "off 660, standby 60, driving 60"), log("eu", "off 660, duty 60, driving 60")],
  ],
  [
    "12 a rest that was needed as the weekly one, Reg 561/2006 Art 8(6b), 8(7)",
    [
      "nothing is counted twice",
      log("eu", `off 360, ${REDUCED}, ${REGULAR}, ${REGULAR}, ${NO_OTHER}, off 1260, duty 60`),
      log("eu", `off 360, ${REDUCED}, ${REGULAR}, ${REGULAR}, ${NO_OTHER}`),
    ],
  ],
  // 21 h and 9 beside them are 30 h.
  [
    "12 a make-up long enough for a weekly rest, Reg 561/2006 Art 8(7)",
    [
      "next to a daily rest, not as a weekly rest",
      log("eu", `off 360, ${REDUCED}, duty 600, off 1800, duty 60`),
      log("eu", `off 360, ${REDUCED}, duty 600, off 1799, duty 60`),
    ],
  ],
  // 40 h of 45 up to Sunday 08:00: 5 h, and 9 beside them.
  [
    "12 a make-up beside a reduced daily rest, Reg 561/2006 Art 8(4), 8(7)",
    [
      "all of it is counted as the daily rest",
      log("eu", `off 360, ${FOUR_AND_OFF}, off 2400, duty 600, off 840, duty 600, off 840, duty 60`),
      log("eu", `off 360, ${FOUR_AND_OFF}, off 2400, duty 600, off 840, duty 600, off 839, duty 60`),
    ],
  ],
  [
    "12 a weekly rest in two weeks, Reg 561/2006 Art 8(9)",
    [
      "may it be counted in the other",
      log("eu", `off 360, ${FIVE}, duty 600, off 2280, duty 60`),
      log("eu", `off 360, ${REDUCED}, duty 60`),
    ],
  ],
  [
    "12 two reduced weekly rests abroad, Reg 561/2006 Art 8(6)",
    [
      "carriage of goods abroad",
      log("eu", `off 360, ${REDUCED}, ${REDUCED}, duty 60`),
      log("eu", `off 360, ${REDUCED}, ${REGULAR}, duty 60`),
    ],
  ],
  [
    "12 a longer way home and the day, Reg 561/2006 Art 12",
    [
      "a longer way home",
      log("eu", "off 660, driving 60", { options: "homeHour: true" }),
      log("eu", "off 660, driving 60"),
    ],
  ],
  [
    "12 a longer way home and its break, Reg 561/2006 Art 12",
    [
      "at the limit itself",
      log("eu", "off 660, driving 60", { options: "homeTwoHours: true" }),
      log("eu", "off 660, driving 60", { options: "homeHour: true" }),
    ],
  ],
  [
    "13 the GB derogation over 3.5 t",
    ["over 3.5 t", wagon("gross: 3501 kg, rules: gb-domestic"), wagon("gross: 3500 kg, rules: gb-domestic")],
  ],
  [
    "14 overtime in a mixed week, 29 U.S.C. 213(b)(1)",
    ["mixed week", log("us-labor", "off 600, driving 60, driving* 60"), log("us-labor", "off 600, driving 120")],
  ],
  [
    "14 no overtime law, no mixed week",
    [
      "mixed week",
      log("[us-labor, us-property]", "off 600, driving 60, driving* 60"),
      log("us-property", "off 600, driving 60, driving* 60"),
    ],
  ],
  // Released at 17:00, called at 04:00: 11 h.
  ["15 a contract's turnaround", ["door to door", CONTRACT("11 h 1 min"), CONTRACT("11 h")]],
]);

describe("what the program leaves to people", () => {
  for (const [subject, [words, raises, better]] of ASKED) {
    it(subject, async () => {
      const found = (await told(raises)).filter(({ message }) => message.includes(words));
      expect(found.map(({ message }) => message)).toHaveLength(1);
      expect(found[0]?.level).toMatch(/^(note|warning)$/);
      expect(found[0]?.message).not.toMatch(/undefined|null/);
      expect((await told(better)).map(({ message }) => message).join("\n")).not.toContain(words);
    });
  }

  it("10 a home terminal that moved, 49 CFR 395.8", async () => {
    const truck = wagon("gross: 16000 lb, rules: us-property");
    const next = (zone: string): string =>
      truck
        .replace("date: 2027-01-20", "date: 2027-01-21\nfollows: first.yaml")
        .replace(/history:[\s\S]*$/, "")
        .replace("zone: America/Chicago", `zone: ${zone}`);
    const moved = await told(next("America/Denver"), { "first.yaml": truck });
    expect(moved.filter(({ message }) => message.includes("home terminal"))).toHaveLength(1);
    const stayed = await told(next("America/Chicago"), { "first.yaml": truck });
    expect(stayed.filter(({ message }) => message.includes("home terminal"))).toHaveLength(0);
  });

  it("says from when to when someone drives for themselves", async () => {
    const text = log("us-property", "off 600, driving 60, personal 20, off 600");
    const { out } = await ran(["hours", "x.yaml", "--json"], { files: { "x.yaml": text } });
    const found = JSON.parse(out).findings.find(({ message }: Told) => message.includes("personal conveyance"));
    expect(found.facts).toMatchObject({ from: "2027-01-18T11:00+00:00", to: "2027-01-18T11:20+00:00" });
  });

  // The question is that of the earlier day, which ended with the release at 17:00.
  it.each([
    ["personal conveyance", "us-property", "off 600, duty 60, personal 60"],
    ["availability", "eu", "off 660, standby 60, duty 60"],
    [
      "could form the pair",
      "us-property",
      "off 600, duty 60, berth 120, duty 240, berth 120, duty 120, berth 480, duty 300, driving 120",
    ],
  ])("is not asked again on the next day: %s", async (words, rules, spans) => {
    expect((await told(log(rules, spans))).map(({ message }) => message).join("\n")).toContain(words);
    const length = spans.split(", ").reduce((sum, span) => sum + Number(span.split(" ")[1]), 0);
    const from = Date.parse("2027-01-19T23:00Z") / 60_000 - start - length;
    const before = log(rules, spans, { from }).split("  tomas:\n")[1]?.replaceAll(/^ {4}/gmu, "      ");
    const plan = wagon(`gross: 16000 lb, rules: ${rules}`).replace(
      "  wren: { released: 2027-01-19T17:00-06:00 }",
      `  wren:\n    released: 2027-01-19T17:00-06:00\n    spans:\n${before?.trimEnd()}`,
    );
    expect((await told(plan)).map(({ message }) => message).join("\n")).not.toContain(words);
  });
});
