/** The manual: a page by its name, made when it is asked for, from the declarations that the program works with. */
import type { DeclaredPage, Page } from "./page.ts";
import { PAGES } from "./table.ts";

export type { Page } from "./page.ts";

/** The pages without those below them, each with what it is about. */
export const HELP_PAGES: ReadonlyMap<string, string> = new Map(
  Object.entries(PAGES).map(([name, { about }]) => [name, about]),
);

/** A page by its words: `plan`, `plan hits`; null for one that there is not. */
export async function manualPage(words: readonly string[]): Promise<Page | null> {
  const [name = "", second, ...more] = words;
  const found = more.length > 0 ? null : await declaredPage(name);
  if (found === null) return null;
  const text = second === undefined ? await found.page() : (found.below?.page(second) ?? null);
  return text === null ? null : { name: words.join(" "), ...text };
}

const declaredPage = async (name: string): Promise<DeclaredPage | null> =>
  Object.hasOwn(PAGES, name) ? ((await PAGES[name]?.load()) ?? null) : null;

/** The words that have a page after this one: of `plan` the names of its sections. */
export const pagesBelow = async (name: string): Promise<readonly string[]> =>
  (await declaredPage(name))?.below?.names() ?? [];
