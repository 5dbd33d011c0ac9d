/** Control characters: never meant in a plan, and able to drive a terminal. */
import type { Finding } from "../../findings/finding.ts";
import { controlCharacter } from "../findings.ts";
import type { SourceText } from "./source.ts";

/** Whether YAML and terminals alike take the unit as harmless: tab, line breaks, and everything that is no control. */
function harmless(unit: number, index: number): boolean {
  if (unit === 9 || unit === 10 || unit === 13 || unit === 0x85) return true;
  if (unit === 0xfeff) return index === 0; // a byte order mark may stand in front
  if (unit === 0xad || unit === 0x200b || unit === 0x2060) return false; // no width at all, and inside a word no one sees it
  return unit >= 32 && !(unit >= 127 && unit < 160) && unit !== 0xfffe && unit !== 0xffff;
}

/** The index of the first control character from `from` on, or -1. */
function firstControl(text: string, from: number): number {
  for (let i = from; i < text.length; i++) if (!harmless(text.charCodeAt(i), i)) return i;
  return -1;
}

/** YAML's own rules take it as a line end; our parser does not, and would take a whole file as one line. */
const LONE_RETURN = /\r(?!\n)/;

const mark = (text: string, index: number): string =>
  `U+${text.charCodeAt(index).toString(16).toUpperCase().padStart(4, "0")}`;

/** One finding for each control character as it stands in the file, and one for all line ends that are none. */
export function controlsIn(source: SourceText): readonly Finding[] {
  const found: Finding[] = [];
  const lone = LONE_RETURN.exec(source.text)?.index;
  if (lone !== undefined) {
    const begin = source.text.lastIndexOf("\n", lone) + 1;
    found.push(controlCharacter.raise({ mark: mark(source.text, lone) }, { span: source.span(begin, lone) }));
  }
  for (let at = firstControl(source.text, 0); at >= 0; at = firstControl(source.text, at + 1)) {
    found.push(controlCharacter.raise({ mark: mark(source.text, at) }, { span: source.span(at, at + 1) }));
  }
  return found;
}

/** The first control character that double quotes spell (`"\e"`): the spelling is harmless, the text is not. */
export function controlSpelled(source: SourceText, start: number, end: number, value: string): Finding | null {
  const at = firstControl(value, 0);
  return at < 0 ? null : controlCharacter.raise({ mark: mark(value, at) }, { span: source.span(start, end) });
}
