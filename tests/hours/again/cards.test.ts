/** Time cards of random logs against a look at every minute: shifts, dates, work, meals of 29 CFR 785.18 and 785.19 (from memory), short nights. */
import { expect, it } from "vitest";
import { logCards } from "../../../src/hours/pay/logCard.ts";
import { readLog } from "../../../src/plan/log/read.ts";
import { random } from "../../day/random.ts";
import { runs } from "../../fuzz.ts";
import { logText } from "../logs.ts";

const START = Date.UTC(2027, 0, 18) / 60_000;
/** Free time of six hours or more parts two shifts (house). */
const PARTING = 360;
/** Up to 20 minutes are worked; less than the usual 30 are asked about. */
const MEAL = { worked: 20, usual: 30 };
/** Ten hours between two shifts by the house rules. */
const TURNAROUND = 600;

function randomMinutes(dice: (below: number) => number): readonly string[] {
  const minutes: string[] = [];
  const put = (is: string, count: number): void => {
    for (let n = 0; n < count; n++) minutes.push(is);
  };
  const kinds = ["duty", "driving", "riding", "standby", "meal", "off", "berth"];
  for (let n = 0; n < 24; n++) {
    const is = kinds[dice(kinds.length)] ?? "duty";
    const isNight = is === "off" && dice(2) === 0;
    const around = [1, 20, 21, 29, 30, 359, 360][dice(7)] ?? 1;
    if (isNight) put(is, [PARTING, PARTING - 1, TURNAROUND, TURNAROUND - 1, 700 + dice(600)][dice(5)] ?? 0);
    else put(is, dice(3) === 0 ? around : 5 + dice(200));
  }
  return minutes;
}

/** Spans of a log; with `cut` a long one is written in two. */
function spansOf(minutes: readonly string[], cut: number) {
  const iso = (minute: number): string => new Date((START + minute) * 60_000).toISOString().slice(0, 16);
  const edges = minutes.flatMap((is, n) => (n === 0 || is !== minutes[n - 1] || n === cut ? [n] : []));
  return edges.map((from, n) => ({
    from: iso(from),
    to: iso(edges[n + 1] ?? minutes.length),
    is: minutes[from] ?? "",
  }));
}

const isFree = (is: string | undefined): boolean => is === "off" || is === "berth";
const isWork = (is: string | undefined): boolean => is !== undefined && !isFree(is) && is !== "meal";

interface Shift {
  readonly from: number;
  to: number;
  readonly before: number | null;
}

function cardsOf(minutes: readonly string[], rules: readonly string[]) {
  const shifts: Shift[] = [];
  let [free, seen] = [0, false];
  minutes.forEach((is, n) => {
    if (isFree(is)) {
      free++;
      return;
    }
    const last = shifts.at(-1);
    if (last === undefined || free >= PARTING) shifts.push({ from: n, to: n + 1, before: seen ? free : null });
    else last.to = n + 1;
    [free, seen] = [0, true];
  });
  const worked = shifts.filter(({ from, to }) => minutes.slice(from, to).some(isWork));
  const dayOf = (minute: number): number => Math.floor(minute / 1440);
  const paid = rules.some((name) => name === "us-labor" || name === "california");
  return [...new Set(worked.map(({ from }) => dayOf(from)))].map((day) => {
    const own = worked.filter(({ from }) => dayOf(from) === day);
    const all = own.flatMap(({ from, to }) => [...minutes.slice(from, to), "off"]);
    const count = (is: (word: string) => boolean): number => all.filter(is).length;
    const meals = all.join(" ").match(/(?:meal ?)+/gu) ?? [];
    const lengths = meals.map((meal) => meal.trim().split(" ").length);
    const short = own.flatMap(({ before }) => (before === null ? [] : [Math.max(0, TURNAROUND - before)]));
    const shortMeals = paid ? lengths.filter((length) => length <= MEAL.worked) : [];
    return {
      date: new Date(Date.UTC(2027, 0, 18 + day)).toISOString().slice(0, 10),
      workedMinutes: count(isWork) + shortMeals.reduce((sum, length) => sum + length, 0),
      drivingMinutes: count((is) => is === "driving"),
      ridingMinutes: count((is) => is === "riding"),
      restBeforeMinutes: own[0]?.before ?? null,
      mealsAsked: paid ? lengths.filter((length) => length > MEAL.worked && length < MEAL.usual).length : 0,
      overMidnight: own.some(({ from, to }) => dayOf(from) !== dayOf(to - 1)),
      shortTurnaroundMinutes:
        !rules.includes("house") || short.length === 0 ? null : short.reduce((sum, one) => sum + one, 0),
    };
  });
}

it("has what a look at every minute finds", async () => {
  const RULES = [
    ["us-labor"],
    ["california"],
    ["house"],
    ["us-property"],
    ["us-labor", "house"],
    ["california", "us-labor"],
  ];
  let days = 0;
  for (let seed = 1; seed <= Math.max(120, runs(200, 20_000)); seed++) {
    const dice = random(seed);
    const rules = RULES[dice(RULES.length)] ?? [];
    const minutes = randomMinutes(dice);
    const spans = spansOf(minutes, dice(minutes.length));
    const { log, findings } = await readLog(logText({ zone: "UTC", rules, spans }), "hours.yaml");
    if (log === null) throw new Error(`seed ${seed}: ${findings.map(({ code }) => code).join(" ")}`);
    const [card] = logCards(log);
    const wanted = cardsOf(minutes, rules);
    expect(card?.days, `seed ${seed} ${rules}`).toMatchObject(wanted);
    const sum = (of: (one: (typeof wanted)[number]) => number): number => wanted.reduce((all, one) => all + of(one), 0);
    expect(card?.totals, `seed ${seed} ${rules}`).toMatchObject({
      workedMinutes: sum((one) => one.workedMinutes),
      drivingMinutes: sum((one) => one.drivingMinutes),
      ridingMinutes: sum((one) => one.ridingMinutes),
      mealsAsked: sum((one) => one.mealsAsked),
      daysWorked: wanted.filter(({ workedMinutes }) => workedMinutes > 0).length,
      shortTurnarounds: wanted.every(({ shortTurnaroundMinutes: short }) => short === null)
        ? null
        : wanted.filter(({ shortTurnaroundMinutes: short }) => (short ?? 0) > 0).length,
    });
    days += wanted.length;
  }
  expect(days).toBeGreaterThan(200);
});

// Labor Code 226.7, from memory: an hour of pay for a day in which meal periods were missed, however many; the FLSA knows no such limit.
it("pays California's missed meals once a day, each where another of its rules does not limit them", async () => {
  // Two shifts of 7 h on one date without a meal, 6 h apart: each is an hour beyond the 6 h of the order.
  const minutes = [
    ["off", 60],
    ["duty", 420],
    ["off", 360],
    ["duty", 420],
  ].flatMap(([is, count]) => Array.from({ length: Number(count) }, () => String(is)));
  const missed = async (...rules: readonly string[]) => {
    const { log } = await readLog(logText({ zone: "UTC", rules, spans: spansOf(minutes, 0) }), "hours.yaml");
    return log === null ? [] : logCards(log).flatMap(({ days }) => days.map(({ mealsMissed }) => mealsMissed));
  };
  expect(await missed("california")).toEqual([1]);
  expect(await missed("california", "us-labor")).toEqual([2]);
  expect(await missed("us-labor")).toEqual([null]);
});
