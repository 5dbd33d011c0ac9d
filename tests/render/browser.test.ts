/**
 * The page in a real browser: Debian's Chromium, driven through playwright-core. Where there is none the tests are skipped,
 * counted and named. `DAYWRIGHT_SHOTS=folder` keeps the photographs for whoever looks at them.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import type { AxeResults } from "axe-core";
import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { renderHtml } from "../../src/render/forms/html.ts";
import { sheetOf } from "../../src/reports/sheet/index.ts";
import type { SheetRequest } from "../../src/reports/sheet/input.ts";
import { at } from "../sheet/demoDay.ts";
import { demoInput } from "../sheet/demoInput.ts";
import { hostileInput } from "../sheet/hostile.ts";
import { dayOf, realDay } from "../sheet/realDay.ts";

const CHROMIUM = process.env["DAYWRIGHT_CHROMIUM"] ?? "/usr/bin/chromium";
const ARGUMENTS = [
  ...["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"],
  ...["--disable-background-networking", "--disable-component-update"],
];
/** The text width of A4 between margins of 9 mm, in pixels of 1/96 inch. */
const A4_TEXT = Math.floor(((210 - 18) / 25.4) * 96);
const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const LONG_WORD = "Ungewöhnlichlangesortsnamenwortohnejedebruchstelleundohneende".repeat(3);

const DEMO = await realDay("2027-01-20");
const EIGHT = await dayOf("fixtures/cases/sheet/eight.yaml");

const CHANGED = demoInput({
  changes: {
    ...{ fromRevision: 1, toRevision: 2 },
    changes: [
      {
        ...({ kind: "hit", id: "noon", who: [], how: "changed", what: "start" } as const),
        was: { kind: "time", at: at("10:30"), place: "dock" },
        now: { kind: "time", at: at("11:00"), place: "dock" },
      },
    ],
  },
});

const PAGES: readonly (readonly [string, SheetRequest])[] = [
  ["demo", DEMO],
  ["by hand", demoInput()],
  ["one person", demoInput({ person: "wren" })],
  ["redacted", demoInput({ redact: true })],
  ["hostile", hostileInput()],
  ["long words", hostileInput(LONG_WORD)],
];

const missing = existsSync(CHROMIUM) ? "" : ` (skipped: no Chromium at ${CHROMIUM})`;

describe.skipIf(missing !== "")(`the page in Chromium${missing}`, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: CHROMIUM, args: ARGUMENTS });
  });
  afterAll(async () => {
    await browser.close();
  });

  async function open(request: SheetRequest, width: number, colorScheme: "light" | "dark"): Promise<Page> {
    const page = await browser.newPage({ viewport: { width, height: 800 }, colorScheme });
    await page.setContent(renderHtml(sheetOf(request)));
    return page;
  }

  async function keep(page: Page, name: string): Promise<void> {
    const folder = process.env["DAYWRIGHT_SHOTS"];
    if (folder === undefined) return;
    mkdirSync(folder, { recursive: true });
    await page.screenshot({ path: join(folder, `${name.replaceAll(" ", "-")}.png`), fullPage: true });
  }

  for (const [name, request] of PAGES) {
    it(`${name}: never scrolls sideways`, async () => {
      const page = await open(request, 360, "light");
      for (const width of [320, 360, 900, 1280]) {
        await page.setViewportSize({ width, height: 800 });
        expect(await page.evaluate<number>("document.documentElement.scrollWidth")).toBeLessThanOrEqual(width);
        await keep(page, `${name} ${width}`);
      }
      await page.close();
    });
  }

  for (const [width, scheme] of [
    [360, "light"],
    [360, "dark"],
    [1280, "light"],
    [1280, "dark"],
  ] as const) {
    it(`an audit by all rules, AAA too, at ${width} pixels, ${scheme}, finds nothing`, async () => {
      for (const request of [DEMO, demoInput({ person: "wren" }), CHANGED]) {
        const page = await open(request, width, scheme);
        await keep(page, `demo ${width} ${scheme}`);
        expect(await faults(page)).toEqual([]);
        await page.close();
      }
    });
  }

  it("is six screens of a phone at most, with call, hit, light, cold, hospital and telephones in the first", async () => {
    const page = await browser.newPage({ viewport: { width: 360, height: 740 } });
    await page.setContent(renderHtml(sheetOf(DEMO)));
    expect(await page.evaluate<number>("document.documentElement.scrollHeight / 740")).toBeLessThanOrEqual(6);
    const bottom = (selector: string): Promise<number> =>
      page.evaluate<number>(
        `Math.max(...[...document.querySelectorAll(${JSON.stringify(selector)})].map((one) => one.getBoundingClientRect().bottom))`,
      );
    for (const selector of [".figures", ".box", "#people a"]) expect(await bottom(selector)).toBeLessThanOrEqual(740);
    const heights = await page.evaluate<number[]>(
      "[...document.querySelectorAll('#people a, .box a, nav a')].map((one) => one.getBoundingClientRect().height)",
    );
    // WCAG 2.2, 2.5.5 Target Size (Enhanced): 44 by 44 CSS pixels.
    for (const height of heights) expect(height).toBeGreaterThanOrEqual(44);
    await page.close();
  });

  it("answers one person's question in the first two lines that are spoken: when, where, in what", async () => {
    const page = await open(demoInput({ person: "ilse" }), 360, "light");
    // The tree that a screen reader reads, one line for each thing that it speaks.
    const tree = (await page.locator("body").ariaSnapshot()).split("\n").map((line) => line.trim());
    const spoken = tree.filter((line) => line !== "- banner:").slice(0, 2);
    expect(spoken[0]).toMatch(/^- heading ".*20 January 2027 .*Ilse.*" \[level=1\]$/u);
    expect(spoken[1]).toBe("- paragraph: Call 04:15 Chicago (05:15 New York), Lodge · Wagon, with Wren");
    await page.close();
  });

  it.each([360, 1280])("the keyboard goes where the eye goes, at %d pixels", async (width) => {
    const page = await open(DEMO, width, "light");
    const spot = (one: string): string =>
      `(() => { const { left, top } = ${one}.getBoundingClientRect(); return { left, top: top + scrollY }; })()`;
    // Everything that can be reached, before anything is scrolled: the row of links stays where the eye sees it first.
    const seen = await page.evaluate<{ left: number; top: number }[]>(
      `[...document.querySelectorAll("a, button, input, [tabindex]")].filter((one) => one.checkVisibility()).map((one) => ${spot("one")})`,
    );
    const links = await page.evaluate<string[]>(
      '[...document.querySelectorAll("a")].filter((one) => one.checkVisibility()).map((one) => one.outerHTML)',
    );
    const reached: string[] = [];
    for (const _ of seen) {
      await page.keyboard.press("Tab");
      reached.push(await page.evaluate<string>("document.activeElement.outerHTML"));
    }
    expect(reached).toEqual(links);
    // Each is below the one before it or at its right, never back: down a column, then to the next one.
    for (const [at, { left, top }] of seen.entries()) {
      const before = seen[at - 1];
      if (before !== undefined) expect(top > before.top - 8 || left > before.left + 8).toBe(true);
    }
    expect(seen.length).toBeGreaterThan(8);
    await page.close();
  });

  it("asks for nothing, runs nothing and complains of nothing", async () => {
    for (const [, request] of PAGES) {
      const page = await browser.newPage();
      const heard: string[] = [];
      page.on("request", (asked) => heard.push(asked.url()));
      page.on("console", (message) => heard.push(message.text()));
      page.on("dialog", (dialog) => heard.push(dialog.message()));
      await page.setContent(renderHtml(sheetOf(request)));
      expect(heard.filter((one) => !one.startsWith("about:"))).toEqual([]);
      expect(await page.evaluate<number>("document.scripts.length")).toBe(0);
      await page.close();
    }
  });

  it("eight people with four vehicles are two sheets of A4 or Letter", async () => {
    const page = await open(EIGHT, 1280, "light");
    for (const format of ["A4", "Letter"]) expect(pageCount(await page.pdf({ format }))).toBe(2);
    await page.emulateMedia({ media: "print" });
    // 9 pt are 12 pixels; the letters of the drawing as well.
    const sizes = await page.evaluate<number[]>(
      "[...document.querySelectorAll('body *')].filter((one) => one.checkVisibility() && one.textContent.trim() !== '' && !['STYLE', 'TITLE', 'title', 'desc'].includes(one.tagName)).map((one) => parseFloat(getComputedStyle(one).fontSize))",
    );
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(12 - 0.01);
    await page.close();
  });

  it("prints the demo on two sheets of A4 or Letter at most", async () => {
    const page = await open(DEMO, 1280, "dark");
    for (const format of ["A4", "Letter"]) {
      const pdf = await page.pdf({ format });
      const folder = process.env["DAYWRIGHT_SHOTS"];
      if (folder !== undefined) writeFileSync(join(folder, `demo-${format}.pdf`), pdf);
      expect(pageCount(pdf)).toBeLessThanOrEqual(2);
      expect(pageCount(pdf)).toBeGreaterThan(0);
    }
    await page.close();
  });

  it("prints dark on light, whatever the screen", async () => {
    const page = await open(demoInput(), 1280, "dark");
    await page.emulateMedia({ media: "print" });
    expect(await page.evaluate<string>("getComputedStyle(document.body).backgroundColor")).toBe("rgb(255, 255, 255)");
    await page.close();
  });

  it("prints a code for each place, large enough to be read from paper", async () => {
    const page = await open(demoInput(), A4_TEXT, "light");
    await page.emulateMedia({ media: "print" });
    const widths = await page.evaluate<number[]>(
      "[...document.querySelectorAll('svg.qr')].map((code) => code.getBoundingClientRect().width)",
    );
    expect(widths).toHaveLength(5);
    // 12 mm at 96 pixels to the inch: a module of a code of 33 is then a third of a millimeter, a common lower bound (from memory).
    for (const width of widths) expect(width).toBeGreaterThan((12 / 25.4) * 96);
    await page.close();
  });
});

/** What axe finds by all of its rules, with the element. */
async function faults(page: Page): Promise<readonly string[]> {
  await page.evaluate(AXE);
  const all = "axe.getRules().map(({ ruleId }) => ruleId)";
  const rules = `Object.fromEntries(${all}.map((id) => [id, { enabled: true }]))`;
  const results = await page.evaluate<AxeResults>(`axe.run(document, { rules: ${rules} })`);
  return results.violations.flatMap((fault) => fault.nodes.map((node) => `${fault.id}: ${node.html.slice(0, 160)}`));
}

/** Page objects of a PDF file, which Chromium writes uncompressed. */
const pageCount = (pdf: Buffer): number => (pdf.toString("latin1").match(/\/Type\s*\/Page\b/gu) ?? []).length;
