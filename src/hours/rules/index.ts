/** The rule sets by name. */
import type { RuleSet } from "../judge/rule.ts";
import { caSouth } from "./canada.ts";
import { eu } from "./eu561.ts";
import { euWorkingTime, gbDomestic } from "./europe.ts";
import { type HouseHours, houseRules } from "./house.ts";
import type { RuleOptions } from "./options.ts";
import { california, usLabor } from "./pay.ts";
import { usPassenger, usProduction, usProperty } from "./us.ts";

type Maker = (options: RuleOptions, house: HouseHours) => RuleSet;

const MAKERS: ReadonlyMap<string, Maker> = new Map<string, Maker>([
  ["us-property", usProperty],
  ["us-passenger", usPassenger],
  ["us-production", usProduction],
  ["ca-south", caSouth],
  ["eu", eu],
  ["eu-working-time", () => euWorkingTime()],
  ["gb-domestic", () => gbDomestic()],
  ["california", () => california()],
  ["us-labor", () => usLabor()],
  ["house", (_, house) => houseRules(house)],
]);

/** The rule set of that name with these options; null for an unknown name. */
export const ruleSet = (name: string, options: RuleOptions, house: HouseHours): RuleSet | null =>
  MAKERS.get(name)?.(options, house) ?? null;
