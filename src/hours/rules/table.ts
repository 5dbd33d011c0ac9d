/** Every rule set by its name: the one list of them. A new one is a file of its own and a line here. */
import { california } from "./california.ts";
import { caSouth } from "./caSouth.ts";
import type { RuleSetDeclaration } from "./declaration.ts";
import { eu } from "./eu.ts";
import { euWorkingTime } from "./euWorkingTime.ts";
import { gbDomestic } from "./gbDomestic.ts";
import { house } from "./house.ts";
import { usLabor } from "./usLabor.ts";
import { usPassenger } from "./usPassenger.ts";
import { usProduction } from "./usProduction.ts";
import { usProperty } from "./usProperty.ts";

/** Every rule set by its id. */
export const RULE_SETS = {
  "us-property": usProperty,
  "us-passenger": usPassenger,
  "us-production": usProduction,
  "ca-south": caSouth,
  eu,
  "eu-working-time": euWorkingTime,
  "gb-domestic": gbDomestic,
  california,
  "us-labor": usLabor,
  house,
} as const satisfies Record<string, RuleSetDeclaration>;

/** The id of a rule set. */
export type RuleSetId = keyof typeof RULE_SETS;
