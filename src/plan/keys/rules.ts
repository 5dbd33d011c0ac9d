/** The `rules` section: the house rules that a plan states itself. */
import { type HouseRules, type RuleKey, rulesForm, rulesFrom } from "../houseRules.ts";
import type { Fields } from "../read/fields.ts";

/** The rules as the plan states them, the rest by default. */
export function readRules(fields: Fields<RuleKey>): HouseRules {
  const stated = new Set<string>(rulesForm.keys.filter((key) => fields.has(key)));
  return rulesFrom((key, parse) => {
    const said = fields.text(key);
    return said === null ? null : fields.reading.take(fields.at(key), parse(said));
  }, stated);
}
