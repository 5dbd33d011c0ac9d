/** The calendar entries of a sheet: a call, each hit, each move one drives, a release. */
import type { ActivityTimes, Move, PersonDay } from "../../day/day.ts";
import type { Hit, Id } from "../../plan/plan.ts";
import { after } from "../../time/units.ts";
import type { SheetInput } from "./input.ts";
import type { SheetEvent } from "./view.ts";
import { concerns, freeText, geoLink, name, names } from "./words.ts";

/** How long a call stands in the calendar where nobody leaves after it. */
const CALL_MINUTES = 15;

/** All entries, in time order; for one person those that concern them, for the crew those of everyone. */
export function sheetEvents(input: SheetInput): readonly SheetEvent[] {
  const people = input.day.people.filter((one) => concerns(input, [one.id]));
  const hits = input.day.activities.flatMap((one) =>
    one.activity.kind === "hit" && concerns(input, one.who) ? [hitEvent(input, one, one.activity)] : [],
  );
  const moves = input.day.moves.filter((move) => drivesPart(input, move)).map((move) => moveEvent(input, move));
  const all = [...people.flatMap((one) => dutyEvents(input, one)), ...hits.filter((one) => one !== null), ...moves];
  return all.sort((a, b) => a.start - b.start);
}

/** Whether whom the sheet is for is at the wheel on some part of a move. */
const drivesPart = (input: SheetInput, move: Move): boolean =>
  concerns(input, [move.driver, ...move.wheel.map((turn) => turn.driver)]);

function dutyEvents(input: SheetInput, person: PersonDay): readonly SheetEvent[] {
  const who = input.say.name(person.id);
  return person.duties.flatMap((duty, index): readonly SheetEvent[] => {
    const again = index === 0 ? "" : `.${index + 1}`;
    const leave = input.day.moves.find(
      (move) =>
        move.leave >= duty.call && move.leave <= duty.release && [move.driver, ...move.riders].includes(person.id),
    );
    const call = `Call ${input.say.time(duty.call, duty.callPlace)}`;
    const release = `Release ${input.say.time(duty.release, duty.releasePlace)}`;
    return [
      {
        item: `${person.id}.call${again}`,
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

function hitEvent(input: SheetInput, times: ActivityTimes, hit: Hit): SheetEvent | null {
  if (times.start === null || times.end === null) return null;
  const lines = [
    `On air ${input.say.time(times.start, times.place)}, ${input.say.length(hit.forMinutes)}`,
    times.inPosition === null ? null : `In position ${input.say.time(times.inPosition, times.place)}`,
    `Who: ${names(input, times.who)}`,
    hit.signalPath === null ? null : `Path ${hit.signalPath}${hit.spare === null ? "" : `, spare ${hit.spare}`}`,
    hit.show === null ? null : `Show: ${freeText(input, hit.show)}`,
  ];
  return {
    item: hit.id,
    kind: "hit",
    start: times.start,
    end: times.end,
    title: `Hit: ${hit.id}`,
    ...where(input, times.place),
    lines: lines.filter((line) => line !== null),
  };
}

function moveEvent(input: SheetInput, move: Move): SheetEvent {
  const riders = move.riders.length === 0 ? [] : [`Riders: ${names(input, move.riders)}`];
  const leaveBy = move.leaveBy === null ? [] : [`Leave by ${input.say.time(move.leaveBy, move.from)}`];
  return {
    item: move.id,
    kind: "move",
    start: move.leave,
    end: move.arrive,
    title: `Drive: ${name(input, move.vehicle)}, ${name(input, move.from)} to ${name(input, move.to)}`,
    ...where(input, move.from),
    lines: [
      `Leave ${input.say.time(move.leave, move.from)}, arrive ${input.say.time(move.arrive, move.to)}`,
      ...leaveBy,
      `Driver: ${names(input, [...new Set([move.driver, ...move.wheel.map((turn) => turn.driver)])])}`,
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
