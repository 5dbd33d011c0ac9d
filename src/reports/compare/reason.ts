/** Why a variant comes first: the first thing in the ranking that parts it from the second. */
import type { Variant, VariantFigures } from "../../changes/variants.ts";
import type { Say } from "../../findings/finding.ts";

/** `cut comes first: no firm hit lost; plan loses noon.` */
export function reasonText(variants: readonly Variant[], say: Say): string {
  const ranked = variants
    .flatMap((one) =>
      one.figures === null || one.rank === null ? [] : [{ ...one, figures: one.figures, rank: one.rank }],
    )
    .sort((a, b) => a.rank - b.rank);
  const [first, second] = ranked;
  if (first === undefined) return "No variant is a plan.";
  if (second === undefined || ranked.slice(1).every(({ figures }) => figures.same)) return "No difference.";
  const words = REASONS.flatMap((reason) => reason(first.figures, second.figures, say) ?? []);
  return `${first.label} comes first: ${words[0] ?? "it asks for the fewest edits"}; ${second.label} is second.`;
}

type Reason = (first: VariantFigures, second: VariantFigures, say: Say) => string | null;

const less = (first: number, second: number, words: string): string | null => (first < second ? words : null);

/** In the order of the ranking. */
const REASONS: readonly Reason[] = [
  ({ standing: a }, { standing: b }, say) =>
    less(
      a.lawMinutes,
      b.lawMinutes,
      `it breaks law by ${say.length(a.lawMinutes)} rather than ${say.length(b.lawMinutes)}`,
    ),
  ({ standing: a }, { standing: b }) =>
    less(
      a.firmHitsLost.length,
      b.firmHitsLost.length,
      `it loses ${counted(a.firmHitsLost)} rather than ${counted(b.firmHitsLost)}`,
    ),
  ({ standing: a }, { standing: b }, say) =>
    less(
      a.houseMinutes,
      b.houseMinutes,
      `house rules are broken by ${say.length(a.houseMinutes)} rather than ${say.length(b.houseMinutes)}`,
    ),
  ({ standing: a }, { standing: b }) =>
    less(a.hitsLost.length, b.hitsLost.length, `it loses ${counted(a.hitsLost)} rather than ${counted(b.hitsLost)}`),
  ({ earlierPeople: a }, { earlierPeople: b }) =>
    less(a.length, b.length, `it calls ${a.length} people earlier rather than ${b.length}`),
  ({ standing: a }, { standing: b }, say) =>
    less(
      a.movedMinutes,
      b.movedMinutes,
      `it moves ${say.length(a.movedMinutes)} of work rather than ${say.length(b.movedMinutes)}`,
    ),
];

const counted = (hits: readonly string[]): string => (hits.length === 0 ? "no hit" : hits.join(", "));
