import { describe, expect, it } from "vitest";
import { renderChat } from "../../src/render/chat.ts";
import { sheetOf } from "../../src/reports/sheet/index.ts";
import { demoDay } from "../sheet/demoDay.ts";
import { demoInput } from "../sheet/demoInput.ts";
import { HOSTILE, hostileInput } from "../sheet/hostile.ts";

const chat = (request = demoInput(), codeBlock = false): string => renderChat(sheetOf(request), { codeBlock });

describe("a chat message", () => {
  it("has five lines: the line, the calls, the hits, the road, what to watch", () => {
    const lines = chat().trimEnd().split("\n");
    expect(lines).toHaveLength(5);
    expect(lines[0]).toContain("first call 05:00 New York (04:00 Chicago)");
    expect(lines[1]).toMatch(/^Calls \(Chicago\): Tomas 04:00 Lodge; /u);
    expect(lines[2]).toMatch(/^Hits: dawn\.1 07:00 New York \(06:00 Chicago\) Pier/u);
    expect(lines[3]).toContain("Truck 04:15 (latest 04:25) to Pier, Tomas drives");
    expect(lines[4]).toContain("1 not solved, first: Bea has 9 h 40 min of rest");
    expect(lines[4]).toContain("batteries tonight: Tue 22:14, Tue 23:26");
  });

  it("is under 1,500 characters whatever the plan, and says how much it leaves out", () => {
    const hits = demoDay.activities.flatMap((one) => Array.from({ length: 30 }, () => one));
    const people = demoDay.people.flatMap((one) => Array.from({ length: 10 }, () => one));
    for (const request of [
      demoInput({ day: { ...demoDay, activities: hits, people } }),
      hostileInput("x".repeat(2000)),
      hostileInput(),
    ]) {
      for (const codeBlock of [false, true]) expect(chat(request, codeBlock).length).toBeLessThan(1500);
    }
    expect(chat(demoInput({ day: { ...demoDay, activities: hits, people } }))).toMatch(/ … and \d+ more/u);
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
