/** How many columns printable text takes on a terminal. */
import fastStringWidth from "fast-string-width";

/** Columns that printable text takes on a terminal. */
export const widthOf = (text: string): number => fastStringWidth(text);

/** Pads printable text with blanks to `width` columns. */
export function padTo(text: string, width: number, align: "left" | "right"): string {
  const blanks = " ".repeat(Math.max(0, width - widthOf(text)));
  return align === "right" ? `${blanks}${text}` : `${text}${blanks}`;
}
