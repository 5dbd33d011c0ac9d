/** The calendar entries of a sheet: calls, hits, tasks, meals, feeds, moves that one drives, pack work, releases. */

import { type ActivityTimes, aboardOf, type Move, type PersonDay } from "../../day/day.ts";
import { groupBy } from "../../lists.ts";
import type { Hit, Id, Task } from "../../plan/plan.ts";
import { after } from "../../time/units.ts";
import { carriedBy } from "../shared/people.ts";
import type { SheetInput } from "./input.ts";
import type { SheetEvent } from "./view.ts";
import { concerns, freeText, geoLink, name, sheetNames } from "./words.ts";

/** How long a call stands in the calendar where no one leaves after it. */
const CALL_MINUTES = 15;

/** An entry before it is counted among those of its subject. */
type Uncounted = Omit<SheetEvent, "number" | "cancelled">;

/**
 * All entries, in time order; for one person those that concern them, for the crew those of everyone. With an older plan each
 * keeps the number that it has there, and what is gone is cancelled.
 */
export function sheetEvents(input: SheetInput): readonly SheetEvent[] {
  const now = eventsOf(input);
  const { older } = input;
  if (older == null) return inOrder([...groupBy(now, subjectOf).values()].flatMap((same) => same.map(counted)));
  const before = groupBy(eventsOf({ ...input, day: older }), subjectOf);
  const after = groupBy(now, subjectOf);
  const subjects = new Set([...before.keys(), ...after.keys()]);
  return inOrder([...subjects].flatMap((one) => matched(before.get(one) ?? [], after.get(one) ?? [])));
}

const subjectOf = ({ subject }: Uncounted): string => subject;
const counted = (event: Uncounted, at: number): SheetEvent => ({ ...event, number: at + 1, cancelled: false });
const inOrder = (events: readonly SheetEvent[]): readonly SheetEvent[] => events.toSorted((a, b) => a.start - b.start);

/** Entries of one subject, both in time order: the nearest in time are the same, the rest is new or cancelled. */
function matched(before: readonly Uncounted[], after: readonly Uncounted[]): readonly SheetEvent[] {
  const pairs = before
    .flatMap((old, from) => after.map((own, to) => ({ from, to, apart: Math.abs(own.start - old.start) })))
    .toSorted((a, b) => a.apart - b.apart || a.from - b.from || a.to - b.to);
  const numbers = new Map<number, number>();
  const taken = new Set<number>();
  for (const { from, to } of pairs) {
    if (taken.has(from) || numbers.has(to)) continue;
    taken.add(from);
    numbers.set(to, from + 1);
  }
  let last = before.length;
  const kept = after.map((own, to): SheetEvent => ({ ...own, number: numbers.get(to) ?? ++last, cancelled: false }));
  const gone = before.flatMap((old, from): readonly SheetEvent[] =>
    taken.has(from) ? [] : [{ ...old, number: from + 1, cancelled: true }],
  );
  return [...kept, ...gone];
}

function eventsOf(input: SheetInput): readonly Uncounted[] {
  const people = input.day.people.filter((one) => concerns(input, [one.id]));
  const activities = input.day.activities.filter((one) => concerns(input, one.who));
  const hits = activities.map((one) => (one.activity.kind === "hit" ? hitEvent(input, one, one.activity) : null));
  const tasks = activities.map((one) => (one.activity.kind === "hit" ? null : taskEvent(input, one, one.activity)));
  const moves = input.day.moves.filter((move) => drivesPart(input, move)).map((move) => moveEvent(input, move));
  const duties = people.flatMap((one) => [...dutyEvents(input, one), ...choreEvents(input, one)]);
  return [...duties, ...[...hits, ...tasks].filter((one) => one !== null), ...moves].sort((a, b) => a.start - b.start);
}

/** Pack work apart from the person's calls, which have the rest of it. */
const choreEvents = (input: SheetInput, person: PersonDay): readonly Uncounted[] =>
  person.chores
    .filter(({ apart }) => apart)
    .map((chore, at) => ({
      item: `${person.id}.packs.${at + 1}`,
      subject: `packs ${person.id}`,
      kind: "packs",
      start: chore.from,
      end: chore.to,
      title: `Packs: ${input.say.name(person.id)}`,
      ...where(input, chore.place),
      lines: [`Pack moves ${input.say.time(chore.from, chore.place)}`],
    }));

/** Work, a meal or a feed; nothing for what has no time. */
function taskEvent(input: SheetInput, times: ActivityTimes, task: Task): Uncounted | null {
  const { start, end, place, who } = times;
  if (start === null || end === null) return null;
  const kind = task.kind === "meal" || task.kind === "feed" ? task.kind : "task";
  const word = { meal: "Meal", feed: "Feed", task: "Task" }[kind];
  return {
    item: task.id,
    subject: `task ${task.id}`,
    kind,
    start,
    end,
    title: `${word}: ${freeText(input, task.what ?? task.id)}`,
    ...where(input, place),
    lines: [
      `${word} ${input.say.time(start, place)}, ${input.say.length(end - start)}`,
      `Who: ${sheetNames(input, who)}`,
    ],
  };
}

/** Whether whom the sheet is for is at the wheel on some part of a move. */
const drivesPart = (input: SheetInput, move: Move): boolean =>
  concerns(input, [move.driver, ...move.wheel.map((turn) => turn.driver)]);

function dutyEvents(input: SheetInput, person: PersonDay): readonly Uncounted[] {
  const who = input.say.name(person.id);
  return person.duties.flatMap((duty, index): readonly Uncounted[] => {
    const again = index === 0 ? "" : `.${index + 1}`;
    const leave = input.day.moves.find(
      (move) => move.leave >= duty.call && move.leave <= duty.release && aboardOf(move).includes(person.id),
    );
    const call = `Call ${input.say.time(duty.call, duty.callPlace)}`;
    const release = `Release ${input.say.time(duty.release, duty.releasePlace)}`;
    return [
      {
        item: `${person.id}.call${again}`,
        subject: `call ${person.id}`,
        kind: "call",
        start: duty.call,
        end: leave && leave.leave > duty.call ? leave.leave : after(duty.call, CALL_MINUTES),
        title: `Call: ${who}`,
        ...where(input, duty.callPlace),
        lines: leave
          ? [call, `Leave ${input.say.time(leave.leave, leave.from)} in ${name(input, leave.vehicle)}`]
          : [call],
      },
      {
        item: `${person.id}.release${again}`,
        subject: `release ${person.id}`,
        kind: "release",
        start: duty.release,
        end: null,
        title: `Release: ${who}`,
        ...where(input, duty.releasePlace),
        lines: [release],
      },
    ];
  });
}

function hitEvent(input: SheetInput, times: ActivityTimes, hit: Hit): Uncounted | null {
  if (times.start === null || times.end === null) return null;
  const lines = [
    `On air ${input.say.time(times.start, times.place)}, ${input.say.length(hit.forMinutes)}`,
    times.inPosition === null ? null : `In position ${input.say.time(times.inPosition, times.place)}`,
    `Who: ${sheetNames(input, times.who)}`,
    hit.signalPath === null ? null : `Path ${hit.signalPath}${hit.spare === null ? "" : `, spare ${hit.spare}`}`,
  ];
  return {
    item: hit.id,
    subject: `hit ${hit.id}`,
    kind: "hit",
    start: times.start,
    end: times.end,
    title: `Hit: ${hit.id}${hit.show === null ? "" : ` (${freeText(input, hit.show)})`}`,
    ...where(input, times.place),
    lines: lines.filter((line) => line !== null),
  };
}

function moveEvent(input: SheetInput, move: Move): Uncounted {
  const isFerry = move.leg.ferry !== undefined;
  const aboard = carriedBy(move);
  const riders = aboard.length === 0 ? [] : [`${isFerry ? "Aboard" : "Riders"}: ${sheetNames(input, aboard)}`];
  const leaveBy = move.leaveBy === null ? [] : [`Leave by ${input.say.time(move.leaveBy, move.from)}`];
  return {
    item: move.id,
    subject: `drive ${move.vehicle} ${move.from} ${move.to}`,
    kind: "move",
    start: move.leave,
    end: move.arrive,
    title: `${isFerry ? "Ferry" : "Drive"}: ${name(input, move.vehicle)}, ${name(input, move.from)} to ${name(input, move.to)}`,
    ...where(input, move.from),
    lines: [
      `Leave ${input.say.time(move.leave, move.from)}, arrive ${input.say.time(move.arrive, move.to)}`,
      ...leaveBy,
      isFerry
        ? "By ferry: no one drives"
        : `Driver: ${sheetNames(input, [...new Set([move.driver, ...move.wheel.map((turn) => turn.driver)])])}`,
      ...riders,
    ],
  };
}

/** A place's name and address, and where it lies; a redacted sheet has the name alone. */
function where(input: SheetInput, id: Id | null): Pick<SheetEvent, "place" | "map"> {
  const place = id === null ? undefined : input.day.plan.places.get(id);
  if (!place) return { place: null, map: null };
  const called = name(input, place.id);
  if (input.redact || place.address === null) return { place: called, map: geoLink(input, place) };
  return { place: `${called}, ${place.address}`, map: geoLink(input, place) };
}
