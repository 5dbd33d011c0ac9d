/** One source text and where its lines begin: the only place that turns offsets into lines and columns. */
import type { Span } from "../../findings/finding.ts";

/** A file's text with its lines, for spans and excerpts. */
export interface SourceText {
  /** As the user named it, `/` as separator; `<stdin>` for standard input. */
  readonly file: string;
  readonly text: string;
  /** The file holds this text, as far as is known. */
  readonly onDisk: boolean;
  /** The span of `[start, end)`, offsets in UTF-16 units; a stretch over several lines is cut at the end of its first. */
  span(start: number, end: number): Span;
}

/** Offsets of the first character of every line; CRLF, LF and a lone CR end a line, as YAML has it. */
function lineStarts(text: string): readonly number[] {
  const starts = [0];
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    if (unit === 10 || (unit === 13 && text.charCodeAt(i + 1) !== 10)) starts.push(i + 1);
  }
  return starts;
}

/** The index of the last start that is not after `offset`. */
function lineAt(starts: readonly number[], offset: number): number {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((starts[middle] ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}

const LINE_END = /\r\n|\r|\n/;

/**
 * Wraps a text; its lines are found when the first span is asked for. `disk` is what the file holds where that is another
 * text (null where it holds none): a span in a line that does not stand there is said to be `unwritten`.
 */
export function sourceText(file: string, text: string, disk: string | null = text): SourceText {
  let starts: readonly number[] | null = null;
  let written: readonly string[] | null = null;
  return {
    file,
    text,
    onDisk: disk === text,
    span(start, end) {
      starts ??= lineStarts(text);
      const from = Math.max(0, Math.min(start, text.length));
      const line = lineAt(starts, from);
      const begin = starts[line] ?? 0;
      const whole = text.slice(begin, starts[line + 1] ?? text.length).replace(/[\r\n]+$/, "");
      // A line's break belongs to the line, but no span may begin behind the last character shown.
      const column = Math.min(from - begin, whole.length);
      const length = Math.max(0, Math.min(end - begin, whole.length) - column);
      const place = { file, line: line + 1, column: column + 1, length, text: whole };
      if (disk === text) return place;
      written ??= disk === null ? [] : disk.split(LINE_END);
      return written[line] === whole ? place : { ...place, unwritten: true };
    },
  };
}
