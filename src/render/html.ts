/**
 * A sheet as one HTML page that stands alone: no script, no network, a strict content policy, everything inline. Made for
 * a phone first, then for a screen, then for paper.
 */
import type { Section, SectionId, Sheet } from "../reports/sheet/view.ts";
import { htmlBlock, htmlCells } from "./html/blocks.ts";
import { PAGE_CSS } from "./html/style.ts";
import { htmlText } from "./html/text.ts";

const POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

/** Sections of short lines: on a screen and on paper, neighbours among them share two columns. */
const SHORT: ReadonlySet<SectionId> = new Set([
  "batteries",
  "gear",
  "meals",
  "phones",
  "wake",
  "reach",
  "decide",
  "cautions",
  "accepted",
  "open",
]);

/** The page, its last line ended. */
export function renderHtml(sheet: Sheet): string {
  const story = [sheet.story, sheet.revision === null ? null : `revision ${sheet.revision}`].filter(
    (part) => part !== null,
  );
  const head = [
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${POLICY}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="color-scheme" content="light dark">',
    '<meta name="referrer" content="no-referrer">',
    '<meta name="format-detection" content="telephone=no">',
    `<title>${htmlText(sheet.title)}</title>`,
    `<style>${PAGE_CSS}</style>`,
  ];
  const header = [
    story.length === 0 ? "" : `<p class="story">${htmlText(story.join(", "))}</p>`,
    `<h1>${htmlText(sheet.title)}</h1>`,
    ...sheet.head.map((cells) => `<p>${htmlCells(cells)}</p>`),
  ];
  return [
    "<!doctype html>",
    '<html lang="en">',
    `<head>\n${head.join("\n")}\n</head>`,
    `<body>\n<main>\n<header>\n${header.join("\n")}\n</header>`,
    ...groups(sheet.sections).map((group) => htmlGroup(group, sheet)),
    "</main>\n</body>\n</html>\n",
  ].join("\n");
}

/** Neighbouring short sections together, every other section alone. */
function groups(sections: readonly Section[]): readonly (readonly Section[])[] {
  return sections.reduce<Section[][]>((all, section) => {
    const last = all.at(-1);
    const [first] = last ?? [];
    if (last && first && SHORT.has(first.id) && SHORT.has(section.id)) last.push(section);
    else all.push([section]);
    return all;
  }, []);
}

function htmlGroup(group: readonly Section[], sheet: Sheet): string {
  const inside = group.map((section) => htmlSection(section, sheet)).join("\n");
  return group.length > 1 ? `<div class="flow">\n${inside}\n</div>` : inside;
}

function htmlSection(section: Section, sheet: Sheet): string {
  const blocks = section.blocks.map((block, index) => htmlBlock(block, sheet.say, `${section.id}-${index}`));
  return `<section id="${section.id}" aria-labelledby="${section.id}-head">\n<h2 id="${section.id}-head">${htmlText(section.title)}</h2>\n${blocks.join("\n")}\n</section>`;
}
