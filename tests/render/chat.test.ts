import { describe, expect, it } from "vitest";
import { renderChat } from "../../src/render/forms/chat.ts";
import { sheetOf } from "../../src/reports/sheet/index.ts";
import { demoDay } from "../sheet/demoDay.ts";
import { demoInput } from "../sheet/demoInput.ts";
import { HOSTILE, hostileInput } from "../sheet/hostile.ts";

const chat = (request = demoInput(), codeBlock = false): string => renderChat(sheetOf(request), { codeBlock });

describe("a chat message", () => {
  it("has five lines: the line, the calls, the hits, the road, what to watch", () => {
    const lines = chat().trimEnd().split("\n");
    expect(lines).toHaveLength(5);
    expect(lines[0]).toContain("first call 04:00 Chicago (05:00 New York)");
    expect(lines[1]).toBe("Calls (Chicago): Tomas, Bea 04:00 Lodge; Wren, Ilse 04:15 Lodge");
    // 12:00 UTC on 20 January is 06:00 in Chicago and 07:00 in New York (tz database).
    expect(lines[2]).toMatch(/^Hits \(Chicago; New York is 1 h ahead\): Pier dawn\.1 06:00, dawn\.2 06:30/u);
    expect(lines[3]).toContain("Truck 04:15 (latest 04:25) to Pier, Tomas drives");
    expect(lines[4]).toContain("1 open, first: Bea has 9 h 40 min of rest");
    expect(lines[4]).toContain("packs before the call: Tue 22:14, Tue 23:26");
  });

  it("says that nothing is open only where the sheet has no open point", () => {
    const watch = (findings: ReturnType<typeof demoInput>["findings"]): string =>
      chat(demoInput({ findings })).trimEnd().split("\n")[4] ?? "";
    const open = demoInput().findings.filter(({ accepted }) => accepted === null);
    const [first, ...others] = open.map((one) => ({ ...one, who: null, level: "warning" as const }));
    if (first === undefined) throw new Error("the demo has an open point");
    expect(watch([first])).toContain("1 open point, none an error");
    expect(watch([first, { ...first, code: "other" }])).toContain("2 open points, none an error");
    expect(watch([{ ...first, level: "note" }])).not.toContain("open point");
    expect(watch([{ ...first, level: "error" }, ...others])).toContain("1 open, first: ");
  });

  const many = (copies: number) => {
    const moves = demoDay.moves.flatMap((one) => Array.from({ length: copies }, () => one));
    return demoInput({ day: { ...demoDay, moves } });
  };

  it("leaves out departures first, counts them, and keeps calls, hits and the first line", () => {
    const [short, long] = [chat().split("\n"), chat(many(10)).split("\n")];
    expect(chat(many(10)).length).toBeLessThanOrEqual(1500);
    expect(long.slice(0, 3)).toEqual(short.slice(0, 3));
    expect(long[3]).toMatch(/ … and \d+ more$/u);
    expect(long[4]).toBe(short[4]);
  });

  it("drops no hit and no call, whatever the length", () => {
    const hits = demoDay.activities.flatMap((one) => Array.from({ length: 60 }, () => one));
    const text = chat(demoInput({ day: { ...demoDay, activities: hits } }));
    expect(text.length).toBeGreaterThan(1500);
    // 60 times dawn.1.
    expect(text.match(/dawn\.1 06:00/gu)).toHaveLength(60);
    expect(text).toContain("On the road (Chicago): 8 more");
  });

  it("with parts says all of it in numbered messages of 1,500 characters at most", () => {
    for (const codeBlock of [false, true])
      for (const request of [many(10), hostileInput("x".repeat(4000)), hostileInput()]) {
        const text = renderChat(sheetOf(request), { codeBlock, parts: true });
        const messages = text.split(/\n\n(?=(?:```\n)?\d+\/\d+\n)/u);
        for (const message of messages) expect(message.length).toBeLessThanOrEqual(1500);
        expect(text).not.toContain(" more");
      }
    const text = renderChat(sheetOf(many(10)), { codeBlock: false, parts: true });
    // Eight drives of the demo, ten times each.
    expect(text.match(/ drives(?=;|$)/gmu)).toHaveLength(80);
    expect(text).toMatch(/^1\/\d\n/u);
  });

  it("mentions nobody, opens no entity, id, link, emphasis or heading", () => {
    for (const codeBlock of [false, true]) {
      const text = chat(hostileInput(), codeBlock);
      expect(text).not.toMatch(/[@<>]/u);
      expect(text.replaceAll("\n", "")).not.toMatch(/[\p{Cc}\p{Bidi_Control}]/u);
      expect(text.split("\n").filter((line) => line.startsWith("#"))).toEqual([]);
    }
    const text = chat(hostileInput());
    expect(text).not.toMatch(/&#|https?:\/\//u);
    expect(text).not.toMatch(/(?<!\\)[`*_~[\]|]/u);
  });

  it("cannot be broken out of a code block", () => {
    const text = chat(hostileInput(), true);
    expect(text.match(/`/gu)).toHaveLength(6);
    expect(text.startsWith("```\n")).toBe(true);
    expect(text.endsWith("\n```\n")).toBe(true);
  });

  it("holds the plan's words otherwise as they are", () => {
    const title = "Ice & snow, day 2 (late)";
    const text = chat(demoInput({ day: { ...demoDay, plan: { ...demoDay.plan, title } } }));
    expect(text.replaceAll("\u2060", "")).toContain(title);
    expect(HOSTILE).toContain("@everyone");
  });
});
