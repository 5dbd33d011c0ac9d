/** What Regulation (EC) No 561/2006 leaves open about weekly rests and their make-up, where a record turns on it. */

import { type Interval, lengthOf } from "../../time/units.ts";
import type { RestRun } from "../count/reading.ts";
import type { Owed, WeeklyRests } from "../count/weekly.ts";
import type { Ask, OpenQuestion } from "./ask.ts";

/** A rest that is long enough for something that was missed, and was counted as something else. */
function otherwiseCounted({ missed }: WeeklyRests, rests: readonly RestRun[], beside: number): RestRun | undefined {
  const serves = (rest: RestRun, { during, minutes, due }: Owed): boolean =>
    rest.from >= during.to && rest.from < due && lengthOf(rest) >= beside + minutes;
  return rests.find((rest) => missed.some((owed) => serves(rest, owed)));
}

/** Asks about weekly rests that a record leaves open. */
export const weeklyRest: Ask = ({ hours, from }, rules) => {
  const verdict = hours.verdicts.find((one) => one.rules.id === rules.id);
  const limit = rules.limits.find(({ kind }) => kind === "makeUp");
  if (verdict?.weekly == null || limit?.kind !== "makeUp") return [];
  const { weekly, rests } = verdict;
  const { beside, full, weekly: least } = limit.makeUp;
  const regular = rules.shift?.kind === "dailyRest" ? rules.shift.regular : 0;
  const known = [...weekly.owed, ...weekly.missed, ...weekly.carried.map(({ owed }) => owed)];
  const carrying = weekly.carried.filter(({ rest }) => rest.to > from);
  const raised: readonly (readonly [Interval | undefined, string])[] = [
    [
      otherwiseCounted(weekly, rests, beside),
      "this rest is long enough to make up for a reduced weekly rest and is counted as another's make-up or as a weekly rest; nothing is counted twice (Art 8(6b), 8(7)): is that how it is enforced?",
    ],
    [
      carrying.find(({ rest, besides }) => lengthOf(rest) >= least && besides < full)?.rest,
      "this rest is counted as the make-up of a reduced weekly rest next to a daily rest, not as a weekly rest as well (Art 8(6), 8(7)): is that how it is enforced?",
    ],
    [
      carrying.find(({ rest, besides }) => besides < regular && lengthOf(rest) >= regular && lengthOf(rest) < least)
        ?.rest,
      "this rest makes up for a reduced weekly rest, and all of it is counted as the daily rest: is what is left one of the three reduced ones (Art 8(4), 8(7))?",
    ],
    [
      known.find(({ weeks }) => weeks === 2)?.during,
      "a reduced weekly rest in two weeks is counted in the first that needs one, from which its make-up is due (Art 8(6b), 8(9)): may it be counted in the other?",
    ],
    [
      weekly.short.find(({ to }) => to > from),
      "two reduced weekly rests in a row are counted as one too few; in the carriage of goods abroad two may be taken, made up for before the next and with two regular ones in four weeks (Art 8(6)): does that hold here?",
    ],
  ];
  return raised.flatMap(([during, question]): readonly OpenQuestion[] =>
    during === undefined ? [] : [{ rules, question, during }],
  );
};
