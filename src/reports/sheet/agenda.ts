/** The day as one list, for a phone: hits, drives, rides, tasks and meals in time order, each with its place. */

import type { ActivityTimes, Move, RideTimes } from "../../day/day.ts";
import type { Id } from "../../plan/plan.ts";
import { isoLocal } from "../../time/index.ts";
import type { Instant } from "../../time/units.ts";
import { whereCell } from "../shared/cells.ts";
import { carriedBy } from "../shared/people.ts";
import { zoneOfPlace } from "../shared/wording.ts";
import type { SheetInput } from "./input.ts";
import { drivers, isAboard } from "./moves.ts";
import type { AgendaItem } from "./view.ts";
import { attends, concerns, freeText, kindWord, name, people } from "./words.ts";

interface Dated extends AgendaItem {
  readonly at: Instant;
}

/** Everything of whom the sheet is for, two lines an entry at most. */
export function agendaOf(input: SheetInput): readonly AgendaItem[] {
  const activities = input.day.activities.filter((one) => attends(input, one)).map((one) => activityItem(input, one));
  const moves = input.day.moves.filter((move) => isAboard(input, move)).map((move) => moveItem(input, move));
  const rides = input.day.rides.filter(({ who }) => concerns(input, who)).map((ride) => rideItem(input, ride));
  return [...activities, ...moves, ...rides].sort((a, b) => a.at - b.at);
}

const stamp = (input: SheetInput, at: Instant, place: Id | null): Pick<Dated, "at" | "time" | "iso" | "place"> => ({
  at,
  time: input.clocks.local(at, place).text,
  iso: isoLocal(at, zoneOfPlace(input.day.plan, place)),
  place: place === null ? null : name(input, place),
});

function activityItem(input: SheetInput, times: ActivityTimes): Dated {
  const { activity, start, end, state, who, place } = times;
  const at = start ?? (activity.kind === "hit" ? activity.at : input.day.span.from);
  const missed = state === "missed" ? ", cannot be met" : "";
  const length = activity.forMinutes === null ? "" : `, ${input.say.length(activity.forMinutes)}`;
  const until = end === null ? "" : `to ${input.clocks.local(end, place).text}`;
  const whom = people(input, who);
  const elsewhere = place === null ? whereCell(input.short, times).text : null;
  const note = (parts: readonly (string | null)[]): string =>
    parts.filter((part) => part !== null && part !== "").join(" · ");
  if (activity.kind === "hit") {
    const ready = times.inPosition === null ? null : `in position ${input.clocks.local(times.inPosition, place).text}`;
    return {
      ...stamp(input, at, place),
      kind: "hit",
      text: `${activity.id}${length}${missed}`,
      tone: missed === "" ? "strong" : "bad",
      note: note([ready, whom, activity.show === null ? null : freeText(input, activity.show), elsewhere]),
    };
  }
  const kind = activity.kind === "work" || activity.kind === "meal" ? "" : ` (${kindWord(activity.kind)})`;
  return {
    ...stamp(input, at, place),
    kind: activity.kind === "meal" ? "meal" : "task",
    text: `${freeText(input, activity.what ?? activity.id)}${kind}${missed}`,
    tone: missed === "" ? "plain" : "bad",
    note: note([until, whom, elsewhere]),
  };
}

/** `truck · lodge → pier 06:05 · Tomas`. */
function moveItem(input: SheetInput, move: Move): Dated {
  const arrive = input.clocks.local(move.arrive, move.to).text;
  const by = move.leaveBy === null ? [] : [`leave by ${input.clocks.local(move.leaveBy, move.from).text}`];
  const carried = carriedBy(move);
  const riders = carried.length === 0 ? [] : [`with ${people(input, carried)}`];
  return {
    ...stamp(input, move.leave, move.from),
    kind: "drive",
    text: `${name(input, move.vehicle)} · ${name(input, move.from)} → ${name(input, move.to)} ${arrive}`,
    tone: "plain",
    note: [drivers(input, move), ...riders, ...by].join(" · "),
  };
}

function rideItem(input: SheetInput, { ride, who }: RideTimes): Dated {
  const by = ride.by === null ? ride.id : freeText(input, ride.by);
  return {
    ...stamp(input, ride.leave, ride.from),
    kind: "ride",
    text: `${by} · ${name(input, ride.from)} → ${name(input, ride.to)} ${input.clocks.local(ride.arrive, ride.to).text}`,
    tone: "plain",
    note: people(input, who),
  };
}
