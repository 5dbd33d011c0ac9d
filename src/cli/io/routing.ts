/**
 * Asks the routing server that a plan names: kept answers first, then the server, each request with a time limit.
 *
 * Nothing here stops a plan: a server that is silent, refuses or talks nonsense is told once, and roads are estimated.
 */
import type { Finding } from "../../findings/finding.ts";
import { legKey } from "../../legs/leg.ts";
import type { RoutedAnswer, RoutedAnswers } from "../../legs/legs.ts";
import {
  type Ask,
  asksOf,
  keptKey,
  keptText,
  type Read,
  readKept,
  readRoute,
  readTable,
  routeUrl,
  tableUrl,
} from "../../legs/routing.ts";
import type { Id, Plan, Routing } from "../../plan/plan.ts";
import { keepUnreadable, routingRefused, routingUnreachable, routingUnreadable } from "../../roads/findings.ts";

/** The part of `fetch` that is used. */
export type Fetch = (
  url: string,
  options: {
    readonly signal: AbortSignal;
    readonly redirect: "manual";
    readonly headers: Readonly<Record<string, string>>;
  },
) => Promise<{ readonly status: number; text(): Promise<string> }>;

export interface RoutingEdge {
  readonly fetch: Fetch;
  /** The text of the file of kept answers; null where there is none. */
  readonly kept: string | null;
  /** How long one request may take, ms. */
  readonly timeout: number;
  /** Also asks for the way between all places, for the gaps of `drives`. */
  readonly gaps: boolean;
}

export interface RoutingAnswer {
  readonly routed: RoutedAnswers;
  /** What the kept file should hold now; null where it holds that already or the plan keeps nothing. */
  readonly keep: string | null;
  readonly findings: readonly Finding[];
}

export const TIMEOUT = 5000;

/** The most places of one table request. */
const MOST_PLACES = 100;

interface Asking {
  readonly routing: Routing;
  readonly edge: RoutingEdge;
  readonly kept: Map<string, RoutedAnswer>;
  readonly findings: Finding[];
  /** Set once the server is not worth asking again. */
  over: boolean;
}

const reason = (error: unknown, timeout: number): string => {
  if (!(error instanceof Error)) return "no connection";
  if (error.name === "TimeoutError" || error.name === "AbortError") return `no answer within ${timeout / 1000} s`;
  const { cause } = error;
  const code = typeof cause === "object" && cause !== null && "code" in cause ? cause.code : null;
  return typeof code === "string" ? code : "no connection";
};

/** One request, read; null where the server does not answer. */
async function ask<T>(asking: Asking, url: string, read: (status: number, body: string) => Read<T>): Promise<T | null> {
  const { edge, routing, findings } = asking;
  const where = { path: [...routing.path, "url"] };
  try {
    const signal = AbortSignal.timeout(edge.timeout);
    const response = await edge.fetch(url, { signal, redirect: "manual", headers: { accept: "application/json" } });
    const answer = read(response.status, await response.text());
    if (answer.kind === "read") return answer.value;
    const raise = answer.kind === "refused" ? routingRefused : routingUnreadable;
    findings.push(raise.raise({ url: routing.url, why: answer.why }, where));
    asking.over = answer.kind === "unreadable" || !answer.onlyThis;
  } catch (error) {
    findings.push(routingUnreachable.raise({ url: routing.url, why: reason(error, edge.timeout) }, where));
    asking.over = true;
  }
  return null;
}

async function askLegs(asking: Asking, asks: readonly Ask[]): Promise<void> {
  for (const { ends } of asks) {
    if (asking.over) return;
    if (asking.kept.has(keptKey(ends))) continue;
    const answer = await ask(asking, routeUrl(asking.routing.url, ends), readRoute);
    if (answer !== null) asking.kept.set(keptKey(ends), answer);
  }
}

/** All pairs of places with coordinates, in one table; only where something of it is missing. */
async function askTable(asking: Asking, plan: Plan, asks: readonly Ask[]): Promise<void> {
  const places = [...plan.places.values()]
    .flatMap(({ id, at }) => (at === null ? [] : [{ id, at }]))
    .slice(0, MOST_PLACES);
  if (asking.over || asks.every(({ ends }) => asking.kept.has(keptKey(ends)))) return;
  const url = tableUrl(
    asking.routing.url,
    places.map(({ at }) => at),
  );
  const answer = await ask(asking, url, (status, body) =>
    readTable(
      status,
      body,
      places.map(({ id }) => id),
    ),
  );
  for (const { from, to, ends } of asks) {
    const found = answer?.get(legKey(from, to));
    if (found !== undefined && !asking.kept.has(keptKey(ends))) asking.kept.set(keptKey(ends), found);
  }
}

function allPairs(plan: Plan): readonly { readonly from: Id; readonly to: Id }[] {
  const ids = [...plan.places.keys()];
  return ids.flatMap((from) => ids.flatMap((to) => (from === to ? [] : [{ from, to }])));
}

/** The routed answers for a plan; empty, and no request made, where it names no server. */
export async function askRouting(plan: Plan, edge: RoutingEdge): Promise<RoutingAnswer> {
  const { routing } = plan;
  if (routing === null) return { routed: new Map(), keep: null, findings: [] };
  const findings: Finding[] = [];
  const before = edge.kept === null ? new Map<string, RoutedAnswer>() : readKept(edge.kept);
  if (before === null && routing.keep !== null) {
    findings.push(
      keepUnreadable.raise(
        { file: routing.keep, why: "not a file of routing answers" },
        { path: [...routing.path, "keep"] },
      ),
    );
  }
  const asking: Asking = { routing, edge, kept: new Map(before), findings, over: false };
  const legs = asksOf(plan);
  const wanted = edge.gaps ? asksOf(plan, allPairs(plan)) : legs;
  await askLegs(asking, legs);
  if (edge.gaps) await askTable(asking, plan, wanted);
  const routed = new Map<string, RoutedAnswer>();
  for (const { from, to, ends } of [...legs, ...wanted]) {
    const answer = asking.kept.get(keptKey(ends));
    if (answer !== undefined) routed.set(legKey(from, to), answer);
  }
  const changed = routing.keep !== null && asking.kept.size > (before?.size ?? 0);
  return { routed, keep: changed ? keptText(asking.kept) : null, findings };
}
