/**
 * A sheet as a short chat message: five lines at most, under 1,500 characters, inert in chats that read Markdown, entities
 * or mentions. What posts it must still switch mentions off; `--code-block` is the safest form.
 */
import { sumOf } from "../lists.ts";
import type { Sheet } from "../reports/sheet/view.ts";
import { plainLine } from "./text/plainLine.ts";

export interface ChatOptions {
  readonly codeBlock: boolean;
}

/** The most characters of a message, its end included; less than the 1,500 that a sheet promises. */
const MOST = 1490;
const FENCE = "```";

/** The message of a sheet, with a line end at its end. */
export const renderChat = (sheet: Sheet, options: ChatOptions): string => chatMessage(sheet.brief, options);

/** Lines as one message, with a line end at its end. */
export function chatMessage(brief: readonly string[], options: ChatOptions): string {
  const harmless = options.codeBlock ? inCode : inText;
  const room = MOST - (options.codeBlock ? 2 * (FENCE.length + 1) : 0);
  const lines = fitted(
    brief.map((line) => harmless(plainLine(line))),
    room,
  );
  const all = options.codeBlock ? [FENCE, ...lines, FENCE] : lines;
  return `${all.join("\n")}\n`;
}

/** Shortens the longest lines, at a `;` where there is one, until all fit. */
function fitted(lines: readonly string[], room: number): readonly string[] {
  const share = Math.floor(room / Math.max(1, lines.length)) - 1;
  const spare = sumOf(lines, (line) => Math.max(0, share - line.length));
  const long = lines.filter((line) => line.length > share).length;
  const limit = share + Math.floor(spare / Math.max(1, long));
  return lines.map((line) => (line.length <= limit ? line : shortened(line, limit)));
}

function shortened(line: string, limit: number): string {
  const items = line.split("; ");
  const kept: string[] = [];
  for (const item of items) {
    const left = items.length - kept.length - 1;
    if ([...kept, item].join("; ").length + ` … and ${left} more`.length > limit) break;
    kept.push(item);
  }
  if (kept.length === 0) return `${[...line].slice(0, Math.floor(limit / 2)).join("")} …`;
  return `${kept.join("; ")} … and ${items.length - kept.length} more`;
}

/**
 * Takes the meaning from mentions, ids, entities, links and emphasis. The at sign and the angle brackets become their
 * look-alikes, since invisible joiners no longer stop every chat; an entity and a link are broken by a word joiner.
 */
const inText = (text: string): string =>
  text
    .replace(/@/gu, "＠")
    .replace(/</gu, "‹")
    .replace(/>/gu, "›")
    .replace(/[&#]/gu, (character) => `${character}\u2060`)
    .replace(/:\/\//gu, ":\u2060//")
    .replace(/[\\`*_~|[\]]/gu, (character) => `\\${character}`);

/** Inside a code block only the fence itself could end it; mentions lose their at sign all the same. */
const inCode = (text: string): string =>
  text.replace(/`/gu, "'").replace(/@/gu, "＠").replace(/</gu, "‹").replace(/>/gu, "›");
