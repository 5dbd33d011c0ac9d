/** A version of a plan as it was judged, and what engines know of it and a sheet's rows do not: packs, gear, bookings. */
import type { Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import type { HoursResult } from "../hours/index.ts";
import type { KitResult } from "../kit/index.ts";
import { kitItems } from "../kit/items.ts";
import type { Id, SignalPath } from "../plan/plan.ts";
import type { PowerResult } from "../power/index.ts";
import { type HandTask, todoOf } from "../power/todo.ts";
import type { RoadsResult } from "../roads/index.ts";
import type { Thing, Value } from "./between.ts";

/** In this order: pack chores, pieces, bookings. */
export function engineThings({ day, results }: Version): readonly Thing[] {
  return [
    ...(results.power === undefined ? [] : chores(results.power)),
    ...(results.kit === undefined
      ? []
      : pieces(
          results.kit,
          kitItems(day.plan).map(({ id }) => id),
        )),
    ...[...day.plan.paths.values()].filter(({ windows }) => windows.length > 0).map(booking),
  ];
}

/** What is moved names a chore, since its time may change: `brick.1 bench → camera`, the second time `… 2`. */
function chores({ built, solution }: PowerResult): readonly Thing[] {
  const seen = new Map<string, number>();
  return todoOf(built, solution).map((chore) => {
    const words = stepsText(chore);
    const count = (seen.get(words) ?? 0) + 1;
    seen.set(words, count);
    return {
      kind: "packs",
      id: words,
      key: `packs ${words} ${count}`,
      who: chore.who,
      values: new Map<string, Value>([
        ["start", { kind: "time", at: chore.from, place: placeOf(built.around.day.plan.places, chore.where) }],
        ["who", { kind: "names", ids: chore.who }],
      ]),
    };
  });
}

const stepsText = ({ steps }: HandTask): string =>
  steps.map(({ pack, from, to }) => `${pack} ${from} → ${to}`).join(", ");

const placeOf = (places: ReadonlyMap<Id, unknown>, where: Id): Id | null => (places.has(where) ? where : null);

function pieces({ track }: KitResult, ids: readonly Id[]): readonly Thing[] {
  return ids.map((id) => ({
    kind: "piece",
    id,
    key: `piece ${id}`,
    who: [],
    values: new Map<string, Value>([
      ["in", { kind: "names", ids: holders(track?.stays(id).map(({ holder }) => holder) ?? []) }],
    ]),
  }));
}

/** Vehicles and places one after another, each once where it stays. */
const holders = (ids: readonly Id[]): readonly Id[] => ids.filter((id, at) => id !== ids[at - 1]);

const booking = ({ id, windows, booking: number }: SignalPath): Thing => ({
  kind: "booking",
  id,
  key: `booking ${id}`,
  who: [],
  values: new Map<string, Value>([
    ...windows.flatMap(({ from, to }, at): readonly [string, Value][] => [
      [`window ${at + 1} from`, { kind: "time", at: from, place: null }],
      [`window ${at + 1} to`, { kind: "time", at: to, place: null }],
    ]),
    ...(number === null ? [] : [["booking", { kind: "text", text: number, personal: true }] as const]),
  ]),
});

/** A solved and judged day, with the days before it. */
export interface Version {
  readonly day: Day;
  readonly days: readonly Day[];
  readonly findings: readonly Finding[];
  readonly results: {
    readonly hours?: HoursResult;
    readonly power?: PowerResult;
    readonly kit?: KitResult;
    readonly roads?: RoadsResult;
  };
}
