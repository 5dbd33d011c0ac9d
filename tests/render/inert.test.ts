/** Any text at all in the plan's place: what each form promises must hold whatever it is. */
import fc from "fast-check";
import ICAL from "ical.js";
import { describe, expect, it } from "vitest";
import { renderChat } from "../../src/render/forms/chat.ts";
import { renderHtml } from "../../src/render/forms/html.ts";
import { renderIcs } from "../../src/render/forms/ics.ts";
import { htmlText } from "../../src/render/html/text.ts";
import { plainLine } from "../../src/render/text/printable.ts";
import { sheetOf } from "../../src/reports/sheet/index.ts";
import { runs } from "../fuzz.ts";
import { demoInput } from "../sheet/demoInput.ts";
import { hostileInput } from "../sheet/hostile.ts";

const SEED = 46_0120;
const anyText = fc.oneof(fc.string({ unit: "binary", maxLength: 80 }), fc.string({ unit: "grapheme", maxLength: 400 }));
const tagsOf = (html: string): readonly string[] => [...new Set(html.match(/<[a-z][a-z0-9]*/giu) ?? [])].sort();

describe("for any text", () => {
  it("a message is short and mentions nobody", () => {
    fc.assert(
      fc.property(anyText, fc.boolean(), (word, codeBlock) => {
        const text = renderChat(sheetOf(hostileInput(word)), { codeBlock });
        expect(text.length).toBeLessThan(1500);
        expect(text).not.toMatch(/[@<>]/u);
        expect(text.trimEnd().split("\n").length).toBeLessThanOrEqual(codeBlock ? 7 : 5);
      }),
      { numRuns: runs(60, 2000), seed: SEED },
    );
  });

  it("a calendar parses, folds at 75 octets, and gives titles back", async () => {
    await fc.assert(
      fc.asyncProperty(anyText, async (word) => {
        const sheet = sheetOf(hostileInput(word));
        const text = await renderIcs(sheet, { alarmMinutes: null, now: null });
        for (const line of Buffer.from(text, "utf8").toString("latin1").split("\r\n"))
          expect(line.length).toBeLessThanOrEqual(75);
        const events = new ICAL.Component(ICAL.parse(text)).getAllSubcomponents("vevent");
        const titles = events.map((event) => String(event.getFirstPropertyValue("summary") ?? ""));
        // A name that is read from right to left is isolated.
        expect(titles.map((title) => title.replace(/[\u2068\u2069]/gu, ""))).toEqual(
          sheet.events.map((event) => plainLine(event.title)),
        );
      }),
      { numRuns: runs(40, 1000), seed: SEED },
    );
  });

  it("a page has no tag that a harmless one has not", () => {
    // A word that is read from right to left is isolated.
    const harmless = [...tagsOf(renderHtml(sheetOf(demoInput()))), "<bdi"];
    fc.assert(
      fc.property(anyText, (word) => {
        for (const tag of tagsOf(renderHtml(sheetOf(hostileInput(word))))) expect(harmless).toContain(tag);
      }),
      { numRuns: runs(30, 500), seed: SEED },
    );
  });

  it("text in HTML comes back when it is read", () => {
    fc.assert(
      fc.property(anyText, (word) => {
        const escaped = htmlText(word);
        expect(escaped).not.toMatch(/[<>"']/u);
        expect(htmlText(escaped.replaceAll(/&(?:amp|lt|gt|quot|#39);/gu, (one) => ENTITIES[one] ?? ""))).toBe(escaped);
      }),
      { numRuns: runs(500, 20_000), seed: SEED },
    );
  });

  it("the demo's own sheet is the same twice", () => {
    expect(renderHtml(sheetOf(demoInput()))).toBe(renderHtml(sheetOf(demoInput())));
  });
});

const ENTITIES: Readonly<Record<string, string>> = {
  "&amp;": "&",
  "&lt;": "<",
  "&gt;": ">",
  "&quot;": '"',
  "&#39;": "'",
};
