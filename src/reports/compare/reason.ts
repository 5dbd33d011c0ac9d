/** Why a variant comes first: the first thing in the ranking that parts it from the second. */
import type { Variant, VariantFigures } from "../../changes/variants.ts";
import { counted } from "../../findings/figures.ts";
import type { Wording } from "../../findings/finding.ts";

/** `cut comes first: it loses no hit; plan, the second, loses noon.` */
export function reasonText(variants: readonly Variant[], say: Wording): string {
  const ranked = variants
    .flatMap((one) =>
      one.figures === null || one.rank === null ? [] : [{ ...one, figures: one.figures, rank: one.rank }],
    )
    .sort((a, b) => a.rank - b.rank);
  const [first, second] = ranked;
  if (first === undefined) return "No variant is a plan.";
  if (second === undefined || ranked.slice(1).every(({ figures }) => figures.same)) return "No difference.";
  const parted = REASONS.find(({ value }) => value(first.figures) < value(second.figures));
  if (parted === undefined)
    return `${first.label} comes first: nothing in the ranking parts it from ${second.label}, which has as many edits or more.`;
  const words = ({ figures }: { readonly figures: VariantFigures }): string => parted.words(figures, say);
  return `${first.label} comes first: it ${words(first)}; ${second.label}, the second, ${words(second)}.`;
}

interface Reason {
  readonly value: (figures: VariantFigures) => number;
  /** With the variant as its subject. */
  readonly words: (figures: VariantFigures, say: Wording) => string;
}

/** In the order of the ranking. */
const REASONS: readonly Reason[] = [
  {
    value: ({ standing }) => standing.lawMinutes,
    words: ({ standing }, say) =>
      standing.lawMinutes === 0 ? "breaks no law" : `breaks law by ${say.length(standing.lawMinutes)}`,
  },
  {
    value: ({ standing }) => standing.firmHitsLost.length,
    words: ({ standing }) => `loses ${hitsText(standing.firmHitsLost)}`,
  },
  {
    value: ({ standing }) => standing.houseMinutes,
    words: ({ standing }, say) =>
      standing.houseMinutes === 0
        ? "breaks no house rule"
        : `breaks house rules by ${say.length(standing.houseMinutes)}`,
  },
  {
    value: ({ standing }) => standing.hitsLost.length,
    words: ({ standing }) => `loses ${hitsText(standing.hitsLost)}`,
  },
  {
    value: ({ earlierPeople }) => earlierPeople.length,
    words: ({ earlierPeople: all }) =>
      all.length === 0 ? "calls no one earlier" : `calls ${counted(all.length, "person", "people")} earlier`,
  },
  {
    value: ({ standing }) => standing.movedMinutes,
    words: ({ standing }, say) =>
      standing.movedMinutes === 0 ? "moves nothing" : `moves work by ${say.length(standing.movedMinutes)}`,
  },
];

const hitsText = (hits: readonly string[]): string => (hits.length === 0 ? "no hit" : hits.join(", "));
