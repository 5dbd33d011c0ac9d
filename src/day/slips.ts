/** `late` moves nothing: a hit that may slip further than what is fixed after it leaves room for is a warning. */
import type { Finding } from "../findings/finding.ts";
import { slipTooLong } from "./findings/findings.ts";
import { latestInstants, plannedBounds } from "./network/network.ts";
import type { PlacedDay } from "./network/place.ts";

/** Findings for hits that break something when they slip by all that they may. */
export function slips({ build, value }: PlacedDay): readonly Finding[] {
  return [...build.plan.hits.values()].flatMap((hit) => {
    const late = hit.lateMinutes ?? 0;
    const node = build.nodes.get(`${hit.id}.end`);
    if (late <= 0 || node === undefined || !build.entered.activities.has(hit.id)) return [];
    if (build.plan.actual.activities.has(hit.id)) return [];
    const ownStart = build.nodes.get(`${hit.id}.start`);
    const own = new Set([ownStart, build.nodes.get(`${hit.id}.inPosition`), build.nodes.get(`${hit.id}.lineCheck`)]);
    const bounds = latestInstants(
      build.network,
      (edge) =>
        plannedBounds(edge) && !(own.has(edge.from) && edge.bound !== "none") && !(edge.backward && own.has(edge.to)),
    );
    const room = (bounds?.[node] ?? Number.POSITIVE_INFINITY) - (value[node] ?? 0);
    if (room >= late) return [];
    const path = [...hit.path, "late"];
    return [slipTooLong.raise({ hit: hit.id, late, slack: room, next: "the next fixed time" }, { path, at: hit.at })];
  });
}
