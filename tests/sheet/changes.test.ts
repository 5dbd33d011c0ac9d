import { describe, expect, it } from "vitest";
import { type Change, changesBetween } from "../../src/changes/between.ts";
import type { Day } from "../../src/day/day.ts";
import { sinceBlocks } from "../../src/reports/changes/index.ts";
import { wordingOf } from "../../src/reports/shared/wording.ts";
import { sheetOf } from "../../src/reports/sheet/index.ts";
import { at, demoDay } from "./demoDay.ts";
import { demoInput } from "./demoInput.ts";

/** The demo with the noon hit half an hour later, and the truck's second move with it. */
const moved: Day = {
  ...demoDay,
  plan: { ...demoDay.plan, revision: 3 },
  activities: demoDay.activities.map((one) => (one.id === "noon" ? { ...one, start: at("11:30") } : one)),
  moves: demoDay.moves.map((move) =>
    move.id === "truck.2" ? { ...move, leave: at("9:00"), arrive: at("9:50") } : move,
  ),
};

const told = (changes: readonly Change[]): readonly string[] =>
  changes.map((one) => `${one.how} ${one.id} ${one.what ?? ""}`.trim());

describe("what changed between two versions", () => {
  it("is nothing for the same day", () => {
    expect(changesBetween(demoDay, demoDay).changes).toEqual([]);
  });

  it("is each value that people read, with whom it concerns", () => {
    const { changes, fromRevision, toRevision } = changesBetween(demoDay, moved);
    expect([fromRevision, toRevision]).toEqual([2, 3]);
    expect(told(changes)).toEqual(["changed noon start", "changed truck.2 leave", "changed truck.2 arrive"]);
    expect(changes[0]?.who).toEqual(["wren", "ilse", "tomas", "bea"]);
    expect(changes[1]?.who).toEqual(["tomas", "bea"]);
  });

  it("is the same list with was and now exchanged, read the other way", () => {
    const forth = changesBetween(demoDay, moved).changes;
    const back = changesBetween(moved, demoDay).changes;
    expect(back).toEqual(forth.map((one) => ({ ...one, was: one.now, now: one.was })));
  });

  it("has a dropped hit and a new one", () => {
    const fewer: Day = { ...demoDay, activities: demoDay.activities.filter((one) => one.id !== "dawn.4") };
    expect(told(changesBetween(demoDay, fewer).changes)).toEqual(["dropped dawn.4"]);
    expect(told(changesBetween(fewer, demoDay).changes)).toEqual(["new dawn.4"]);
  });

  it("knows a move again when a stop put in has renumbered it", () => {
    const renumbered: Day = {
      ...demoDay,
      moves: demoDay.moves.map((move) => ({ ...move, id: `${move.vehicle}.9${move.id}` })),
    };
    expect(changesBetween(demoDay, renumbered).changes).toEqual([]);
  });

  it("has numbers, addresses and who takes part", () => {
    const ear = {
      id: "ear",
      path: ["lines", "ear"],
      number: "+1 715 555 0199",
      who: ["ilse"],
      spare: "+1 715 555 0112",
    };
    const other: Day = {
      ...demoDay,
      plan: { ...demoDay.plan, lines: new Map([...demoDay.plan.lines, ["ear", ear]]) },
      activities: demoDay.activities.map((one) => (one.id === "evening" ? { ...one, who: ["wren", "ilse"] } : one)),
    };
    const { changes } = changesBetween(demoDay, other);
    expect(told(changes)).toEqual(["changed evening who", "changed ear number"]);
    expect(changes[0]?.who).toEqual(["wren", "ilse", "tomas", "bea"]);
    expect(changes[1]?.who).toEqual(["ilse"]);
  });
});

describe("a sheet against an older one", () => {
  const rows = (person: string | null, changes = changesBetween(demoDay, moved)): readonly string[] => {
    const say = wordingOf(moved.plan);
    const [, table] = sinceBlocks({ day: moved, changes, say, desk: null, person, redact: false });
    if (table?.kind !== "table") return [];
    return table.rows.length === 0 ? [table.empty] : table.rows.map((row) => row.map((cell) => cell.text).join(" | "));
  };

  it("lists what changed and for whom", () => {
    expect(rows(null)).toEqual([
      "all | hit noon, start | 11:30 | 11:00",
      "Tomas, Bea | move truck.2, leave | 09:00 | 08:30",
      "Tomas, Bea | move truck.2, arrive | 09:50 | 09:20",
    ]);
    expect(rows("ilse")).toEqual(["all | hit noon, start | 11:30 | 11:00"]);
  });

  it("says so where nothing changed, for everyone or for one", () => {
    const none = changesBetween(demoDay, demoDay);
    expect(rows(null, none)).toEqual(["Nothing changed."]);
    expect(rows("ilse", none)).toEqual(["Nothing changed for Ilse."]);
    const sheet = sheetOf(demoInput({ changes: none }));
    expect(sheet.sections[0]?.id).toBe("changes");
    expect(sheet.brief[0]?.items).toEqual(["Nothing changed"]);
  });

  it("marks the cell that changed with what stood there", () => {
    const sheet = sheetOf(demoInput({ day: moved, changes: changesBetween(demoDay, moved) }));
    expect(sheet.sections[0]?.title).toBe("Changed, revision 2 to 3");
    const text = JSON.stringify(sheet.sections.find((one) => one.id === "moves"));
    expect(text).toContain("09:00 (was 08:30)");
    expect(sheet.brief[0]?.lead).toBe("Changed: ");
  });

  it("keeps an old number off a redacted sheet", () => {
    const lines = new Map([["ear", { id: "ear", path: [], number: "4711", who: ["ilse"], spare: null }]]);
    const older: Day = { ...demoDay, plan: { ...demoDay.plan, lines } };
    const sheet = sheetOf(demoInput({ redact: true, changes: changesBetween(older, demoDay) }));
    expect(JSON.stringify({ ...sheet, say: null, findings: null })).not.toContain("4711");
  });
});
