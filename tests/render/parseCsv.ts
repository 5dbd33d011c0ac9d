/** Reads CSV back, by hand. */

/** RFC 4180 section 2, by hand: records by CRLF outside quotes, doubled quotes inside. */
export function parseCsv(text: string): string[][] {
  const rows: string[][] = [[""]];
  let inside = false;
  for (let at = 0; at < text.length; at++) {
    const [row, one] = [rows.at(-1) ?? [], text[at] ?? ""];
    if (inside && one === '"' && text[at + 1] === '"') row[row.length - 1] += text[at++] ?? "";
    else if (one === '"') inside = !inside;
    else if (!inside && one === ",") row.push("");
    else if (!inside && one === "\r" && text[at + 1] === "\n") at++ && rows.push([""]);
    else row[row.length - 1] += one;
  }
  return rows.slice(0, -1);
}
