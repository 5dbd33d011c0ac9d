/** How short a task is to be, where a shorter one is not always better; a break that a task takes up. */
import { describe, expect, it } from "vitest";
import { firstRepair } from "./problem.ts";

async function repaired(text: string) {
  const { codes, edits, after } = await firstRepair(text);
  expect(after).toEqual([]);
  return { codes, edits };
}

/**
 * The strip cannot begin before 12:33: noon ends at 12:03, and its set-up is struck in 30 min. Snow slows the two hours home
 * until 13:00, so that a strip of 10 min, which leaves at 12:43, is home later than one of 27 min, which leaves at 13:00 and
 * is home at 15:00. Every minute home later is one more without the meal that is due after 4 h.
 */
const SNOW = `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
history: { wren: { released: 2027-01-19T17:00-06:00 } }
crew: { wren: { role: camera, drives: wagon, slept: lodge, sleeps: lodge } }
vehicles: { wagon: { range: 400 km, fuel: 90% } }
places:
  lodge: { kind: lodging, mains: true, signal: good }
  pier: { shelter: true, signal: good }
roads: [{ link: [lodge, pier], drive: 2 h, bad: 3 h, km: 100 }]
rules: { mealEvery: 4 h }
weather: [{ from: "11:00", to: "13:00", road: snow, temp: -5 C }]
hits: { noon: { at: "12:00", for: 3 min, place: pier, path: cell } }
tasks: { strip: { place: pier, for: 4 h, who: [wren], window: ["12:30", "15:00"] } }
paths: { cell: { kind: cellular } }
runs: { wagon: { driver: wren, aboard: [wren], stops: [lodge, { place: pier, do: [noon, strip] }, lodge] } }
`;

/**
 * Lodge 06:00, yard 06:30 (5 min to park), 60 min of tidying, from 07:35 four hours to the halt: 11:35, and the truck waits until 12:00
 * there, before five hours more. 25 min are no break of 30 min in the nine hours (49 CFR 395.3(a)(3)(ii), from memory: 30 consecutive
 * minutes not at the wheel after 8 h of driving); 5 min less of tidying make it one.
 */
const BREAK = `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
history: { wren: { released: 2027-01-19T17:00-06:00 } }
crew: { wren: { role: camera, drives: truck, slept: lodge, sleeps: inn } }
vehicles: { truck: { gross: 16000 lb, rules: us-property, week: 60/7, range: 1200 km, fuel: 100% } }
places:
  lodge: { kind: lodging, mains: true, signal: good }
  yard: { shelter: true, signal: good }
  halt: { shelter: true, signal: good }
  inn: { kind: lodging, mains: true, signal: good }
roads:
  - { link: [lodge, yard], drive: 30 min, bad: 30 min, km: 30 }
  - { link: [yard, halt], drive: 4 h, bad: 4 h, km: 300 }
  - { link: [halt, inn], drive: 5 h, bad: 5 h, km: 400 }
tasks: { tidy: { place: yard, for: 60 min, who: [wren] } }
runs: { truck: { driver: wren, aboard: [wren], stops: [{ place: lodge, leave: "06:00" }, { place: yard, do: [tidy] }, { place: halt, leave: "12:00" }, inn] } }
`;

describe("a task that is made shorter", () => {
  it("ends when the road gets better, if a shorter one is home later", async () => {
    expect(await repaired(SNOW)).toEqual({ codes: ["task-missed"], edits: ["tasks.strip.for=27 min"] });
  });

  it("is dropped if the road gets no better while it may last", async () => {
    // The window ends at 15:00; in snow until 17:00 each minute at the pier is one more on the way to a late meal.
    const text = SNOW.replace('to: "13:00"', 'to: "17:00"');
    expect(text).not.toBe(SNOW);
    expect(await repaired(text)).toEqual({
      codes: ["task-missed"],
      edits: ["runs.wagon.stops[1].do=[noon]", "tasks.strip="],
    });
  });

  it("leaves room for the break that it took up", async () => {
    expect(await repaired(BREAK)).toEqual({ codes: ["break-missed"], edits: ["tasks.tidy.for=55 min"] });
  });

  it("is dropped if the break asks for more than it can spare", async () => {
    // The halt is left at 11:00. Tidying of 10 min, the least, ends at 06:45: at the halt at 10:45, 15 min before. Without it
    // nothing is done at the yard and the truck need not park: at the halt at 10:30, 30 min before.
    const text = BREAK.replace("for: 60 min", "for: 12 min").replace('leave: "12:00"', 'leave: "11:00"');
    expect(await repaired(text)).toEqual({
      codes: ["break-missed"],
      edits: ["runs.truck.stops[1].do=[]", "tasks.tidy="],
    });
  });
});
