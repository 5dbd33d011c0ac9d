/** The night before a day and the sleep in it: getting up, hours asleep, awake since when; each figure from the sentence above it. */
import { describe, expect, it } from "vitest";
import type { PersonDay, PersonSpan } from "../../src/day/day.ts";
import { nightOf, wakingOf } from "../../src/hours/fitness/sleep.ts";
import type { Person, Place } from "../../src/plan/plan.ts";
import type { Instant } from "../../src/time/units.ts";
import { at, text } from "../day/make.ts";
import { actual, byId, leg, person, place, type Went } from "../day/parts.ts";
import { day } from "../roads/days.ts";

const made = day([
  { vehicle: "wagon", people: ["wren"], leave: at("06:00"), way: [[leg("lodge", "pier", 30, 30), "drive", {}]] },
]);

interface Night {
  readonly call?: Instant | null;
  readonly released?: Instant | null;
  readonly slept?: string | null;
  readonly own?: Partial<Person>;
  readonly went?: Parameters<typeof actual>[0];
  readonly lodge?: Partial<Place>;
  readonly spans?: readonly PersonSpan[];
}

/** By default: released at 20:00 the evening before, called at 08:00, in a lodge that says no more. */
function posed({
  call = at("08:00"),
  released = at(-240),
  slept = "lodge",
  own = {},
  went = {},
  lodge = {},
  spans = [],
}: Night) {
  const wren = made.people[0];
  if (wren === undefined) throw new Error("nobody");
  const plan = {
    ...made.plan,
    crew: byId(person("wren", { roles: ["camera"], ...own })),
    places: byId(place("lodge", lodge)),
    actual: actual(went),
  };
  const who: PersonDay = { ...wren, call, previousRelease: released, slept, spans };
  return { day: { ...made, plan }, who };
}

const night = (one: Night) => {
  const { day: own, who } = posed(one);
  const { up, sleepMinutes, stated, upAssumed } = nightOf(own, who);
  return [text(up), sleepMinutes, stated, upAssumed];
};

const logged = (more: NonNullable<Went["people"]> extends ReadonlyMap<string, infer P> ? P : never) => ({
  people: new Map([["wren", more]]),
});

describe("the night", () => {
  it("ends at 07:00 after a whole night off, or 45 min before the call if that is earlier", () => {
    // Released 20:00, in bed 90 min later at 21:30: 9 h 30 to 07:00, and 9 h are the most. 08:00 less 45 min is 07:15.
    expect(night({})).toEqual(["07:00", 540, false, true]);
    expect(night({ call: at("07:45") })).toEqual(["07:00", 540, false, true]);
    // 07:44 less 45 min is 06:59, before the night is over; from 21:00 on it leaves more than 5 h to sleep in.
    expect(night({ call: at("07:44") })).toEqual(["06:59", 540, false, false]);
    // On camera 75 min before: 06:45.
    expect(night({ own: { roles: ["reporter"] } })).toEqual(["06:45", 540, false, false]);
  });

  it("is no whole night if one is released after 23:00: then one is up before the call", () => {
    // Released 23:01, in bed 00:31; up at 07:15: 6 h 44.
    expect(night({ released: at(-59) })).toEqual(["07:15", 404, false, false]);
    // Released 23:00: a whole night, from 00:30 to 07:00.
    expect(night({ released: at(-60) })).toEqual(["07:00", 390, false, true]);
    // In bed after getting up: no sleep, and not less.
    expect(night({ released: at("07:00"), call: at("08:00") })).toEqual(["07:15", 0, false, false]);
  });

  it("is out by check-out and in after check-in", () => {
    // A call at 12:00 after a night that ended at 23:30: up at 11:15, but out by 10:00; in bed at 01:00, and 9 h at most.
    const late = { released: at(-30), call: at("12:00") };
    expect(night(late)).toEqual(["11:15", 540, false, false]);
    expect(night({ ...late, lodge: { checkOutMinute: 600 } })).toEqual(["10:00", 540, false, false]);
    expect(night({ ...late, lodge: { checkOutMinute: 675 } })).toEqual(["11:15", 540, false, false]);
    // Released at 14:00 with check-in at 22:00, up at 04:00: 6 h. Released 22:01, in bed 23:31: 4 h 29.
    // Released at 05:59 the night is paid for: in bed 07:29, up 11:15.
    const early = { call: at("04:45"), lodge: { checkInMinute: 1320 } };
    expect(night({ ...early, released: at(-600) })).toEqual(["04:00", 360, false, false]);
    expect(night({ ...early, released: at(-119) })).toEqual(["04:00", 269, false, false]);
    expect(night({ released: at("05:59"), call: at("12:00"), lodge: { checkInMinute: 900 } })).toEqual([
      "11:15",
      226,
      false,
      false,
    ]);
  });

  it("is not known without a release or a call", () => {
    expect(night({ released: null })).toEqual(["07:15", null, false, false]);
    expect(night({ call: null })).toEqual([null, null, false, false]);
  });

  it("is as stated: when one was up, how long one slept, or from when to when one was in bed", () => {
    expect(night({ own: { up: at("05:00") } })).toEqual(["05:00", 450, false, false]);
    expect(night({ own: { up: at("05:00") }, went: logged({ up: at("05:30") }) })).toEqual([
      "05:30",
      480,
      false,
      false,
    ]);
    expect(night({ went: logged({ asleepMinutes: 200 }) })).toEqual(["07:00", 200, true, true]);
    const inBed = (from: string, to: string | null) => ({
      own: { inBed: [{ from: at(from), to: to === null ? null : at(to) }] },
    });
    expect(night(inBed("00:00", "05:00"))).toEqual(["05:00", 300, true, false]);
    // Without an end it ends with getting up, which is taken to be at 07:00.
    expect(night(inBed("00:00", null))).toEqual(["07:00", 420, true, false]);
    // Sleep from the call on is another one.
    expect(night(inBed("08:00", "12:00"))).toEqual(["07:00", 540, false, true]);
    expect(night(inBed("07:59", "12:00"))).toEqual(["12:00", 241, true, false]);
    // An end that is no later than its beginning says nothing.
    expect(night(inBed("05:00", "05:00"))).toEqual(["07:00", 540, false, true]);
    // The last of five hours, else the last; what is logged goes before what is planned.
    const two = {
      own: {
        inBed: [
          { from: at("00:00"), to: at("05:00") },
          { from: at("05:30"), to: at("06:30") },
        ],
      },
    };
    expect(night(two)).toEqual(["05:00", 300, true, false]);
    expect(
      night({
        own: {
          inBed: [
            { from: at("00:00"), to: at("04:59") },
            { from: at("05:30"), to: at("06:30") },
          ],
        },
      }),
    ).toEqual(["06:30", 60, true, false]);
    expect(night({ ...two, went: logged({ inBed: [{ from: at("01:00"), to: at("04:00") }] }) })).toEqual([
      "04:00",
      180,
      true,
      false,
    ]);
  });
});

describe("later sleep", () => {
  const span = (from: string, to: string, is: PersonSpan["is"], bunk = false): PersonSpan => ({
    ...{ from: at(from), to: at(to), is, vehicle: "truck", activity: null, place: null, doing: "ride" },
    ...(bunk ? { bunk: true } : {}),
  });
  const waking = (...spans: readonly PersonSpan[]) => {
    const { day: own, who } = posed({
      call: at("07:00"),
      own: { up: at("06:00") },
      went: logged({ asleepMinutes: 480 }),
      spans,
    });
    return wakingOf(own, who);
  };
  const since = (clock: string, ...spans: readonly PersonSpan[]) => {
    const found = waking(...spans).since(at(clock));
    return found === null ? null : [text(found.up), found.sleepMinutes];
  };

  it("starts the waking time again after five hours in a berth, in pieces that touch", () => {
    expect(since("20:00")).toEqual(["06:00", 480]);
    expect(since("20:00", span("10:00", "15:00", "berth"))).toEqual(["15:00", 300]);
    expect(since("14:59", span("10:00", "15:00", "berth"))).toEqual(["06:00", 480]);
    expect(since("15:00", span("10:00", "15:00", "berth"))).toEqual(["15:00", 300]);
    expect(since("20:00", span("10:00", "14:59", "berth"))).toEqual(["06:00", 480]);
    expect(since("20:00", span("10:00", "12:00", "berth"), span("12:00", "15:00", "berth"))).toEqual(["15:00", 300]);
    expect(since("20:00", span("10:00", "12:00", "berth"), span("12:01", "15:01", "berth"))).toEqual(["06:00", 480]);
    expect(since("20:00", span("10:00", "15:00", "ferry", true))).toEqual(["15:00", 300]);
    expect(since("20:00", span("10:00", "15:00", "ferry"))).toEqual(["06:00", 480]);
    expect(since("20:00", span("10:00", "15:00", "riding", true))).toEqual(["06:00", 480]);
    // What began before getting up is of the night.
    expect(since("20:00", span("05:59", "11:00", "berth"))).toEqual(["06:00", 480]);
    expect(since("20:00", span("06:00", "11:00", "berth"))).toEqual(["11:00", 300]);
  });

  it("is the last of them that starts it again, in a bed or in a berth", () => {
    const { day: own, who } = posed({
      ...{ call: at("07:00"), own: { up: at("06:00") } },
      went: logged({ asleepMinutes: 480, inBed: [{ from: at("16:00"), to: at("21:00") }] }),
      spans: [span("10:00", "15:00", "berth")],
    });
    expect(text(wakingOf(own, who).since(at("22:00"))?.up ?? null)).toBe("21:00");
    expect(text(wakingOf(own, who).since(at("20:00"))?.up ?? null)).toBe("15:00");
  });

  it("counts from two hours on, within 24 h", () => {
    // Asleep 22:00 to 06:00.
    expect(waking().sleepIn24(at("20:00"))).toBe(480);
    expect(waking().sleepIn24(at(24 * 60 + 60))).toBe(300);
    expect(waking(span("10:00", "12:00", "berth")).sleepIn24(at("20:00"))).toBe(600);
    expect(waking(span("10:00", "11:59", "berth")).sleepIn24(at("20:00"))).toBe(480);
    expect(waking(span("10:00", "12:00", "berth")).sleepIn24(at("11:00"))).toBe(540);
    const { day: own, who } = posed({ released: null });
    expect(wakingOf(own, who).sleepIn24(at("20:00"))).toBeNull();
    const { day: idle, who: nobody } = posed({ call: null });
    expect(wakingOf(idle, nobody).since(at("20:00"))).toBeNull();
  });
});
