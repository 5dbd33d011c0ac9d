/** Values, commands and whole entries as edits write them. */
import { describe, expect, it } from "vitest";
import { collapsed, repairCommandText, timeValue } from "../../src/repair/writing.ts";
import { isoLocal } from "../../src/time/index.ts";
import { instant } from "../../src/time/units.ts";
import { CHICAGO, plan } from "../day/parts.ts";

const members = (word: string, count: number) => Array.from({ length: count }, (_, n) => `${word}.${n + 1}`);

describe("a time in an edit", () => {
  // 2027-01-20T06:00Z is midnight in Chicago: 30 007 080 min after 1970-01-01 (20 838 days of 1440 min are 30 006 720, and 360).
  const midnight = 30_007_080;

  it("is on the desk's clock, with the days before or after", () => {
    const said = (minute: number) => timeValue(plan(), instant(midnight + minute));
    expect([said(0), said(765), said(1439)]).toEqual(['"00:00"', '"12:45"', '"23:59"']);
    expect([said(1440), said(2890), said(-1), said(-1441)]).toEqual([
      ...['"00:00 +1d"', '"00:10 +2d"', '"23:59 -1d"', '"23:59 -2d"'],
    ]);
  });

  it("has its offset where the clock shows the hour twice", () => {
    // On 2027-11-07 the clock of Chicago goes from 02:00 back to 01:00 (from memory: the first Sunday of November), at 07:00Z.
    const own = { ...plan(), date: "2027-11-07" };
    const back = instant(Date.UTC(2027, 10, 7, 7, 0) / 60_000);
    const said = [-61, -60, -1, 0, 59, 60].map((minute) => timeValue(own, instant(back + minute)));
    expect(said).toEqual([
      ...['"00:59"', '"2027-11-07T01:00-05:00"', '"2027-11-07T01:59-05:00"'],
      ...['"2027-11-07T01:00-06:00"', '"2027-11-07T01:59-06:00"', '"02:00"'],
    ]);
    expect(isoLocal(back, CHICAGO)).toBe("2027-11-07T01:00-06:00");
  });
});

describe("a list in an edit", () => {
  it("names a series as a whole where all of it stands in a row", () => {
    const own = plan({
      groups: new Map([
        ["dawn", members("dawn", 3)],
        ["empty", []],
        ["noon", members("noon", 2)],
      ]),
    });
    const all = [...members("dawn", 3), "lunch", ...members("noon", 2)];
    expect(collapsed(own, all)).toEqual(["dawn", "lunch", "noon"]);
    expect(collapsed(own, ["dawn.1", "dawn.3", "dawn.2"])).toEqual(["dawn.1", "dawn.3", "dawn.2"]);
    expect(collapsed(own, ["dawn.1", "dawn.2", "lunch", "dawn.3"])).toEqual(["dawn.1", "dawn.2", "lunch", "dawn.3"]);
    expect(collapsed(own, ["dawn.1", "dawn.2"])).toEqual(["dawn.1", "dawn.2"]);
    expect(collapsed(own, ["lunch", "noon.1", "noon.2", "dawn.3"])).toEqual(["lunch", "noon", "dawn.3"]);
    expect(collapsed(own, [])).toEqual([]);
  });
});

describe("the command that looks for repairs", () => {
  it("can be typed as it stands", () => {
    expect(repairCommandText("day.yaml", null)).toBe("daywright repair day.yaml");
    expect(repairCommandText("a/b-c_1.yaml", "hit-missed")).toBe("daywright repair a/b-c_1.yaml --code hit-missed");
    expect(repairCommandText(null, null)).toBe("daywright repair -");
    // A name that begins like a flag, with a blank, and with what a POSIX shell would read inside double quotes.
    expect(repairCommandText("-x.yaml", null)).toBe("daywright repair ./-x.yaml");
    expect(repairCommandText("-", null)).toBe("daywright repair -");
    expect(repairCommandText("my day.yaml", null)).toBe('daywright repair "my day.yaml"');
    expect(repairCommandText("a;b", null)).toBe('daywright repair "a;b"');
    expect(repairCommandText("it's $5", null)).toBe("daywright repair 'it'\\''s $5'");
    expect(repairCommandText('a"b', null)).toBe("daywright repair 'a\"b'");
  });
});
