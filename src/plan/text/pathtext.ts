/** Paths of plan values as text: `hits.noon.at`, `runs.truck.stops[1].leave`, `actual."brick.1"`. */
import type { PlanPath } from "../../findings/finding.ts";
import { wordTest } from "../shape/patterns.ts";

const isPlain = wordTest(/^[A-Za-z0-9_-]+$/, () => /^[\p{L}\p{N}_-]+$/u);

/** A path as one reads and types it; `parsePathText` reads it back. */
export function dotted(path: PlanPath): string {
  return path
    .map((step, index) => {
      if (typeof step === "number") return `[${step}]`;
      const key = isPlain(step) ? step : JSON.stringify(step);
      return index === 0 ? key : `.${key}`;
    })
    .join("");
}

const STEP = /(?:^|\.)([\p{L}\p{N}_-]+)|(?:^|\.)("(?:[^"\\]|\\.)*"|'[^']*')|\[(\d{1,5})\]/uy;

/** The path that a text names, or null where it is none. Items of a list count from 0; a key with a dot is in quotes of either kind. */
export function parsePathText(text: string): PlanPath | null {
  if (text.length === 0 || text.length > 400) return null;
  const path: (string | number)[] = [];
  STEP.lastIndex = 0;
  while (STEP.lastIndex < text.length) {
    const match = STEP.exec(text);
    if (match === null) return null;
    const [, key, quoted, index] = match;
    if (index !== undefined) path.push(Number(index));
    else if (key !== undefined) path.push(key);
    else path.push(unquoted(quoted ?? '""'));
  }
  return path.length > 0 && typeof path[0] === "string" ? path : null;
}

function unquoted(text: string): string {
  const inside = text.slice(1, -1);
  return text.startsWith("'") ? inside : inside.replace(/\\(.)/g, "$1");
}
