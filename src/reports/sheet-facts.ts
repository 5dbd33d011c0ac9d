/** What a sheet reads of the topics' results, in the sheet's own words; a topic that has not judged gives null. */
import type { Day } from "../day/day.ts";
import type { Id } from "../plan/plan.ts";
import type { Crossing } from "../sky/almanac.ts";
import type { SkyResult } from "../sky/index.ts";
import { type Instant, instant, resolveLocal } from "../time/index.ts";
import type { Judged } from "./judge.ts";
import { zoneOfPlace } from "./say.ts";
import type { SheetFacts, SunFact } from "./sheet-input.ts";

const NOON = 12 * 60;

/** The facts behind the sections of a sheet. */
export function sheetFacts({ day, results, notJudged }: Judged): SheetFacts {
  return {
    sun: results.sky === undefined ? null : sunFacts(day, results.sky),
    batteries: null,
    gear: null,
    cautions: null,
    notJudged,
  };
}

/** The sun at each place with a hit, in the order of the hits; a place without coordinates has none. */
function sunFacts(day: Day, sky: SkyResult): readonly SunFact[] {
  const places = day.activities.flatMap((one) =>
    one.activity.kind === "hit" && one.place !== null ? [one.place] : [],
  );
  return [...new Set(places)].flatMap((place) => sunFact(day, sky, place) ?? []);
}

function sunFact(day: Day, sky: SkyResult, place: Id): SunFact | null {
  const noon = resolveLocal(day.plan.date, NOON, zoneOfPlace(day.plan, place));
  if (noon.kind !== "once") return null;
  const times = sky.sunTimes(place, noon.at);
  if (times === null) return null;
  const word = [times.rise, times.set].find((one) => typeof one === "string") ?? null;
  return {
    place,
    civilDawn: moment(times.civilDawn),
    rise: moment(times.rise),
    set: moment(times.set),
    civilDusk: moment(times.civilDusk),
    word: typeof word === "string" ? word : null,
  };
}

const moment = (crossing: Crossing): Instant | null =>
  typeof crossing === "number" ? instant(Math.round(crossing)) : null;
