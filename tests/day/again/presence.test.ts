/** Who and what is where on random days, against a look at every minute: nights, duties, roads, beds. */
import { beforeAll, expect, it } from "vitest";
import type { Day, PersonDay } from "../../../src/day/day.ts";
import { presenceOf, presenceSpan } from "../../../src/day/people/presence.ts";
import { instant } from "../../../src/time/units.ts";
import { solved } from "../../agreement/days.ts";
import { randomPlan } from "../../agreement/randomPlan.ts";
import { runs } from "../../fuzz.ts";

const days: (readonly [seed: number, day: Day])[] = [];
beforeAll(async () => {
  for (let seed = 301; seed < 301 + Math.max(30, runs(40, 3000)); seed++) {
    const one = await solved(randomPlan(seed));
    if (one !== null) days.push([seed, one.day]);
  }
});

type Where = readonly [
  place: string | null,
  vehicle: string | null,
  awake: boolean,
  free: boolean,
  onDuty: boolean,
  doing: string,
];

/** Off from a release to a call: up in time before the call, in the evening for as long as the house says, else asleep. */
function off(day: Day, person: PersonDay, at: number, from: number, to: number, place: string | null): Where {
  const { upBefore, upBeforeOnCamera, bedAfter } = day.plan.rules;
  const isReporter = day.plan.crew.get(person.id)?.roles.includes("reporter") === true;
  const doing =
    at >= to - (isReporter ? upBeforeOnCamera : upBefore) ? "up" : at < from + bedAfter ? "evening" : "sleep";
  return [place, null, doing !== "sleep", true, false, doing];
}

function whereIs(day: Day, person: PersonDay, at: number): Where | null {
  const { call, release, previousRelease, slept, sleeps, id } = person;
  if (call === null || release === null) {
    const { from, to } = presenceSpan(day);
    if (slept === null) return null;
    if (previousRelease === null) return from <= at && at < to ? [slept, null, false, true, false, "off"] : null;
    const bed = Math.min(to, previousRelease + day.plan.rules.bedAfter);
    if (at < previousRelease || at >= to) return null;
    return at < bed ? [slept, null, true, true, false, "evening"] : [slept, null, false, true, false, "sleep"];
  }
  if (at < call) {
    if (previousRelease !== null && previousRelease < call)
      return at < previousRelease ? null : off(day, person, at, previousRelease, call, slept);
    const [, , , , , doing] = off(day, person, at, call - 100_000, call, slept);
    return doing === "up" ? [slept, null, true, true, false, "up"] : null;
  }
  if (at >= release)
    return at < release + day.plan.rules.bedAfter ? [sleeps, null, true, true, false, "evening"] : null;
  const span = person.spans.find(({ from, to }) => from <= at && at < to);
  if (span === undefined) return null;
  const rests = span.is === "off" && day.plan.tasks.get(span.activity ?? "")?.kind === "rest";
  if (span.is === "off" && !rests) return off(day, person, at, span.from, span.to, span.place);
  const naps = day.moves.some(
    ({ asleep, leave, arrive }) => asleep.includes(id) && leave <= span.from && span.from < arrive,
  );
  const asleep = rests || span.is === "berth" || (span.is === "riding" && (span.doing === "asleep" || naps));
  return [span.place, span.vehicle, !asleep, span.is === "off" || span.doing === "wait", span.is !== "off", span.doing];
}

it("everybody is where their spans, their night and their evening have them, awake or not, with hands free or not", () => {
  const doings = new Set<string>();
  for (const [seed, day] of days) {
    const presence = presenceOf(day);
    const { from, to } = presenceSpan(day);
    for (const person of day.people)
      for (let at = from - 20; at < to + 20; at += 3) {
        const one = presence.personAt(person.id, instant(at));
        const found = one === null ? null : [one.place, one.vehicle, one.awake, one.free, one.onDuty, one.doing];
        const wanted = whereIs(day, person, at);
        if (wanted !== null) doings.add(wanted[5]);
        expect(found, `seed ${seed} ${person.id} at ${at}`).toEqual(wanted);
      }
  }
  for (const doing of ["up", "evening", "sleep", "wait", "drive"]) expect(doings).toContain(doing);
});

it("every vehicle is at the stop that it came to last, or on the road", () => {
  for (const [seed, day] of days) {
    const presence = presenceOf(day);
    const { from, to } = presenceSpan(day);
    for (const { vehicle, stops } of day.plan.runs.values()) {
      const moves = day.moves.filter((move) => move.vehicle === vehicle);
      for (let at = from - 20; at < to + 20; at += 3) {
        const one = presence.vehicleAt(vehicle, instant(at));
        const move = moves.find(({ leave, arrive }) => leave <= at && at < arrive);
        const place = moves.findLast(({ arrive }) => arrive <= at)?.to ?? stops[0]?.place;
        const end = Math.max(to, moves.at(-1)?.arrive ?? to);
        const wanted = at < from || at >= end ? null : move === undefined ? [place, null] : [null, move.id];
        expect(one === null ? null : [one.place, one.move?.id ?? null], `seed ${seed} ${vehicle} at ${at}`).toEqual(
          wanted,
        );
      }
      const stays = presence.vehicle(vehicle);
      expect(
        stays.every((stay, n) => stay.from < stay.to && (n === 0 || stays[n - 1]?.to === stay.from)),
        `seed ${seed}`,
      ).toBe(true);
    }
  }
});
