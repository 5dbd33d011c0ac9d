/** The house rules of a plan as a rule set: common practice, no source, unless the plan states its own. */
import type { HOUSE_HOURS, HouseRules } from "../../plan/houseRules.ts";
import { lengthText } from "../../time/index.ts";
import type { Limit, RuleSet, Since } from "../judge/rule.ts";
import { hours } from "./options.ts";

/** The house rules that hours are judged by, in minutes. */
export type HouseHours = Pick<HouseRules, keyof typeof HOUSE_HOURS>;

/** A rest this long parts two working days; anything shorter is a pause inside one. */
export const PARTING = hours(6);

const CLAUSE = "house rules";

function houseLimits(house: HouseHours, day: Since): readonly Limit[] {
  return [
    {
      kind: "rest",
      id: "house.turnaround",
      clause: CLAUSE,
      title: `turnaround ${lengthText(house.turnaround)}`,
      requires: house.turnaround,
      forbids: "work",
      parting: Math.min(PARTING, house.turnaround),
      breach: "short",
    },
    {
      kind: "max",
      id: "house.dutyDay",
      clause: CLAUSE,
      title: `duty day of ${lengthText(house.dutyDay)}`,
      counts: "duty",
      allows: house.dutyDay,
      forbids: "work",
      since: [day],
    },
    {
      kind: "max",
      id: "house.wheelDay",
      clause: CLAUSE,
      title: `${lengthText(house.wheelDay)} a day at the wheel`,
      counts: "driving",
      allows: house.wheelDay,
      forbids: "driving",
      since: [day],
    },
    {
      kind: "max",
      id: "house.wheelBreak",
      clause: CLAUSE,
      title: `wheel break ${lengthText(house.wheelBreak)} every ${lengthText(house.wheelBreakEvery)}`,
      counts: "driving",
      allows: house.wheelBreakEvery,
      forbids: "driving",
      since: [{ kind: "break", minutes: house.wheelBreak, of: ["off", "berth", "meal", "duty", "idle"] }],
    },
    {
      kind: "max",
      id: "house.mealEvery",
      clause: CLAUSE,
      title: `meal of ${lengthText(house.mealFor)} every ${lengthText(house.mealEvery)}`,
      counts: "elapsed",
      allows: house.mealEvery,
      forbids: "work",
      since: [{ kind: "break", minutes: house.mealFor, of: ["off", "berth", "meal", "idle"] }],
    },
  ];
}

/** Everyone's rules, beside any law. A meal counts in the duty day; a stand-down does not, and is no night's rest. */
export function houseRules(house: HouseHours): RuleSet {
  const day: Since = { kind: "rest", minutes: Math.min(PARTING, house.turnaround), orNight: true };
  return {
    id: "house",
    title: "house rules",
    source: "common practice, no source",
    law: false,
    statuses: {
      off: "off",
      berth: "berth",
      meal: "meal",
      driving: "driving",
      duty: "duty",
      standby: "duty",
      riding: "duty",
      personal: "off",
    },
    lightDriving: "driving",
    pause: "idle",
    rest: ["off", "berth"],
    duty: ["duty", "driving", "meal"],
    travel: null,
    seat: null,
    shift: day,
    limits: houseLimits(house, day),
    dayStarts: 0,
    conditions: [],
    questions: [],
  };
}
