/** What can be said of a satellite path: look angle, skyline, booked time, the sun behind the satellite. */
import { define, names } from "../../findings/finding.ts";
import type { Instant } from "../../time/units.ts";
import { OF_SPARE } from "../use.ts";
import { standOffMeters } from "./look.ts";

interface At {
  readonly at: Instant;
}

export const slotBelowHorizon = define<{
  activities: readonly string[];
  path: string;
  place: string;
  elevation: number;
}>({
  code: "slot-below-horizon",
  level: "error",
  otherwise: OF_SPARE,
  title: "the satellite is below the horizon",
  why: "A geostationary satellite more than about 81 degrees of arc away is below the horizon; near the poles all of them are.",
  cure: "Book a slot nearer to the place's longitude, or use another path.",
  example: `
    paths:
      dish: { kind: satellite, slot: 60 east }     # seen from Lake Superior
  `,
  sentence: (f, say) =>
    `the satellite of ${f.path} is ${Math.abs(f.elevation).toFixed(1)} degrees below the horizon at ${say.name(f.place)} (${names(f.activities, say)})`,
  hint: () => "book a slot nearer to the place's longitude, or use another path",
});

export const slotTooLow = define<{
  activities: readonly string[];
  path: string;
  place: string;
  elevation: number;
  above: number;
}>({
  code: "slot-too-low",
  level: "error",
  otherwise: OF_SPARE,
  title: "the satellite is lower than the path allows",
  why: "Low over the ground the beam meets trees and people, and the air costs signal; the limit is the plan's `above`.",
  cure: "Use a slot nearer to the place's longitude, or state a lower `above` if dish and rules permit it.",
  example: `
    paths:
      dish: { kind: satellite, slot: 18 west, above: 10 }
  `,
  sentence: (f, say) =>
    `the satellite of ${f.path} is ${f.elevation.toFixed(1)} degrees high at ${say.name(f.place)}; the path asks for ${f.above} (${names(f.activities, say)})`,
});

export const skylineBlocks = define<{
  activities: readonly string[];
  path: string;
  place: string;
  azimuth: number;
  elevation: number;
  below: number;
  halfBeam: number;
}>({
  code: "skyline-blocks",
  level: "error",
  otherwise: OF_SPARE,
  title: "something stands between the dish and its satellite",
  why: "A dish sees nothing through a building, a ship or a hill, and half its beam's width around the axis must be clear as well: 35 λ / D degrees (from memory), for a dish of 1.2 m at 11.95 GHz if the plan states neither.",
  cure: "Park where the skyline is lower in that direction, use the spare, or book another slot.",
  example: `
    places:
      pier: { at: [46.81, -90.82], blocked: [{ from: 150, to: 200, below: 40 }] }
  `,
  sentence: (f, say) =>
    `the skyline at ${say.name(f.place)}, ${f.below} degrees high, hides the satellite of ${say.name(f.path)} from ${names(f.activities, say)}: it stands ${f.elevation.toFixed(1)} degrees high at azimuth ${f.azimuth.toFixed(1)}, and half the beam takes ${f.halfBeam.toFixed(1)}`,
  hint: (f) =>
    `park the dish ${standOffMeters(f.elevation, 1, 0).toFixed(1)} m away for each metre that stands above it, or use the spare`,
});

export const lookUnknown = define<{ path: string; place: string | null; activities: readonly string[]; lacks: string }>(
  {
    code: "look-unknown",
    level: "warning",
    title: "the look angle to the satellite is not known",
    why: "Without coordinates of the place and a slot on the path there is no look angle, no skew, no skyline check and no sun outage.",
    cure: "Add `at: [latitude, longitude]` to the place and `slot: 101 west` to the path.",
    example: `
      places:
        pier: { shelter: true, signal: good }     # no \`at\`, and dish is used there
    `,
    sentence: (f, say) =>
      `${f.lacks}: look angle, skew, skyline and sun outage of ${f.path} are not known${f.place === null ? "" : ` at ${say.name(f.place)}`}`,
    hint: (f) =>
      f.place === null ? `add \`slot: … west\` to ${f.path}` : `add \`at: [latitude, longitude]\` to ${f.place}`,
  },
);

export const windowNotBooked = define<{ activities: readonly string[]; path: string }>({
  code: "window-not-booked",
  level: "warning",
  title: "a satellite path has no booked window",
  why: "Satellite time is sold by the minute; transmitting outside a booked window is not allowed.",
  cure: 'Book it and state it: `windows: [["05:15", "09:15"]]`.',
  example: `
    paths:
      dish: { kind: satellite, slot: 101 west }     # no \`windows\`
  `,
  sentence: (f, say) => `${f.path} has no booked window; ${names(f.activities, say)} would use it`,
  hint: () => "book a window and state it under `windows`",
});

export const windowMissing = define<{ activity: string; path: string; from: At; to: At }>({
  code: "window-missing",
  level: "error",
  otherwise: OF_SPARE,
  title: "a hit or feed lies outside every booked window",
  why: "Transmitting outside a booked window is not allowed.",
  cure: "Book a window that holds line-up, line check, the hit and its `late`, or use another path.",
  example: `
    paths:     # dawn is at 07:00
      dish:
        kind: satellite
        vehicle: truck
        slot: 101 west
        windows: [["05:15", "06:30"]]
  `,
  sentence: (f, say) =>
    `${say.name(f.activity)} lies outside the booked windows of ${f.path}: it needs ${say.time(f.from.at)} to ${say.time(f.to.at)}`,
  hint: (f, say) => `book ${say.time(f.from.at)} to ${say.time(f.to.at)}, or use another path`,
});

export const windowTooShort = define<{
  activity: string;
  path: string;
  opens: At;
  closes: At;
  from: At;
  to: At;
  shortBefore: number;
  shortAfter: number;
}>({
  code: "window-too-short",
  level: "error",
  otherwise: OF_SPARE,
  title: "a booked window does not hold all that needs it",
  why: "Line-up and line check come before the hit, and the desk may slip the hit by its `late`; all of it must lie inside the window.",
  cure: "Extend the booking, shorten `late` with the desk, or use another path.",
  example: `
    paths:
      dish:
        kind: satellite
        vehicle: truck
        slot: 101 west
        windows: [["06:55", "07:10"]]     # and dawn is at 07:00
        lineUp: 10 min
  `,
  sentence(f, say) {
    const parts = [
      f.shortBefore > 0 ? `opens ${say.length(f.shortBefore)} too late` : "",
      f.shortAfter > 0 ? `closes ${say.length(f.shortAfter)} too early` : "",
    ].filter((part) => part !== "");
    return `the window of ${f.path} ${parts.join(" and ")} for ${say.name(f.activity)}: ${say.time(f.opens.at)} to ${say.time(f.closes.at)}`;
  },
  hint: (f, say) => {
    const opens = f.shortBefore > 0 ? `open at ${say.time(f.from.at)}` : "";
    const closes = f.shortAfter > 0 ? `close at ${say.time(f.to.at)}` : "";
    return `have the window ${[opens, closes].filter((part) => part !== "").join(" and ")}`;
  },
});

export const dishElsewhere = define<{
  activity: string;
  path: string;
  vehicle: string;
  place: string;
  at: string | null;
  /** Whether the vehicle stops there at another time of the day. */
  stops: boolean;
}>({
  code: "dish-elsewhere",
  level: "error",
  otherwise: OF_SPARE,
  title: "the vehicle that carries the path is not there",
  why: "One vehicle's dish serves only the place where that vehicle stands, from the line check until the hit is over.",
  cure: "Have the vehicle stop there in time, or use a path that is there.",
  example: `
    paths:
      dish:
        kind: satellite
        vehicle: truck     # which is at the lodge by then
        slot: 101 west
        windows: [["05:15", "13:00"]]
    hits:
      noon: { at: "12:00", for: 3 min, place: dock, path: dish, spare: cell }
  `,
  sentence: (f, say) =>
    `${say.name(f.activity)} needs ${f.path}, which is on ${say.name(f.vehicle)}; that is ${f.at === null ? "on the road" : `at ${say.name(f.at)}`}, not at ${say.name(f.place)}`,
  hint: (f, say) =>
    f.stops
      ? `add ${f.activity} to the \`do\` of ${say.name(f.vehicle)}'s stop at ${f.place}, so that it is there in time, or use another path`
      : `have ${say.name(f.vehicle)} stop there, or use another path`,
});

export const sunOutageOnAir = define<{ activity: string; path: string; from: At; to: At }>({
  code: "sun-outage-on-air",
  level: "warning",
  title: "the sun stands behind the satellite while a hit may be on air",
  why: "For some minutes a day, some days each spring and autumn, the sun's noise drowns what the dish receives. The truck's return feed is hit at these minutes; the station's own dish has other times, which its engineers know.",
  cure: "Ask the station for its own outage, take the return by another way, or move the hit by a few minutes.",
  example: `
    date: 2027-03-03
    paths:
      dish:
        kind: satellite
        vehicle: truck
        slot: 101 west
        windows: [["05:15", "09:15"], ["13:30", "14:30"]]
    hits:
      noon: { at: "14:00", for: 3 min, place: pier, path: dish, spare: cell }
  `,
  source: { title: "ITU-R S.1525-1, sun transits of geostationary satellites", clause: null },
  sentence: (f, say) =>
    `the sun is behind the satellite of ${f.path} from ${say.time(f.from.at)} to ${say.time(f.to.at)}, and ${say.name(f.activity)} may be on air`,
  hint: () => "have another way for the return feed, or move the hit",
});
