/** Where a sheet's first page of paper ends, by counting its lines. */
import { sumOf } from "../../lists.ts";
import type { Block } from "../../reports/shared/view.ts";
import type { Section, Sheet } from "../../reports/sheet/view.ts";
import { isPosition } from "./blocks.ts";

/** Millimeters at 9 pt: a line, a heading with its rule, a lane of the drawing, the figures with title and clocks. */
const LINE = 3.8;
const HEADING = 7;
const LANE = 4.6;
const HEAD = 27;
/** The shorter of the two papers, Letter, less its margins; some of it left for lines that break. */
const PAGE = 258 - 10;
/** Telephones stand side by side on paper, and so do the codes of positions. */
const TELEPHONES_A_LINE = 2;
const CODES_A_ROW = 5;
const CODE = 16;

function lengthOf(block: Block): number {
  switch (block.kind) {
    case "table":
      return LINE * (block.rows.length + 1 + (block.title === null ? 0 : 1));
    case "chart":
      return LANE * block.lanes.length + 5 * LINE;
    case "list":
      return LINE * block.items.length;
    case "findings":
      return LINE * block.findings.length;
    case "line":
    case "heading":
      return LINE;
  }
}

const sectionLength = ({ id, blocks }: Section): number =>
  HEADING + sumOf(blocks, lengthOf) / (id === "phones" ? TELEPHONES_A_LINE : 1) + CODE * rowsOfCodes(blocks);

/** Rows of codes below a list of positions. */
const rowsOfCodes = (blocks: readonly Block[]): number =>
  Math.ceil(
    sumOf(blocks, (block) => (block.kind === "list" && block.items.some(isPosition) ? block.items.length : 0)) /
      CODES_A_ROW,
  );

/** Whether these sections and the head take no more than one page of A4 or Letter. */
const fitsOnePage = ({ contacts }: Sheet, sections: readonly Section[]): boolean =>
  HEAD + LINE * contacts.length + sumOf(sections, sectionLength) <= PAGE;

/**
 * Whether `kept`, what one keeps, is the first page and the lists begin the second one. Where all fits one page it stays
 * one, and where `kept` runs over the lists follow it: either way a page would be nearly empty.
 */
export const endsFirstPage = (sheet: Sheet, kept: readonly Section[]): boolean =>
  fitsOnePage(sheet, kept) && !fitsOnePage(sheet, sheet.sections);
