/** Findings that only repeat another: what one mistake makes of the places that depend on it. */
import type { Finding, Span } from "../../findings/finding.ts";
import {
  commaInValue,
  eitherMissing,
  idBad,
  idUnknown,
  keyMissing,
  keyUnknown,
  localNowhere,
  offsetDoubtful,
  valueKind,
  yamlOddSign,
  zoneMissing,
  zoneUnknown,
} from "../findings.ts";
import { LIST_HYPHEN } from "./dashes.ts";

/** Codes of values that are wrong as a whole: what their readers find in the pieces is the same mistake again. */
const WHOLE: ReadonlySet<string> = new Set([commaInValue.entry.code, valueKind.entry.code]);

/** Codes of entries whose place is not known: `local` is then no mistake of its own. */
const PLACELESS: ReadonlySet<string> = new Set([idUnknown.entry.code, eitherMissing.entry.code, valueKind.entry.code]);

/** Codes of a wrong name whose effects are the same mistake again. */
const NAMES: ReadonlySet<string> = new Set([yamlOddSign.entry.code, keyUnknown.entry.code, zoneUnknown.entry.code]);

/** Codes of what a key that is none leaves without its value. */
const LEFT_OUT: ReadonlySet<string> = new Set([idUnknown.entry.code, eitherMissing.entry.code, keyMissing.entry.code]);

/** `findings`, in the order of the text, without those that follow from another; how many is reported with the first. */
export function withoutEchoes(findings: readonly Finding[]): readonly Finding[] {
  const causes = findings.filter(
    ({ code }) => WHOLE.has(code) || PLACELESS.has(code) || UNUSABLE.has(code) || NAMES.has(code),
  );
  return folded(findings.filter((one) => !causes.some((cause) => repeats(one, cause))));
}

function repeats(one: Finding, cause: Finding): boolean {
  if (cause.code === keyUnknown.entry.code) return namedWrongly(one, cause);
  if (cause.code === zoneUnknown.entry.code) {
    // A label whose zone is unknown: the times that use it are right once it is.
    const label = cause.path?.[0] === "labels" ? cause.path[1] : undefined;
    return label !== undefined && one.code === zoneUnknown.entry.code && one.facts["text"] === label;
  }
  if (UNUSABLE.has(cause.code)) return one.code === idUnknown.entry.code && looksFor(one, cause);
  if (one.code === localNowhere.entry.code)
    return PLACELESS.has(cause.code) && (sameEntry(one, cause) || undeclared(cause) === "place");
  if (cause.code === yamlOddSign.entry.code) return LEFT_OUT.has(one.code) && one.span?.file === cause.span?.file;
  // A section that is a list, or text, declares none of what it should.
  if (cause.code === valueKind.entry.code && cause.path?.length === 1 && one.code === idUnknown.entry.code)
    return String(one.facts["what"]).includes(KINDS[String(cause.path[0])] ?? "\0");
  // The part before the first comma is the wrong kind because of the comma.
  const partOfTorn = cause.code === commaInValue.entry.code && one.code === valueKind.entry.code;
  if (partOfTorn) return holds(cause.span, one.span);
  return WHOLE.has(cause.code) && !WHOLE.has(one.code) && holds(cause.span, one.span);
}

/** What a key in other words leaves out: `location` for `place`, `timezone` for `zone`. */
function namedWrongly(one: Finding, cause: Finding): boolean {
  const { near } = cause.facts;
  if (one.code === zoneMissing.entry.code) return cause.path?.length === 1 && near === "zone";
  const { keys } = one.facts;
  return one.code === eitherMissing.entry.code && sameEntry(one, cause) && Array.isArray(keys) && keys.includes(near);
}

/** An id that cannot be one: who refers to what was meant says nothing new. */
const UNUSABLE: ReadonlySet<string> = new Set([idBad.entry.code]);

/** Kinds of ids by the section that declares them, as sentences name them. */
const KINDS: Readonly<Record<string, string>> = {
  crew: "person",
  vehicles: "vehicle",
  places: "place",
  hits: "hit",
  tasks: "task",
  kit: "piece of kit",
  paths: "path",
};

/** `kaia` where `Kaia Roos` is declared. */
const looksFor = (one: Finding, cause: Finding): boolean =>
  String(one.facts["what"]).includes(KINDS[String(cause.path?.[0])] ?? "\0") &&
  String(cause.facts["id"]).toLowerCase().includes(String(one.facts["id"]).toLowerCase());

const sameEntry = (one: Finding, other: Finding): boolean =>
  one.path !== null && other.path !== null && one.path[0] === other.path[0] && one.path[1] === other.path[1];

const holds = (whole: Span | null, part: Span | null): boolean =>
  whole !== null &&
  part !== null &&
  whole.file === part.file &&
  whole.line === part.line &&
  whole.column <= part.column &&
  part.column + part.length <= whole.column + whole.length;

/** One id or zone unknown or one offset doubted in several places, one wrong mark before all items of a list, or all that a missing section should declare: the first is reported, the others counted. */
function folded(findings: readonly Finding[]): readonly Finding[] {
  const counts = new Map<string, number>();
  for (const name of findings.map(groupOf)) if (name !== null) counts.set(name, (counts.get(name) ?? 0) + 1);
  const told = new Set<string>();
  return findings.flatMap((one) => {
    const name = groupOf(one);
    if (name === null) return [one];
    if (told.has(name)) return [];
    told.add(name);
    const more = (counts.get(name) ?? 1) - 1;
    return [more === 0 ? one : withMore(one, more)];
  });
}

function groupOf(one: Finding): string | null {
  if (one.code === yamlOddSign.entry.code)
    return one.facts["plain"] === LIST_HYPHEN ? `mark ${one.facts["name"]}` : null;
  if (one.code === zoneUnknown.entry.code) return `zone ${one.facts["text"]}`;
  if (one.code === offsetDoubtful.entry.code) return `offset ${one.facts["offset"]} ${one.facts["clocks"]}`;
  if (one.code !== idUnknown.entry.code) return null;
  return undeclared(one) ?? `${one.facts["what"]} ${one.facts["id"]}`;
}

/** The kinds of which the plan declares nothing at all, where that is why an id is unknown. */
function undeclared({ code, facts }: Finding): string | null {
  const { known, what } = facts;
  return code === idUnknown.entry.code && Array.isArray(known) && known.length === 0 ? String(what) : null;
}

function withMore(one: Finding, more: number): Finding {
  const told =
    undeclared(one) === null
      ? `${more} more like it`
      : `${more} more ${more === 1 ? "error follows" : "errors follow"} from this one`;
  return { ...one, facts: { ...one.facts, more }, hint: (say) => `${one.hint(say)}; ${told}` };
}
