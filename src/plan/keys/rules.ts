/** The `rules` section: the house rules that a plan states itself. */
import { type HouseRules, rulesForm, rulesFrom } from "../houseRules.ts";
import type { FieldsOf } from "../read/fields.ts";

/** The rules as the plan states them, the rest by default. */
export function readRules(fields: FieldsOf<typeof rulesForm>): HouseRules {
  const stated = new Set<string>(rulesForm.keys.filter((key) => fields.has(key)));
  return rulesFrom((key) => fields.stated(key), stated);
}
