/**
 * The second generator, written before anything was mended by the first and left alone since: two plans are read as trees,
 * parts of one are put into the other, lists are turned round, entries copied under new names; then written in either style.
 */
import { parseDocument, stringify } from "yaml";
import { type Dice, pick } from "./mutants.ts";

type Tree = string | number | boolean | null | bigint | Date | Tree[] | { [key: string]: Tree };

const isTree = (value: unknown): value is Tree => value !== undefined;

function treeOf(text: string): Tree {
  const made: unknown = parseDocument(text, { logLevel: "silent" }).toJS({ maxAliasCount: 10 });
  return isTree(made) ? made : null;
}

const isMap = (tree: Tree): tree is { [key: string]: Tree } =>
  typeof tree === "object" && tree !== null && !Array.isArray(tree) && !(tree instanceof Date);

/** Every map and list in a tree, itself too. */
function branches(tree: Tree): readonly Tree[] {
  if (Array.isArray(tree)) return [tree, ...tree.flatMap(branches)];
  return isMap(tree) ? [tree, ...Object.values(tree).flatMap(branches)] : [];
}

function change(dice: Dice, tree: Tree, other: Tree): void {
  const at = pick(dice, branches(tree));
  const parts = branches(other);
  if (Array.isArray(at)) {
    const turn = dice(3);
    if (turn === 0) at.reverse();
    else if (turn === 1) at.push(pick(dice, parts));
    else at.splice(dice(at.length + 1), 1);
    return;
  }
  if (!isMap(at)) return;
  const keys = Object.keys(at);
  if (keys.length === 0) return;
  const key = pick(dice, keys);
  const value = at[key] ?? null;
  const turn = dice(5);
  if (turn === 0) delete at[key];
  else if (turn === 1) at[`${key}2`] = structuredClone(value);
  else if (turn === 2) at[key] = at[pick(dice, keys)] ?? null;
  else {
    const same = parts.filter((part) => isMap(part) && Object.hasOwn(part, key));
    const from = same.length > 0 ? pick(dice, same) : null;
    at[key] = from !== null && isMap(from) ? (from[key] ?? null) : pick(dice, parts);
  }
}

/** One text from two; null where the first is no map. */
export function crossed(dice: Dice, one: string, two: string): string | null {
  try {
    const [tree, other] = [treeOf(one), treeOf(two)];
    if (!isMap(tree) || branches(other).length === 0) return null;
    for (let left = 1 + dice(3); left > 0; left--) change(dice, tree, structuredClone(other));
    const text = stringify(tree, dice(2) === 0 ? {} : { collectionStyle: "flow" });
    return text.length < 100_000 ? text : null;
  } catch {
    // What the library does not read or write is no input of this generator.
    return null;
  }
}
