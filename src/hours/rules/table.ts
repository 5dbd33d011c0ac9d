/** Every rule set by its name, which is that of its file in `sets`. Made by `npm run tables`. */
import type { RuleSetDeclaration } from "./declaration.ts";
import { california } from "./sets/california.ts";
import { caSouth } from "./sets/caSouth.ts";
import { eu } from "./sets/eu.ts";
import { euWorkingTime } from "./sets/euWorkingTime.ts";
import { gbDomestic } from "./sets/gbDomestic.ts";
import { house } from "./sets/house.ts";
import { usLabor } from "./sets/usLabor.ts";
import { usPassenger } from "./sets/usPassenger.ts";
import { usProduction } from "./sets/usProduction.ts";
import { usProperty } from "./sets/usProperty.ts";

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
