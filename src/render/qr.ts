/** A QR code as inline SVG: one path, black on white in every colour scheme, with the quiet zone that readers need. */
import encodeQR from "qr";
import { htmlText } from "./html/text.ts";

/** Modules of quiet zone on each side (ISO/IEC 18004 asks for four; the package's own default is two). */
const QUIET = 4;

/** Draws `text`; its title says what it holds. */
export function qrSvg(text: string): string {
  const rows = encodeQR(text, "raw", { border: QUIET, ecc: "medium" });
  const path = rows
    .flatMap((row, y) => darkRuns(row).map(({ x, length }) => `M${x} ${y}h${length}v1h-${length}z`))
    .join("");
  return (
    `<svg class="qr" viewBox="0 0 ${rows.length} ${rows.length}" role="img" shape-rendering="crispEdges">` +
    `<title>QR code of ${htmlText(text)}</title><path fill="#fff" d="M0 0h${rows.length}v${rows.length}h-${rows.length}z"/>` +
    `<path fill="#000" d="${path}"/></svg>`
  );
}

/** Neighbouring dark modules of one row as stretches. */
function darkRuns(row: readonly boolean[]): readonly { readonly x: number; readonly length: number }[] {
  const runs: { x: number; length: number }[] = [];
  for (const [x, dark] of row.entries()) {
    if (!dark) continue;
    const last = runs.at(-1);
    if (last && last.x + last.length === x) last.length += 1;
    else runs.push({ x, length: 1 });
  }
  return runs;
}
