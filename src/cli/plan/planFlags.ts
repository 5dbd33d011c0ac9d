/** Flags that only a plan can give a meaning: a clock by one of its labels, a time on its clocks. */
import {
  answers,
  type ClockStyle,
  type Id,
  type Instant,
  nearest,
  type Plan,
  times,
  type ZoneId,
} from "../../index.ts";
import { type Failure, usage } from "../exit.ts";

/** The clock that `--clock` asks for, and how times are written. */
export interface ClockFlag {
  readonly clock: ZoneId | null;
  readonly style: ClockStyle | null;
}

/** `--clock`: a label of the plan, a zone, or `12` and `24` for the way of telling hours. Throws a usage failure. */
export async function clockFlag(text: string | null, labels: Plan["labels"]): Promise<ClockFlag> {
  if (text === null) return { clock: null, style: null };
  if (text === "12" || text === "24") return { clock: null, style: text === "12" ? "12h" : "24h" };
  const { isWinterAlone, zone, zonesLike } = await times();
  const found = labels.get(text) ?? (isWinterAlone(text) ? null : zone(text));
  if (found !== null) return { clock: found, style: null };
  throw unknownClock(text, labels, zonesLike(text, 1));
}

function unknownClock(text: string, labels: Plan["labels"], [like]: readonly string[]): Failure {
  const known = [...labels.keys()].join(", ");
  const hint =
    like ?? (known === "" ? "a zone such as America/Chicago" : `one of ${known}, or a zone such as America/Chicago`);
  return usage(`there is no clock \`${text}\``, `--clock ${hint}`);
}

/** `--for`: an id of someone there. Throws a usage failure that names who comes near, else everyone. */
export function personFlag(id: string | null, people: readonly Id[], where: string): void {
  if (id === null || people.includes(id)) return;
  const near = nearest(id, people);
  throw usage(`no one in ${where} is called \`${id}\``, near === null ? people.join(", ") : `--for ${near}`);
}

/** A time as the plan writes times, or as scripts do; `milliseconds` is now. Throws a usage failure. */
export async function instantFlag(flag: string, text: string, plan: Plan, milliseconds: number): Promise<Instant> {
  const [{ readInstant }, { plainWording }] = await Promise.all([times(), answers()]);
  const read = readInstant(text, plan, milliseconds);
  if (read.ok) return read.value;
  const finding = read.mistake({});
  throw usage(`${flag}: ${finding.sentence(plainWording)}`, finding.hint(plainWording));
}
