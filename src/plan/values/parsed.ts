/** What a reader of one value gives: the value, or the mistake in it, still without its place. */
import type { Circumstance, Finding } from "../../findings/finding.ts";

/** Makes a finding once its place is known. */
export type Mistake = (where: Circumstance) => Finding;

/** A value, or the mistake in its text. */
export type Parsed<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly mistake: Mistake };

/** A value that was read. */
export const parsed = <T>(value: T): Parsed<T> => ({ ok: true, value });

/** A text that was not. */
export const mistaken = (mistake: Mistake): Parsed<never> => ({ ok: false, mistake });

/** Values are short; a longer text is refused before any pattern looks at it. */
export const LONGEST_VALUE = 64;
