/** What a sheet reads of the topics' results, in the sheet's own words; a topic that has not judged gives null. */
import { isCaution } from "../../cautions/deferral.ts";
import type { Day } from "../../day/day.ts";
import type { Wording } from "../../findings/finding.ts";
import type { KitResult } from "../../kit/index.ts";
import type { Id } from "../../plan/plan.ts";
import type { PowerResult } from "../../power/index.ts";
import { todoOf } from "../../power/todo.ts";
import type { Crossing } from "../../sky/almanac.ts";
import type { SkyResult } from "../../sky/index.ts";
import { type Instant, instant, resolveLocal } from "../../time/index.ts";
import { moveWords } from "../power/hands.ts";
import { loadingText } from "../shared/cells.ts";
import type { Judged } from "../shared/judged.ts";
import { wordingOf, zoneOfPlace } from "../shared/wording.ts";

const NOON = 12 * 60;

/** The results that a sheet reads; a topic that has not judged is not there. */
type SheetJudged = Pick<Judged, "day" | "findings" | "notJudged"> & {
  readonly results: Pick<Judged["results"], "sky" | "power" | "kit">;
};

/** The facts behind the sections of a sheet. */
export function sheetFacts(
  { day, results, findings, notJudged }: SheetJudged,
  titleOf: (code: string) => string | null = () => null,
) {
  const say = wordingOf(day.plan, { people: day.people });
  const { sky, power, kit } = results;
  return {
    sun: sky === undefined ? null : sunFacts(day, sky),
    sunAltitude: sky?.sunAltitude ?? null,
    batteries: power === undefined ? null : batteryFacts(day, power, say),
    gear: kit === undefined ? null : gearFacts(kit, say),
    cautions: notJudged.includes("cautions") ? null : findings.filter(isCaution),
    titleOf,
    notJudged,
  };
}

/** One thing that hands do with packs, from when to when; its moves are in the order in which hands can do them. */
export type BatteryFact = ReturnType<typeof batteryFacts>[number];

/** The moves of packs by hand, one fact for each moment at which hands are on them. */
const batteryFacts = (day: Day, result: PowerResult, say: Wording) =>
  todoOf(result.built, result.solution).map((task) => ({
    from: task.from,
    to: task.to,
    place: day.plan.places.has(task.where) ? task.where : null,
    who: task.who,
    others: task.others,
    workMinutes: task.workMinutes,
    moves: task.steps.map((step) => moveWords({ say, result }, step)),
  }));

/** What a vehicle carries, in words: `camera`, `brick × 5`. */
export type GearFact = ReturnType<typeof gearFacts>[number];

const gearFacts = ({ loading }: KitResult, say: Wording) =>
  loading.map(({ vehicle, items }) => ({
    vehicle,
    items: items.map((item) => loadingText(say, item)),
  }));

/** The sun at each place with a hit, in the order of the hits; a place without coordinates has none. */
function sunFacts(day: Day, sky: SkyResult) {
  const places = day.activities.flatMap((one) =>
    one.activity.kind === "hit" && one.place !== null ? [one.place] : [],
  );
  return [...new Set(places)].flatMap((place) => sunFact(day, sky, place) ?? []);
}

/** Sun of one place on the plan's day; `word` says what stands in for rise and set where there is none. */
export type SunFact = NonNullable<ReturnType<typeof sunFact>>;

function sunFact(day: Day, sky: SkyResult, place: Id) {
  const noon = resolveLocal(day.plan.date, NOON, zoneOfPlace(day.plan, place));
  if (noon.kind !== "once") return null;
  const times = sky.sunTimes(place, noon.at);
  if (times === null) return null;
  const word: string | undefined = [times.rise, times.set].find((one) => typeof one === "string");
  return {
    place,
    civilDawn: moment(times.civilDawn),
    rise: moment(times.rise),
    set: moment(times.set),
    civilDusk: moment(times.civilDusk),
    word: word ?? null,
  };
}

const moment = (crossing: Crossing): Instant | null =>
  typeof crossing === "number" ? instant(Math.round(crossing)) : null;
