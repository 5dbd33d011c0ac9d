/**
 * Every id of a plan and what it names. Ids are unique over the whole plan, so that any can be named anywhere; a group
 * (`dawn` for `dawn.1` and `dawn.2`) is an id too.
 */
import type { PlanPath } from "../findings/finding.ts";
import { nearest } from "../findings/nearest.ts";
import { idBad, idReserved, idTwice, idUnknown } from "./findings.ts";
import { wordTest } from "./letters.ts";
import type { Id } from "./plan.ts";
import { type Mistake, mistaken, type Parsed, parsed } from "./values/parsed.ts";

export type IdKind =
  | "person"
  | "vehicle"
  | "place"
  | "hit"
  | "task"
  | "ride"
  | "piece of kit"
  | "pack"
  | "charger"
  | "path"
  | "line"
  | "contract"
  | "stop";

interface Named {
  readonly kind: IdKind;
  readonly path: PlanPath;
  /** What the id stands for, in order; itself alone where it is no group. */
  readonly members: readonly Id[];
}

const hasShape = wordTest(
  /^[A-Za-z0-9](?:[A-Za-z0-9]|-(?=[A-Za-z0-9]))*$/,
  /^[\p{L}\p{N}](?:[\p{L}\p{M}\p{N}]|-(?=[\p{L}\p{N}]))*$/u,
);
const hasLetter = wordTest(/[A-Za-z]/, /\p{L}/u);
const MOST_LETTERS = 40;
const RESERVED = new Set(["all", "aboard", "none", "here", "local", "hits", "tasks", "dark", "off"]);

/** The mistake in an id as it is declared, or null. */
export function idMistake(id: string): Mistake | null {
  if (RESERVED.has(id)) return (c) => idReserved.raise({ id }, c);
  if (id.length <= MOST_LETTERS && hasShape(id) && hasLetter(id)) return null;
  return (c) => idBad.raise({ id: id.slice(0, 80), fix: repaired(id) }, c);
}

/** `ore dock` as `oreDock`. */
function repaired(id: string): string | null {
  const [first = "", ...others] = id.split(/[^\p{L}\p{M}\p{N}-]+/u).filter((part) => part !== "");
  const joined = [first, ...others.map((part) => part.charAt(0).toUpperCase() + part.slice(1))].join("");
  return hasShape(joined) && joined.length <= MOST_LETTERS && joined !== id ? joined : null;
}

export class Ids {
  private readonly named = new Map<Id, Named>();
  /** Declared with a mistake: known enough not to be called unknown as well. */
  private readonly spoiled = new Set<Id>();

  /** Declares an id, a group where `members` are given; returns the mistake where it is taken. */
  declare(id: Id, kind: IdKind, path: PlanPath, members: readonly Id[] = [id]): Mistake | null {
    const earlier = this.named.get(id);
    if (earlier === undefined) {
      this.named.set(id, { kind, path, members });
      return null;
    }
    this.spoiled.add(id);
    return (c) => idTwice.raise({ id, first: `a ${earlier.kind}`, second: `a ${kind}` }, c);
  }

  /** Where an id is declared. */
  pathOf(id: Id): PlanPath | null {
    return this.named.get(id)?.path ?? null;
  }

  kindOf(id: Id): IdKind | null {
    return this.named.get(id)?.kind ?? null;
  }

  /** All ids of a kind that stand for themselves, in the order of the file. */
  allOf(kind: IdKind): readonly Id[] {
    return [...this.named].flatMap(([id, one]) => (one.kind === kind && !this.isGroup(id) ? [id] : []));
  }

  isGroup(id: Id): boolean {
    const members = this.named.get(id)?.members;
    return members !== undefined && !(members.length === 1 && members[0] === id);
  }

  groups(): ReadonlyMap<Id, readonly Id[]> {
    return new Map([...this.named].flatMap(([id, { members }]) => (this.isGroup(id) ? [[id, members] as const] : [])));
  }

  /** What an id of one of `kinds` stands for. `other` words are offered as near ones too. */
  find(id: Id, kinds: readonly IdKind[], other: readonly string[] = []): Parsed<readonly Id[]> {
    const found = this.named.get(id);
    if (found !== undefined && (kinds.includes(found.kind) || this.spoiled.has(id))) return parsed(found.members);
    const known = [...this.named].flatMap(([name, one]) => (kinds.includes(one.kind) ? [name] : []));
    const facts = {
      id,
      what: kinds.join(" or "),
      near: nearest(id, [...known, ...other]),
      known: [...known, ...other],
      is: found === undefined ? null : `a ${found.kind}`,
    };
    return mistaken((c) => idUnknown.raise(facts, c));
  }
}
