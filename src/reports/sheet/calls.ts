/** The part of a sheet that is about people: who is called, who must be woken, who cannot be reached. */
import { aboardOf, type DutyTimes, type Move, type PersonDay, type RideTimes } from "../../day/day.ts";
import type { Id } from "../../plan/plan.ts";
import { isoLocal } from "../../time/index.ts";
import { after, type Instant } from "../../time/units.ts";
import { DASH } from "../shared/cells.ts";
import { columns, shown } from "../shared/columns.ts";
import { moment } from "../shared/kinds.ts";
import { inOrderOfCalls } from "../shared/people.ts";
import { silences } from "../shared/reach.ts";
import type { Cell } from "../shared/view.ts";
import { zoneOfPlace } from "../shared/wording.ts";
import type { SheetInput } from "./input.ts";
import type { PersonCard, Section } from "./view.ts";
import { concerns, freeText, markedColumns, name, people, phoneCell, sheetNames, thing } from "./words.ts";

/** Who is called when, where, and riding with whom, the earliest first; several rows for who is called again. */
export function callsSection(input: SheetInput): Section {
  const table = CALLS.table(input, inCallOrder(input).flatMap(callRows), { title: null, empty: "No calls." });
  return { id: "calls", title: "Calls", blocks: [table] };
}

/** One call of a person; without a duty for someone who is not called. */
interface CallRow {
  readonly person: PersonDay;
  readonly duty: DutyTimes | null;
  /** What changes of a further call are named with: ` 2`. */
  readonly again: string;
}

const callRows = (person: PersonDay): readonly CallRow[] =>
  person.duties.length === 0
    ? [{ person, duty: null, again: "" }]
    : person.duties.map((duty, at) => ({ person, duty, again: at === 0 ? "" : ` ${at + 1}` }));

/** Names the change that marks a cell; someone who is not called has none. */
const changeOf =
  (what: string) =>
  ({ duty, again }: CallRow): string | null =>
    duty && `${what}${again}`;

const onCall = markedColumns<CallRow>(({ person }) => person.id);
const CALLS = columns<CallRow, SheetInput>()({
  who: shown("Who", ({ person: { id } }, { day, say }) => {
    const role = day.plan.crew.get(id)?.roles.join(", ") ?? "";
    return { text: `${say.name(id)}${role === "" ? "" : ` (${role})`}`, raw: id, tone: "strong" };
  }),
  call: onCall.clock("Call", changeOf("call"), ({ duty }) => duty && moment(duty.call, duty.callPlace)),
  place: onCall.column("Where", changeOf("call place"), ({ duty }, input) =>
    duty === null ? { text: "not called", raw: null } : thing(input, duty.callPlace),
  ),
  riding: shown("Riding", ({ person, duty }, input) => (duty === null ? DASH : riding(input, person.id, duty))),
  upBy: shown(
    "Up by",
    ({ person, duty }, input) =>
      duty === null ? DASH : input.clocks.local(upBy(input, person.id, duty.call), duty.callPlace),
    { spare: 2 },
  ),
  release: onCall.column("Release", changeOf("release"), ({ duty }, { clocks }) =>
    duty === null ? DASH : clocks.local(duty.release, duty.releasePlace),
  ),
});

/** `Birch Point Lodge · uplink truck, at the wheel, with Bea`. */
export function whereAndHow(input: SheetInput, id: Id, duty: DutyTimes): string {
  const ride = riding(input, id, duty);
  return [name(input, duty.callPlace), ...(ride === DASH ? [] : [ride.text])].join(" · ");
}

/** Everyone of the sheet in the order of their calls. */
export const inCallOrder = (input: SheetInput): readonly PersonDay[] =>
  inOrderOfCalls(input.day.people.filter((person) => concerns(input, [person.id])));

/** Everyone's call, place, vehicle and telephone; who is not on the sheet is there to be called. */
export function personCards(input: SheetInput): readonly PersonCard[] {
  const { crew } = input.day.plan;
  const others = inOrderOfCalls(input.day.people).filter((person) => !concerns(input, [person.id]));
  return [...inCallOrder(input), ...others].flatMap((person): readonly PersonCard[] => {
    const own = crew.get(person.id);
    const phone = own?.phone == null || input.redact ? null : phoneCell(own.phone);
    const mine = concerns(input, [person.id]);
    const card = { id: person.id, name: input.say.name(person.id), roles: own?.roles.join(", ") ?? "", phone };
    if (!mine || person.duties.length === 0)
      return mine || phone !== null ? [{ ...card, call: null, where: null }] : [];
    return person.duties.map((duty, at) => ({
      ...card,
      phone: at === 0 ? phone : null,
      call: cardTime(input, duty.call, duty.callPlace),
      where: whereAndHow(input, person.id, duty),
    }));
  });
}

function cardTime(input: SheetInput, at: Instant, place: Id): NonNullable<PersonCard["call"]> {
  const zone = zoneOfPlace(input.day.plan, place);
  const [own, other] = [zone, input.desk].map((one) => input.clocks.text(at, one));
  const desk = own === other ? null : `${other ?? ""} ${input.clocks.name(input.desk)}`;
  return { text: input.clocks.local(at, place).text, desk, iso: isoLocal(at, zone) };
}

/** The last minute in bed: the call less the house rule, which is longer for who appears on camera. */
function upBy(input: SheetInput, id: Id, call: Instant): Instant {
  const { rules, crew } = input.day.plan;
  const onCamera = crew.get(id)?.roles.includes("reporter") ?? false;
  return after(call, -(onCamera ? rules.upBeforeOnCamera : rules.upBefore));
}

/** `wagon, at the wheel, with ilse`; how they leave the place they are called at. */
function riding(input: SheetInput, id: Id, duty: DutyTimes): Cell {
  const within = (at: Instant): boolean => at >= duty.call && at <= duty.release;
  const move = input.day.moves.find((one) => within(one.leave) && aboardOf(one).includes(id));
  const ride = input.day.rides.find((one) => within(one.ride.leave) && one.who.includes(id));
  if (ride && (!move || ride.ride.leave < move.leave)) return rideCell(input, ride, id);
  if (!move) return DASH;
  const others = aboardOf(move).filter((other) => other !== id);
  const wheel = move.driver === id && move.leg.ferry === undefined ? ", at the wheel" : "";
  const company = others.length === 0 ? ", alone" : `, with ${sheetNames(input, others)}`;
  return { text: `${name(input, move.vehicle)}${wheel}${company}`, raw: move.vehicle };
}

function rideCell(input: SheetInput, ride: RideTimes, id: Id): Cell {
  const others = ride.who.filter((other) => other !== id);
  const by = ride.ride.by === null ? ride.ride.id : freeText(input, ride.ride.by);
  return { text: `${by}${others.length === 0 ? "" : `, with ${sheetNames(input, others)}`}`, raw: ride.ride.id };
}

interface Moment {
  readonly at: Instant;
  readonly place: Id | null;
  readonly text: string;
}

/** Who sleeps while others work and must be woken, and for what: sleepers aboard, and people called a second time. */
export function wakeSection(input: SheetInput): Section | null {
  const sleepers = input.day.moves.flatMap((move) =>
    move.asleep.filter((id) => concerns(input, [id, move.driver])).map((id) => wakeAboard(input, move, id)),
  );
  const again = input.day.people
    .filter((person) => concerns(input, [person.id]))
    .flatMap((person) =>
      person.duties.slice(1).map((duty) => ({
        ...{ at: upBy(input, person.id, duty.call), place: duty.callPlace },
        text: `${name(input, person.id)}, called again ${input.clocks.local(duty.call, duty.callPlace).text}`,
      })),
    );
  return momentSection(input, { id: "wake", title: "To be woken" }, [...sleepers, ...again]);
}

function wakeAboard(input: SheetInput, move: Move, id: Id): Moment {
  const next = nextFor(input, id, move.arrive);
  return {
    at: move.arrive,
    place: move.to,
    text: `${name(input, id)}, asleep in ${name(input, move.vehicle)}, at ${name(input, move.to)}${next === null ? "" : ` for ${next}`}`,
  };
}

/** What someone does next from an instant on: a hit or task, else the wheel. */
function nextFor(input: SheetInput, id: Id, from: Instant): string | null {
  const activity = input.day.activities.find((one) => one.start !== null && one.start >= from && one.who.includes(id));
  const wheel = input.day.moves.flatMap((move) => move.wheel).find((turn) => turn.from >= from && turn.driver === id);
  if (wheel && (activity?.start == null || wheel.from < activity.start)) return "the wheel";
  return activity?.id ?? null;
}

/** When whom cannot be reached. */
export function reachSection(input: SheetInput): Section | null {
  const moments = silences(input.day)
    .filter((one) => concerns(input, one.who))
    .map((one) => {
      const through = one.through.map((part) =>
        "place" in part
          ? `at ${name(input, part.place)}`
          : `${name(input, part.road[0])} to ${name(input, part.road[1])}`,
      );
      const until = input.clocks.local(one.to, one.toPlace).text;
      return {
        at: one.from,
        place: one.fromPlace,
        text: `to ${until}: ${people(input, one.who)}, ${through.join(", ")}`,
      };
    });
  return momentSection(input, { id: "reach", title: "Out of reach" }, moments);
}

/** A section of moments in time order, each `06:40: what`; null where there is none. */
export function momentSection(
  input: SheetInput,
  head: Pick<Section, "id" | "title">,
  moments: readonly Moment[],
): Section | null {
  if (moments.length === 0) return null;
  const items = [...moments]
    .sort((a, b) => a.at - b.at)
    .map((moment) => ({ text: `${input.clocks.local(moment.at, moment.place).text} ${moment.text}` }));
  return { ...head, blocks: [{ kind: "list", items }] };
}
