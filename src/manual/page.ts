/** What a page of the manual is made of, before any form is chosen. Text marks code with backticks. */

/** A part of a manual page. */
export type PageBlock =
  | { readonly kind: "heading"; readonly text: string }
  | { readonly kind: "text"; readonly text: string }
  /** A word and what it means. */
  | { readonly kind: "terms"; readonly terms: readonly PageTerm[] }
  /** A file or a script, as it stands. */
  | { readonly kind: "code"; readonly language: "yaml" | "sh" | "json"; readonly text: string }
  /** A command line that a reader types; a test runs each. `shows` are lines that it prints. */
  | { readonly kind: "run"; readonly command: string; readonly exit: number; readonly shows: readonly string[] };

/** A term and what is said of it. */
export interface PageTerm {
  readonly term: string;
  readonly text: string;
}

/** What a page says. */
export interface PageText {
  readonly title: string;
  readonly blocks: readonly PageBlock[];
}

/** A page of the manual. */
export interface Page extends PageText {
  /** As `help` takes it: `plan hits`. */
  readonly name: string;
}

/** A heading of a page. */
export const heading = (text: string): PageBlock => ({ kind: "heading", text });
/** A paragraph. */
export const textBlock = (said: string): PageBlock => ({ kind: "text", text: said });
/** A list of terms. */
export const terms = (list: readonly PageTerm[]): PageBlock => ({ kind: "terms", terms: list });
/** A term of such a list. */
export const pageTerm = (name: string, said: string): PageTerm => ({ term: name, text: said });
/** A piece of a plan. */
export const yaml = (code: string): PageBlock => ({ kind: "code", language: "yaml", text: code });
/** A shell script that is shown and not run by itself. */
export const script = (code: string): PageBlock => ({ kind: "code", language: "sh", text: code });

/** A command line that is run by a test: it ends with `exit` and prints these lines among others. */
export const commandBlock = (command: string, exit = 0, shows: readonly string[] = []): PageBlock => ({
  kind: "run",
  command,
  exit,
  shows,
});

/** A page as its file declares it. */
export interface DeclaredPage {
  /** As `help` takes it. */
  readonly name: string;
  /** Where help lists it among the others. */
  readonly place: number;
  /** What it is about, as help lists it. */
  readonly about: string;
  page(): PageText | Promise<PageText>;
  /** The pages below it by a second word: of `plan`, a section's. */
  readonly below?: { names(): readonly string[]; page(name: string): PageText | null };
}

/** A page before it is loaded. */
export interface PageRow {
  readonly about: string;
  readonly load: () => Promise<DeclaredPage>;
}
