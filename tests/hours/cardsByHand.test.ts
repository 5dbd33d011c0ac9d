/** Cards, records and questions of a night at the minute: midnight, a day without work, a minute of it, spans that overlap; by hand. */
import { describe, expect, it } from "vitest";
import { assess } from "../../src/hours/index.ts";
import { ledgerOf } from "../../src/hours/judge/ledger.ts";
import { withMissing } from "../../src/hours/judge/unknown.ts";
import { logCards } from "../../src/hours/pay/logCard.ts";
import { timecards } from "../../src/hours/pay/timecard.ts";
import { GENERAL_QUESTIONS } from "../../src/hours/questions/openQuestions.ts";
import { readLog } from "../../src/plan/log/read.ts";
import { judgedText } from "../cases/judged.ts";
import { SMALLEST } from "../cli/plans.ts";
import { logText } from "./logs.ts";
import { judged, rulesOf, spansFrom, utc } from "./records.ts";

const CONTRACT = "contracts: { day: { dayRate: 14 h } }\n";
const paid = (text: string): string =>
  text
    .replace("wren: { role: camera, drives: wagon }", "wren: { role: camera, drives: wagon, contract: day }")
    .replace("ilse: { role: reporter }", "ilse: { role: reporter, contract: day }")
    .concat(CONTRACT);

const cardsOf = async (text: string) => {
  const { days } = await judgedText(paid(text));
  return timecards(days);
};

describe("a card of a plan", () => {
  // The hit at 07:00 New York ends in a release at 07:18 Chicago, 78 min after it: one at 22:42 Chicago ends at midnight.
  it("is over midnight if its work ends after it, not if it ends with it or a minute before", async () => {
    const over = async (clock: string) =>
      (await cardsOf(SMALLEST.replace('at: "07:00"', `at: "${clock}"`)))[0]?.days.map((day) => day.overMidnight);
    expect([await over("23:41"), await over("23:42"), await over("23:43")]).toEqual([[false], [false], [true]]);
  });

  it("has no day rate where no one worked, and what it adds where someone did", async () => {
    const [wren, ilse] = await cardsOf(
      SMALLEST.replace(
        "wagon: [lodge, pier, lodge]",
        "wagon: { driver: wren, aboard: [wren], stops: [lodge, pier, lodge] }",
      ),
    );
    // 14 h less 3 h 18 min.
    expect([wren?.totals.workedMinutes, wren?.totals.dayRateMinutes]).toEqual([198, 642]);
    expect([ilse?.totals.workedMinutes ?? 0, ilse?.totals.dayRateMinutes ?? 0]).toEqual([0, 0]);
  });
});

describe("a card of a log", () => {
  it("has a day with a minute of work", async () => {
    const spans = [
      { from: "2027-01-18T00:00Z", to: "2027-01-18T08:00Z", is: "off" },
      { from: "2027-01-18T08:00Z", to: "2027-01-18T08:01Z", is: "duty" },
      { from: "2027-01-18T08:01Z", to: "2027-01-19T08:00Z", is: "off" },
    ];
    const { log } = await readLog(logText({ zone: "UTC", rules: "us-property", spans }), "hours.yaml");
    const cards = log === null ? [] : logCards(log);
    expect(cards.flatMap(({ days }) => days.map(({ date, workedMinutes }) => [date, workedMinutes]))).toEqual([
      ["2027-01-18", 1],
    ]);
  });
});

describe("a meal by itself", () => {
  it("makes no day of a card", async () => {
    const spans = [
      { from: "2027-01-18T00:00Z", to: "2027-01-18T12:00Z", is: "off" },
      { from: "2027-01-18T12:00Z", to: "2027-01-18T13:00Z", is: "meal" },
      { from: "2027-01-18T13:00Z", to: "2027-01-19T08:00Z", is: "off" },
      { from: "2027-01-19T08:00Z", to: "2027-01-19T10:00Z", is: "duty" },
    ];
    const { log } = await readLog(logText({ zone: "UTC", rules: "us-property", spans }), "hours.yaml");
    const cards = log === null ? [] : logCards(log);
    expect(cards.flatMap(({ days }) => days.map(({ date }) => date))).toEqual(["2027-01-19"]);
  });
});

describe("the workday of a shift over midnight, 29 CFR 778.105", () => {
  const clause = async (until: string) => {
    const spans = [
      { from: "2027-01-18T08:00Z", to: "2027-01-18T18:00Z", is: "duty" },
      { from: "2027-01-18T18:00Z", to: "2027-01-19T18:00Z", is: "off" },
      { from: "2027-01-19T18:00Z", to: until, is: "duty" },
    ];
    const { log } = await readLog(logText({ zone: "UTC", rules: "us-labor", spans }), "hours.yaml");
    return log === null ? [] : logCards(log).map(({ workdayClause }) => workdayClause);
  };

  it("is named if one of the days has such a shift", async () => {
    expect(await clause("2027-01-20T00:00Z")).toEqual([null]);
    expect(await clause("2027-01-20T00:01Z")).toEqual(["29 CFR 778.105"]);
  });
});

describe("a record that ends before the call", () => {
  it("has a gap there", async () => {
    const { day } = await judgedText(`${SMALLEST}history:
  wren:
    spans: [{ from: 2027-01-19T08:00-06:00, to: 2027-01-19T16:00-06:00, is: duty }]
`);
    // Behind 16:00 in Chicago, 22:00 in UTC, nothing is known up to the call at 04:00.
    const { gaps } = ledgerOf([day], "wren");
    expect(gaps).toEqual([{ from: utc("19 22:00"), to: utc("20 10:00") }]);
  });
});

describe("a day of which nothing is known", () => {
  // The 18th, then the 20th and the 21st, each from 04:00 to 07:18.
  const dated = (date: string, before: string): string =>
    SMALLEST.replace("date: 2027-01-20", `date: ${date}\nfollows: ${before}`);
  const atLeast = async (text: string) => {
    const files = {
      "18.yaml": SMALLEST.replace("2027-01-20", "2027-01-18"),
      "20.yaml": dated("2027-01-20", "18.yaml"),
    };
    const { days } = await judgedText(text, files);
    return assess({ days, patience: 1, now: null }).result.people.get("wren")?.hours.restAtLeast;
  };

  it("leaves the rest before the next call at least as long as what is known, and not the one after that", async () => {
    expect(await atLeast(dated("2027-01-20", "18.yaml"))).toBe(true);
    expect(await atLeast(dated("2027-01-21", "20.yaml"))).toBe(false);
    expect(await atLeast(dated("2027-01-19", "18.yaml"))).toBe(false);
  });
});

describe("a night over days of which something is known", () => {
  it("is cut where nothing is known, and has what is stated in its place", () => {
    const [from, to] = [utc("18 20:00"), utc("21 06:00")];
    const nothing = [
      { from: utc("19 00:00"), to: utc("19 08:00") },
      { from: utc("19 16:00"), to: utc("21 00:00") },
    ];
    const base = { in: "commercial", pause: false } as const;
    const work = { from: utc("19 08:00"), to: utc("19 16:00"), is: "duty", ...base } as const;
    const cut = withMissing([{ from, to, is: "off", ...base, night: true }], {
      unknown: nothing,
      spans: [work],
      totals: [],
    });
    expect(cut.map((span) => [span.from, span.to, span.is, span.unknown === true])).toEqual([
      [utc("18 20:00"), utc("19 00:00"), "off", false],
      [utc("19 00:00"), utc("19 08:00"), "off", true],
      [utc("19 08:00"), utc("19 16:00"), "duty", false],
      [utc("19 16:00"), utc("21 00:00"), "off", true],
      [utc("21 00:00"), utc("21 06:00"), "off", false],
    ]);
  });
});

describe("work by night, Directive 2003/88/EC Art 2(3), 2(4)", () => {
  const rules = rulesOf("eu-working-time");
  const asked = (work: string, from = utc("18 00:00")) => {
    const text = `off 22, duty ${work}, off 12, duty 1`;
    const hours = {
      ...{ id: "tomas", bindings: [], disputed: [] },
      verdicts: [judged("eu-working-time", "18 00:00", text)],
    };
    const context = { hours, spans: spansFrom("18 00:00", text), from, path: [], labour: [] };
    return GENERAL_QUESTIONS.flatMap((ask) => ask({ ...context, offset: () => 0, atVenue: () => false }, rules)).filter(
      ({ question }) => question.startsWith("night work"),
    ).length;
  };

  it("is asked about from 3 h between midnight and 05:00 on", () => {
    // From 22:00 to 03:00.
    expect([asked("5"), asked("4:59")]).toEqual([1, 0]);
  });

  it("is not asked about again once the rest behind it is over", () => {
    expect([asked("5", utc("19 14:59")), asked("5", utc("19 15:00"))]).toEqual([1, 0]);
  });
});
