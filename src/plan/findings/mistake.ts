/** Catalogue entries for mistakes in a plan's text: as `define`, but what a sentence quotes from the text stays short. */
import { type Definition, define, type Entry, type Facts } from "../../findings/finding.ts";

/** A quotation of more than eighty characters, its beginning kept. */
const LONG = /`([^`]{60})[^`]{20,}`/g;

const brief = (sentence: string): string => sentence.replace(LONG, "`$1…`");

/** A finding that comes from a plan's text: an error unless it says otherwise. */
export function mistake<F extends Facts>(
  entry: Omit<Entry<F>, "level"> & Partial<Pick<Entry<F>, "level">>,
): Definition<F> {
  const { hint, label } = entry;
  return define<F>({
    level: "error",
    ...entry,
    sentence: (facts, say) => brief(entry.sentence(facts, say)),
    label: (facts, say) => brief(label?.(facts, say) ?? "") || null,
    hint: (facts, say) => brief(hint?.(facts, say) ?? "") || null,
  });
}
