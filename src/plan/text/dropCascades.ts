/** Findings that only repeat another: what one mistake makes of the places that depend on it. */
import type { Finding, Span } from "../../findings/finding.ts";
import {
  commaInValue,
  eitherMissing,
  idUnknown,
  keyMissing,
  localNowhere,
  valueKind,
  yamlOddSign,
} from "../findings.ts";

/** Codes of values that are wrong as a whole: what their readers find in the pieces is the same mistake again. */
const WHOLE: ReadonlySet<string> = new Set([commaInValue.entry.code, valueKind.entry.code]);

/** Codes of entries whose place is not known: `local` is then no mistake of its own. */
const PLACELESS: ReadonlySet<string> = new Set([idUnknown.entry.code, eitherMissing.entry.code, valueKind.entry.code]);

/** Codes of what a key that is none leaves without its value. */
const LEFT_OUT: ReadonlySet<string> = new Set([idUnknown.entry.code, eitherMissing.entry.code, keyMissing.entry.code]);

/** `findings`, in the order of the text, without those that follow from another; how many is reported with the first. */
export function withoutEchoes(findings: readonly Finding[]): readonly Finding[] {
  const causes = findings.filter(
    ({ code }) => WHOLE.has(code) || PLACELESS.has(code) || code === yamlOddSign.entry.code,
  );
  return folded(findings.filter((one) => !causes.some((cause) => repeats(one, cause))));
}

function repeats(one: Finding, cause: Finding): boolean {
  if (one.code === localNowhere.entry.code)
    return PLACELESS.has(cause.code) && (sameEntry(one, cause) || undeclared(cause) === "place");
  if (cause.code === yamlOddSign.entry.code) return LEFT_OUT.has(one.code) && one.span?.file === cause.span?.file;
  return WHOLE.has(cause.code) && !WHOLE.has(one.code) && holds(cause.span, one.span);
}

const sameEntry = (one: Finding, other: Finding): boolean =>
  one.path !== null && other.path !== null && one.path[0] === other.path[0] && one.path[1] === other.path[1];

const holds = (whole: Span | null, part: Span | null): boolean =>
  whole !== null &&
  part !== null &&
  whole.file === part.file &&
  whole.line === part.line &&
  whole.column <= part.column &&
  part.column + part.length <= whole.column + whole.length;

/** One id unknown in several places, or all that a missing section should declare: the first is reported, the others counted. */
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
