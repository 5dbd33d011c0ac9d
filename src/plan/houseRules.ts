/**
 * The house rules of a plan, one line each: common practice of the trade, no source, unless the line gives one. What a
 * plan states itself replaces the default. A new rule is a line here and a test of what it does.
 */
import { once } from "../lists.ts";
import { valueBad } from "./findings.ts";
import { entry, type KeyDeclaration, type ValueOf } from "./shape/entry.ts";
import { scalar, type ValueForm, valued, word } from "./shape/form.ts";
import { amount, length } from "./shape/leaves.ts";
import { PATTERNS } from "./shape/patterns.ts";
import { parseLength } from "./values/length.ts";
import { mistaken, type Parsed, parsed } from "./values/parsed.ts";
import { energyWh, share } from "./values/quantity.ts";

/** A house rule: its form, its default and its sentence. */
export interface HouseRule<T> extends KeyDeclaration {
  readonly form: ValueForm<T>;
  /** As a plan writes it. */
  readonly byDefault: string;
  /** The plain rule that this one varies: where a plan states only that one, its value holds here as well. */
  readonly varies: string | null;
}

const rule = <T>(form: ValueForm<T>, byDefault: string, says: string, varies: string | null = null): HouseRule<T> => ({
  form,
  byDefault,
  says,
  varies,
});

/** Whole minutes. */
const minutes = (byDefault: string, says: string, varies: string | null = null): HouseRule<number> =>
  rule(length, byDefault, says, varies);

/** 0 to 1. */
const ofPack = (byDefault: string, says: string, varies: string | null = null): HouseRule<number> =>
  rule(amount(share), byDefault, says, varies);

const DRIVE_TIMES = ["bad-into-firm", "bad", "drive"] as const;

const RULES = {
  walkAround: minutes("15 min", "before a commercial vehicle rolls, by its driver"),
  postTrip: minutes("10 min", "after a commercial vehicle's last stop, by its driver"),
  loading: minutes("15 min", "before wheels roll"),
  loadingCheckOut: minutes("30 min", "before wheels roll on a check-out day", "loading"),
  park: minutes("5 min", "at every stop where something is done"),
  setUp: minutes("30 min", "once a visit"),
  dishUp: minutes("25 min", "of a satellite dish, together with set-up if two people are there"),
  lineCheck: minutes("10 min", "before the first hit of a visit"),
  inPosition: minutes("10 min", "before each hit"),
  clear: minutes("10 min", "after the last hit of a visit"),
  strike: minutes("20 min", "after the desk has let go"),
  unload: minutes("10 min", "at the end"),
  turnaround: minutes("10 h", "from release to the next call"),
  dutyDay: minutes("14 h", "from call to release"),
  mealEvery: minutes("6 h", "from the end of the last meal"),
  mealFor: minutes("30 min", "a meal"),
  wheelDay: minutes("10 h", "house limit at the wheel"),
  wheelBreak: rule(
    valued(scalar("a break such as 15 min every 2 h", ["string"], { pattern: PATTERNS.everyLength }), parseBreak),
    "15 min every 2 h",
    "a break from the wheel",
  ),
  wheelAwake: minutes("14 h", "no wheel after being awake so long"),
  reserve: ofPack("15%", "left in a pack"),
  reserveCold: ofPack("25%", "left in a pack below 0 °C", "reserve"),
  swap: minutes("2 min", "a swap of a pack, never from in position to clear"),
  choreJoin: minutes("15 min", "a chore this near to a call or release is part of that duty"),
  warmUp: minutes("60 min", "of a frozen pack before it charges"),
  upBefore: minutes("45 min", "awake before the call"),
  upBeforeOnCamera: minutes("75 min", "awake before the call if on camera", "upBefore"),
  bedAfter: minutes("90 min", "from release to sleep"),
  planDrivesAt: rule(
    word(DRIVE_TIMES),
    "bad-into-firm",
    "which drive time is planned: by default the bad one into a firm hit or a ride by others, else the likely one",
  ),
  roundCalls: minutes("5 min", "calls are rounded earlier to this"),
  enough: rule(amount(energyWh), "15 Wh", "margin in a pack beyond which no more is looked for"),
  shelterAfter: minutes("30 min", "a wait longer than this is spent in shelter"),
  dayRate: minutes("10 h", "the hours that a day rate pays"),
} as const satisfies Record<string, HouseRule<unknown>>;

/** The key of a house rule. */
export type RuleKey = keyof typeof RULES;
type RuleValues = { readonly [K in RuleKey]: ValueOf<(typeof RULES)[K]> };

/** The house rules with their defaults filled in: lengths in minutes, shares 0 to 1, energies in Wh. */
export interface HouseRules extends RuleValues {
  /** Names of the rules that the plan states itself, for "by the plan" against "by default". */
  readonly stated: ReadonlySet<string>;
}

/** `15 min every 2 h`, in minutes; `20 min` alone keeps the usual interval. */
export interface WheelBreak {
  readonly minutes: number;
  readonly every: number;
}

/** The house rules as keys of the section `rules`. */
export const rulesForm = entry("a map of house rules: { turnaround: 10 h }", {}, RULES);

const EVERY_RULE = Object.entries<HouseRule<unknown>>(RULES);

/** Defaults that were asked for, as they read. */
const defaults = new Map<HouseRule<unknown>, unknown>();

/** Whether each rule has its value, as `valuesOf` gives it. */
const isWhole = (values: Readonly<Record<string, unknown>>): values is RuleValues =>
  EVERY_RULE.every(([key]) => Object.hasOwn(values, key));

/** The value of each rule: what `stated` reads, else what it reads for the plain rule that this one varies, else the default. */
function valuesOf(stated: (key: string) => unknown): RuleValues {
  const own = new Map(EVERY_RULE.map(([key]) => [key, stated(key)]));
  const values = Object.fromEntries(
    EVERY_RULE.map(([key, rule]) => [key, own.get(key) ?? own.get(rule.varies ?? key) ?? defaultOf(rule)]),
  );
  if (!isWhole(values)) throw new Error("a house rule without a value");
  return values;
}

function defaultOf(rule: HouseRule<unknown>): unknown {
  const known = defaults.get(rule);
  if (known !== undefined) return known;
  const value = rule.form.read(rule.byDefault);
  if (!value.ok) throw new Error(`a house rule's default cannot be read: ${rule.byDefault}`);
  defaults.set(rule, value.value);
  return value.value;
}

/** The rules of a plan that states none. */
export const houseDefaults = once((): HouseRules => ({ ...valuesOf(() => null), stated: new Set() }));

/** The rules as a plan states them, the rest by default; `read` gives the value of one, null where it is not stated. */
export function rulesFrom(read: (key: RuleKey) => unknown, stated: ReadonlySet<string>): HouseRules {
  const isRule = (key: string): key is RuleKey => Object.hasOwn(RULES, key);
  return { ...valuesOf((key) => (isRule(key) ? read(key) : null)), stated };
}

/** `15 min every 2 h`, or `20 min` alone, which keeps the interval. */
function parseBreak(said: string): Parsed<WheelBreak> {
  const [first = "", second = "2 h", more] = said.split(/\severy\s/);
  if (more !== undefined) {
    const facts = { text: said, what: "a break and its interval", example: null, form: "15 min every 2 h" };
    return mistaken((c) => valueBad.raise(facts, c));
  }
  const [length_, every] = [parseLength(first), parseLength(second)];
  if (!length_.ok) return length_;
  return every.ok ? parsed({ minutes: length_.value, every: every.value }) : every;
}
