/**
 * A sheet as one HTML page that stands alone: no script, no network, a strict content policy, everything inline. Made for
 * a phone first, then for a screen, then for paper.
 */
import type { AgendaItem, Figure, PersonCard, Section, SectionId, Sheet } from "../../reports/sheet/view.ts";
import type { DeclaredForm } from "../form.ts";
import { htmlBlock, htmlCell, htmlCells } from "../html/blocks.ts";
import { endsFirstPage } from "../html/paperLength.ts";
import { pageCss } from "../html/style.ts";
import { htmlText, isolated } from "../html/text.ts";

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

/** What a phone shows as one list in place of tables. */
const LISTED: ReadonlySet<SectionId> = new Set(["calls", "hits", "moves", "meals", "phones"]);

/** What one keeps: the first sheet of paper. */
const KEPT: ReadonlySet<SectionId> = new Set(["changes", "calls", "timeline", "hits", "moves", "meals", "phones"]);

/** The page, its last line ended. */
export function renderHtml(sheet: Sheet): string {
  const head = [
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${POLICY}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="color-scheme" content="light dark">',
    '<meta name="referrer" content="no-referrer">',
    '<meta name="format-detection" content="telephone=no">',
    `<title>${htmlText(sheet.title)}</title>`,
    `<style>${pageCss(footOf(sheet))}</style>`,
  ];
  const { sections } = sheet;
  const first = sections.filter(({ id }) => KEPT.has(id) || isUrgent(sheet, id));
  const rest = sections.filter((section) => !first.includes(section));
  return [
    "<!doctype html>",
    '<html lang="en">',
    `<head>\n${head.join("\n")}\n</head>`,
    `<body>\n${header(sheet)}`,
    jumps(sheet),
    "<main>",
    people(sheet.people),
    `<div class="notes">${sheet.head.map((cells) => `<p>${htmlCells(cells)}</p>`).join(" ")}</div>`,
    agenda(sheet.agenda),
    ...groups(first).map((group) => htmlGroup(group, sheet)),
    `<div class="${endsFirstPage(sheet, first) ? "page" : "flows"}"></div>`,
    ...groups(rest).map((group) => htmlGroup(group, sheet)),
    "</main>\n</body>\n</html>\n",
  ].join("\n");
}

/** The title of the page with a long name of the story cut: the foot of a sheet of paper is one line. */
function footOf({ title, story }: Sheet): string {
  const letters = [...(story ?? "")];
  if (story === null || letters.length <= FOOT) return title;
  return title.replace(story, () => `${letters.slice(0, FOOT).join("").trimEnd()}…`);
}
const FOOT = 48;

/** Open points stand with what one keeps where they stand before the calls. */
function isUrgent({ sections }: Sheet, id: SectionId): boolean {
  const at = (own: SectionId): number => sections.findIndex((section) => section.id === own);
  return id === "open" && at("open") < at("calls");
}

function header({ title, answer, figures, contacts }: Sheet): string {
  const box =
    contacts.length === 0
      ? ""
      : `\n<div class="box">${contacts.map((cells) => `<p>${htmlCells(cells)}</p>`).join("")}</div>`;
  return [
    "<header>",
    `<h1>${isolated(title)}</h1>`,
    ...(answer === null ? [] : [`<p class="answer">${isolated(answer)}</p>`]),
    `<dl class="figures">${figures.map((one, at) => figure(one, answer !== null && at === 0)).join("")}</dl>${box}`,
    "</header>",
  ].join("\n");
}

const time = (text: string, iso: string | null): string =>
  iso === null ? isolated(text) : `<time datetime="${htmlText(iso)}">${htmlText(text)}</time>`;

/** What the sentence above has said is not said again. */
function figure({ label, main, side, what, iso }: Figure, isSaid: boolean): string {
  const more = [side, isSaid ? null : what].filter((part) => part !== null).join(", ");
  // Words such as `not stated` are no figure to be read from afar.
  const size = /\p{Nd}/u.test(main) ? "" : ' class="word"';
  return `<div><dt>${htmlText(label)}</dt><dd><b${size}>${time(main, iso)}</b>${more === "" ? "" : ` <span>${isolated(more)}</span>`}</dd></div>`;
}

/** Links to the sections that a phone reader jumps to. */
function jumps({ sections, people: cards, agenda: items }: Sheet): string {
  const links = [
    ...(cards.length === 0 ? [] : [["people", "People"]]),
    ...(items.length === 0 ? [] : [["agenda", "Day"]]),
    ...sections.filter(({ id, blocks }) => JUMPS.has(id) && blocks.length > 0).map(({ id, title }) => [id, title]),
  ];
  return `<nav aria-label="Sections">${links.map(([id, text]) => `<a href="#${id}">${htmlText(text ?? "")}</a>`).join("")}</nav>`;
}

const JUMPS: ReadonlySet<SectionId> = new Set(["changes", "open", "places", "batteries", "gear", "cautions", "lines"]);

/** Everyone with their call and a telephone to touch; a phone has it in place of two tables. */
function people(cards: readonly PersonCard[]): string {
  if (cards.length === 0) return "";
  const items = cards.map(({ name, roles, call, where, phone }) => {
    const desk = call === null || call.desk === null ? "" : ` <span class="muted">(${htmlText(call.desk)})</span>`;
    const when = call === null ? "" : `<b>${time(call.text, call.iso)}</b>${desk} `;
    const more = [roles, where ?? ""].filter((part) => part !== "").join(" · ");
    const line = more === "" ? "" : `<span class="where">${isolated(more)}</span>`;
    const number = phone === null ? "" : `<span class="phone">${htmlCell(phone)}</span>`;
    return `<li><span class="who">${when}<strong>${isolated(name)}</strong></span>${line}${number}</li>`;
  });
  return `<section id="people" class="phone-only" aria-labelledby="people-head">\n<h2 id="people-head">People</h2>\n<ul>${items.join("\n")}</ul>\n</section>`;
}

/** The day as one list, with a rule across where the place changes. */
function agenda(items: readonly AgendaItem[]): string {
  if (items.length === 0) return "";
  let place: string | null = null;
  const lines = items.map((item) => {
    const rule = item.place !== null && item.place !== place ? `<li class="place">${isolated(item.place)}</li>` : "";
    place = item.place ?? place;
    const note = item.note === null || item.note === "" ? "" : `<span class="note">${isolated(item.note)}</span>`;
    return `${rule}<li class="${item.kind} ${item.tone}">${time(item.time, item.iso)}<span class="what">${isolated(item.text)}</span>${note}</li>`;
  });
  return `<section id="agenda" class="phone-only" aria-labelledby="agenda-head">\n<h2 id="agenda-head">Day</h2>\n<ol>${lines.join("\n")}</ol>\n</section>`;
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
  const shown = LISTED.has(section.id) ? ' class="wide-only"' : "";
  return `<section id="${section.id}"${shown} aria-labelledby="${section.id}-head">\n<h2 id="${section.id}-head">${htmlText(section.title)}</h2>\n${blocks.join("\n")}\n</section>`;
}

/** The page. */
export const htmlForm: DeclaredForm<"sheet"> = {
  name: "html",
  suffixes: [".html", ".htm"],
  commands: ["sheet"],
  place: 70,
  takes: "sheet",
  print: renderHtml,
};
