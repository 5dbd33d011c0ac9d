/** Keys in other words that people use for them, and how the key that was meant is found. */
import { nearest } from "../../findings/nearest.ts";

/** Each key of the format with other words for it; a word may stand for several keys, of which an entry has one. */
const WORDS: readonly (readonly [key: string, words: string])[] = [
  ["at", "time start starts when coords coordinates position gps"],
  ["for", "duration length lasts minutes long"],
  ["place", "location where venue"],
  ["who", "people persons crew staff attendees with"],
  ["zone", "timezone tz"],
  ["clock", "desk deskzone"],
  ["crew", "people team staff persons"],
  ["vehicles", "cars trucks fleet"],
  ["places", "locations venues"],
  ["roads", "legs routes distances"],
  ["hits", "lives liveshots shots"],
  ["tasks", "jobs todo"],
  ["runs", "trips routes itinerary"],
  ["kit", "gear equipment"],
  ["packs", "batteries battery"],
  ["paths", "links uplinks signals"],
  ["lines", "phones"],
  ["uses", "include includes import"],
  ["follows", "previous after yesterday"],
  ["title", "name"],
  ["drives", "driver licence license"],
  ["role", "job position"],
  ["phone", "telephone mobile cell tel"],
  ["asleep", "sleep slept"],
  ["released", "release wrap"],
  ["drive", "time duration minutes likely"],
  ["bad", "worst slow max"],
  ["km", "distance length"],
  ["link", "between from"],
  ["path", "signal uplink via"],
  ["spare", "backup"],
  ["needs", "gear kit equipment requires"],
  ["in", "vehicle location where"],
  ["vehicle", "in car van truck"],
  ["cloud", "sky clouds cover overcast"],
  ["gust", "gusts gusting"],
  ["watts", "power draw"],
  ["wh", "capacity energy"],
  ["charge", "level soc"],
  ["count", "number quantity amount"],
  ["gross", "weight gvwr mass"],
  ["fuel", "tank gas petrol"],
  ["temp", "temperature degrees"],
  ["stops", "places route"],
  ["aboard", "crew riders passengers people"],
  ["leave", "depart departs departure"],
  ["arriveBy", "arrive arrival"],
];

/** The key of `known` that `key` is another word for; null where it is none. */
export function otherWord(key: string, known: readonly string[]): string | null {
  const plain = key.toLowerCase().replace(/[\s_-]/g, "");
  return WORDS.find(([own, words]) => known.includes(own) && words.split(" ").includes(plain))?.[0] ?? null;
}

/** The key of `known` that `key` was probably meant to be: another word for it, else a slip. */
export const keyMeant = (key: string, known: readonly string[]): string | null =>
  otherWord(key, known) ?? nearest(key, known);
