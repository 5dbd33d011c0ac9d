/** `rules`: the house rules and their defaults. Common practice of the trade, no source, unless one is given. */

import { valueBad } from "../findings.ts";
import { HOUSE_HOURS, type HouseRules } from "../houseRules.ts";
import type { Fields } from "../read/fields.ts";
import { entry, type Field, word } from "../shape/form.ts";
import { amount, length, text } from "../shape/leaves.ts";
import { parseLength } from "../values/length.ts";
import { mistaken, type Parsed, parsed } from "../values/parsed.ts";
import { energyWh, share } from "../values/quantity.ts";

const PLAN_AT = ["bad-into-firm", "bad", "drive"] as const;

/** Rules that are lengths of time, with their defaults in minutes. */
const LENGTHS = {
  walkAround: [length, "before a commercial vehicle rolls, by its driver; 15 min by default", 15],
  postTrip: [length, "after a commercial vehicle's last stop, by its driver; 10 min by default", 10],
  loading: [length, "before wheels roll; 15 min by default; where stated, on a check-out day too", 15],
  loadingCheckOut: [length, "before wheels roll on a check-out day; 30 min by default", 30],
  park: [length, "at every stop where something is done; 5 min by default", 5],
  setUp: [length, "once a visit; 30 min by default", 30],
  dishUp: [length, "of a satellite dish, beside set-up when two people are there; 25 min by default", 25],
  lineCheck: [length, "before the first hit of a visit; 10 min by default", 10],
  inPosition: [length, "before each hit; 10 min by default", 10],
  clear: [length, "after the last hit of a visit; 10 min by default", 10],
  strike: [length, "after the desk has let go; 20 min by default", 20],
  unload: [length, "at the end; 10 min by default", 10],
  turnaround: [length, "release to next call; 10 h by default", HOUSE_HOURS.turnaround],
  dutyDay: [length, "call to release; 14 h by default", HOUSE_HOURS.dutyDay],
  mealEvery: [length, "from the end of the last meal; 6 h by default", HOUSE_HOURS.mealEvery],
  mealFor: [length, "a meal; 30 min by default", HOUSE_HOURS.mealFor],
  wheelDay: [length, "house limit at the wheel; 10 h by default", HOUSE_HOURS.wheelDay],
  wheelAwake: [length, "no wheel after being awake so long; 14 h by default", 840],
  swap: [length, "of a pack, never from in position to clear; 2 min by default", 2],
  choreJoin: [length, "a chore so close to a release or a call is part of that duty; 15 min by default", 15],
  warmUp: [length, "of a frozen pack before it charges; 60 min by default", 60],
  upBefore: [length, "awake before the call; 45 min by default; where stated, on camera too", 45],
  upBeforeOnCamera: [length, "awake before the call where on camera; 75 min by default", 75],
  bedAfter: [length, "from release to sleep; 90 min by default", 90],
  roundCalls: [length, "calls are rounded earlier to this; 5 min by default", 5],
  shelterAfter: [length, "a wait longer than this is spent in shelter; 30 min by default", 30],
  dayRate: [length, "the hours that a day rate pays; 10 h by default", 600],
} as const satisfies Record<string, Field>;

type LengthRule = keyof typeof LENGTHS;

export const rulesForm = entry(
  "a map of house rules: { turnaround: 10 h }",
  {},
  {
    ...LENGTHS,
    wheelBreak: [text, "a break from the wheel; `15 min every 2 h` by default"],
    reserve: [amount(share), "left in a pack; 15% by default; where stated, in the cold too"],
    reserveCold: [amount(share), "left in a pack below 0 °C; 25% by default"],
    planDrivesAt: [word(PLAN_AT), "`bad-into-firm` by default: the bad time into a firm hit, else the likely one"],
    enough: [amount(energyWh), "margin in a pack beyond which more is not sought; 15 Wh by default"],
  },
);

type RuleFields = Fields<(typeof rulesForm.keys)[number]>;

/**
 * The rules with defaults filled in. A default that has two forms (`loading` on ordinary and on check-out days) is
 * replaced in both where the plan states the plain rule, unless it states the variant as well.
 */
export function readRules(fields: RuleFields): HouseRules {
  const lengths = readLengths(fields);
  const wheelBreak = readWheelBreak(fields);
  const reserve = fields.amount("reserve", share);
  return {
    ...lengths,
    wheelBreak: wheelBreak.minutes,
    wheelBreakEvery: wheelBreak.every,
    reserveShare: reserve ?? 0.15,
    reserveColdShare: fields.amount("reserveCold", share) ?? reserve ?? 0.25,
    planDrivesAt: fields.word("planDrivesAt", PLAN_AT) ?? "bad-into-firm",
    enoughWh: fields.amount("enough", energyWh) ?? 15,
    stated: new Set(rulesForm.keys.filter((key) => fields.has(key))),
  };
}

function readLengths(fields: RuleFields): Record<LengthRule, number> {
  const rule = (key: LengthRule, plain?: number | null): number => fields.length(key) ?? plain ?? LENGTHS[key][2];
  const [loading, upBefore] = [fields.length("loading"), fields.length("upBefore")];
  return {
    walkAround: rule("walkAround"),
    postTrip: rule("postTrip"),
    loading: loading ?? LENGTHS.loading[2],
    loadingCheckOut: rule("loadingCheckOut", loading),
    park: rule("park"),
    setUp: rule("setUp"),
    dishUp: rule("dishUp"),
    lineCheck: rule("lineCheck"),
    inPosition: rule("inPosition"),
    clear: rule("clear"),
    strike: rule("strike"),
    unload: rule("unload"),
    turnaround: rule("turnaround"),
    dutyDay: rule("dutyDay"),
    mealEvery: rule("mealEvery"),
    mealFor: rule("mealFor"),
    wheelDay: rule("wheelDay"),
    wheelAwake: rule("wheelAwake"),
    swap: rule("swap"),
    choreJoin: rule("choreJoin"),
    warmUp: rule("warmUp"),
    upBefore: upBefore ?? LENGTHS.upBefore[2],
    upBeforeOnCamera: rule("upBeforeOnCamera", upBefore),
    bedAfter: rule("bedAfter"),
    roundCalls: rule("roundCalls"),
    shelterAfter: rule("shelterAfter"),
    dayRate: rule("dayRate"),
  };
}

interface WheelBreak {
  readonly minutes: number;
  readonly every: number;
}

function readWheelBreak(fields: RuleFields): WheelBreak {
  const usual: WheelBreak = { minutes: HOUSE_HOURS.wheelBreak, every: HOUSE_HOURS.wheelBreakEvery };
  const said = fields.text("wheelBreak");
  return said === null ? usual : (fields.reading.take(fields.at("wheelBreak"), parseBreak(said, usual)) ?? usual);
}

/** `15 min every 2 h`, or `20 min` alone, which keeps the interval. */
function parseBreak(said: string, usual: WheelBreak): Parsed<WheelBreak> {
  const [first = "", second, more] = said.split(/\s+every\s+/);
  if (more !== undefined) {
    const facts = { text: said, what: "a break and its interval", example: "15 min every 2 h" };
    return mistaken((c) => valueBad.raise(facts, c));
  }
  const minutes = parseLength(first);
  const every = second === undefined ? parsed(usual.every) : parseLength(second);
  if (!minutes.ok) return minutes;
  return every.ok ? parsed({ minutes: minutes.value, every: every.value }) : every;
}
