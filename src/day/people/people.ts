/** Each person's day: calls, releases, terms that tile [call, release), spans that tile [previous release, release). */
import type { Id, Plan, SpanKind } from "../../plan/plan.ts";
import { wallMinute } from "../../time/index.ts";
import { type Instant, type Interval, instant } from "../../time/units.ts";
import type { Chore, DutyTimes, PersonDay, PersonSpan } from "../day.ts";
import type { PersonOrder, PersonStay } from "../order/order.ts";
import { addChores, partSpans } from "./chores.ts";
import { tile } from "./tile.ts";
import { placedInstant, type TimelineInput, type TimelineStretch, termOf, timelineOf } from "./timeline.ts";

/** A person's day with all that fills it. */
export interface SolvedPeople {
  readonly day: PersonDay;
  /** The stretches in the order in which they are lived, for the chain behind a call or a release. */
  readonly tiles: readonly TimelineStretch[];
  /** The call before a logged release cuts the day: as logged, else as planned. */
  readonly calledAt: Instant | null;
}

/** What is stated of someone from before the day. */
export interface StatedBefore {
  readonly released: Instant | null;
  /** Where the work in the spans of their `history` ends. */
  readonly spansEnd: Instant | null;
  /** The rest that the spans of their `history` end with. */
  readonly rest: Interval | null;
  /** Where the spans of the day before end, with a chore in the evening. */
  readonly evening: Instant | null;
}

/** What someone does by the plan and the facts alone: without chores, and whatever was before. */
export interface PersonPlanned extends Tiles {
  readonly order: PersonOrder;
  readonly stretches: readonly TimelineStretch[];
}

/** The plan of one person's day. */
export function personPlanned(input: TimelineInput, order: PersonOrder): PersonPlanned {
  const planned = timelineOf(input, order);
  const stretches = planned.length > 0 ? planned : workedBesides(input.placed.build.plan, order);
  return { order, stretches, ...tilesOf(input, order, stretches) };
}

/** Someone for whom the plan has nothing worked all the same where both a call and a release are logged. */
function workedBesides({ actual }: Plan, { id, slept }: PersonOrder): readonly TimelineStretch[] {
  const { call = null, released = null } = actual.people.get(id) ?? {};
  if (call === null || released === null || released <= call) return [];
  return [asLogged(call, released, slept)];
}

/** Work of which only the log speaks. */
const asLogged = (from: Instant, to: Instant, place: Id | null): TimelineStretch => ({
  ...{ name: "as it went", is: "duty", weight: 0, from, to, where: null, place },
  ...{ vehicle: null, activity: null, ends: ["", ""] },
});

/** The day of one person. */
export function personDay(
  input: TimelineInput,
  { order, stretches, called, tiles: planned }: PersonPlanned,
  before: StatedBefore,
  chores: readonly Chore[],
): SolvedPeople {
  const { plan } = input.placed.build;
  const lateRelease = lateFor(planned[0]?.from ?? null, before);
  const [first, last] = [planned[0], planned.at(-1)];
  const released = lateRelease === null ? (before.released ?? restFrom(before, first?.from ?? null)) : null;
  const added =
    first === undefined || last === undefined
      ? { stretches, previousRelease: released, lastNight: null, apart: chores }
      : addChores(stretches, chores, {
          from: first.from,
          to: last.to,
          previousRelease: released,
          isStanddown: (stretch) => isStanddown(plan, stretch),
          join: plan.rules.choreJoin,
        });
  const { tiles } = chores.length === 0 ? { tiles: planned } : tilesOf(input, order, added.stretches);
  const call = tiles[0]?.from ?? null;
  const release = tiles.at(-1)?.to ?? null;
  const { previousRelease, lastNight, apart } = added;
  const spans = spansOf(
    tiles,
    order,
    previousRelease === null ? null : instant(Math.max(previousRelease, before.evening ?? previousRelease)),
  );
  const joined = lastNight === null ? [] : [{ ...lastNight, who: order.id, place: order.slept, vehicle: null }];
  const day: PersonDay = {
    id: order.id,
    call,
    release,
    slept: order.slept,
    sleeps: order.sleeps,
    duties: dutiesOf(plan, tiles, order, apart),
    spans: partSpans(spans, [...joined, ...apart], order),
    terms: tiles.map(termOf),
    chores: chores.map((one) => ({ ...one, apart: apart.includes(one) })),
    previousRelease,
    lateRelease,
  };
  return { day, tiles, calledAt: called[0]?.from ?? null };
}

interface Tiles {
  /** From the call on, before a stated release cuts them. */
  readonly called: readonly TimelineStretch[];
  readonly tiles: readonly TimelineStretch[];
}

/** The stretches one after the other, from the call to the release, both as they went where that is stated. */
function tilesOf(input: TimelineInput, order: PersonOrder, stretches: readonly TimelineStretch[]): Tiles {
  const { plan } = input.placed.build;
  const planned = tile(stretches, (at) => placeAt(input, order, at), input.fit);
  const went = plan.actual.people.get(order.id);
  const called = calledAsItWent(plan, planned, order, went?.call ?? null);
  return { called, tiles: releasedAsItWent(plan, called, order, went?.released ?? null) };
}

/** A stated call is that after the last stand-down which began before it, else the first. */
function calledAsItWent(
  plan: Plan,
  planned: readonly TimelineStretch[],
  { slept }: PersonOrder,
  call: Instant | null,
): readonly TimelineStretch[] {
  const isBefore = (one: TimelineStretch): boolean => call !== null && isStanddown(plan, one) && one.from < call;
  if (call !== null && !planned.some(isBefore)) return cutTo(planned, call, null, slept);
  const tiles = rounded(plan, planned, slept ?? "");
  const at = tiles.findLastIndex(isBefore);
  const down = tiles[at];
  if (call === null || down === undefined) return tiles;
  return [...tiles.slice(0, at), { ...down, to: call }, ...cutTo(tiles.slice(at + 1), call, null, down.place)];
}

/** A stated release is that into the first stand-down which ends after it and is followed by more, else the last. */
function releasedAsItWent(
  plan: Plan,
  tiles: readonly TimelineStretch[],
  { sleeps }: PersonOrder,
  released: Instant | null,
): readonly TimelineStretch[] {
  if (released === null) return tiles;
  const at = tiles.findIndex((one) => isStanddown(plan, one) && one.to > released);
  const down = tiles[at];
  if (down === undefined || tiles.slice(at).every((one) => isStanddown(plan, one)))
    return cutTo(tiles, null, released, sleeps);
  return [
    ...cutTo(tiles.slice(0, at), null, released, down.place),
    { ...down, from: released },
    ...tiles.slice(at + 1),
  ];
}

/** Where what is stated of before the day reaches its first call, the end of that. */
function lateFor(call: Instant | null, { released, spansEnd }: StatedBefore): Instant | null {
  if (call === null) return null;
  if (released !== null && released >= call) return released;
  return spansEnd !== null && spansEnd > call ? spansEnd : null;
}

/** A rest that is stated up to the call or beyond begins with the release; one that ends earlier leaves time of which nothing is known. */
function restFrom({ rest }: StatedBefore, call: Instant | null): Instant | null {
  return rest !== null && (call === null || rest.to >= call) ? rest.from : null;
}

/** Call and release as they went: what lies outside is cut, what is missing is as it went. */
function cutTo(
  tiles: readonly TimelineStretch[],
  call: Instant | null,
  released: Instant | null,
  place: Id | null,
): readonly TimelineStretch[] {
  const [first, last] = [tiles[0], tiles.at(-1)];
  if (first === undefined || last === undefined) return tiles;
  const from = call ?? first.from;
  const to = released ?? last.to;
  const kept = tiles
    .filter((stretch) => stretch.to > from && stretch.from < to)
    .map((stretch) => ({
      ...stretch,
      from: instant(Math.max(stretch.from, from)),
      to: instant(Math.min(stretch.to, to)),
    }));
  const asItWent = (a: Instant, b: Instant): readonly TimelineStretch[] => (b > a ? [asLogged(a, b, place)] : []);
  return [...asItWent(from, first.from), ...kept, ...asItWent(last.to, to)];
}

/** The call goes earlier to a full step of the clock where it is made; the minutes gained are a term of their own. */
function rounded(plan: Plan, tiles: readonly TimelineStretch[], place: Id): readonly TimelineStretch[] {
  const [first] = tiles;
  const step = plan.rules.roundCalls;
  if (first === undefined || step <= 1) return tiles;
  const zone = plan.places.get(first.place ?? place)?.zone ?? plan.zone;
  const gained = wallMinute(first.from, zone) % step;
  if (gained === 0) return tiles;
  const from = instant(first.from - gained);
  const where = plan.rules.stated.has("roundCalls") ? ["rules", "roundCalls"] : null;
  const rounding: TimelineStretch = {
    ...first,
    name: "rounding",
    is: "duty",
    from,
    to: first.from,
    where,
    activity: null,
    vehicle: null,
  };
  return [rounding, ...tiles];
}

/** Where someone waits: the stay between the ride that brought them and the one that takes them on. */
function placeAt({ placed }: TimelineInput, order: PersonOrder, at: Instant): Id | null {
  const arrival = ({ arriving }: PersonStay): Instant | null =>
    arriving === null
      ? null
      : placedInstant(placed, arriving.kind === "leg" ? `${arriving.leg.to.id}.arrive` : `${arriving.ride.id}.arrive`);
  const stay = order.stays.findLast((one) => one.arriving === null || (arrival(one) ?? at) <= at);
  return stay?.place ?? order.slept;
}

/** A stand-down releases; its end is a new call. */
function dutiesOf(
  plan: Plan,
  tiles: readonly TimelineStretch[],
  order: PersonOrder,
  apart: readonly Chore[],
): readonly DutyTimes[] {
  const duties: DutyTimes[] = [];
  let open: { call: Instant; callPlace: Id } | null = null;
  let place = order.slept ?? "";
  for (const tile1 of tiles) {
    if (tile1.name === "chore" && apart.some((one) => one.from <= tile1.from && tile1.to <= one.to)) continue;
    const down = isStanddown(plan, tile1);
    if (down && open !== null) {
      duties.push({ ...open, release: tile1.from, releasePlace: tile1.place ?? place });
      open = null;
    }
    place = tile1.place ?? place;
    if (!down && open === null) open = { call: tile1.from, callPlace: place };
  }
  const last = tiles.at(-1);
  if (open !== null && last !== undefined)
    duties.push({ ...open, release: last.to, releasePlace: last.place ?? order.sleeps ?? place });
  return duties;
}

/** Whether a stretch is a stand-down itself. */
export const isStanddown = (plan: Plan, stretch: TimelineStretch): boolean =>
  stretch.activity !== null &&
  plan.tasks.get(stretch.activity)?.kind === "standdown" &&
  stretch.name === stretch.activity;

function spansOf(
  tiles: readonly TimelineStretch[],
  order: PersonOrder,
  previousRelease: Instant | null,
): readonly PersonSpan[] {
  const first = tiles[0];
  const rest: PersonSpan[] = [];
  if (previousRelease !== null && first !== undefined && first.from > previousRelease) {
    rest.push({
      from: previousRelease,
      to: first.from,
      is: "off",
      vehicle: null,
      activity: null,
      place: order.slept,
      doing: "off",
    });
  }
  return [...rest, ...tiles.map(spanOf)];
}

const IN_VEHICLE: ReadonlySet<SpanKind> = new Set(["driving", "riding", "berth", "ferry"]);

const spanOf = (stretch: TimelineStretch): PersonSpan => ({
  from: stretch.from,
  to: stretch.to,
  is: stretch.is,
  ...(stretch.bunk === true ? { bunk: true } : {}),
  vehicle: IN_VEHICLE.has(stretch.is) || stretch.place === null ? stretch.vehicle : null,
  activity: stretch.activity,
  place: stretch.place,
  doing: stretch.name,
});
