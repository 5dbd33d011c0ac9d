/**
 * Asks the routing server that a plan names: kept answers first, then what this process has already heard, then the server.
 *
 * Nothing here stops a plan: a server that is silent, refuses or talks nonsense is reported once, and roads are estimated.
 */
import type { Coordinates, Finding, Id, Plan, Routing } from "../../index.ts";
import {
  answerImplausible,
  asksOf,
  greatCircleKm,
  type Implausible,
  implausibleAnswer,
  type Kept,
  keepUnreadable,
  keptKey,
  keptText,
  legKey,
  type Read,
  type RoutedAnswer,
  type RoutedAnswers,
  type RouteQuery,
  readKept,
  readRoute,
  readTable,
  routeUrl,
  routingRefused,
  routingUnreachable,
  routingUnreadable,
  tableUrl,
} from "../../library/routing.ts";
import { type Fetch, request } from "./request.ts";
import { type RoutingSession, type ServerSilence, WAIT_IN_ALL } from "./routingSession.ts";

/** What asking a routing server needs of the machine; tests give their own. */
export interface RoutingEdge {
  readonly fetch: Fetch;
  readonly session: RoutingSession;
  /** Milliseconds since any moment. */
  readonly now: () => number;
  /** The text of the file of kept answers; null where there is none. */
  readonly kept: string | null;
  /** How long one request may take, ms. */
  readonly timeout: number;
  /** Also asks for the way between all places, for the gaps of `drives`. */
  readonly gaps: boolean;
}

/** The answers for one plan, the file to keep them in, and findings about them. */
export interface RoutingAnswer {
  readonly routed: RoutedAnswers;
  /** What the kept file should hold now; null where it holds that already, holds something else, or the plan keeps nothing. */
  readonly keep: string | null;
  readonly findings: readonly Finding[];
}

/** Milliseconds that a server has for one answer. */
export const TIMEOUT = 5000;

/** The most places of one table request. */
const MOST_PLACES = 100;

interface Asking {
  readonly routing: Routing;
  readonly edge: RoutingEdge;
  readonly kept: Map<string, RoutedAnswer>;
  readonly findings: Finding[];
}

const sessionKey = ({ routing }: Asking, ask: RouteQuery): string => `${routing.url} ${keptKey(ask.ends)}`;

const isSilent = ({ edge, routing }: Asking): boolean => edge.session.silent.has(routing.url);

/** Nothing more will be heard about a pair: it is answered, refused, or its server is not asked again. */
const isSettled = (asking: Asking, ask: RouteQuery): boolean =>
  isSilent(asking) || asking.kept.has(keptKey(ask.ends)) || asking.edge.session.refusals.has(sessionKey(asking, ask));

const RAISES = { unreachable: routingUnreachable, refused: routingRefused, unreadable: routingUnreadable } as const;

function report(asking: Asking, { kind, why }: ServerSilence, ask: Pick<RouteQuery, "from" | "to"> | null): void {
  const { url, path } = asking.routing;
  const facts = { url, why, from: ask?.from ?? null, to: ask?.to ?? null };
  asking.findings.push(RAISES[kind].raise(facts, { path: [...path, "url"] }));
}

const TOO_SLOW: ServerSilence = {
  kind: "unreachable",
  why: `routing servers have taken ${WAIT_IN_ALL / 1000} s, the most that a run waits for them`,
};

/** One request, read; null where the server does not help. `pair` is what it is about, where it is about one pair. */
async function asked<T>(
  asking: Asking,
  url: string,
  pair: RouteQuery | null,
  read: (status: number, body: string) => Read<T>,
): Promise<T | null> {
  const { fetch, session, timeout, now } = asking.edge;
  const silent = (silence: ServerSilence): null => {
    session.silent.set(asking.routing.url, silence);
    return null;
  };
  if (session.left <= 0) return silent(TOO_SLOW);
  const began = now();
  const reply = await request(fetch, url, Math.min(timeout, session.left));
  session.left -= now() - began;
  if (reply.kind === "none") return silent({ kind: "unreachable", why: reply.why });
  if (reply.kind === "endless") return silent({ kind: "unreadable", why: "its answer is longer than 1 MiB" });
  const answer = read(reply.status, reply.body);
  if (answer.kind === "read") return answer.value;
  if (answer.kind === "unreadable") return silent({ kind: "unreadable", why: answer.why });
  if (!answer.onlyThis || pair === null) return silent({ kind: "refused", why: answer.why });
  session.refusals.set(sessionKey(asking, pair), { kind: "refused", why: answer.why });
  return null;
}

function doubtOf({ ends }: RouteQuery, answer: RoutedAnswer): Implausible | null {
  return implausibleAnswer(answer, greatCircleKm(...ends));
}

/** Takes an answer that may be right; another is refused like a pair that the server does not know. */
function take(asking: Asking, ask: RouteQuery, answer: RoutedAnswer): void {
  const { answers, refusals } = asking.edge.session;
  const doubt = doubtOf(ask, answer);
  if (doubt === null) {
    asking.kept.set(keptKey(ask.ends), answer);
    answers.set(sessionKey(asking, ask), answer);
    return;
  }
  refusals.set(sessionKey(asking, ask), { kind: "implausible", answer, doubt });
}

async function askLegs(asking: Asking, asks: readonly RouteQuery[]): Promise<void> {
  for (const ask of asks) {
    if (isSettled(asking, ask)) continue;
    const answer = await asked(asking, routeUrl(asking.routing.url, ask.ends), ask, readRoute);
    if (answer !== null) take(asking, ask, answer);
  }
}

/** The pairs that are still open, in one table of the places in them. */
async function askTable(asking: Asking, plan: Plan, asks: readonly RouteQuery[]): Promise<void> {
  const open = asks.filter((ask) => !isSettled(asking, ask));
  const named = new Set(open.flatMap(({ from, to }) => [from, to]));
  const places = [...plan.places.values()]
    .flatMap(({ id, at }): readonly { readonly id: Id; readonly at: Coordinates }[] =>
      at === null || !named.has(id) ? [] : [{ id, at }],
    )
    .slice(0, MOST_PLACES);
  if (open.length === 0) return;
  const [ids, points] = [places.map(({ id }) => id), places.map(({ at }) => at)];
  const answer = await asked(asking, tableUrl(asking.routing.url, points), null, (status, body) =>
    readTable(status, body, ids),
  );
  if (answer === null) return;
  for (const ask of open) {
    const found = answer.get(legKey(ask.from, ask.to));
    if (isSettled(asking, ask)) continue;
    if (found !== undefined) take(asking, ask, found);
    else if (ids.includes(ask.from) && ids.includes(ask.to))
      asking.edge.session.refusals.set(sessionKey(asking, ask), { kind: "left out" });
  }
}

function allPairs(plan: Plan): readonly { readonly from: Id; readonly to: Id }[] {
  const ids = [...plan.places.keys()];
  return ids.flatMap((from) => ids.flatMap((to) => (from === to ? [] : [{ from, to }])));
}

/** Kept answers that may be right, and those that this process has heard; an implausible one is asked for again. */
function known(asking: Asking, before: Kept, asks: readonly RouteQuery[]): void {
  const doubtful = new Set(
    asks.flatMap((ask) => {
      const answer = before.get(keptKey(ask.ends));
      return answer !== undefined && doubtOf(ask, answer) !== null ? [keptKey(ask.ends)] : [];
    }),
  );
  for (const [key, answer] of before) if (!doubtful.has(key)) asking.kept.set(key, answer);
  for (const ask of asks) {
    const heard = asking.edge.session.answers.get(sessionKey(asking, ask));
    if (heard !== undefined && !asking.kept.has(keptKey(ask.ends))) asking.kept.set(keptKey(ask.ends), heard);
  }
}

/** One finding for each pair of places without an answer, whichever way it is driven, and one for a server that is not asked again. */
function reportRefusals(asking: Asking, legs: readonly RouteQuery[]): void {
  const { session } = asking.edge;
  const reported = new Set<string>();
  for (const { from, to, ends } of legs) {
    const refusal = session.refusals.get(sessionKey(asking, { from, to, ends }));
    const pair = JSON.stringify([[from, to].sort(), refusal]);
    if (reported.has(pair)) continue;
    reported.add(pair);
    if (refusal?.kind === "refused") report(asking, refusal, { from, to });
    if (refusal?.kind !== "implausible") continue;
    const { minutes, km } = refusal.answer;
    const facts = { from, to, minutes, km, straightKm: greatCircleKm(...ends), doubt: refusal.doubt };
    asking.findings.push(answerImplausible.raise(facts, { path: [...asking.routing.path, "url"] }));
  }
  const silence = session.silent.get(asking.routing.url);
  if (silence !== undefined) report(asking, silence, null);
}

/** The routed answers for a plan; empty, and no request made, where it names no server. */
export async function askRouting(plan: Plan, edge: RoutingEdge): Promise<RoutingAnswer> {
  const { routing } = plan;
  if (routing === null) return { routed: new Map(), keep: null, findings: [] };
  const findings: Finding[] = [];
  const before = edge.kept === null ? new Map<string, RoutedAnswer>() : readKept(edge.kept);
  if (before === null && routing.keep !== null) {
    const facts = { file: routing.keep, why: "it is not a file of routing answers" };
    findings.push(keepUnreadable.raise(facts, { path: [...routing.path, "keep"] }));
  }
  const asking: Asking = { routing, edge, kept: new Map(), findings };
  const legs = asksOf(plan);
  const wanted = edge.gaps ? asksOf(plan, allPairs(plan)) : legs;
  known(asking, before ?? new Map(), [...legs, ...wanted]);
  await askLegs(asking, legs);
  if (edge.gaps) await askTable(asking, plan, wanted);
  reportRefusals(asking, legs);
  const routed = new Map<string, RoutedAnswer>();
  for (const { from, to, ends } of [...legs, ...wanted]) {
    const answer = asking.kept.get(keptKey(ends));
    if (answer !== undefined) routed.set(legKey(from, to), answer);
  }
  return { routed, keep: before === null || routing.keep === null ? null : toKeep(asking, before, wanted), findings };
}

/** The text to keep where there is an answer that the file has not. */
function toKeep({ kept }: Asking, before: Kept, asks: readonly RouteQuery[]): string | null {
  const isNew = [...kept].some(([key, answer]) => {
    const old = before.get(key);
    return old === undefined || old.minutes !== answer.minutes || old.km !== answer.km;
  });
  return isNew ? keptText(kept, new Set(asks.map(({ ends }) => keptKey(ends)))) : null;
}
