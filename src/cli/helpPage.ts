/** `help PAGE`: a page of the manual as text, Markdown or a man page. */
import { HELP_PAGES, manualPage, nearest, pagesBelow, VERSION } from "../index.ts";
import type { Invocation } from "./command.ts";
import { usage } from "./exit.ts";
import { widthFor } from "./io/colour.ts";
import { deliver } from "./output.ts";

/** The forms of a page, the usual one first. */
const PAGE_FORMS = ["text", "markdown", "man"];

/** Columns of a page where there is no terminal, and at most. */
const PAGE_WIDTH = 100;

/** Prints the page that `words` name; `commands` are what else `help` takes. Throws a usage failure for a page that there is not. */
export async function printPage(
  words: readonly string[],
  { io, options }: Pick<Invocation, "io" | "options">,
  commands: readonly string[],
): Promise<void> {
  const page = await manualPage(words);
  if (page === null) throw unknown(words, await pagesBelow(words[0] ?? ""), commands);
  const [form = "text"] = [options.format ?? formOfSuffix(options.output)].filter((one) => one !== null);
  if (!PAGE_FORMS.includes(form)) throw usage(`help has no form \`${form}\``, `--format ${PAGE_FORMS.join(", ")}`);
  const { pageMan, pageMarkdown, pageText } = await import("../render/page.ts");
  const width =
    options.width === 0 ? null : Math.min(PAGE_WIDTH, widthFor(options.width, io.stdout, io.env) ?? PAGE_WIDTH);
  const printed =
    form === "man" ? pageMan(page, VERSION) : form === "markdown" ? pageMarkdown(page) : pageText(page, width);
  deliver(io, options, printed);
}

const formOfSuffix = (output: string | null): string | null =>
  /\.(?:md|markdown)$/u.test(output ?? "") ? "markdown" : /\.1$/u.test(output ?? "") ? "man" : null;

function unknown(words: readonly string[], sections: readonly string[], commands: readonly string[]) {
  const [name = "", section] = words;
  if (sections.length > 0 && section !== undefined) {
    const near = nearest(section, sections);
    return usage(
      `the plan has no section \`${section}\``,
      near === null ? sections.join(", ") : `daywright help plan ${near}`,
    );
  }
  const known = [...commands, ...HELP_PAGES.keys()];
  const near = nearest(name, known);
  return usage(`unknown command \`${words.join(" ")}\``, near === null ? known.join(", ") : `daywright help ${near}`);
}
