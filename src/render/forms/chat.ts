/**
 * A sheet or a report as a short chat message of about 1,500 characters, inert in chats that read Markdown, entities or mentions. What
 * changed, calls and hits are never left out; departures go first. What posts it must still switch mentions off;
 * `--code-block` is the safest form.
 */
import type { BriefLine } from "../../reports/shared/view.ts";
import type { DeclaredForm } from "../form.ts";
import { isolate, plainLine } from "../text/printable.ts";

/** How a chat post is written. */
export interface ChatOptions {
  readonly codeBlock: boolean;
  /** As many numbered messages as it takes, with nothing left out. */
  readonly parts?: boolean;
}

/** The most characters of a message, its end included: what most chats take. */
export const MOST = 1500;
const FENCE = "```";

/** What a message is made from. */
interface Briefed {
  readonly brief: readonly BriefLine[];
}

/** The message, or several a blank line apart; each with a line end at its end. */
export function renderChat({ brief }: Briefed, { codeBlock, parts = false }: ChatOptions): string {
  const harmless = (text: string): string => isolate((codeBlock ? inCode : inText)(plainLine(text)));
  const lines = brief.map(({ lead, items, spare }) => ({
    lead: lead === "" ? "" : `${harmless(lead)} `,
    items: items.map(harmless),
    spare,
  }));
  const room = MOST - 1 - (codeBlock ? 2 * (FENCE.length + 1) : 0);
  const block = (text: readonly string[]): string => `${(codeBlock ? [FENCE, ...text, FENCE] : text).join("\n")}\n`;
  if (!parts) return block(shortened(lines, room).map(lineText));
  const messages = partsOf(lines, room - NUMBERING);
  return messages
    .map((message, at) => block([...(messages.length > 1 ? [`${at + 1}/${messages.length}`] : []), ...message]))
    .join("\n");
}

/** Letters of `12/34` and its line end. */
const NUMBERING = 6;

interface Line extends BriefLine {
  /** Items that went. */
  readonly gone?: number;
}

const lineText = ({ lead, items, gone = 0 }: Line): string =>
  `${lead}${items.join("; ")}${gone === 0 ? "" : `${items.length === 0 ? "" : " … and "}${gone} more`}`;

const lengthOf = (lines: readonly Line[]): number => lines.map(lineText).join("\n").length;

/** Takes items from the end of the lines that can spare them until all fits; what went is counted. */
function shortened(lines: readonly Line[], room: number): readonly Line[] {
  let left = lines;
  for (const spare of [1, 2])
    while (lengthOf(left) > room && left.some((line) => line.spare === spare && line.items.length > 0))
      left = left.map((line) =>
        line.spare === spare ? { ...line, items: line.items.slice(0, -1), gone: (line.gone ?? 0) + 1 } : line,
      );
  return left;
}

/** Messages of at most `room` characters; a line that runs over goes on in the next one, an item that long is cut. */
function partsOf(lines: readonly Line[], room: number): readonly (readonly string[])[] {
  const messages: string[][] = [[]];
  const fits = (text: string): boolean => [...(messages.at(-1) ?? []), text].join("\n").length <= room;
  for (const { lead, items } of lines) {
    let open = lead;
    let filled = false;
    for (const item of items.flatMap((one) => pieces(one, room - lead.length))) {
      const longer = filled ? `${open}; ${item}` : `${open}${item}`;
      if (fits(longer)) open = longer;
      else {
        if (filled) messages.at(-1)?.push(open);
        messages.push([]);
        open = `${lead}${item}`;
      }
      filled = true;
    }
    messages.at(-1)?.push(open);
  }
  return messages.filter((message) => message.length > 0);
}

function pieces(text: string, room: number): readonly string[] {
  const letters = [...text];
  const step = Math.max(1, Math.floor(room / 2));
  if (text.length <= room) return [text];
  return Array.from({ length: Math.ceil(letters.length / step) }, (_, at) =>
    letters.slice(at * step, (at + 1) * step).join(""),
  );
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

/** The sheet as a message. */
export const sheetChatForm: DeclaredForm<"sheet"> = {
  name: "chat",
  suffixes: [],
  commands: ["sheet"],
  place: 90,
  takes: "sheet",
  print: renderChat,
};

/** Reports that are short enough for a message. */
export const reportChatForm: DeclaredForm<"report"> = {
  name: "chat",
  suffixes: [],
  commands: ["changes", "compare", "now"],
  place: 91,
  takes: "report",
  print: ({ brief = [] }, { parts }) => renderChat({ brief }, { codeBlock: false, parts }),
};
