/** `after` and `before`: nothing may wait for itself. */
import { orderLoop, plainLoop } from "../findings.ts";
import type { Body, Id } from "../plan.ts";
import type { Reading } from "../read/reading.ts";

/** Findings for hits and tasks that are to come before each other. */
export function checkOrder(reading: Reading, { hits, tasks }: Body): void {
  const activities = [...hits.values(), ...tasks.values()];
  const earlier = new Map<Id, Set<Id>>(activities.map(({ id, after }) => [id, new Set(after)]));
  for (const { id, before } of activities) for (const later of before) earlier.get(later)?.add(id);
  const done = new Set<Id>();
  for (const { id, path } of activities) {
    const ring = ringFrom(id, earlier, done);
    if (ring === null) continue;
    reading.mistake(path, (c) => orderLoop.raise(plainLoop(ring), c));
    return;
  }
}

/** A ring reached from `start`, walked without recursion; visited ids without one go to `done`. */
function ringFrom(start: Id, earlier: ReadonlyMap<Id, ReadonlySet<Id>>, done: Set<Id>): readonly Id[] | null {
  const trail: { readonly id: Id; readonly left: Id[] }[] = [];
  const enter = (id: Id): void => {
    trail.push({ id, left: [...(earlier.get(id) ?? [])] });
  };
  if (!done.has(start)) enter(start);
  for (let top = trail.at(-1); top !== undefined; top = trail.at(-1)) {
    const next = top.left.pop();
    if (next === undefined) {
      done.add(top.id);
      trail.pop();
    } else if (!done.has(next)) {
      const seen = trail.findIndex(({ id }) => id === next);
      if (seen >= 0) return [...trail.slice(seen).map(({ id }) => id), next].reverse();
      enter(next);
    }
  }
  return null;
}
