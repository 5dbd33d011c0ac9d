/** Time cards over a chain of days agree with `hours` to the minute; the pay itself is held in `pay.test.ts`. */
import { describe, expect, it } from "vitest";
import { computeChain } from "../../src/day/chain.ts";
import { assess } from "../../src/hours/index.ts";
import { logCards } from "../../src/hours/pay/logCard.ts";
import { timecards } from "../../src/hours/pay/timecard.ts";
import { legsOf } from "../../src/legs/legs.ts";
import { readOnePlan } from "../../src/plan/index.ts";
import { readLog } from "../../src/plan/log/read.ts";
import { timecardReport } from "../../src/reports/timecard/index.ts";
import { SMALLEST } from "../cli/plans.ts";
import { inputFor } from "../reports/inputFor.ts";
import { logText } from "./logs.ts";

const CONTRACT =
  "contracts:\n  short: { overtimeAfter: 3 h, doubleAfter: 3 h 10 min, turnaround: 22 h, shortTurnaround: 50, perDiem: 40 }\n";
const plan = (date: string): string =>
  `${SMALLEST.replace("2027-01-20", date).replace("drives: wagon }", "drives: wagon, contract: short }")}${CONTRACT}`;

async function chain(dates: readonly string[]) {
  const links = [];
  for (const date of dates) {
    const { plan: read, findings } = await readOnePlan(plan(date), { file: `${date}.yaml` });
    if (read === null) throw new Error(findings.map(({ code }) => code).join(", "));
    links.push({ plan: read, legs: await legsOf(read) });
  }
  return computeChain(links).days;
}

describe("three smallest days (198 min on duty each) under a contract", () => {
  it("adds up, and agrees with hours", async () => {
    const days = await chain(["2027-01-20", "2027-01-21", "2027-01-22"]);
    const [wren, ilse] = timecards(days);
    expect(
      wren?.days.map((day) => [
        day.date,
        day.workedMinutes,
        day.straightMinutes,
        day.overtimeMinutes,
        day.doubleMinutes,
      ]),
    ).toEqual(["2027-01-20", "2027-01-21", "2027-01-22"].map((date) => [date, 198, 180, 10, 8]));
    expect(wren?.totals).toMatchObject({
      workedMinutes: 594,
      straightMinutes: 540,
      overtimeMinutes: 30,
      doubleMinutes: 24,
      daysWorked: 3,
    });
    // From the release at 07:18 to the call at 04:00: 20 h 42 min of the 22 h that this contract wants.
    expect(wren?.days.map(({ shortTurnaroundMinutes }) => shortTurnaroundMinutes)).toEqual([0, 78, 78]);
    expect(wren).toMatchObject({ turnaroundPenalties: 100, perDiem: 120, mealPenalties: null });
    expect(ilse?.totals).toMatchObject({ workedMinutes: 594, straightMinutes: 594, overtimeMinutes: 0 });
    // 50 min out and 35 back, three times; wren drives.
    expect([wren?.totals.ridingMinutes, ilse?.totals.ridingMinutes]).toEqual([0, 255]);
    expect(wren?.ridingClause).toBeNull();
    days.forEach((_, index) => {
      const { result } = assess({ days: days.slice(0, index + 1), patience: 1, now: null });
      expect(wren?.days[index]?.workedMinutes).toBe(result.people.get("wren")?.hours.dutyMinutes);
    });
  });

  it("counts each meal that was due, and what a day rate adds", async () => {
    // Called at 04:00 Chicago, released at 07:18 + 10 h = 17:18: meals were due at 10:00 and 16:00.
    const long = plan("2027-01-20")
      .replace("short: {", "short: { mealPenalty: 25, dayRate: 14 h,")
      .replace("place: pier }\nruns", 'place: pier }\n  late: { at: "17:00", for: 3 min, place: pier }\nruns');
    const { plan: read } = await readOnePlan(long, { file: "long.yaml" });
    if (read === null) throw new Error("unread");
    const [wren] = timecards(computeChain([{ plan: read, legs: await legsOf(read) }]).days);
    expect(wren?.totals).toMatchObject({ workedMinutes: 798, mealsMissed: 2, dayRateMinutes: 42 });
    expect(wren?.mealPenalties).toBe(50);
  });

  it("is a report with a row a day and one for all", async () => {
    const days = await chain(["2027-01-20", "2027-01-21"]);
    const [first] = days;
    if (first === undefined) throw new Error("no day");
    const report = timecardReport({ ...inputFor(first), person: "wren" }, days, timecards(days));
    const table = report.blocks.find((block) => block.kind === "table");
    expect(table?.kind === "table" ? table.rows.map((row) => row[1]?.text) : []).toEqual([
      "2027-01-20",
      "2027-01-21",
      "in all",
    ]);
    expect(JSON.parse(JSON.stringify(report.data)).people[0].totals.workedMinutes).toBe(396);
  });
});

describe("a card of a log", () => {
  const cards = async (rules: readonly string[], from: string, to: string) => {
    const spans = [{ from, to, is: "driving" }];
    const { log } = await readLog(logText({ zone: "UTC", rules, spans }), "hours.yaml");
    if (log === null) throw new Error("no log");
    return logCards(log);
  };
  const DAY = ["2027-01-18T08:00Z", "2027-01-18T18:00Z"] as const;

  it("says that weeks are from Monday to Sunday where one of its rules pays by the week", async () => {
    const byWeek = async (rules: readonly string[]) => (await cards(rules, ...DAY)).map((card) => card.byWeek);
    expect(await byWeek(["us-property"])).toEqual([false]);
    expect(await byWeek(["us-property", "us-labor"])).toEqual([true]);
  });

  it("is over midnight if its work ends after it, not if it ends with it", async () => {
    const over = async (to: string) =>
      (await cards(["us-property"], DAY[0], to)).flatMap(({ days }) => days.map((day) => day.overMidnight));
    expect(await over("2027-01-19T00:00Z")).toEqual([false]);
    expect(await over("2027-01-19T00:01Z")).toEqual([true]);
  });

  it("has the 10 h of a day at the wheel as work and as driving", async () => {
    const [card] = await cards(["us-property"], ...DAY);
    expect(card?.totals).toMatchObject({ workedMinutes: 600, drivingMinutes: 600, ridingMinutes: 0, daysWorked: 1 });
  });
});
