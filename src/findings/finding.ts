/**
 * The one type for everything the program says about a plan: mistakes in its text and judgements of its day.
 *
 * A finding is a code, facts and a chain. Its sentence and hint belong to the catalogue entry of its code (`define`),
 * which every topic keeps in a `findings.ts` of its own; `catalogue.ts` lists them all.
 */
import type { Instant, ZoneId } from "../time/units.ts";

/** How bad a finding is; only an error stops a plan. */
export type Level = "error" | "warning" | "note";

/** A place in a text: 1-based line and column (in UTF-16 units), `length` 0 where only a point is known. */
export interface Span {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly length: number;
  /** The whole source line, for the excerpt. */
  readonly text: string;
  /** The file has no such line there: the text is an edit of it, or a new one, that was never written. */
  readonly unwritten?: true;
}

/** The span as a place in a file; null where no file has that line. */
export const inFile = (span: Span | null): Span | null => (span?.unwritten === true ? null : span);

/** How a file is called in positions. */
export const fileText = ({ file, unwritten }: Span): string =>
  unwritten === true ? `${file} as it would be written` : file;

/** Keys from the root of a plan to a value: `["hits", "dawn", "at"]`. */
export type PlanPath = readonly (string | number)[];

/** One named length in a chain of reasoning; `where` is the plan line that says how long it is. */
export interface ReasonTerm {
  readonly name: string;
  readonly from: Instant;
  readonly to: Instant;
  readonly minutes: number;
  readonly where: PlanPath | null;
}

/** The rule or publication behind a finding. `clause` null where the source is one figure. */
export interface Source {
  readonly title: string;
  readonly clause: string | null;
}

/** A value inside a finding; `{ at }` is worded on a clock of the view. */
export type Fact = string | number | boolean | null | readonly string[] | { readonly at: Instant };
/** The values of a finding by name. */
export type Facts = Readonly<Record<string, Fact>>;

/**
 * How a sentence words a value: on the plan's clocks, with the plan's names. Built from a Plan in `reports/shared/wording.ts`;
 * a mistake in a plan that cannot be read is worded without one.
 */
export interface Wording {
  /** `07:00 New York (06:00 Chicago)`; the second clock only where it differs. */
  time(at: Instant, place?: string | null): string;
  /** `06:00` on one clock. */
  clock(at: Instant, zone: ZoneId): string;
  /** `8 h 15 min`. */
  length(minutes: number): string;
  /** The display name of a person, vehicle, place, piece; the id itself where it has none. */
  name(id: string): string;
  /** The day that is judged, for a finding in a file that several days share. */
  readonly day?: { readonly file: string | null; readonly date: string };
  /** Ids as they are listed in words: people by call, everything else as given. Left out where no one is called. */
  inOrder?(ids: readonly string[]): readonly string[];
  /** Whether these are all the people of the plan. */
  isWholeCrew?(ids: readonly string[]): boolean;
  /** The plan line that says a value: `day.yaml:14`; null where the text has none. */
  where?(path: PlanPath): string | null;
}

/** Something that a plan, a day or a log has wrong, with its place and facts, without words. */
export interface Finding {
  readonly code: string;
  readonly level: Level;
  /** True for a breach of law, which `accept` cannot silence. */
  readonly law: boolean;
  readonly facts: Facts;
  readonly chain: readonly ReasonTerm[];
  readonly shortMinutes: number | null;
  readonly who: string | null;
  readonly at: Instant | null;
  readonly path: PlanPath | null;
  readonly span: Span | null;
  /** The other party of a conflict: "first defined here". */
  readonly related: readonly { readonly span: Span; readonly label: string }[];
  readonly source: Source | null;
  /** Why the plan's author takes it knowingly, or null. */
  readonly accepted: string | null;
  /** What is wrong, without advice. */
  sentence(say: Wording): string;
  /** Why, under the marked spot; null where the sentence says it all. */
  label(say: Wording): string | null;
  /** What to do, imperative; null where nothing short helps. */
  hint(say: Wording): string | null;
  /** Words of its own for several people with the same finding; null where the first one's words and a list do. */
  readonly shared: ((who: readonly string[], say: Wording) => SharedWords) | null;
  /** Ids of the other people, hits or things with the same finding, where a view joins them into this one. */
  readonly also?: readonly string[];
}

/** The sentence and hint for several people with the same finding. */
export interface SharedWords {
  readonly sentence: string;
  readonly hint: string | null;
}

/** A second level of a code, with its case in words that follow "and an error": `where the tank runs dry`. */
export interface Otherwise {
  readonly level: Level;
  readonly when: string;
}

/** The sentence; in a file that several days share it begins with the day that is meant. */
export function sentenceOf(finding: Finding, say: Wording): string {
  const { span } = finding;
  const shared = span !== null && say.day !== undefined && say.day.file !== null && span.file !== say.day.file;
  return shared ? `${say.day?.date}: ${finding.sentence(say)}` : finding.sentence(say);
}

/** What a catalogue entry states of a code, once, for findings, `explain` and the documentation. */
export interface Entry<F extends Facts> {
  /** Lower case, hyphens, named for the bad thing: `rest-too-short`. */
  readonly code: string;
  /** The level, where nothing else is said in `otherwise`. */
  readonly level: Level;
  /** The other level that a finding of this code can have. */
  readonly otherwise?: Otherwise;
  /** Whether it is a breach of law; `by rules` where it is one under a legal rule set and none under the house's. */
  readonly law?: "always" | "by rules";
  /** One line, no full stop: what a finding with this code means. */
  readonly title: string;
  /** Why it matters, a short paragraph. */
  readonly why: string;
  /** What cures it, a short paragraph. */
  readonly cure: string;
  /** The source common to all findings of this code; a finding may carry a narrower one. */
  readonly source?: Source;
  /** The few lines of a plan that raise it, as a block with a margin: laid on a day without mistakes by the tests. */
  readonly example: string;
  sentence(facts: F, say: Wording): string;
  label?(facts: F, say: Wording): string | null;
  hint?(facts: F, say: Wording): string | null;
  /** Where cause and cure are often the same for many people. */
  shared?(facts: F, who: readonly string[], say: Wording): SharedWords;
}

/** Where and whom a finding concerns; everything may be left out. */
export interface Circumstance {
  /** Whether the case of the entry's `otherwise` is given; nothing where the entry has none. */
  readonly otherwise?: boolean;
  /** Whether the rule set is one of law, for an entry whose `law` is `by rules`; nothing for any other. */
  readonly legalRules?: boolean;
  readonly chain?: readonly ReasonTerm[];
  readonly shortMinutes?: number;
  readonly who?: string;
  readonly at?: Instant;
  readonly path?: PlanPath;
  readonly span?: Span | null;
  readonly related?: readonly { readonly span: Span; readonly label: string }[];
  readonly source?: Source;
}

/** A catalogue entry without its facts' type, as `explain` and the documentation read it. */
export type AnyEntry = Omit<Entry<Facts>, "sentence" | "label" | "hint" | "shared">;

/** A code: all that is said of it, and what raises it. */
export interface Definition<F extends Facts> {
  readonly entry: AnyEntry;
  raise(facts: F, circumstance?: Circumstance): Finding;
}

/** The level in one case: the catalogue's word, whoever raises it. */
const levelOf = ({ level, otherwise }: Pick<AnyEntry, "level" | "otherwise">, other: boolean): Level =>
  other && otherwise !== undefined ? otherwise.level : level;

function sharedWords<F extends Facts>(entry: Entry<F>, facts: F, who: readonly string[], say: Wording): SharedWords {
  const alone = { sentence: entry.sentence(facts, say), hint: entry.hint?.(facts, say) ?? null };
  return entry.shared?.(facts, who, say) ?? alone;
}

/** Makes the constructor of findings for one code. */
export function define<F extends Facts>(entry: Entry<F>): Definition<F> {
  return {
    entry,
    raise: (facts, c = {}) => ({
      code: entry.code,
      level: levelOf(entry, c.otherwise ?? false),
      law: entry.law === "always" || (entry.law === "by rules" && (c.legalRules ?? false)),
      facts,
      chain: c.chain ?? [],
      shortMinutes: c.shortMinutes ?? null,
      who: c.who ?? null,
      at: c.at ?? null,
      path: c.path ?? null,
      span: c.span ?? null,
      related: c.related ?? [],
      source: c.source ?? entry.source ?? null,
      accepted: null,
      sentence: (say) => entry.sentence(facts, say),
      label: (say) => entry.label?.(facts, say) ?? null,
      hint: (say) => entry.hint?.(facts, say) ?? null,
      shared: entry.shared === undefined ? null : (who, say) => sharedWords(entry, facts, who, say),
    }),
  };
}

/** So many numbered ones in a row are written as the first to the last. */
const LONG_RUN = 4;

/** A whole crew of more than this many is named by its number: no one finds a name in such a line. */
const LONG_CREW = 8;

type Listing = Pick<Wording, "name" | "inOrder" | "isWholeCrew">;

function wholeCrew(ids: readonly string[], say: Listing): string | null {
  return ids.length > LONG_CREW && say.isWholeCrew?.(ids) === true ? `all ${ids.length} people` : null;
}

/** `Wren, Ilse (2)`. */
export const namesAndCount = (ids: readonly string[], say: Listing): string =>
  wholeCrew(ids, say) ?? `${names(ids, say)} (${ids.length})`;

/**
 * The display names of people, vehicles, places or pieces: `Wren, Ilse`; people in the order of their calls, numbered ones
 * in a row as `dawn.1 to dawn.8`, a whole large crew as `all 40 people`.
 */
export function names(ids: readonly string[], say: Listing): string {
  const all = wholeCrew(ids, say);
  if (all !== null) return all;
  const runs: string[][] = [];
  for (const id of say.inOrder?.(ids) ?? ids) {
    const run = runs.at(-1);
    if (run !== undefined && isNext(run.at(-1) ?? "", id)) run.push(id);
    else runs.push([id]);
  }
  return runs
    .flatMap((run) => {
      const own = run.map((id) => say.name(id));
      return run.length < LONG_RUN ? own : [`${own[0]} to ${own.at(-1)}`];
    })
    .join(", ");
}

/** `dawn.3` after `dawn.2`. */
function isNext(before: string, id: string): boolean {
  const [, stem, number] = /^(.+)\.(\d{1,6})$/.exec(before) ?? [];
  return stem !== undefined && id === `${stem}.${Number(number) + 1}`;
}
