/**
 * Every id of a plan and what it names. Ids are unique over the whole plan, so that any can be named anywhere; a group
 * (`dawn` for `dawn.1` and `dawn.2`) is an id too.
 */
import type { PlanPath } from "../../findings/finding.ts";
import { nearest, slipOf } from "../../findings/nearest.ts";
import { idAlike, idBad, idReserved, idTwice, idUnknown } from "../findings.ts";
import { wordTest } from "../shape/patterns.ts";
import type { Id } from "../terms.ts";
import { type Mistake, mistaken, type Parsed, parsed } from "../values/parsed.ts";
import { plainSigns } from "../values/signs.ts";

/** The section that declares a kind. */
const SECTION = {
  person: "crew",
  vehicle: "vehicles",
  place: "places",
  hit: "hits",
  task: "tasks",
  ride: "rides",
  "piece of kit": "kit",
  pack: "packs",
  charger: "chargers",
  path: "paths",
  line: "lines",
  contract: "contracts",
  stop: "runs",
} as const;

/** As findings call them: "is not a person". */
export type IdKind = keyof typeof SECTION;

interface Named {
  readonly kind: IdKind;
  readonly path: PlanPath;
  /** What the id stands for, in order; itself alone where it is no group. */
  readonly members: readonly Id[];
}

const hasShape = wordTest(
  /^[A-Za-z0-9](?:[A-Za-z0-9]|-(?=[A-Za-z0-9]))*$/,
  () => /^[\p{L}\p{N}](?:[\p{L}\p{M}\p{N}]|-(?=[\p{L}\p{N}]))*$/u,
);
const hasLetter = wordTest(/[A-Za-z]/, () => /\p{L}/u);
const MOST_LETTERS = 40;
const RESERVED = new Set(["all", "aboard", "none", "here", "local", "hits", "tasks", "dark", "off"]);
/** What other YAML tools turn into a boolean or into nothing when they save a plan. */
const NO_TEXT = new Set(["yes", "no", "on", "true", "false", "null"]);

/** The mistake in an id as it is declared, or null. */
export function idMistake(id: string): Mistake | null {
  if (RESERVED.has(id) || NO_TEXT.has(id.toLowerCase()))
    return (c) => idReserved.raise({ id, is: RESERVED.has(id) ? null : "not text to other YAML tools" }, c);
  if (id.length <= MOST_LETTERS && hasShape(id) && hasLetter(id)) return null;
  return (c) => idBad.raise({ id: id.slice(0, 80), fix: repaired(id) }, c);
}

/** `ore dock` as `oreDock`, `dock_2` as `dock-2`. */
function repaired(id: string): string | null {
  const [first = "", ...others] = plainSigns(id)
    .split(/[^\p{L}\p{M}\p{N}-]+/u)
    .filter((part) => part !== "");
  const joined = [first, ...others.map(joinedOn)].join("");
  return hasShape(joined) && joined.length <= MOST_LETTERS && joined !== id ? joined : null;
}

const joinedOn = (part: string): string =>
  /^\d/.test(part) ? `-${part}` : part.charAt(0).toUpperCase() + part.slice(1);

/** No one types a longer list of ids. */
const LONGEST_LIST = 500;

/** `wren and ilse` as `[wren, ilse]`, where each is known. */
function severalOf(text: string, known: ReadonlySet<string>): string | null {
  if (text.length > LONGEST_LIST) return null;
  const parts = text.split(/\s*[,;&/+]\s*|\s+(?:and\s+)?/);
  return parts.length > 1 && parts.every((part) => known.has(part)) ? `[${parts.join(", ")}]` : null;
}

/** The ids of one plan. */
export class Ids {
  private readonly named = new Map<Id, Named>();
  /** The first id of each spelling in small letters. */
  private readonly folded = new Map<string, Id>();
  /** Declared with a mistake: known enough not to be called unknown as well. */
  private readonly spoiled = new Set<Id>();
  /** Declared, but no ids at all: never offered. */
  private readonly unfit = new Set<Id>();
  /** What such an id should have been, to what it is: who names it rightly is not corrected again. */
  private readonly mended = new Map<Id, Id>();

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

  /** The earlier id that differs from this one in upper and lower case alone, and what to say about both; null where none does. */
  alike(id: Id): { readonly first: PlanPath; readonly mistake: Mistake } | null {
    const folded = id.normalize("NFC").toLowerCase();
    const other = this.folded.get(folded);
    if (other === undefined) this.folded.set(folded, id);
    const [one, earlier] = [this.named.get(id), other === undefined ? undefined : this.named.get(other)];
    if (other === undefined || other === id || one === undefined || earlier === undefined) return null;
    const facts = { id, is: `a ${one.kind}`, other, otherIs: `a ${earlier.kind}` };
    return { first: earlier.path, mistake: (c) => idAlike.raise(facts, c) };
  }

  /** Declares what cannot be an id: whatever names it finds it. */
  declareUnfit(id: Id): void {
    this.unfit.add(id);
    const fix = repaired(id);
    if (fix !== null && !this.mended.has(fix)) this.mended.set(fix, id);
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

  /**
   * What an id of one of `kinds` stands for. `other` names are offered as near ones too; `words`, which the key takes besides
   * ids, only where no name is near.
   */
  find(
    id: Id,
    kinds: readonly IdKind[],
    other: readonly string[] = [],
    words: readonly string[] = [],
  ): Parsed<readonly Id[]> {
    const found = this.named.get(id) ?? this.named.get(this.mended.get(id) ?? id);
    if (found !== undefined && (kinds.includes(found.kind) || this.spoiled.has(id))) return parsed(found.members);
    const fits = ([name, one]: readonly [Id, Named]): boolean => kinds.includes(one.kind) && !this.unfit.has(name);
    const known = [...[...this.named].filter(fits).map(([name]) => name), ...other];
    const facts = {
      id,
      what: kinds.join(" or "),
      sections: kinds.map((kind) => SECTION[kind]),
      near:
        severalOf(id, new Set(known)) ??
        nearest(id, known) ??
        slipOf(
          id,
          words.filter((word) => word.charAt(0) === id.charAt(0).toLowerCase()),
        ),
      known: known.length === 0 ? [] : [...known, ...words],
      is: found === undefined ? null : `a ${found.kind}`,
    };
    return mistaken((c) => idUnknown.raise(facts, c));
  }
}
