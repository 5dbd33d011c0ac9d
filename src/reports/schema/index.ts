/** The JSON Schema of each command's answer, by command; each is loaded when it is asked for. */
import { answerSchema } from "./common.ts";
import type { Shape } from "./shape.ts";

type Load = () => Promise<{ readonly data: Shape }>;

const ANSWERS: ReadonlyMap<string, Load> = new Map<string, Load>([
  ["calls", async () => ({ data: (await import("../calls/rows.ts")).CALLS_DATA.schema })],
  ["hours", async () => ({ data: (await import("../hours/rows.ts")).HOURS_DATA.schema })],
  ["power", () => import("./power.ts")],
  ["drives", async () => ({ data: (await import("../drives/rows.ts")).DRIVES_DATA.schema })],
  ["light", async () => ({ data: (await import("../light/rows.ts")).LIGHT_DATA.schema })],
  ["signal", async () => ({ data: (await import("../signal/rows.ts")).SIGNAL_DATA.schema })],
  ["kit", async () => ({ data: (await import("../kit/index.ts")).KIT_DATA.schema })],
  ["check", () => import("./check.ts")],
  ["repair", async () => ({ data: (await import("../repair/index.ts")).REPAIR_DATA.schema })],
  ["sheet", () => import("./sheet.ts")],
  ["timecard", async () => ({ data: (await import("../timecard/index.ts")).TIMECARD_DATA.schema })],
  ["explain", () => import("./explain.ts")],
]);

/** Commands whose JSON has a schema. */
export const described = (): readonly string[] => [...ANSWERS.keys()];

/** The schema of one command's JSON; null for a command that has none. */
export async function schemaOf(command: string): Promise<Shape | null> {
  const load = ANSWERS.get(command);
  return load === undefined ? null : answerSchema(command, (await load()).data);
}
