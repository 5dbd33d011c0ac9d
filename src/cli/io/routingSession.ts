/**
 * What one process has learnt of routing servers: answers and refusals by pair of points, servers not worth asking again,
 * and how long it has waited for all of them together.
 */
import type { Implausible, RoutedAnswer } from "../../library/routing.ts";

/** Why a server is not asked again. */
export interface ServerSilence {
  readonly kind: "unreachable" | "refused" | "unreadable";
  readonly why: string;
}

/** Why a pair has no answer: the server's word, a table that leaves it out, or an answer that cannot be right. */
export type Refusal =
  | { readonly kind: "refused"; readonly why: string }
  | { readonly kind: "left out" }
  | { readonly kind: "implausible"; readonly answer: RoutedAnswer; readonly doubt: Implausible };

/** What one process has asked so far, so that a pair is asked once and a dead server is left alone. */
export interface RoutingSession {
  /** What is left of the time to wait for servers, ms. */
  left: number;
  /** By address and pair of points. */
  readonly answers: Map<string, RoutedAnswer>;
  /** By the same key. */
  readonly refusals: Map<string, Refusal>;
  /** By address. */
  readonly silent: Map<string, ServerSilence>;
}

/** How long a process waits for routing servers in all, ms; what is not answered by then is estimated. */
export const WAIT_IN_ALL = 15_000;

/** A session that has asked nothing. */
export const newSession = (): RoutingSession => ({
  left: WAIT_IN_ALL,
  answers: new Map(),
  refusals: new Map(),
  silent: new Map(),
});

/** By the function that asks, which every part of a run shares. */
const sessions = new WeakMap<object, RoutingSession>();

/** The one session of a process (of a thread, where many plans are checked on several). */
export function sessionOf(fetch: object): RoutingSession {
  const known = sessions.get(fetch) ?? newSession();
  sessions.set(fetch, known);
  return known;
}

/** At the next save under `--watch` a server may be there again; what it answered stands. */
export function renewWait(fetch: object): void {
  const session = sessions.get(fetch);
  if (session === undefined) return;
  session.left = WAIT_IN_ALL;
  session.silent.clear();
}
