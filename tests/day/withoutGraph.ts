/**
 * A second reading of the Day for one vehicle with everyone aboard, without a network: a run is a line of rigid blocks with
 * waits between them. Latest instants by one pass from the back, earliest by one pass from the front.
 */
import type { Plan, Stop, Task } from "../../src/plan/plan.ts";

interface Block {
  readonly id: string;
  readonly length: number;
  /** Where inside the block a fixed instant lies, and when it is. */
  readonly fixed: { readonly offset: number; readonly at: number } | null;
  readonly from: number;
  readonly to: number;
  /** Least minutes between the end of the block before and this one. */
  readonly gap: number;
  readonly departure: Stop | null;
  /** Named instants inside the block, by offset. */
  readonly marks: readonly (readonly [name: string, offset: number])[];
}

export interface Reading {
  readonly instants: ReadonlyMap<string, number>;
  readonly missed: readonly string[];
}

const BAD_FACTOR_BI = (bi: number): number => Math.exp(1.645 * (1.645 - Math.sqrt(1.645 ** 2 - 2 * Math.log(1 + bi))));

export function readWithoutGraph(plan: Plan, sheltered: boolean): Reading {
  const run = [...plan.runs.values()][0];
  if (run === undefined) throw new Error("no run");
  const missed: string[] = [];
  const wanted = rank(plan, run.stops);
  let kept: string[] = [];
  for (let next = 0; next < wanted.length; ) {
    const id = wanted[next] ?? "";
    const trial = [...kept, id];
    if (missed.includes(id)) next++;
    else if (early(blocks(plan, run.stops, trial, missed)) !== null) {
      kept = trial;
      next++;
    } else {
      // the day is then the day without it: everything enters once more
      missed.push(id);
      kept = [];
      next = 0;
    }
  }
  const line = blocks(plan, run.stops, kept, missed);
  const stated = new Set(run.stops.filter((stop) => stop.waitHere).map((stop) => stop.id));
  let placed = placeLine(line, stated);
  if (sheltered) {
    const warm = warmStops(plan, run.stops, line, placed, stated);
    if (warm.size > stated.size) placed = placeLine(line, warm);
  }
  const instants = new Map<string, number>();
  line.forEach((block, index) => {
    for (const [name, offset] of block.marks) instants.set(name, (placed[index] ?? 0) + offset);
  });
  return { instants, missed: missed.filter((id) => plan.hits.has(id) || plan.tasks.has(id)) };
}

/** Stops' own times, firm hits by time, other hits by time, tasks in file order. */
function rank(plan: Plan, stops: readonly Stop[]): readonly string[] {
  const hits = [...plan.hits.values()].sort((a, b) => a.at - b.at);
  const standbys = [...plan.tasks.values()].filter((task) => task.kind === "standby");
  const firm = [
    ...hits.filter((hit) => hit.firm).map((h) => ({ id: h.id, at: h.at as number })),
    ...standbys.map((s) => ({ id: s.id, at: (s.window?.from ?? 0) as number })),
  ];
  firm.sort((a, b) => a.at - b.at);
  return [
    ...stops.filter((stop) => stop.leave !== null || stop.arriveBy !== null).map((stop) => stop.id),
    ...firm.map((one) => one.id),
    ...hits.filter((hit) => !hit.firm).map((hit) => hit.id),
    ...[...plan.tasks.values()].filter((task) => task.kind !== "standby").map((task) => task.id),
  ];
}

function planned(plan: Plan, stops: readonly Stop[], index: number, missed: readonly string[]): number {
  const road = plan.roads.find((one) => {
    const ends = [stops[index]?.place, stops[index + 1]?.place];
    return ends.includes(one.link[0]) && ends.includes(one.link[1]) && ends[0] !== ends[1];
  });
  const slower = [...plan.vehicles.values()][0]?.slower ?? 1;
  const drive = road?.driveMinutes ?? 0;
  const ahead = stops
    .slice(index + 1)
    .flatMap((stop) => stop.do ?? [])
    .map((id) => plan.hits.get(id))
    .find((hit) => hit !== undefined && !missed.includes(hit.id));
  const atBad = ahead?.firm ?? false;
  const bad = road?.badMinutes ?? drive * BAD_FACTOR_BI(0.15);
  return Math.ceil((atBad ? bad : drive) * slower - 1e-9);
}

function blocks(
  plan: Plan,
  stops: readonly Stop[],
  kept: readonly string[],
  missed: readonly string[],
): readonly Block[] {
  const { rules } = plan;
  const line: Block[] = [];
  const open = { fixed: null, from: -Infinity, to: Infinity, gap: 0, departure: null };
  stops.forEach((stop, index) => {
    const last = index === stops.length - 1;
    const here = (stop.do ?? []).filter((id) => kept.includes(id));
    line.push(...activityBlocks(plan, here));
    if (last) {
      line.push({
        ...open,
        id: "unload",
        length: rules.unload,
        gap: stop.stayMinutes !== null && here.length === 0 ? stop.stayMinutes : 0,
        marks: [[`${stop.id}.unloaded`, rules.unload]],
      });
      return;
    }
    const next = stops[index + 1];
    if (next === undefined) return;
    const drive = planned(plan, stops, index, missed);
    const doing = (next.do ?? []).some((id) => kept.includes(id));
    const live = (next.do ?? []).some(
      (id) => kept.includes(id) && (plan.hits.has(id) || plan.tasks.get(id)?.kind === "standby"),
    );
    const setUp = doing ? (next.setUpMinutes ?? (live ? rules.setUp : 0)) : 0;
    const park = doing ? rules.park : 0;
    const lead = index === 0 ? rules.loading : 0;
    const counts = kept.includes(stop.id);
    const nextCounts = kept.includes(next.id) && next.arriveBy !== null;
    line.push({
      id: `leg ${stop.id}`,
      length: lead + drive + park + setUp,
      fixed: counts && stop.leave !== null ? { offset: lead, at: stop.leave } : null,
      from: -Infinity,
      to: nextCounts ? (next.arriveBy ?? 0) + park + setUp : Infinity,
      gap: index > 0 && here.length === 0 ? (stop.stayMinutes ?? 0) : 0,
      departure: stop,
      marks: [
        [`${stop.id}.leave`, lead],
        [`${next.id}.arrive`, lead + drive],
        ...((next.do ?? []).length > 0 ? [[`${next.id}.ready`, lead + drive + park + setUp] as const] : []),
      ],
    });
  });
  return line;
}

function activityBlocks(plan: Plan, here: readonly string[]): readonly Block[] {
  const { rules } = plan;
  const lives = here.filter((id) => plan.hits.has(id));
  return here.map((id): Block => {
    const hit = plan.hits.get(id);
    if (hit === undefined) return taskBlock(plan, id);
    const index = lives.indexOf(id);
    const previous = plan.hits.get(lives[index - 1] ?? "");
    const check = index === 0 ? rules.lineCheck : 0;
    const position =
      previous === undefined
        ? rules.inPosition
        : Math.max(0, Math.min(rules.inPosition, hit.at - (previous.at + previous.forMinutes)));
    const isLast = index === lives.length - 1;
    const next = plan.hits.get(lives[index + 1] ?? "");
    const room =
      next === undefined
        ? 0
        : Math.max(
            0,
            next.at - Math.min(rules.inPosition, next.at - hit.at - hit.forMinutes) - hit.at - hit.forMinutes,
          );
    const clear = isLast ? (hit.clearMinutes ?? rules.clear) : Math.min(hit.clearMinutes ?? 0, room);
    const lead = check + position;
    return {
      id,
      length: lead + hit.forMinutes + clear + (isLast ? rules.strike : 0),
      fixed: { offset: lead, at: hit.at },
      from: -Infinity,
      to: Infinity,
      gap: 0,
      departure: null,
      marks: [
        [`${id}.inPosition`, check],
        [`${id}.start`, lead],
        [`${id}.end`, lead + hit.forMinutes],
        [`${id}.clear`, lead + hit.forMinutes + clear],
      ],
    };
  });
}

function taskBlock(plan: Plan, id: string): Block {
  const task: Task | undefined = plan.tasks.get(id);
  const length = task?.forMinutes ?? 0;
  const to = Math.min(task?.window?.to ?? Infinity, task?.by ?? Infinity);
  return {
    id,
    length,
    fixed: null,
    from: task?.window?.from ?? -Infinity,
    to,
    gap: 0,
    departure: null,
    marks: [
      [`${id}.start`, 0],
      [`${id}.end`, length],
    ],
  };
}

/** Earliest starts; null where a block ends too late or cannot meet its fixed instant. */
function early(line: readonly Block[]): readonly number[] | null {
  const starts: number[] = [];
  let end = -Infinity;
  for (const block of line) {
    let start = Math.max(end + block.gap, block.from);
    if (block.fixed !== null) {
      const must = block.fixed.at - block.fixed.offset;
      if (start > must) return null;
      start = must;
    }
    if (start + block.length > block.to) return null;
    starts.push(start);
    end = start + block.length;
  }
  return starts;
}

function late(line: readonly Block[]): readonly number[] {
  const starts = line.map(() => Infinity);
  let next = Infinity;
  for (let i = line.length - 1; i >= 0; i--) {
    const block = line[i];
    if (block === undefined) continue;
    let start = Math.min(next - block.length, block.to - block.length);
    if (block.fixed !== null) start = Math.min(start, block.fixed.at - block.fixed.offset);
    starts[i] = start;
    next = start - block.gap;
  }
  return starts;
}

function placeLine(line: readonly Block[], waits: ReadonlySet<string>): readonly number[] {
  const latest = late(line);
  const firstFixed = line.findIndex((block) => block.fixed !== null);
  const lateOnes = new Set<number>();
  line.forEach((block, index) => {
    if (index < firstFixed) lateOnes.add(index);
    if (block.departure === null || block.fixed !== null || !waits.has(block.departure.id)) return;
    const next = line.findIndex((other, at) => at > index && other.fixed !== null);
    if (next > 0) for (let at = index; at < next; at++) lateOnes.add(at);
  });
  const starts: number[] = [];
  let end = -Infinity;
  line.forEach((block, index) => {
    let start = Math.max(end + block.gap, block.from);
    if (block.fixed !== null) start = block.fixed.at - block.fixed.offset;
    if (lateOnes.has(index)) start = latest[index] ?? start;
    starts.push(start);
    end = start + block.length;
  });
  return starts;
}

/** A wait of more than the rule at a bare stop, from a stop with a roof: it is spent at the one before. */
function warmStops(
  plan: Plan,
  stops: readonly Stop[],
  line: readonly Block[],
  placed: readonly number[],
  stated: ReadonlySet<string>,
): ReadonlySet<string> {
  const warm = new Set(stated);
  const roof = (id: string | undefined): boolean => {
    const place = plan.places.get(id ?? "");
    const bed = id === stops[0]?.place || id === stops.at(-1)?.place;
    return (place?.shelter ?? false) || (place?.mains ?? false) || place?.kind === "lodging" || bed;
  };
  let best: { id: string; wait: number } | null = null;
  const segmentStart = line.findIndex((block) => block.fixed !== null);
  const close = (): void => {
    if (best !== null) warm.add(best.id);
    best = null;
  };
  if (segmentStart < 0) return warm;
  for (let i = segmentStart + 1; i < line.length; i++) {
    const block = line[i];
    if (block === undefined) continue;
    if (block.departure !== null && block.fixed === null) {
      const nextFixed = line.findIndex((other, at) => at > i && other.fixed !== null);
      const stop = block.departure;
      const after = stops[stops.indexOf(stop) + 1];
      if (nextFixed > 0) {
        if (stop.waitHere) best = { id: stop.id, wait: Infinity };
        else if (roof(stop.place) && !roof(after?.place)) {
          let wait = 0;
          for (let at = i + 1; at <= nextFixed; at++) {
            wait += (placed[at] ?? 0) - ((placed[at - 1] ?? 0) + (line[at - 1]?.length ?? 0));
            if (line[at]?.departure != null) break;
          }
          if (wait > plan.rules.shelterAfter && wait > (best?.wait ?? 0)) best = { id: stop.id, wait };
        }
      }
    }
    if (block.fixed !== null) close();
  }
  return warm;
}
