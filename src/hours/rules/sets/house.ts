/** The house rules of a plan as a rule set: common practice, no source, unless the plan states its own. */
import { lengthText } from "../../../time/index.ts";
import { type HouseHours, PLAIN, type RuleSetDeclaration } from "../declaration.ts";
import { hoursToMinutes } from "../options.ts";
import type { Limit, Since } from "../rule.ts";

/** A rest this long parts two working days; anything shorter is a pause inside one. */
export const HOUSE_PARTING = hoursToMinutes(6);

const CLAUSE = "house rules";

function houseLimits(house: HouseHours, day: Since): readonly Limit[] {
  return [
    {
      kind: "rest",
      id: "house.turnaround",
      planKey: "turnaround",
      clause: CLAUSE,
      title: `turnaround ${lengthText(house.turnaround)}`,
      requires: house.turnaround,
      forbids: "work",
      parting: Math.min(HOUSE_PARTING, house.turnaround),
      breach: "short",
    },
    {
      kind: "max",
      id: "house.dutyDay",
      planKey: "dutyDay",
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
      planKey: "wheelDay",
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
      planKey: "wheelBreak",
      // A leg is rarely planned with its stops.
      advice: true,
      clause: CLAUSE,
      title: `wheel break ${lengthText(house.wheelBreak.minutes)} every ${lengthText(house.wheelBreak.every)}`,
      counts: "driving",
      allows: house.wheelBreak.every,
      forbids: "driving",
      since: [{ kind: "break", minutes: house.wheelBreak.minutes, of: ["off", "berth", "meal", "duty", "idle"] }],
    },
    {
      kind: "max",
      id: "house.mealEvery",
      planKey: "mealEvery",
      meal: true,
      clause: CLAUSE,
      title: `meal of ${lengthText(house.mealFor)} every ${lengthText(house.mealEvery)}`,
      counts: "elapsed",
      allows: house.mealEvery,
      forbids: "work",
      since: [{ kind: "break", minutes: house.mealFor, of: ["off", "berth", "meal", "idle"] }],
    },
  ];
}

/** Everyone's rules, besides any law. A meal counts in the duty day; a stand-down does not, and is no night's rest. */
export const house: RuleSetDeclaration = {
  place: 100,
  ...PLAIN,
  threshold: null,
  title: "house rules",
  source: "common practice, no source",
  legallyBinding: false,
  make(_, rules) {
    const day: Since = { kind: "rest", minutes: Math.min(HOUSE_PARTING, rules.turnaround), orNight: true };
    return {
      country: null,
      statuses: {
        off: "off",
        berth: "berth",
        meal: "meal",
        driving: "driving",
        duty: "duty",
        standby: "duty",
        riding: "duty",
        personal: "off",
        ferry: "duty",
      },
      ferry: { status: "berth", over: 0, interrupted: null },
      covers: () => true,
      lightDriving: "driving",
      pause: "idle",
      rest: ["off", "berth"],
      // Sleep under way is no night between two days.
      berthParts: rules.turnaround,
      duty: ["duty", "driving", "meal"],
      travel: null,
      seat: null,
      shift: day,
      limits: houseLimits(rules, day),
      dayStarts: 0,
      conditions: [],
      asks: {},
    };
  },
};
