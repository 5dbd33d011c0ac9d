/** `late` moves nothing: a hit that may slip further than what is fixed after it leaves room for is a warning. */
import type { Finding } from "../findings/finding.ts";
import type { Instant } from "../time/units.ts";
import { slipTooLong } from "./findings/findings.ts";
import { latest } from "./network/network.ts";
import type { Placed } from "./network/place.ts";

/** `now` is where the day is under way: what is over by then slips no more. */
export function slips({ build, value }: Placed, now: Instant | null): readonly Finding[] {
  return [...build.plan.hits.values()].flatMap((hit) => {
    const late = hit.lateMinutes ?? 0;
    const node = build.nodes.get(`${hit.id}.end`);
    if (late <= 0 || node === undefined || !build.entered.activities.has(hit.id)) return [];
    if (now !== null && (value[node] ?? 0) <= now) return [];
    const ownStart = build.nodes.get(`${hit.id}.start`);
    const own = new Set([ownStart, build.nodes.get(`${hit.id}.inPosition`), build.nodes.get(`${hit.id}.lineCheck`)]);
    const bounds = latest(
      build.network,
      (edge) => !(own.has(edge.from) && edge.bound !== "none") && !(edge.backward && own.has(edge.to)),
    );
    const room = (bounds?.[node] ?? Number.POSITIVE_INFINITY) - (value[node] ?? 0);
    if (room >= late) return [];
    const path = [...hit.path, "late"];
    return [slipTooLong.raise({ hit: hit.id, late, slack: room, next: "the next fixed time" }, { path, at: hit.at })];
  });
}
