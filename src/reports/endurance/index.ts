/** `endurance`: how long and how far the crew can go on from a moment, what binds first, who drives when. */
import type { Day } from "../../day/day.ts";
import type { Endurance, FirstEnd } from "../../endurance/index.ts";
import type { Finding, Say } from "../../findings/finding.ts";
import type { ZoneId } from "../../time/index.ts";
import { dayView } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import type { Block, Report } from "../shared/view.ts";
import { ENDURANCE_DATA, ENDURANCE_PEOPLE, type EnduranceView, NEXT, ORDER, PACKS, VEHICLES } from "./rows.ts";

interface EnduranceOptions {
  readonly result: Endurance;
  readonly findings: readonly Finding[];
  readonly clock: ZoneId | null;
  readonly person: string | null;
}

/** Where someone or something is, for the clock of a time: the last place before the moment, else the first after it. */
function placesAt(day: Day, at: number): (id: string) => string | null {
  return (id) => {
    const moves = day.moves.filter((move) => move.vehicle === id || move.driver === id || move.riders.includes(id));
    const last = moves.findLast((move) => move.leave <= at);
    return (last === undefined ? moves[0]?.from : last.to) ?? null;
  };
}

const HEAD: Readonly<Record<FirstEnd["kind"], string>> = {
  law: "by law",
  house: "by the house rules",
  fuel: "by fuel",
};

/** The binding limit, who and when. */
function firstLine({ say, placeOf }: EnduranceView, { binding }: Endurance): Block {
  if (binding === null) return { kind: "line", cells: [{ text: "Nothing is driven on this day.", tone: "strong" }] };
  const { kind, vehicle, who, title, until } = binding;
  const because = who === null ? "" : ` (${say.name(who)}: ${title ?? ""})`;
  const text = `${say.name(vehicle)} can go on until ${say.time(until, placeOf(vehicle))} ${HEAD[kind]}${because}.`;
  return { kind: "line", cells: [{ text, tone: "strong" }] };
}

/** Places that are reached and back, only reached, and not reached, vehicle by vehicle. */
function reachLines({ say }: EnduranceView, { reach, vehicles }: Endurance): readonly Block[] {
  return vehicles.flatMap(({ vehicle }): readonly Block[] => {
    const own = reach.filter((one) => one.vehicle === vehicle);
    if (own.length === 0) return [];
    const named = (label: string, rows: typeof own): readonly string[] =>
      rows.length === 0 ? [] : [`${label}${rows.map(({ place }) => say.name(place)).join(", ")}`];
    const parts = [
      ...named(
        "to and back from ",
        own.filter(({ back }) => back),
      ),
      ...named(
        "one way to ",
        own.filter(({ there, back }) => there && !back),
      ),
      ...named(
        "not to ",
        own.filter(({ there }) => !there),
      ),
    ];
    return [{ kind: "line", cells: [{ text: `${say.name(vehicle)} reaches ${parts.join("; ")}.` }] }];
  });
}

const ASSUMED =
  "Assumed: roads at their bad time, no sleep but in a berth, breaks as late as allowed, fuel at the speed of the fastest drive of the plan.";

/** The report of how long a day can go on. */
export function enduranceReport(day: Day, say: Say, { result, findings, clock, person }: EnduranceOptions): Report {
  const base = dayView(
    day,
    say,
    day.stops.map(({ place }) => place),
    clock,
  );
  const view: EnduranceView = { ...base, placeOf: placesAt(day, result.at) };
  const mine = person === null ? result : narrowed(result, person);
  const order = mine.vehicles.flatMap(({ vehicle, order: own }) => own.map((stretch) => ({ vehicle, stretch })));
  const packs = PACKS.table(view, mine.packs, {
    title: "Packs",
    show: ["mount", "wh", "whAHit", "hits", "hitsAnHour", "celsius"],
    empty: "No packs.",
  });
  const unproven = mine.vehicles.some(({ proven }) => !proven);
  return {
    command: "endurance",
    blocks: [
      firstLine(view, mine),
      headingLine(day, view.clocks),
      VEHICLES.table(view, mine.vehicles, {
        title: `How long each vehicle can go on from ${say.time(result.at)}`,
        show: ["vehicle", "breakBy", "lawUntil", "houseUntil", "fuelUntil", "fuelKm", "wheelMinutes", "who"],
        empty: "Nothing is driven on this day.",
      }),
      ORDER.table(view, order, {
        title: "Who drives",
        show: ["vehicle", "from", "to", "driver", "minutes"],
        empty: "No one may drive on.",
      }),
      ...reachLines(view, mine),
      ENDURANCE_PEOPLE.table(view, mine.people, {
        title: "People",
        show: ["who", "awakeSince", "mayDriveUntil", "restsFrom", "calledFrom"],
        empty: "No one has anything to do.",
      }),
      ...(mine.packs.length === 0 ? [] : [packs]),
      NEXT.table(view, mine.next, {
        title: "What must happen next",
        show: ["kind", "by", "what", "place"],
        empty: "Nothing.",
      }),
      {
        kind: "line",
        cells: [
          {
            text: unproven ? `${ASSUMED} Orders are the best found; --patience searches longer.` : ASSUMED,
            tone: "muted",
          },
        ],
      },
    ],
    data: ENDURANCE_DATA.json(mine, view),
    findings,
    say,
  };
}

/** What concerns one person: themselves and the vehicle they are in. */
function narrowed(result: Endurance, person: string): Endurance {
  const vehicles = result.vehicles.filter(({ who }) => who.includes(person));
  const ids = new Set(vehicles.map(({ vehicle }) => vehicle));
  return {
    ...result,
    vehicles,
    people: result.people.filter(({ who }) => who === person),
    reach: result.reach.filter(({ vehicle }) => ids.has(vehicle)),
    next: result.next.filter(({ kind, what }) =>
      kind === "meal" ? what === person : kind !== "break" && kind !== "fuel" ? true : ids.has(what),
    ),
  };
}
