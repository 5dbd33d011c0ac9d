/** What a page of the manual is made of, before any form is chosen. Text marks code with backticks. */

export type PageBlock =
  | { readonly kind: "heading"; readonly text: string }
  | { readonly kind: "text"; readonly text: string }
  /** A word and what it means. */
  | { readonly kind: "terms"; readonly terms: readonly PageTerm[] }
  /** A file or a script, as it stands. */
  | { readonly kind: "code"; readonly language: "yaml" | "sh" | "json"; readonly text: string }
  /** A command line that a reader types; a test runs each. `shows` are lines that it prints. */
  | { readonly kind: "run"; readonly command: string; readonly exit: number; readonly shows: readonly string[] };

export interface PageTerm {
  readonly term: string;
  readonly text: string;
}

export interface Page {
  /** As `help` takes it: `plan hits`. */
  readonly name: string;
  readonly title: string;
  readonly blocks: readonly PageBlock[];
}

export const heading = (text: string): PageBlock => ({ kind: "heading", text });
export const textBlock = (said: string): PageBlock => ({ kind: "text", text: said });
export const terms = (list: readonly PageTerm[]): PageBlock => ({ kind: "terms", terms: list });
export const pageTerm = (name: string, said: string): PageTerm => ({ term: name, text: said });
export const yaml = (code: string): PageBlock => ({ kind: "code", language: "yaml", text: code });
export const script = (code: string): PageBlock => ({ kind: "code", language: "sh", text: code });

/** A command line that is run by a test: it ends with `exit` and prints these lines among others. */
export const commandBlock = (command: string, exit = 0, shows: readonly string[] = []): PageBlock => ({
  kind: "run",
  command,
  exit,
  shows,
});
