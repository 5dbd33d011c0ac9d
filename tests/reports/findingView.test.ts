/** A finding in every form: text, Markdown, the page, the sheet's own lists; each tells the same parts. */
import { describe, expect, it } from "vitest";
import { toMarkdown } from "../../src/render/forms/markdown.ts";
import { toText } from "../../src/render/forms/text.ts";
import { htmlBlock } from "../../src/render/html/blocks.ts";
import { findingCell, findingView } from "../../src/reports/shared/findingView.ts";
import type { Block } from "../../src/reports/shared/view.ts";
import { plainStyle } from "../render/plainStyle.ts";
import { reportOf, sampleFinding, say } from "../render/values.ts";

const finding = {
  ...sampleFinding(),
  source: { title: "the house's book", clause: "4" },
  accepted: "she slept in the truck",
};
const told = findingView(finding, say);
const block: Block = { kind: "findings", findings: [told] };
const PARTS = [
  "error, accepted",
  "wren has 8 h 15 min of rest; this plan needs 10 h",
  "day.yaml:14:13",
  "source: the house's book, 4",
  "accepted: she slept in the truck",
  "try: call wren at 07:15 or later",
  "rest-too-short",
];

describe("a finding", () => {
  it("has all its parts in text, in Markdown and on the page", async () => {
    const forms = [
      await toText(reportOf([block]), plainStyle),
      toMarkdown(reportOf([block])).replace(/\\|\*\*/gu, ""),
      htmlBlock(block, say, "x")
        .replace(/&#39;/gu, "'")
        .replaceAll("\u00a0", " ")
        .replace(/<[^>]+>/gu, ""),
    ];
    for (const text of forms) for (const part of PARTS) expect(text).toContain(part);
  });

  it("on one line has the parts asked for, in one order", () => {
    expect(findingCell(told, ["code", "try"], "bad")).toEqual({
      text: "wren has 8 h 15 min of rest; this plan needs 10 h; try: call wren at 07:15 or later [rest-too-short]",
      tone: "bad",
    });
    expect(findingCell(findingView(finding, say, { by: "Bea" }), ["accepted"], "plain").text).toBe(
      "wren has 8 h 15 min of rest; this plan needs 10 h; accepted by Bea: she slept in the truck",
    );
  });

  it("loses what is taken out of its texts, in every part that a plan can word", () => {
    const clean = (text: string): string => text.replace(/wren|truck/gu, "…");
    const { sentence, remarks } = findingView(finding, say, { clean });
    expect([sentence, ...remarks.map(({ text }) => text)].join()).not.toMatch(/wren|truck/u);
  });
});
