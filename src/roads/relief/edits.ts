/** A proposal as edits of the plan's text: values as they would be typed, a bare place made a stop with fields. */
import type { PlanPath } from "../../findings/finding.ts";
import type { Edit } from "../../plan/index.ts";
import type { Plan, Stop } from "../../plan/plan.ts";
import type { ReliefEdit, ReliefProposal } from "./propose.ts";

/** What YAML would read as something else than a word. */
const SPECIAL = /^(?:null|true|false|~|[-+.\d].*)$/iu;
const WORD = /^[\p{L}\p{N}_][\p{L}\p{N}_.-]*$/u;

const word = (text: string): string => (WORD.test(text) && !SPECIAL.test(text) ? text : JSON.stringify(text));

/** A value in flow style. */
function typed(value: ReliefEdit["value"]): string {
  if (typeof value === "string") return word(value);
  const items = value.map((one) =>
    typeof one === "string" ? word(one) : `{ after: ${one.after}, driver: ${word(one.driver)} }`,
  );
  return `[${items.join(", ")}]`;
}

/** True where the text has the bare name of a place for a stop. */
function isBare(plan: Plan, stop: Stop): boolean {
  const [whole, place] = [plan.source.locate(stop.path), plan.source.locate([...stop.path, "place"])];
  return whole !== null && place !== null && whole.line === place.line && whole.column === place.column;
}

const inside = (path: PlanPath, stop: Stop): boolean =>
  path.length === stop.path.length + 1 && stop.path.every((step, index) => step === path[index]);

function ofStop(plan: Plan, stop: Stop, edits: readonly ReliefEdit[]): readonly Edit[] {
  const own = edits.filter(({ path }) => inside(path, stop));
  if (own.length === 0) return [];
  if (!isBare(plan, stop)) return own.map(({ path, value }) => ({ path, value: typed(value) }));
  const fields = own.map(({ path, value }) => `${path.at(-1)}: ${typed(value)}`);
  return [{ path: stop.path, value: `{ place: ${word(stop.place)}, ${fields.join(", ")} }` }];
}

/** The edits that put a proposal into the plan, in plan order. */
export const textEdits = (plan: Plan, { edits }: ReliefProposal): readonly Edit[] =>
  [...plan.runs.values()].flatMap((run) => run.stops.flatMap((stop) => ofStop(plan, stop, edits)));
