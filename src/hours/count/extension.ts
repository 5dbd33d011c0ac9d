/** Larger allowances that may be used a few times: the tenth hour, the sixteenth hour. */
import { type Instant, instant } from "../../time/units.ts";
import type { Extension, MaxLimit } from "../rules/rule.ts";
import type { MaxContext } from "./context.ts";
import type { Epoch } from "./countingPeriods.ts";
import { unitOf } from "./since.ts";

/** The starts of the shifts that used it, in order. */
export type ExtensionUses = Instant[];

/** Whether an earlier use still counts for a shift that began at `at`. */
function counts(use: Instant, at: Instant, extension: Extension, context: MaxContext): boolean {
  const { calendar, reading } = context.input;
  const { over, clearedBy } = extension;
  if (clearedBy !== undefined && reading.rests.some((r) => r.from >= use && r.to <= at && r.to - r.from >= clearedBy)) {
    return false;
  }
  const day = calendar.dayOf(at);
  const then = calendar.dayOf(use);
  return over === "week" ? unitOf("week", day) === unitOf("week", then) : day - then < over;
}

/** Whether the shift went on too long for the allowance to hold, as far as is known. */
function tooLate(extension: Extension, epoch: Epoch, context: MaxContext): boolean {
  if (extension.releasedWithin === undefined) return false;
  const late = context.counts.duty.within(instant(epoch.anchor + extension.releasedWithin), epoch.to)[0];
  return late !== undefined && late.from < context.knownUntil;
}

/** How many uses are left for a shift that begins, or goes on, at `at`. */
export const usesLeft = (extension: Extension, uses: ExtensionUses, at: Instant, context: MaxContext): number =>
  Math.max(0, extension.times - uses.filter((use) => counts(use, at, extension, context)).length);

/** What an epoch allows, and how to note that it used the extension. */
export function extensionOf(
  limit: MaxLimit,
  epoch: Epoch,
  base: number,
  uses: ExtensionUses,
  context: MaxContext,
): { readonly allowed: number; readonly use: () => void } {
  const { extension } = limit;
  const use = (): void => {
    if (uses.at(-1) !== epoch.anchor) uses.push(epoch.anchor);
  };
  if (extension === undefined || tooLate(extension, epoch, context)) return { allowed: base, use };
  const spent = uses.filter((at) => at !== epoch.anchor && counts(at, epoch.anchor, extension, context)).length;
  return { allowed: spent < extension.times ? extension.allows : base, use };
}
