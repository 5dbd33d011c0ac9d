/** The chain behind an instant: from the fixed instant that pushes it late enough, or up to the one it must be ready for. */
import type { PlanPath } from "../../findings/finding.ts";
import { type Instant, instant, minutes } from "../../time/units.ts";
import type { DayTerm, DutyTimes, Why } from "../day.ts";
import { placedInstant, type TimelineStretch, termOf } from "../people/timeline.ts";
import { AS_IT_WENT, type Edge, ORIGIN } from "./network.ts";
import type { PlacedDay } from "./place.ts";

/** Explains a node; null where it has no instant. */
export function whyNode(placed: PlacedDay, name: string): Why | null {
  const node = placed.build.nodes.get(name);
  const at = placedInstant(placed, name);
  if (node === undefined || at === null) return null;
  const own = standing(placed, node);
  if (own !== null) return { id: name, at, fixedBy: { id: name, at, ...own }, terms: [] };
  // What follows from a fact is held from before.
  const late = !placed.build.pins.at.has(name) && (placed.late.has(node) || isFixed(placed, node));
  const [first, second] = late ? [forward, backward] : [backward, forward];
  return (
    first(placed, name, node, at) ??
    second(placed, name, node, at) ?? { id: name, at, fixedBy: { id: name, at, where: null, by: "plan" }, terms: [] }
  );
}

type Fixed = Why["fixedBy"];

/** By what an instant stands that is logged, or that an edit or a later fact leaves as it was planned; null for any other. */
function standing({ build }: PlacedDay, node: number): Pick<Fixed, "where" | "by"> | null {
  const name = build.network.names[node] ?? "";
  const pin = build.pins.at.get(name);
  if (pin === undefined) return null;
  if (pin.fact !== null) return { where: pin.fact.path, by: "log" };
  return pin.how === "as planned" ? { where: null, by: "planned before" } : null;
}

/** What holds an instant besides itself: what follows from a fact is not held by its own bound. */
const isReason = (placed: PlacedDay, node: number, { label }: Edge): boolean =>
  label?.name !== AS_IT_WENT || standing(placed, node) !== null;

/** A fixed instant as the end of a chain. */
function fixedAt(placed: PlacedDay, node: number, at: Instant, where: PlanPath | null): Fixed {
  const own = standing(placed, node) ?? ({ where, by: "plan" } as const);
  return { id: placed.build.network.names[node] ?? "", at, ...own };
}

/** A call: rounding and the first stretch's own length, then the chain of the instant it leads to. */
export function whyCall(placed: PlacedDay, id: string, tiles: readonly TimelineStretch[]): Why | null {
  const own = tiles.findIndex(({ name, ends }) => name !== "rounding" && ends[0] !== "");
  const first = tiles[own];
  const call = tiles[0]?.from;
  if (call === undefined) return null;
  const isLogged = placed.build.plan.actual.people.get(id.replace(/\.call.*$/u, ""))?.call === call;
  if (first === undefined || isLogged) return went(id, call, "call");
  const leads = own === 0 ? [] : tiles.slice(0, own);
  const [startName, endName] = first.ends;
  const startsAtNode = placedInstant(placed, startName) === first.from;
  const chain = whyNode(placed, startsAtNode ? startName : endName);
  if (chain === null) return null;
  const terms = [...leads, ...(startsAtNode ? [] : [{ ...first, to: chain.at }])].map(termOf);
  if (chain.fixedBy.at < chain.at)
    return { id, at: call, fixedBy: { id: chain.id, at: chain.at, where: null, by: "plan" }, terms };
  return { id, at: call, fixedBy: chain.fixedBy, terms: [...terms, ...chain.terms] };
}

/** A release is the end of the last stretch. */
export function whyRelease(placed: PlacedDay, id: string, tiles: readonly TimelineStretch[]): Why | null {
  const last = tiles.at(-1);
  const own = tiles.findLastIndex(({ ends }) => ends[1] !== "");
  const before = tiles[own];
  if (last === undefined) return null;
  if (before === undefined || placedInstant(placed, before.ends[1]) !== before.to || last.name === "as it went")
    return went(id, last.to, "released");
  const chain = whyNode(placed, before.ends[1]);
  if (chain === null) return null;
  const after = tiles.slice(own + 1).map(termOf);
  if (after.length > 0 && chain.fixedBy.at > chain.at)
    return { id, at: last.to, fixedBy: { id: chain.id, at: chain.at, where: null, by: "plan" }, terms: after };
  return { ...chain, id, at: last.to, terms: [...chain.terms, ...after] };
}

/** What someone is called or released by in the middle of the day: the end or the start of a stand-down; null for neither. */
export function whyStanddown(
  placed: PlacedDay,
  id: string,
  downs: readonly TimelineStretch[],
  end: { readonly at: Instant; readonly of: "call" | "release" },
): Why | null {
  const down = downs.find(({ from, to }) => end.at === (end.of === "call" ? to : from));
  const chain = down === undefined ? null : whyNode(placed, down.ends[end.of === "call" ? 1 : 0]);
  return chain === null ? null : { ...chain, id };
}

/** The stretches of one of someone's duties; null for none. */
export const tilesOfDuty = (
  tiles: readonly TimelineStretch[],
  duty: DutyTimes | undefined,
): readonly TimelineStretch[] | null =>
  duty === undefined ? null : tiles.filter(({ from, to }) => from >= duty.call && to <= duty.release);

/** What is stated as it went has no chain behind it but that statement. */
const went = (id: string, at: Instant, what: string): Why => {
  const who = id.slice(0, id.lastIndexOf("."));
  return { id, at, fixedBy: { id, at, where: ["actual", who, what], by: "log" }, terms: [] };
};

type Step = { readonly node: number; readonly edge: Edge; readonly before: Step | null };

/** Up to the fixed instant that a late node must be ready for. */
function forward(placed: PlacedDay, name: string, node: number, at: Instant): Why | null {
  const { value, build } = placed;
  const tight = (here: number): readonly Edge[] =>
    build.network
      .out(here)
      .filter(
        (edge) =>
          !edge.backward &&
          (value[here] ?? 0) + edge.weight === (edge.to === ORIGIN ? 0 : value[edge.to]) &&
          (edge.to !== ORIGIN || isReason(placed, here, edge)),
      );
  const found = search(node, tight, (edge) => edge.to);
  if (found === null) return null;
  const edges = pathOf(found.before);
  const end = instant(-found.edge.weight);
  return {
    id: name,
    at,
    fixedBy: fixedAt(placed, found.edge.from, end, found.edge.label?.where ?? null),
    terms: termsFrom(at, edges),
  };
}

/** From the fixed instant, or the late-placed one, that holds an early node back. */
function backward(placed: PlacedDay, name: string, node: number, at: Instant): Why | null {
  const { value, build, late } = placed;
  const tight = (here: number): readonly Edge[] =>
    late.has(here) && here !== node
      ? []
      : build.network
          .into(here)
          .filter(
            (edge) =>
              !edge.backward &&
              (edge.from === ORIGIN ? 0 : (value[edge.from] ?? 0)) + edge.weight === value[here] &&
              (edge.from !== ORIGIN || isReason(placed, here, edge)),
          );
  const found = search(
    node,
    tight,
    (edge) => edge.from,
    (here) => late.has(here),
  );
  if (found === null) return null;
  const steps = pathOf(found.edge.from === ORIGIN ? found.before : found);
  const edges = [...steps].reverse();
  const startNode = found.edge.from === ORIGIN ? found.edge.to : found.edge.from;
  const start = instant(value[startNode] ?? at);
  const where = found.edge.from === ORIGIN ? (found.edge.label?.where ?? null) : null;
  return {
    id: name,
    at,
    fixedBy: fixedAt(placed, startNode, start, where),
    terms: termsFrom(start, edges),
  };
}

const isFixed = ({ build }: PlacedDay, node: number): boolean =>
  build.network.out(node).some((edge) => edge.bound === "fixed") &&
  build.network.into(node).some((edge) => edge.from === ORIGIN);

/** Breadth first over tight edges until one at the origin (or into a node that `stops`): the chain with the fewest lengths. */
function search(
  start: number,
  tight: (node: number) => readonly Edge[],
  next: (edge: Edge) => number,
  stops: (node: number) => boolean = () => false,
): Step | null {
  const seen = new Set([start]);
  let frontier: { node: number; step: Step | null }[] = [{ node: start, step: null }];
  let stopped: Step | null = null;
  while (frontier.length > 0) {
    const further: { node: number; step: Step | null }[] = [];
    for (const { node, step } of frontier) {
      for (const edge of tight(node)) {
        const to = next(edge);
        const made: Step = { node: to, edge, before: step };
        if (to === ORIGIN) return made;
        if (seen.has(to)) continue;
        seen.add(to);
        if (stops(to)) stopped ??= made;
        else further.push({ node: to, step: made });
      }
    }
    frontier = further;
  }
  return stopped;
}

function pathOf(step: Step | null): readonly Edge[] {
  const edges: Edge[] = [];
  for (let at = step; at !== null; at = at.before) edges.unshift(at.edge);
  return edges;
}

function termsFrom(start: Instant, edges: readonly Edge[]): readonly DayTerm[] {
  let at = start;
  return edges.flatMap((edge) => {
    const from = at;
    at = instant(at + edge.weight);
    if (edge.weight === 0) return [];
    const label = edge.label ?? { name: "wait", where: null, place: null, vehicle: null, activity: null };
    return [{ ...label, from, to: at, minutes: minutes(edge.weight) }];
  });
}
