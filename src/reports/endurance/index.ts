/** `endurance`: how long and how far the crew can go on from a moment, what binds first, who drives when. */

import { aboardOf, type Day } from "../../day/day.ts";
import { type Endurance, enduranceOf, type FirstEnd, type PlaceReach } from "../../endurance/index.ts";
import { cutAt } from "../../endurance/order.ts";
import { leastOf } from "../../lists.ts";
import { NO_ANSWERS } from "../../roads/index.ts";
import { filled, line } from "../shared/blocks.ts";
import { dayView, type TopicInput } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import { rowsByCall } from "../shared/people.ts";
import type { ReportMaker } from "../shared/report.ts";
import type { Block, ReportParts } from "../shared/view.ts";
import { ENDURANCE_DATA, ENDURANCE_PEOPLE, type EnduranceView, NEXT, ORDER, PACKS, VEHICLES } from "./rows.ts";

/** Where someone or something is, for the clock of a time: the last place before the moment, else the first after it. */
function placesAt(day: Day, at: number): (id: string) => string | null {
  return (id) => {
    const moves = day.moves.filter((move) => move.vehicle === id || aboardOf(move).includes(id));
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
  if (binding === null) return line("Nothing is driven on this day.", "strong");
  const { kind, vehicle, who, title, until } = binding;
  const because = who === null ? "" : ` (${say.name(who)}: ${title ?? ""})`;
  return line(
    `${say.name(vehicle)} can go on until ${say.time(until, placeOf(vehicle))} ${HEAD[kind]}${because}.`,
    "strong",
  );
}

/** `truck reaches pier and cove and back; inn one way; not harbor`, vehicle by vehicle. */
function reachLines({ say }: EnduranceView, { reach, vehicles }: Endurance): readonly Block[] {
  return vehicles.flatMap(({ vehicle }): readonly Block[] => {
    const own = reach.filter((one) => one.vehicle === vehicle);
    if (own.length === 0) return [];
    const named = (before: string, is: (one: PlaceReach) => boolean, behind = ""): readonly string[] => {
      const all = own.filter(is).map(({ place }) => say.name(place));
      return all.length === 0 ? [] : [`${before} ${all.join(", ")}${behind}`];
    };
    const parts = [
      ...named("to", ({ back }) => back, " and back"),
      ...named("one way to", ({ there, back }) => there && !back),
      ...named("not to", ({ there }) => !there),
    ];
    return [line(`${say.name(vehicle)} gets ${parts.join("; ")}.`)];
  });
}

/** Who may drive and does not lies in the berth, where there is one. */
const sleepers = ({ plan }: Day, vehicle: string, who: readonly string[], driver: string | null): readonly string[] =>
  plan.vehicles.get(vehicle)?.berth === true && driver !== null
    ? who.filter((one) => one !== driver && plan.crew.get(one)?.drives.includes(vehicle) === true)
    : [];

const ASSUMED =
  "Assumed: roads take their bad time, people sleep only in a berth, breaks are as late as allowed, and fuel burns as on the fastest drive of the plan.";

/** The report of how long a day can go on. */
function enduranceReport(input: TopicInput<Endurance>): ReportParts {
  const { day, say, result, person } = input;
  const places = day.stops.map(({ place }) => place);
  const view: EnduranceView = { ...dayView(input, places), placeOf: placesAt(day, result.at) };
  const inOrder = { ...result, people: rowsByCall(result.people, ({ who }) => who, day.people) };
  const mine = person === null ? inOrder : narrowed(inOrder, person);
  const order = mine.vehicles.flatMap(({ vehicle, order: all, who, lawBecause, houseUntil }) =>
    // Where no law ends it, the house does.
    (lawBecause === null ? cutAt(all, houseUntil) : all).map((stretch) => ({
      vehicle,
      stretch,
      asleep: sleepers(day, vehicle, who, stretch.driver),
    })),
  );
  const packs = PACKS.table(view, mine.packs, {
    title: "Packs",
    show: ["mount", "wh", "whAHit", "hits", "hitsAnHour", "celsius"],
    empty: "No packs.",
  });
  const unproven = mine.vehicles.some(({ proven }) => !proven);
  return {
    blocks: [
      firstLine(view, mine),
      headingLine(day, view.clocks),
      VEHICLES.table(view, mine.vehicles, {
        title: `How long each vehicle can go on from ${say.time(result.at)}`,
        show: ["vehicle", "breakBy", "lawUntil", "houseUntil", "fuelUntil", "fuelKm", "wheelMinutes", "who"],
        empty: "Nothing is driven on this day.",
      }),
      ORDER.table(view, order, { title: "Who drives", empty: "No one may drive on." }),
      ...reachLines(view, mine),
      ENDURANCE_PEOPLE.table(view, mine.people, { title: "People", empty: "No one has anything to do." }),
      ...filled(packs),
      NEXT.table(view, mine.next, { title: "What must happen next", empty: "Nothing." }),
      line(unproven ? `${ASSUMED} Orders are the best found; --patience searches longer.` : ASSUMED, "muted"),
    ],
    data: ENDURANCE_DATA.json(mine, view),
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

/** The report `endurance`. */
export const enduranceMaker: ReportMaker = {
  place: 160,
  topics: ["hours", "power", "roads"],
  make: async (input, { days, results }, { routed = NO_ANSWERS, patience = 1 }) => {
    const { people, span } = input.day;
    const at = input.now ?? leastOf(people.flatMap(({ call }) => call ?? [])) ?? span.from;
    return enduranceReport({ ...input, result: await enduranceOf({ ...results, days, at, routed, patience }) });
  },
  schema: () => ENDURANCE_DATA.schema,
};
