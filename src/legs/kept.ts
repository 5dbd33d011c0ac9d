/** The file in which a routing server's answers are kept: recognised by what it holds, rounded, and never too large to read. */
import type { RoutedAnswer } from "./legs.ts";
import {
  type AnswerFields,
  fieldsOf,
  finiteAmount,
  parsedAnswer,
  pointText,
  type RouteQuery,
  roadLine,
} from "./routing.ts";

/** Answers kept from earlier runs, by the coordinates they were asked with, so that a place that moves is asked anew. */
export type Kept = ReadonlyMap<string, RoutedAnswer>;

/** The key of a pair of places in a file of kept answers. */
export const keptKey = ([from, to]: RouteQuery["ends"]): string => `${pointText(from)};${pointText(to)}`;

const KEY = /^-?\d{1,3}\.\d{6},-?\d{1,2}\.\d{6};-?\d{1,3}\.\d{6},-?\d{1,2}\.\d{6}$/;

/** Whether a map has exactly these keys. */
const hasOnly = (fields: AnswerFields, keys: readonly string[]): boolean =>
  fields.size === keys.length && keys.every((key) => fields.has(key));

function answerOf(value: unknown): RoutedAnswer | null {
  const entry = fieldsOf(value);
  if (entry === null || !hasOnly(entry, ["minutes", "km", "line"])) return null;
  const minutes = finiteAmount(entry.get("minutes"));
  const [km, line] = [finiteAmount(entry.get("km")), roadLine({ coordinates: entry.get("line") })];
  const isWhole = (read: unknown, key: string): boolean => read !== null || entry.get(key) === null;
  return minutes === null || !isWhole(km, "km") || !isWhole(line, "line") ? null : { minutes, km, line };
}

/** Reads the file of kept answers; null where anything in it is not as we write it, so that nothing of another's is lost. */
export function readKept(text: string): Kept | null {
  const file = fieldsOf(parsedAnswer(text));
  const answers = fieldsOf(file?.get("answers"));
  if (file === null || answers === null || file.get("routing") !== 1 || !hasOnly(file, ["routing", "answers"]))
    return null;
  const kept = new Map<string, RoutedAnswer>();
  for (const [key, value] of answers) {
    const answer = answerOf(value);
    if (answer === null || !KEY.test(key)) return null;
    kept.set(key, answer);
  }
  return kept;
}

/** The file stays below this many characters; four times as much would be refused when it is read again. */
export const MOST_KEPT = 1 << 20;

/** About what an answer takes in the file. */
const sizeOf = ({ line }: RoutedAnswer): number => 120 + (line === null ? 0 : line.length * 40);

/**
 * The answers that fit: first the shapes of roads go that the plan does not ask for, then all else of these, then the
 * shapes of its own, each in the order of their keys.
 */
function pruned(kept: Kept, asked: ReadonlySet<string>): Kept {
  let size = 0;
  for (const answer of kept.values()) size += sizeOf(answer);
  const left = new Map(kept);
  const keys = [...kept.keys()].sort();
  const isAsked = (key: string): boolean => asked.has(key);
  const shrink = (chosen: readonly string[], smaller: (answer: RoutedAnswer) => RoutedAnswer | null): void => {
    for (const key of chosen) {
      const answer = left.get(key);
      if (size <= MOST_KEPT || answer === undefined) continue;
      const less = smaller(answer);
      size -= sizeOf(answer) - (less === null ? 0 : sizeOf(less));
      if (less === null) left.delete(key);
      else left.set(key, less);
    }
  };
  const others = keys.filter((key) => !isAsked(key));
  shrink(others, (answer) => ({ ...answer, line: null }));
  shrink(others, () => null);
  shrink(keys.filter(isAsked), (answer) => ({ ...answer, line: null }));
  return left;
}

/** The text of the file: sorted, so that it reads well in a version history. `asked` are the keys that the plan asks for. */
export function keptText(kept: Kept, asked: ReadonlySet<string>): string {
  const entries = [...pruned(kept, asked)].sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  const lines = entries.map(
    ([key, { minutes, km, line }]) => `  ${JSON.stringify(key)}: ${JSON.stringify({ minutes, km, line })}`,
  );
  return `{\n "routing": 1,\n "answers": {\n${lines.join(",\n")}\n }\n}\n`;
}
