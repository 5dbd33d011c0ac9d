/**
 * Each finding of hours: a log or plan that raises it, and the same a minute better that does not. Numbers are the rules'
 * own (49 CFR 395.3, SOR/2005-313, Reg 561/2006) or the house's, which are common practice, no source.
 */
import { describe, expect, it } from "vitest";
import { codesOf } from "../../src/findings/catalogue.ts";
import * as limits from "../../src/hours/findings.ts";
import * as fitness from "../../src/hours/fitness/findingsFitness.ts";
import * as questions from "../../src/hours/questions/findingsQuestions.ts";
import { ran } from "../cli/fakeIo.ts";
import { SMALLEST } from "../cli/plans.ts";

interface Told {
  readonly code: string;
  readonly level: string;
  readonly who: string | null;
  readonly message: string;
  readonly hint: string | null;
  readonly source: { readonly clause: string | null } | null;
  readonly accepted: string | null;
}

async function found(
  text: string,
  more: readonly string[] = [],
): Promise<{
  readonly all: readonly Told[];
  readonly code: number;
  readonly people: readonly { readonly rules: readonly string[] }[];
}> {
  const { out, code } = await ran(["hours", "x.yaml", "--json", ...more], { files: { "x.yaml": text } });
  const answer = JSON.parse(out);
  return { all: answer.findings, code, people: answer.data?.people ?? [] };
}

const start = Date.parse("2027-01-18T00:00Z") / 60_000;
const iso = (minute: number): string => new Date((start + minute) * 60_000).toISOString().slice(0, 16);

/** A log in UTC of spans given as `kind minutes`. */
function log(rules: string, spans: string, options = ""): string {
  let at = 0;
  const lines = spans.split(", ").map((span) => {
    const [is = "", length = "0"] = span.split(" ");
    const line = `    - { from: ${iso(at)}, to: ${iso(at + Number(length))}, is: ${is} }`;
    at += Number(length);
    return line;
  });
  return `log: 1\nzone: UTC\nrules: ${rules}\n${options}people:\n  tomas:\n${lines.join("\n")}\n`;
}

const HISTORY =
  "history:\n  wren: { released: 2027-01-19T17:00-06:00 }\n  ilse: { released: 2027-01-19T17:00-06:00 }\n";
const RESTED = `${SMALLEST}${HISTORY}`;
const TRUCK = RESTED.replace("wagon: {}", "wagon: { gross: 16000 lb, rules: us-property }");

const TEAM = RESTED.replace("wagon: {}", "wagon: { gross: 5 t, rules: eu, drivers: 2 }").replace(
  "role: reporter }",
  "role: reporter, drives: wagon }",
);

/** By code: what raises it, and what does not by a minute or a word. */
const PAIRS: ReadonlyMap<string, readonly [raises: string, better: string]> = new Map([
  [
    "rest-too-short",
    [
      log("us-property", "off 600, duty 845, off 599, driving 60"),
      log("us-property", "off 600, duty 845, off 600, driving 60"),
    ],
  ],
  ["rest-not-stated", [log("us-property", "off 599, driving 60"), log("us-property", "off 600, driving 60")]],
  // Called at 04:00: a release at that minute leaves no rest and cannot be meant; a minute before it is a rest, if a short one.
  [
    "release-after-call",
    [
      RESTED.replace("wren: { released: 2027-01-19T17:00-06:00 }", "wren: { released: 2027-01-20T04:00-06:00 }"),
      RESTED.replace("wren: { released: 2027-01-19T17:00-06:00 }", "wren: { released: 2027-01-20T03:59-06:00 }"),
    ],
  ],
  // 561/2006 Art 8(8): 45 h in the berth; a minute less is a reduced weekly rest.
  ["weekly-rest-aboard", [log("eu", "off 2700, duty 540, berth 2700"), log("eu", "off 2700, duty 540, berth 2699")]],
  [
    "window-over",
    [log("us-property", "off 600, duty 780, driving 61"), log("us-property", "off 600, duty 780, driving 60")],
  ],
  [
    "driving-too-long",
    [
      log("us-property", "off 600, driving 400, duty 30, driving 261"),
      log("us-property", "off 600, driving 400, duty 30, driving 260"),
    ],
  ],
  [
    "break-missed",
    [
      log("us-property", "off 600, driving 240, duty 29, driving 241"),
      log("us-property", "off 600, driving 240, duty 30, driving 241"),
    ],
  ],
  [
    "duty-too-long",
    [
      log("house", "off 600, duty 300, meal 30, duty 300, meal 30, duty 181"),
      log("house", "off 600, duty 300, meal 30, duty 300, meal 30, duty 180"),
    ],
  ],
  [
    "week-too-long",
    [
      log("us-property", `off 600, ${"duty 840, off 600, ".repeat(5)}driving 1`, "options: { week: 70/8 }\n"),
      log(
        "us-property",
        `off 600, duty 839, off 601, ${"duty 840, off 600, ".repeat(4)}driving 1`,
        "options: { week: 70/8 }\n",
      ),
    ],
  ],
  ["rest-too-late", [log("eu", "off 660, duty 901, off 600"), log("eu", "off 660, duty 900, off 600")]],
  ["day-off-too-short", [log("ca-south", "off 480, duty 841, off 119"), log("ca-south", "off 480, duty 840, off 120")]],
  ["meal-late", [log("house", "off 600, duty 361"), log("house", "off 600, duty 360")]],
  [
    "hours-review",
    [
      log("us-property", "off 600, driving 60, personal 20, off 600"),
      log("us-property", "off 600, driving 60, off 620"),
    ],
  ],
  ["law-open-review", [TRUCK, RESTED]],
  [
    "exception-claimed",
    [
      log("us-property", "off 600, driving 60", "options: { adverse: true }\n"),
      log("us-property", "off 600, driving 60"),
    ],
  ],
  // Two may drive it: with one aboard, with both.
  [
    "second-driver-missing",
    [
      TEAM.replace("wagon: [lodge", "wagon: { driver: wren, aboard: [wren], stops: [lodge").replace(
        ", lodge]\n",
        ", lodge] }\n",
      ),
      TEAM.replace("wagon: [lodge", "wagon: { driver: wren, stops: [lodge").replace(", lodge]\n", ", lodge] }\n"),
    ],
  ],
  [
    "hours-gap",
    [
      RESTED.replace(
        "wren: { released: 2027-01-19T17:00-06:00 }",
        "wren: { released: 2027-01-19T17:00-06:00, spans: [{ from: 2027-01-19T08:00-06:00, to: 2027-01-19T16:59-06:00, is: duty }] }",
      ),
      RESTED.replace(
        "wren: { released: 2027-01-19T17:00-06:00 }",
        "wren: { released: 2027-01-19T17:00-06:00, spans: [{ from: 2027-01-19T08:00-06:00, to: 2027-01-19T17:00-06:00, is: duty }] }",
      ),
    ],
  ],
  ["moment-outside-log", [log("us-property", "off 600, driving 59"), log("us-property", "off 600, driving 60")]],
  // Up 45 min before the call at 04:00, in bed 90 min after the release: 7 h of sleep need a release by 18:45.
  [
    "short-sleep-at-wheel",
    [
      RESTED.replace("wren: { released: 2027-01-19T17:00", "wren: { released: 2027-01-19T18:46"),
      RESTED.replace("wren: { released: 2027-01-19T17:00", "wren: { released: 2027-01-19T18:45"),
    ],
  ],
  // Up at 03:15; back at the lodge at 07:08 (3 h 53 min) at the end of the last drive.
  [
    "awake-too-long-at-wheel",
    [`${RESTED}rules: { wheelAwake: 3 h 52 min }\n`, `${RESTED}rules: { wheelAwake: 3 h 53 min }\n`],
  ],
  ["night-driving", [RESTED, RESTED.replace('at: "07:00"', 'at: "08:50"')]],
]);

/** What each is asked with, beside the file. */
const ASKED: ReadonlyMap<string, readonly string[]> = new Map([["moment-outside-log", ["--at", "2027-01-18T11:00"]]]);

describe("each code", () => {
  it("has its pair here", () => {
    expect([...PAIRS.keys()].sort()).toEqual(
      [limits, fitness, questions]
        .flatMap(codesOf)
        .map(({ code }) => code)
        .sort(),
    );
  });

  for (const [code, [raises, better]] of PAIRS) {
    it(`${code}, and not a minute earlier`, async () => {
      const bad = await found(raises, ASKED.get(code));
      const told = bad.all.filter((one) => one.code === code);
      expect(told.length).toBeGreaterThan(0);
      expect(told.every(({ message }) => message.length > 10 && !message.includes("undefined"))).toBe(true);
      expect((await found(better, ASKED.get(code))).all.map((one) => one.code)).not.toContain(code);
    });
  }
});

describe("a release that is not before the call", () => {
  const late = (plan: string, wren: string) =>
    found(plan.replace("wren: { released: 2027-01-19T17:00-06:00 }", `wren: { ${wren} }`));
  const told = async (plan: string, wren: string) => {
    const { all, code } = await late(plan, wren);
    return { code, of: all.filter((one) => one.who === "wren" && one.code.startsWith("re")) };
  };

  it("is one error that names both clocks, and offers the evening before", async () => {
    const { code, of } = await told(RESTED, "released: 2027-01-20T20:10-06:00");
    expect(code).toBe(1);
    expect(of.map((one) => [one.code, one.level])).toEqual([["release-after-call", "error"]]);
    expect(of[0]?.message).toContain("called at 05:00 New York (04:00 Chicago)");
    expect(of[0]?.message).toContain("stated as 21:10 New York (20:10 Chicago)");
    expect(of[0]?.hint).toContain("`2027-01-19T20:10-06:00`");
  });

  it("is of law where law asks for the rest: `accept` does not silence it", async () => {
    const accepting = "accept: [{ code: release-after-call, who: [wren], why: it was so }]\n";
    const house = await told(`${RESTED}${accepting}`, "released: 2027-01-20T20:10-06:00");
    expect([house.code, house.of[0]?.accepted]).toEqual([0, "it was so"]);
    const law = await told(`${TRUCK}${accepting}`, "released: 2027-01-20T20:10-06:00");
    expect([law.code, law.of[0]?.accepted]).toEqual([1, null]);
  });

  it("is told of spans in `history` that reach into the day, too, to the minute", async () => {
    const spans = (to: string) => `spans: [{ from: 2027-01-19T08:00-06:00, to: 2027-01-20T${to}-06:00, is: duty }]`;
    expect((await told(RESTED, spans("04:01"))).of.map((one) => one.code)).toContain("release-after-call");
    expect((await told(RESTED, spans("04:00"))).of.map((one) => one.code)).not.toContain("release-after-call");
  });

  it("of the day before, as it was logged there: the call is to move, or the log", async () => {
    const first = RESTED.replace("date: 2027-01-20", "date: 2027-01-19").replaceAll("2027-01-19T17", "2027-01-18T17");
    const files = {
      "x.yaml": SMALLEST.replace("daywright: 1\n", "daywright: 1\nfollows: first.yaml\n"),
      "first.yaml": `${first}actual:\n  wren: { released: "05:00 +1d" }\n  ilse: { released: "04:59 +1d" }\n`,
    };
    const { out, code } = await ran(["hours", "x.yaml", "--json"], { files });
    const told: readonly Told[] = JSON.parse(out).findings;
    const late = told.filter((one) => one.code === "release-after-call");
    expect([code, late.map((one) => one.who)]).toEqual([1, ["wren"]]);
    expect(late[0]?.hint).toBe("call wren later, or correct the release on the day before");
  });

  it("the hint for one that is not stated names the evening before this plan's call, its hour left open", async () => {
    const plan = RESTED.replace(HISTORY, "").replace("date: 2027-01-20", "date: 2027-07-03");
    const { all } = await found(plan);
    // Chicago in July is five hours behind UTC.
    expect(all.find((one) => one.code === "rest-not-stated")?.hint).toContain(
      "wren: { released: 2027-07-02THH:MM-05:00 }",
    );
  });
});

describe("which rules bind whom", () => {
  it("those of the truck bind its driver, the house rules everyone", async () => {
    const { people, code } = await found(TRUCK);
    expect(people.map(({ rules }) => rules)).toEqual([["us-property", "house"], ["house"]]);
    expect(code).toBe(0);
  });

  it("an unknown rest is an error under law, a warning for the house", async () => {
    const { all, code } = await found(TRUCK.replace(HISTORY, ""));
    expect(code).toBe(1);
    expect(all.filter((one) => one.code === "rest-not-stated").map(({ who, level }) => [who, level])).toEqual([
      ["wren", "error"],
      ["ilse", "warning"],
    ]);
    expect((await found(SMALLEST)).code).toBe(0);
  });

  it("driving a light vehicle by order is duty under the truck's rules", async () => {
    const light = log("us-property", "off 600, driving 60").replace("is: driving }", "is: driving, in: light }");
    const { out } = await ran(["hours", "x.yaml", "--json"], { files: { "x.yaml": light } });
    const used = new Map(
      JSON.parse(out).data.people[0].limits.map((one: { id: string; usedMinutes: number }) => [
        one.id,
        one.usedMinutes,
      ]),
    );
    expect(used.get("us-property.driving")).toBe(0);
    expect(used.get("us-property.window")).toBe(60);
    expect(used.get("us-property.week")).toBe(60);
  });

  it("`accept` silences the house, never law", async () => {
    const tired = (plan: string) =>
      plan.replace("wren: { released: 2027-01-19T17:00-06:00 }", "wren: { released: 2027-01-19T18:01-06:00 }");
    const accepting = "accept: [{ code: rest-too-short, who: [wren], why: the ferry was late }]\n";
    const house = await found(`${tired(RESTED)}${accepting}`);
    expect(house.all.find((one) => one.code === "rest-too-short")).toMatchObject({
      accepted: "the ferry was late",
      level: "note",
    });
    const law = await found(`${tired(TRUCK)}${accepting}`);
    expect(law.all.find((one) => one.code === "rest-too-short")).toMatchObject({
      accepted: null,
      level: "error",
      source: { clause: "49 CFR 395.3(a)(1)" },
    });
    expect(law.code).toBe(1);
  });

  it("says what may help against a short rest, without numbers that nothing has tried", async () => {
    const { all } = await found(
      RESTED.replace("wren: { released: 2027-01-19T17:00-06:00 }", "wren: { released: 2027-01-19T18:01-06:00 }"),
    );
    const short = all.find((one) => one.code === "rest-too-short");
    expect(short?.message).toContain("9 h 59 min");
    // No other release, which is a fact, and no later call: the hits at fixed times leave none.
    expect(short?.hint).toBe("let someone else begin the day");
  });
});

describe("a late meal", () => {
  // Called at 04:00, so a meal begins by 10:00. Pictures from 06:03 fill the time up to the wait: 3 h 57 min end at 10:00.
  const waiting = (pictures: string, meal = "") =>
    RESTED.replace(
      "place: pier }\nruns:",
      `place: pier }
  noon: { at: "14:00", for: 3 min, place: pier }
tasks:
  pictures: { place: pier, for: ${pictures}, after: dawn }
${meal}runs:`,
    ).replace(
      "[lodge, pier, lodge]",
      `[lodge, { place: pier, do: [dawn, pictures, ${meal && "lunch, "}noon] }, lodge]`,
    );
  const late = async (plan: string) => (await found(plan)).all.filter(({ code }) => code === "meal-late");

  it("fits a wait that begins as the time is up, and none a minute later", async () => {
    const [there] = await late(waiting("3 h 57 min"));
    expect(there?.hint).toContain("plan a meal for wren at 11:00 New York (10:00 Chicago), while they wait");
    const [gone] = await late(waiting("3 h 58 min"));
    expect(gone?.hint).toBe("plan a meal for wren earlier; no wait is long enough for one");
  });

  // Two meals of 30 min cut a day into three pieces of at most 6 h: 3 × 6 h + 2 × 30 min = 19 h from the call at
  // 05:00 New York to 24:00. The release is 78 min after the last hit begins: 3 on air, 10 clear, 20 strike, 35 drive, 10 unload.
  // The first of two begins by 11:00, the second by 17:30. For the hit at 18:00 (release 19:18) the second begins between 12:48
  // and 17:20, before the crew is in position, and the first between 08:03, after dawn's 3 min and an hour of pictures, and 11:00.
  it.each([
    [
      "18:00",
      "plan 2 meals for wren, at 09:30 New York (08:30 Chicago) and at 15:00 New York (14:00 Chicago), while they wait",
    ],
    [
      "22:42",
      "plan 2 meals for wren, at 11:00 New York (10:00 Chicago) and at 17:30 New York (16:30 Chicago), while they wait",
    ],
    ["22:43", "plan 3 meals for wren: one does not cover so long a day"],
  ])("a hit at %s", async (at, hint) => {
    const [said] = await late(waiting("1 h").replace('noon: { at: "14:00"', `noon: { at: "${at}"`));
    expect(said?.hint).toBe(hint);
  });

  it("is cured by the meal that is proposed, and by none a minute later", async () => {
    const lunch = "  lunch: { kind: meal, place: pier, for: 30 min, after: pictures }\n";
    expect(await late(waiting("3 h 57 min", lunch))).toEqual([]);
    expect(await late(waiting("3 h 58 min", lunch))).toHaveLength(2);
  });
});
