/** A log file: what people did when, for hours alone; checked and typed after its form. */
import type { PlanPath, Span } from "../../findings/finding.ts";
import type { Id } from "../plan.ts";
import type { ModelOf } from "../shape/entry.ts";
import type { beforeForm, logForm, spanForm, variantForm } from "./form.ts";

type Stated<Entry> = { readonly [Key in keyof Entry]?: Exclude<Entry[Key], null> };

/** A checked log: who did what, when. `zone` is the clock of times without an offset, and of the days that are counted. */
export interface HoursLog extends Pick<ModelOf<typeof logForm>, "title" | "zone" | "rules"> {
  readonly file: string | null;
  readonly options: LogOptions;
  readonly people: readonly LogPerson[];
  locate(path: PlanPath): Span | null;
}

/** As stated; what is left out has the rule set's own default. `dayStarts` is in minutes after midnight. */
export interface LogOptions extends Stated<Pick<ModelOf<typeof variantForm>, "drivers" | "dayStarts">> {
  /** Exceptions that are claimed. */
  readonly claims: readonly string[];
  /** Variants of the rules, by the words of a vehicle's `week`. */
  readonly weeks: readonly string[];
}

/** A person of a log with their spans, and what lies before: null where it is not stated. */
export interface LogPerson extends ModelOf<typeof beforeForm> {
  readonly id: Id;
  readonly path: PlanPath;
  /** In time order, without gap or overlap; where the file says `fill: off` the gaps are in it. Never empty. */
  readonly spans: readonly WrittenSpan[];
}

/** A span of a log and where it is written; `bunk` is false for what is no `ferry`. */
export interface WrittenSpan extends ModelOf<typeof spanForm> {
  /** The span's own place in the file; null for a filled gap. */
  readonly path: PlanPath | null;
}
