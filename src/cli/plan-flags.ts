/** Flags that only a plan can give a meaning: a clock by one of its labels, a time on its clocks. */
import type { Say } from "../findings/finding.ts";
import { parseInstant } from "../plan/clock.ts";
import type { Plan } from "../plan/plan.ts";
import { type ClockStyle, type Instant, type ZoneId, zone, zonesLike } from "../time/index.ts";
import { type Failure, usage } from "./exit.ts";

export interface ClockFlag {
  readonly clock: ZoneId | null;
  readonly style: ClockStyle | null;
}

/** `--clock`: a label of the plan, a zone, or `12` and `24` for the way of telling hours. Throws a usage failure. */
export function clockFlag(text: string | null, plan: Plan): ClockFlag {
  if (text === null) return { clock: null, style: null };
  if (text === "12" || text === "24") return { clock: null, style: text === "12" ? "12h" : "24h" };
  const found = plan.labels.get(text) ?? zone(text);
  if (found !== null) return { clock: found, style: null };
  throw unknownClock(text, plan);
}

function unknownClock(text: string, plan: Plan): Failure {
  const [like] = zonesLike(text, 1);
  const known = [...plan.labels.keys()].join(", ");
  const hint =
    like ?? (known === "" ? "a zone such as America/Chicago" : `one of ${known}, or a zone such as America/Chicago`);
  return usage(`there is no clock \`${text}\``, `--clock ${hint}`);
}

/** A time as the plan writes times. Throws a usage failure. */
export function instantFlag(flag: string, text: string, plan: Plan, say: Say): Instant {
  const read = parseInstant(text, { date: plan.date, desk: plan.clock, labels: plan.labels }, plan.zone);
  if (read.ok) return read.value;
  const finding = read.mistake({});
  throw usage(`${flag}: ${finding.sentence(say)}`, finding.hint(say));
}
