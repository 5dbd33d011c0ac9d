/** The manual: a page by its name, made when it is asked for, from the declarations that the program works with. */
import type { Page } from "./page.ts";

export type { Page, PageBlock, PageTerm } from "./page.ts";

/** A page by its words: `plan`, `plan hits`; null for one that there is not. */
export async function manualPage(words: readonly string[]): Promise<Page | null> {
  const [name = "", section, ...more] = words;
  if (more.length > 0) return null;
  if (name === "plan") {
    const { planPage, sectionPage } = await import("./plan.ts");
    return section === undefined ? planPage() : sectionPage(section);
  }
  if (section !== undefined) return null;
  switch (name) {
    case "first-night":
      return (await import("./firstNight.ts")).page;
    case "json":
      return (await import("./json.ts")).jsonPage();
    case "logs":
      return (await import("./logs.ts")).logsPage();
    case "recipes":
      return (await import("./recipes.ts")).page;
    case "numbers":
      return (await import("./numbers.ts")).numbersPage();
    case "promises":
      return (await import("./promises.ts")).page;
    case "versions":
      return (await import("./versions.ts")).page;
    default:
      return null;
  }
}

/** The names of the plan's sections, for `plan SECTION`. */
export async function planSections(): Promise<readonly string[]> {
  const { planReference } = await import("../plan/reference.ts");
  return planReference().map(({ section }) => section);
}
