/**
 * A finished Day written by hand: the freighter in the ice, 20 January 2027, truck and wagon, four people, a block of
 * half-hourly hits at dawn, pictures in the gap, hits at noon and in the evening, a drive across the zone line.
 * Not from the engine, so that the sheet's tests stand on their own.
 */
import type { ActivityTimes, Day, Move, PersonDay, PersonSpan, StopTimes } from "../../src/day/day.ts";
import type { Hit, Id, Plan, SpanKind, Task } from "../../src/plan/plan.ts";
import { after, type Instant, instant, minutes, type ZoneId } from "../../src/time/units.ts";
import { byId, hit, line, path, person, place, plan, stop, task, vehicle, weather, zoneNamed } from "../day/parts.ts";

const MIDNIGHT = Date.UTC(2027, 0, 20, 6) / 60_000;

/** `at("04:30")` is that time on Chicago's clock on 20 January 2027. */
export const at = (clock: string): Instant => {
  const [hour = "0", minute = "0"] = clock.split(":");
  return instant(MIDNIGHT + Number(hour) * 60 + Number(minute));
};

const DETROIT = "America/Detroit" as ZoneId;

const CREW = byId(
  person("wren", { name: "Wren", roles: ["camera"], drives: ["wagon"], phone: "+1 715 555 0142" }),
  person("ilse", { name: "Ilse", roles: ["reporter"] }),
  person("tomas", { name: "Tomas", roles: ["engineer"], drives: ["truck"] }),
  person("bea", { name: "Bea", roles: ["producer"], drives: ["wagon"] }),
);

const PLACES = byId(
  place("lodge", {
    ...{ name: "Lodge", at: { latitude: 46.6, longitude: -90.88 }, kind: "lodging", mains: true, shelter: true },
    ...{
      address: "14 Birch Road",
      parking: "behind the house, plugs on the wall",
      hospital: { name: "County hospital, Sixth Street", km: null, phone: null, address: null },
      signal: "good",
    },
  }),
  place("pier", {
    ...{
      name: "Pier",
      at: { latitude: 46.81, longitude: -90.82 },
      address: "end of Pier Street",
      parking: "turn-around, nose out",
    },
    ...{
      hospital: { name: "County hospital, Sixth Street, 35 min", km: null, phone: null, address: null },
      signal: "good",
      note: "the light pole is dead; bring the lamp",
    },
  }),
  place("dock", {
    ...{
      name: "Ore dock",
      at: { latitude: 46.59, longitude: -90.89 },
      address: "Dock Road, gate 2",
      parking: "second bay, clear of the dock's shadow",
    },
    ...{
      hospital: { name: "County hospital, Sixth Street, 5 min", km: null, phone: null, address: null },
      signal: "weak",
    },
  }),
  place("point", {
    ...{
      name: "Point lookout",
      at: { latitude: 46.69, longitude: -90.45 },
      parking: "roadside, hazard lights on",
      signal: "none",
    },
    ...{
      hospital: { name: "Range hospital, 40 min", km: null, phone: null, address: null },
      zone: "America/Chicago" as ZoneId,
    },
  }),
  place("inn", {
    ...{
      name: "Harbour inn",
      at: { latitude: 46.87, longitude: -89.31 },
      zone: DETROIT,
      address: "3 River Street",
      kind: "lodging",
    },
    ...{
      mains: true,
      shelter: true,
      parking: "yard",
      hospital: { name: "Shore hospital, 2 Hill Street", km: null, phone: null, address: null },
      signal: "good",
    },
  }),
);

const HITS: readonly Hit[] = [
  ...["06:00", "06:30", "07:00", "07:30"].map((clock, index) =>
    hit(`dawn.${index + 1}`, "pier", {
      at: at(clock),
      signalPath: "dish",
      spare: "cell",
      show: "morning",
      lateMinutes: minutes(5),
    }),
  ),
  hit("noon", "dock", {
    ...{ at: at("11:00"), forMinutes: 5, signalPath: "dish", spare: "cell", show: "midday" },
    fallback: { place: "pier", path: "cell", decideBy: at("10:15") },
  }),
  hit("evening", "point", { at: at("17:00"), signalPath: "dish", show: "evening" }),
];

const TASKS: readonly Task[] = [
  task("breakfast", "pier", { kind: "meal", forMinutes: 30, what: "breakfast in the truck" }),
  task("pictures", "dock", { forMinutes: 40, what: "pictures of the cutter" }),
  task("dinner", "dock", { kind: "meal", forMinutes: 45, what: "hot meal" }),
];

export const demoPlan: Plan = plan({
  file: "2027-01-20.yaml",
  title: "The ore freighter in the ice",
  revision: 2,
  clock: zoneNamed("America/New_York"),
  crew: CREW,
  vehicles: byId(
    vehicle("truck", { name: "Truck", commercial: true, rules: ["us-property"] }),
    vehicle("wagon", { name: "Wagon" }),
  ),
  places: PLACES,
  hits: byId(...HITS),
  tasks: byId(...TASKS),
  paths: byId(
    path("dish", {
      kind: "satellite",
      vehicle: "truck",
      windows: [
        { from: at("05:15"), to: at("08:00") },
        { from: at("10:30"), to: at("11:30") },
        { from: at("16:30"), to: at("17:30") },
      ],
      booking: "slot 101 west, ref 7741",
      phone: "+1 715 555 0190",
      polarisation: "horizontal",
    }),
    path("cell", { kind: "cellular" }),
  ),
  lines: byId(
    line("ear", { number: "+1 715 555 0111", who: ["ilse"], spare: "+1 715 555 0112" }),
    line("producer", { number: "+1 715 555 0120", who: ["wren", "bea"] }),
  ),
  weather: [weather({ to: at("10:00"), celsius: -14, windKmh: 30, cloud: "thin", road: "snow" })],
});

const span = (from: string, to: string, is: SpanKind, doing: string, more: Partial<PersonSpan> = {}): PersonSpan => ({
  ...{ from: at(from), to: at(to), is, doing, vehicle: null, activity: null, place: null },
  ...more,
});

const LAST_NIGHT = at("-5:40");

function personDay(id: Id, spans: readonly PersonSpan[]): PersonDay {
  const worked = spans.filter((one) => one.is !== "off");
  const call = worked[0]?.from ?? at("0:00");
  const release = worked.at(-1)?.to ?? at("0:00");
  return {
    ...{
      id,
      call,
      release,
      slept: "lodge",
      sleeps: "inn",
      terms: [],
      previousRelease: LAST_NIGHT,
      lateRelease: null,
      chores: [],
    },
    duties: [{ call, release, callPlace: "lodge", releasePlace: "inn" }],
    spans: [{ ...span("0:00", "0:00", "off", "off", { place: "lodge" }), from: LAST_NIGHT, to: call }, ...spans],
  };
}

const there = (placed: Id) => ({ place: placed });
const inside = (vehicle: Id) => ({ vehicle });

const TRUCK_DAY = (wheel: SpanKind): readonly PersonSpan[] => [
  span("4:00", "4:15", "duty", "loading", there("lodge")),
  span("4:15", "5:05", wheel, "drive", inside("truck")),
  span("5:05", "7:53", "duty", "set-up", there("pier")),
  span("7:53", "8:30", "meal", "breakfast", there("pier")),
  span("8:30", "9:20", wheel, "drive", inside("truck")),
  span("9:20", "9:50", "duty", "wait", there("dock")),
  span("9:50", "11:40", "duty", "set-up", there("dock")),
  span("11:40", "12:25", "meal", "dinner", there("dock")),
  span("12:25", "14:40", "duty", "wait", there("dock")),
  span("14:40", "15:35", wheel, "drive", inside("truck")),
  span("15:35", "17:33", "duty", "set-up", there("point")),
  span("17:33", "19:10", wheel, "drive", inside("truck")),
  span("19:10", "19:30", "duty", "unload", there("inn")),
];

const WAGON_DAY = (wheel: SpanKind): readonly PersonSpan[] => [
  span("4:15", "4:30", "duty", "loading", there("lodge")),
  span("4:30", "5:20", wheel, "drive", inside("wagon")),
  span("5:20", "7:43", "duty", "set-up", there("pier")),
  span("7:43", "8:13", "meal", "breakfast", there("pier")),
  span("8:13", "9:00", wheel, "drive", inside("wagon")),
  span("9:00", "9:40", "duty", "pictures", there("dock")),
  span("9:40", "11:40", "duty", "set-up", there("dock")),
  span("11:40", "12:25", "meal", "dinner", there("dock")),
  span("12:25", "15:00", "duty", "wait", there("dock")),
  span("15:00", "15:50", wheel, "drive", inside("wagon")),
  span("15:50", "17:33", "duty", "set-up", there("point")),
  span("17:33", "19:00", wheel, "drive", inside("wagon")),
  span("19:00", "19:10", "duty", "unload", there("inn")),
];

interface Ride {
  readonly id: Id;
  readonly from: Id;
  readonly to: Id;
  readonly leave: string;
  readonly arrive: string;
  readonly by: string | null;
}

const RIDES: readonly Ride[] = [
  { id: "truck.1", from: "lodge", to: "pier", leave: "4:15", arrive: "5:05", by: "4:25" },
  { id: "wagon.1", from: "lodge", to: "pier", leave: "4:30", arrive: "5:20", by: "4:45" },
  { id: "wagon.2", from: "pier", to: "dock", leave: "8:13", arrive: "9:00", by: "9:10" },
  { id: "truck.2", from: "pier", to: "dock", leave: "8:30", arrive: "9:20", by: "9:05" },
  { id: "truck.3", from: "dock", to: "point", leave: "14:40", arrive: "15:35", by: "14:50" },
  { id: "wagon.3", from: "dock", to: "point", leave: "15:00", arrive: "15:50", by: "15:20" },
  { id: "truck.4", from: "point", to: "inn", leave: "17:33", arrive: "19:10", by: null },
  { id: "wagon.4", from: "point", to: "inn", leave: "17:33", arrive: "19:00", by: null },
];

const ABOARD: ReadonlyMap<string, readonly [Id, Id]> = new Map([
  ["truck", ["tomas", "bea"]],
  ["wagon", ["wren", "ilse"]],
]);

function move(ride: Ride): Move {
  const vehicleId = ride.id.split(".")[0] ?? "";
  const [driver, rider] = ABOARD.get(vehicleId) ?? ["tomas", "bea"];
  const [leave, arrive] = [at(ride.leave), at(ride.arrive)];
  const length = minutes(arrive - leave);
  const leaveBy = ride.by === null ? null : at(ride.by);
  return {
    ...{ id: ride.id, vehicle: vehicleId, from: ride.from, to: ride.to, leave, arrive, driver, riders: [rider] },
    ...{ asleep: ride.id === "wagon.4" ? [rider] : [], wheel: [{ from: leave, to: arrive, driver }], halts: [] },
    leg: {
      ...{ from: ride.from, to: ride.to, likelyMinutes: length - 12, badMinutes: length, km: 40, range: null },
      ...{
        basis: ride.to === "inn" ? ("estimated" as const) : ("stated" as const),
        noSignal: ride.to === "point",
        path: null,
      },
    },
    ...{ plannedMinutes: length, plannedAt: "bad", likelyMinutes: minutes(length - 12), badMinutes: length, leaveBy },
    ...{ slackMinutes: leaveBy === null ? null : minutes(leaveBy - leave), overLikelyMinutes: minutes(12) },
  };
}

const STOPS: readonly StopTimes[] = RIDES.map((ride, index) => ({
  ...{
    stop: stop(ride.id, ride.from),
    vehicle: ride.id.split(".")[0] ?? "",
    place: ride.from,
    parked: null,
    activities: [],
    terms: [],
  },
  ...{
    arrive:
      index < 2
        ? null
        : at(RIDES.find((one) => one.id.startsWith(ride.id.slice(0, 5)) && one.to === ride.from)?.arrive ?? ride.leave),
    leave: at(ride.leave),
  },
}));

function times(
  activity: Hit | Task,
  who: readonly Id[],
  start: Instant,
  more: Partial<ActivityTimes> = {},
): ActivityTimes {
  const end = after(start, activity.forMinutes ?? 0);
  return {
    ...{
      activity,
      id: activity.id,
      who,
      stops: [],
      place: activity.location.kind === "place" ? activity.location.place : null,
    },
    ...{
      vehicle: null,
      state: activity.kind === "hit" ? "fixed" : "early",
      lineCheck: null,
      start,
      end,
      clearEnd: end,
    },
    ...{ inPosition: activity.kind === "hit" ? after(start, -10) : null, slackMinutes: null, roadShare: null },
    ...more,
  };
}

const ALL: readonly Id[] = ["wren", "ilse", "tomas", "bea"];
const [breakfast, pictures, dinner] = TASKS;
const WORK: readonly ActivityTimes[] = [
  ...(breakfast ? [times(breakfast, ALL, at("7:53"))] : []),
  ...(pictures ? [times(pictures, ["wren", "ilse"], at("9:00"))] : []),
  ...(dinner ? [times(dinner, ALL, at("11:40"))] : []),
];

export const demoDay: Day = {
  plan: demoPlan,
  people: [
    personDay("wren", WAGON_DAY("driving")),
    personDay("ilse", WAGON_DAY("riding")),
    personDay("tomas", TRUCK_DAY("driving")),
    personDay("bea", TRUCK_DAY("riding")),
  ],
  stops: [
    ...STOPS,
    {
      ...{
        stop: stop("truck.5", "inn"),
        vehicle: "truck",
        place: "inn",
        arrive: at("19:10"),
        parked: null,
        leave: null,
      },
      activities: [],
      terms: [],
    },
  ],
  moves: RIDES.map(move),
  activities: [...HITS.map((one) => times(one, ALL, one.at)), ...WORK].sort((a, b) => (a.start ?? 0) - (b.start ?? 0)),
  rides: [],
  findings: [],
  instants: new Map(),
  why: () => null,
  unedited: null,
  intact: null,
  withChores: () => demoDay,
  span: { from: LAST_NIGHT, to: at("19:30") },
};
