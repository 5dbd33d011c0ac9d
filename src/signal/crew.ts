/** Who is at the camera and who in front of it: said if the roles of everyone at a hit are stated and one is missing. */
import type { ActivityTimes, Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import type { Person } from "../plan/plan.ts";
import { hitUncrewed } from "./findings.ts";
import { BEHIND_THE_CAMERA, onCamera } from "./lines.ts";

/** A role of another name may be anything, so nothing is said of whoever has one. */
const KNOWN: ReadonlySet<string> = new Set([...BEHIND_THE_CAMERA, "reporter", "lead"]);

type Missing = "camera" | "reporter";

function missingAt(day: Day, times: ActivityTimes): readonly Missing[] {
  const there = times.who.flatMap((id) => day.plan.crew.get(id) ?? []);
  const known = there.every(({ roles }) => roles.length > 0 && roles.every((role) => KNOWN.has(role)));
  if (!known || times.state === "missed") return [];
  return [
    ...(there.some(({ roles }) => roles.includes("camera")) ? [] : ["camera" as const]),
    ...(onCamera(day, times).length > 0 ? [] : ["reporter" as const]),
  ];
}

/** One finding for all hits that miss the same. */
export function crewFindings(day: Day): readonly Finding[] {
  const groups = new Map<string, { readonly missing: readonly Missing[]; readonly hits: ActivityTimes[] }>();
  for (const times of day.activities) {
    const missing = times.activity.kind === "hit" ? missingAt(day, times) : [];
    if (missing.length === 0) continue;
    const group = groups.get(missing.join(" ")) ?? { missing, hits: [] };
    groups.set(missing.join(" "), group);
    group.hits.push(times);
  }
  return [...groups.values()].map(({ missing, hits }) => {
    const there = new Set(hits.flatMap(({ who }) => who));
    const has = ({ id, roles }: Person): boolean => !there.has(id) && missing.some((role) => roles.includes(role));
    const elsewhere = [...day.plan.crew.values()].filter(has).map(({ id }) => id);
    return hitUncrewed.raise(
      { hits: hits.map(({ id }) => id), missing, elsewhere },
      { path: hits[0]?.activity.path ?? ["hits"], otherwise: elsewhere.length > 0 },
    );
  });
}
