/** What cannot be made between two instants that are fixed: hits, tasks, stops with a time of their own, rides. */
import { type Definition, define, type Facts } from "../../findings/finding.ts";
import type { Instant } from "../../time/units.ts";

const missedWhy =
  "The lengths between two fixed instants do not fit between them. Stops' own times enter first, then firm hits and standbys, other hits, tasks; the one that no longer fits is left out of the day.";

interface MissedFacts extends Facts {
  /** What is left out. */
  readonly what: string;
  readonly short: number;
  /** The fixed instant that the chain starts from, where it stands and where it would have to stand. */
  readonly start: string;
  readonly startAt: { readonly at: Instant };
  readonly neededAt: { readonly at: Instant };
  /** The fixed instant that the chain runs into. */
  readonly bound: string;
  readonly boundAt: { readonly at: Instant };
  /** The order by time of what is done at the stop, where it is another than that of the day; else empty. */
  readonly byTime: readonly string[];
}

/** `room`: where minutes may be found, imperative. */
const missed = (
  code: string,
  title: string,
  cure: string,
  example: string,
  verb: string,
  room: string,
): Definition<MissedFacts> =>
  define<MissedFacts>({
    code,
    level: "error",
    title,
    why: missedWhy,
    cure,
    example,
    sentence: (f, say) => `${f.what} ${verb}: ${say.length(f.short)} short`,
    label: (f, say) =>
      `${f.bound} ${say.time(f.boundAt.at)} needs ${f.start} at ${say.time(f.neededAt.at)}; it is at ${say.time(f.startAt.at)}`,
    hint: (f, say) =>
      f.byTime.length > 0
        ? `by their times the order of this stop is \`do: [${f.byTime.join(", ")}]\``
        : `find ${say.length(f.short)}: ${room}`,
  });

export const hitMissed = missed(
  "hit-missed",
  "a hit cannot be made",
  "Move the hit, leave earlier, shorten a length of the chain, or give the hit to someone nearer.",
  'hits:     # half an hour after dawn at the pier, for the same people\n  early: { at: "07:30", for: 3 min, place: dock, path: cell, spare: net }',
  "cannot be made",
  "ask the desk for a later time, begin earlier, or shorten what stands above",
);

export const taskMissed = missed(
  "task-missed",
  "a task does not fit",
  "Shorten it, move it, or give it to someone who is free.",
  'tasks:     # dawn is on air at 07:00 at the pier\n  pictures:\n    place: dock\n    for: 35 min\n    who: [wren, ilse]\n    by: "07:30"',
  "does not fit",
  "shorten it, change its window, or move what stands above",
);

export const stopTimeMissed = missed(
  "stop-time-missed",
  "a stop's own time cannot be kept",
  "Change `leave`, `arriveBy`, the ferry's `sail` or the stop before it.",
  'runs:\n  truck:\n    driver: tomas\n    aboard: [tomas, bea]\n    stops:\n      - { place: lodge, leave: "04:50" }\n      - place: pier\n        arriveBy: "05:20"     # 45 minutes away\n        do: [dawn, breakfast]\n      - lodge',
  "cannot keep its own time",
  "change this time, or shorten what stands above",
);

export const rideMissed = missed(
  "ride-missed",
  "a ride by others cannot be taken",
  "Take a later one, or bring its people there earlier.",
  'rides:     # the bus comes ten minutes after the flight has left\n  bus:\n    from: lodge\n    to: airport\n    leave: "15:00"\n    arrive: "16:30"\n    who: ilse\n  flight:\n    from: airport\n    to: home\n    leave: "16:20"\n    arrive: "19:00"\n    who: ilse',
  "cannot be taken",
  "take a later one, or be there earlier",
);
