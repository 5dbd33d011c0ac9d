/** Telephone lines beside the picture: who hears the studio, who hears the producer, and how where no telephone works. */
import type { ActivityTimes, Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import type { Id, Line, Person } from "../plan/plan.ts";
import { earLineMissing, producerLineMissing, satellitePhoneMissing } from "./findings.ts";

const EAR = "ear";
const PRODUCER = "producer";
/** Roles that do not appear on camera even where a hit names them. */
export const BEHIND_THE_CAMERA = ["camera", "producer", "engineer", "driver", "sound"];

/** Lines of a sort are named for it: `ear`, `ear2`, `earSpare`. */
const isSort = (line: Line, sort: string): boolean => line.id.startsWith(sort);

/** A line without `who` is for everyone who needs one. */
const isOn = (line: Line, who: Id): boolean => line.who.length === 0 || line.who.includes(who);

/** The lines of one sort that someone is on. */
export const linesOf = (day: Day, sort: "ear" | "producer", who: Id): readonly Line[] =>
  [...day.plan.lines.values()].filter((line) => isSort(line, sort) && isOn(line, who));

/** Reporters appear; so does whom the hit names in `who`, unless they have a role behind the camera only. */
function appears(person: Person, { activity, who }: ActivityTimes): boolean {
  if (!who.includes(person.id)) return false;
  if (person.roles.includes("reporter")) return true;
  const named = activity.who?.includes(person.id) ?? false;
  return named && !person.roles.some((role) => BEHIND_THE_CAMERA.includes(role));
}

/** Who appears in a hit, in plan order. */
export const onCamera = (day: Day, times: ActivityTimes): readonly Person[] =>
  [...day.plan.crew.values()].filter((person) => appears(person, times));

const SATELLITE_PHONE = /sat(?:ellite)?[\s-]*(?:tele)?phone/i;

/** The piece or line that is a satellite telephone, by its name. */
export function satellitePhone(day: Day): Id | null {
  const named = [...day.plan.kit.values()].find((piece) => SATELLITE_PHONE.test(`${piece.name ?? ""} ${piece.id}`));
  if (named !== undefined) return named.id;
  const line = [...day.plan.lines.values()].find((own) =>
    SATELLITE_PHONE.test(`${own.id} ${own.number ?? ""} ${own.spare ?? ""}`),
  );
  return line?.id ?? null;
}

/** Judges the lines: one finding a person and sort, one a place without signal. */
export function lineFindings(day: Day): readonly Finding[] {
  const hits = day.activities.filter((times) => times.activity.kind === "hit");
  const noLines = day.plan.lines.size === 0;
  const findings: Finding[] = [];
  for (const person of day.plan.crew.values()) {
    const where = { who: person.id, path: person.path, otherwise: noLines };
    const seen = hits.filter((times) => appears(person, times)).map((times) => times.id);
    if (seen.length > 0 && linesOf(day, EAR, person.id).length === 0) {
      findings.push(earLineMissing.raise({ who: person.id, hits: seen }, where));
    }
    const shot = hits.filter((times) => person.roles.includes("camera") && times.who.includes(person.id));
    if (shot.length > 0 && linesOf(day, PRODUCER, person.id).length === 0) {
      findings.push(producerLineMissing.raise({ who: person.id, hits: shot.map((times) => times.id) }, where));
    }
  }
  return [...findings, ...silentPlaces(day, hits)];
}

function silentPlaces(day: Day, hits: readonly ActivityTimes[]): readonly Finding[] {
  if (satellitePhone(day) !== null) return [];
  return [...day.plan.places.values()]
    .filter((place) => place.signal === "none")
    .flatMap((place) => {
      const there = hits.filter((times) => times.place === place.id).map((times) => times.id);
      return there.length === 0
        ? []
        : [satellitePhoneMissing.raise({ place: place.id, hits: there }, { path: place.path })];
    });
}
