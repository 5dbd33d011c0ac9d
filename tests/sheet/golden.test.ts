/**
 * Every form of the demo's three days, as files to be read. A change of wording shows in them; what the numbers mean is
 * tested elsewhere. Markdown and JSON are named as text, so that no formatter rewrites them. `npx vitest run tests/sheet -u` writes them anew.
 */
import { describe, expect, it } from "vitest";
import { renderChat } from "../../src/render/forms/chat.ts";
import { toCsv } from "../../src/render/forms/csv.ts";
import { renderHtml } from "../../src/render/forms/html.ts";
import { renderIcs } from "../../src/render/forms/ics.ts";
import { toJson } from "../../src/render/forms/json.ts";
import { toMarkdown } from "../../src/render/forms/markdown.ts";
import { toText } from "../../src/render/forms/text.ts";
import { sheetOf, sheetReport } from "../../src/reports/sheet/index.ts";
import { plainStyle } from "../render/plainStyle.ts";
import { realDay } from "./realDay.ts";

const DATES = ["2027-01-19", "2027-01-20", "2027-01-21"];

describe.each(DATES)("the sheet of %s", (date) => {
  const sheet = realDay(date).then(sheetOf);
  const golden = (form: string): string => `../golden/sheet/${date}.${form}`;

  it("as text of 80 columns, and nothing wider", async () => {
    const text = await toText(sheetReport(await sheet), { ...plainStyle, width: 80 });
    await expect(text).toMatchFileSnapshot(golden("txt"));
    for (const line of text.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
  });

  it("as the other forms of its report", async () => {
    const report = sheetReport(await sheet);
    await expect(toMarkdown(report)).toMatchFileSnapshot(golden("md.txt"));
    await expect(toCsv(report, { bom: false })).toMatchFileSnapshot(golden("csv"));
    await expect(toJson(report.data)).toMatchFileSnapshot(golden("json.txt"));
  });

  it("as a page, a calendar and a message", async () => {
    await expect(renderHtml(await sheet)).toMatchFileSnapshot(golden("html"));
    await expect(await renderIcs(await sheet, { alarmMinutes: 60, now: null })).toMatchFileSnapshot(golden("ics"));
    await expect(renderChat(await sheet, { codeBlock: false })).toMatchFileSnapshot(golden("chat"));
  });
});
