/** Time off in Canada at the minute, by hand: what moves to the next day (SOR/2005-313 s. 16(1)) and what lies besides 8 h (s. 14). */
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";
import { logText } from "./logs.ts";
import { breachesOf, judged, utc } from "./records.ts";

describe("a day with 8 h off of the 10 h", () => {
  // A free 17 January, the two days, 10 h off on the third and an hour of work.
  const breachOf = (first: string, second: string) =>
    breachesOf(
      judged("ca-south", "17 00:00", `off 24, ${first}, ${second}, off 10, duty 1`, ["deferral"]),
      "ca-south.day-off",
    );
  const first = "off 8, duty 16";
  const broken = [[utc("18 00:00"), utc("19 00:00")]];

  it("is made up for by 12 h off in the next, not by a minute less", () => {
    expect(breachOf(first, "off 10, duty 12, off 2")).toEqual([]);
    expect(breachOf(first, "off 10, duty 6, off 2, duty 6")).toEqual([]);
    // 10 h and 1 h 59 min.
    expect(breachOf(first, "off 10, duty 6, off 1:59, duty 6:01")).toEqual(broken);
  });

  it("is made up for by the 2 h beside 8 h in one piece, not by a minute less", () => {
    // 9 h 59 min and 3 h are 12 h 59 min, and yet no 10 h.
    expect(breachOf(first, "off 9:59, duty 6, off 3, duty 5:01")).toEqual(broken);
    expect(breachOf(first, "off 10, duty 6, off 3, duty 5")).toEqual([]);
  });

  it("is none if the two days hold more than 26 h at the wheel", () => {
    expect(breachOf("off 8, driving 14, duty 2", "off 10, driving 12, off 2")).toEqual([]);
    expect(breachOf("off 8, driving 14:01, duty 1:59", "off 10, driving 12, off 2")).toEqual(broken);
  });

  it("may lack 2 h, not a minute more", () => {
    // 7 h 59 min off lack 2 h 1 min; the next has 12 h 1 min in two pieces.
    expect(breachOf("off 7:59, duty 16:01", "off 10:01, duty 11:59, off 2")).toEqual(broken);
  });

  it("is not followed by another: what moved once is rested", () => {
    // The 19th has 8 h off itself, and 12 h of the 20th cannot make up for both.
    const days = "off 24, off 8, duty 16, off 8, duty 16, off 10, duty 12, off 2, off 10, duty 1";
    expect(breachesOf(judged("ca-south", "17 00:00", days, ["deferral"]), "ca-south.day-off")).toEqual(broken);
  });
});

describe("2 h off besides 8 h, SOR/2005-313 s. 14", () => {
  // 10 h off up to 10:00, the break from 15:00 on, 10 h off from 22:00 on.
  const asked = async (until: string) => {
    const at = (day: string, clock: string) => `2027-01-${day}T${clock}Z`;
    const cuts = [
      at("18", "00:00"),
      at("18", "10:00"),
      at("18", "15:00"),
      at("18", until),
      at("18", "22:00"),
      at("19", "08:00"),
    ];
    const spans = ["off", "duty", "off", "duty", "off"].map((is, i) => ({
      ...{ from: cuts[i] ?? "", to: cuts[i + 1] ?? "", is },
    }));
    const text = logText({ zone: "UTC", rules: "ca-south", spans });
    const { out } = await ran(["hours", "x.yaml", "--json"], { files: { "x.yaml": text } });
    return out.includes("the day's other 2 h off");
  };

  it("are asked about if they lie next to the 8 h alone", async () => {
    expect([await asked("16:59"), await asked("17:00")]).toEqual([true, false]);
  });
});
