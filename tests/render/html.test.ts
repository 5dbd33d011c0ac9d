import { decodeQR } from "qr/decode.js";
import { describe, expect, it } from "vitest";
import { renderHtml } from "../../src/render/forms/html.ts";
import { htmlLink, htmlText } from "../../src/render/html/text.ts";
import { qrSvg } from "../../src/render/qr.ts";
import { wordingOf } from "../../src/reports/shared/wording.ts";
import { sheetOf } from "../../src/reports/sheet/index.ts";
import { demoDay } from "../sheet/demoDay.ts";
import { demoInput } from "../sheet/demoInput.ts";
import { hostileInput } from "../sheet/hostile.ts";

const page = (request = demoInput()): string => renderHtml(sheetOf(request));
const tagsOf = (html: string): ReadonlySet<string> =>
  new Set([...html.matchAll(/<([a-z][a-z0-9]*)/gu)].map(([, tag]) => tag ?? ""));

describe("the page", () => {
  it("stands alone: no script, no request, a policy that allows neither", () => {
    const html = page();
    expect(html).toContain(
      `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'`,
    );
    for (const tag of ["script", "link", "img", "iframe", "object", "form", "base"])
      expect(tagsOf(html)).not.toContain(tag);
    expect(html).not.toMatch(/ on\w+=|@import|https?:|url\((?!#)/u);
  });

  it("is the same bytes every time", () => {
    expect(page()).toBe(page());
  });

  it("follows the clock it is asked for", () => {
    const half = page(demoInput({ say: wordingOf(demoDay.plan, { style: "12h" }) }));
    expect(half).toContain("Chicago (5:00 am New York)");
    expect(half).toContain(">4:00 am</time>");
    expect(half).not.toMatch(/>[^<]*\b05:00/u);
    expect(page()).not.toContain("5:00 am");
  });

  it("has a code and a link for each place with coordinates, and neither where it is redacted", () => {
    expect(page().match(/href="geo:/gu)).toHaveLength(10);
    expect(page().match(/<svg class="qr"/gu)).toHaveLength(5);
    expect(page(demoInput({ redact: true }))).not.toMatch(/geo:|class="qr"/u);
  });

  it("names the table's roles, which a card layout would lose", () => {
    const html = page();
    const tables = html.match(/<table/gu) ?? [];
    expect(html.match(/<table role="table"/gu)).toHaveLength(tables.length);
    expect(html).not.toMatch(/<t[dh] (?!role|scope="(?:row|col)" role)/u);
  });
});

describe("a hostile plan", () => {
  it("adds no tag, no attribute and no link that a harmless plan has not", () => {
    const html = page(hostileInput());
    const harmless = [...tagsOf(page()), "<bdi"];
    for (const tag of tagsOf(html)) expect(harmless).toContain(tag);
    expect(html).not.toMatch(/<[^>]*\son\w+\s*=/u);
    expect(html).not.toMatch(/href="(?!geo:|tel:|#[a-z]+")/u);
    expect(html.replaceAll("\n", "")).not.toMatch(/[\p{Cc}\p{Bidi_Control}]/u);
  });
});

describe("text in HTML", () => {
  it("is escaped in content and in quotes, and shows what has no shape", () => {
    expect(htmlText(`<a href="x">&'\u202e\n`)).toBe("&lt;a href=&quot;x&quot;&gt;&amp;&#39;&lt;202E&gt;&lt;0A&gt;");
  });

  it("is a link only with a scheme of ours", () => {
    for (const good of ["geo:46.81,-90.82", "tel:+17155550142", "https://ice.example/a?b=1&c"])
      expect(htmlLink(good)).not.toBeNull();
    for (const bad of [
      "javascript:alert(1)",
      " https://x",
      "data:text/html,x",
      'https://x" onclick="y',
      "//x",
      "JAVASCRIPT:x",
    ]) {
      expect(htmlLink(bad)).toBeNull();
    }
  });
});

describe("a QR code", () => {
  // Drawn again from the path on our own raster and read by a decoder; ISO/IEC 18004 asks for four modules of quiet zone.
  it("reads back, with its quiet zone", () => {
    for (const text of ["geo:46.81,-90.82", "geo:-54.807222,-68.304444"]) {
      const svg = qrSvg(text);
      const size = Number(/viewBox="0 0 (\d+)/u.exec(svg)?.[1]);
      const path = /fill="#000" d="([^"]+)"/u.exec(svg)?.[1] ?? "";
      const runs = [...path.matchAll(/M(\d+) (\d+)h(\d+)v1h-\d+z/gu)].map(([, x, y, length]) => ({
        x: Number(x),
        y: Number(y),
        length: Number(length),
      }));
      expect(Math.min(...runs.map((run) => run.x))).toBe(4);
      expect(Math.max(...runs.map((run) => run.x + run.length))).toBe(size - 4);
      expect(decodeQR(raster(runs, size, 6))).toBe(text);
    }
  });
});

function raster(
  runs: readonly { readonly x: number; readonly y: number; readonly length: number }[],
  size: number,
  scale: number,
) {
  const width = size * scale;
  const data = new Uint8Array(width * width * 4).fill(255);
  for (const run of runs) {
    for (let y = run.y * scale; y < (run.y + 1) * scale; y += 1) {
      for (let x = run.x * scale; x < (run.x + run.length) * scale; x += 1)
        data.fill(0, (y * width + x) * 4, (y * width + x) * 4 + 3);
    }
  }
  return { width, height: width, data };
}
