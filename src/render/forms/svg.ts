/** The charts of a report as one SVG file that stands alone: each under its title, black on white, no font of its own. */
import type { Chart, Report } from "../../reports/shared/view.ts";
import { CHART_CSS, chartSvg, WIDE } from "../chart/svg.ts";
import type { DeclaredForm } from "../form.ts";
import { htmlText } from "../html/text.ts";

const MARGIN = 12;
const TITLE = 20;

/** The file, its last line ended; a sentence where the report has nothing to draw. */
export function toSvg(report: Report): string {
  const charts = report.blocks.filter((block): block is Chart => block.kind === "chart");
  const parts: string[] = [];
  let y = MARGIN;
  for (const [index, chart] of charts.entries()) {
    parts.push(heading(chart.title, y));
    const drawn = chartSvg(chart, report.say, { id: `chart-${index}`, y: y + TITLE });
    parts.push(drawn.svg);
    y += TITLE + drawn.height + MARGIN;
  }
  if (charts.length === 0) {
    parts.push(heading("Nothing to draw.", y));
    y += TITLE;
  }
  const [width, height] = [WIDE + 2 * MARGIN, y + MARGIN];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    `<style>${CHART_CSS}</style>`,
    '<rect width="100%" height="100%" fill="#fff"/>',
    `<svg x="${MARGIN}" width="${WIDE}" height="${height}">`,
    ...parts,
    "</svg>\n</svg>\n",
  ].join("\n");
}

const heading = (text: string, y: number): string =>
  `<text x="0" y="${y + 12}" font-family="system-ui,sans-serif" font-size="13" font-weight="600">${htmlText(text)}</text>`;

/** Of reports that draw a chart. */
export const svgForm: DeclaredForm<"report"> = {
  name: "svg",
  suffixes: [".svg"],
  commands: ["light", "power"],
  place: 60,
  takes: "report",
  print: toSvg,
};
