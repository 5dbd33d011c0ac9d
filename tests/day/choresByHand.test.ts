/** What chores do to the time off around them, on stretches that the test states. */
import { describe, expect, it } from "vitest";
import type { PersonSpan } from "../../src/day/day.ts";
import { addChores, choreStretch, partOff, partSpans } from "../../src/day/people/chores.ts";
import { at, text } from "./make.ts";

const stretch = (from: string, to: string) => ({ from: at(from), to: at(to) });
const clocks = ({ from, to }: ReturnType<typeof stretch>) => `${text(from)}-${text(to)}`;
const chore = (from: string, to: string) => ({ ...stretch(from, to), who: "wren", place: "lodge", vehicle: null });

describe("time off with chores in it", () => {
  const off = (...chores: readonly ReturnType<typeof stretch>[]) => {
    const { apart, ...own } = partOff(stretch("00:00", "10:00"), chores, 60);
    return [clocks(own), apart.map(clocks)];
  };

  it("begins later with what is near its beginning, ends earlier with what is near its end", () => {
    expect(off()).toEqual(["00:00-10:00", []]);
    expect(off(stretch("01:00", "01:20"))).toEqual(["01:20-10:00", []]);
    expect(off(stretch("01:01", "01:20"))).toEqual(["00:00-10:00", ["01:01-01:20"]]);
    expect(off(stretch("08:40", "09:00"))).toEqual(["00:00-08:40", []]);
    expect(off(stretch("08:40", "08:59"))).toEqual(["00:00-10:00", ["08:40-08:59"]]);
  });

  it("is shortened by one after the other, in whatever order they are named", () => {
    const [first, second] = [stretch("00:40", "01:00"), stretch("02:00", "02:10")];
    expect(off(first, second)).toEqual(["02:10-10:00", []]);
    expect(off(second, first)).toEqual(["02:10-10:00", []]);
    expect(off(second)).toEqual(["00:00-10:00", ["02:00-02:10"]]);
    const [late, later] = [stretch("07:30", "07:50"), stretch("08:50", "09:10")];
    expect(off(late, later)).toEqual(["00:00-07:30", []]);
    expect(off(later, late)).toEqual(["00:00-07:30", []]);
    expect(off(stretch("05:00", "05:10"), stretch("04:00", "04:10"))).toEqual([
      "00:00-10:00",
      ["04:00-04:10", "05:00-05:10"],
    ]);
  });

  it("has what lies apart in order, the shorter of two that begin together first", () => {
    const [longer, shorter, early] = [stretch("04:00", "04:10"), stretch("04:00", "04:05"), stretch("03:00", "05:00")];
    expect(off(longer, shorter)[1]).toEqual(["04:00-04:05", "04:00-04:10"]);
    expect(off(shorter, longer)[1]).toEqual(["04:00-04:05", "04:00-04:10"]);
    expect(off(longer, early)[1]).toEqual(["03:00-05:00", "04:00-04:10"]);
  });

  it("has nothing of what only touches it, and no more than it is long", () => {
    expect(off(stretch("-01:00", "00:00"), stretch("10:00", "11:00"))).toEqual(["00:00-10:00", []]);
    expect(off({ from: at(-30), to: at(30) })).toEqual(["00:30-10:00", []]);
    expect(off({ from: at("09:30"), to: at("10:30") })).toEqual(["00:00-09:30", []]);
    expect(off({ from: at(-30), to: at("10:30") })).toEqual(["10:00-10:00", []]);
    // Half an hour off, with something just behind it, which is nearer than an hour to its beginning as well.
    const short = (...chores: readonly ReturnType<typeof stretch>[]) =>
      clocks(partOff(stretch("00:00", "00:30"), chores, 60));
    expect(short(stretch("00:30", "00:40"))).toBe("00:00-00:30");
    expect(short(stretch("00:35", "00:40"))).toBe("00:00-00:30");
    expect(short(stretch("00:29", "00:40"))).toBe("00:30-00:30");
    // What is within another one adds nothing.
    expect(off(stretch("00:30", "02:00"), stretch("00:40", "01:00"))).toEqual(["02:00-10:00", []]);
  });
});

describe("a day with chores", () => {
  const work = { ...choreStretch(chore("08:00", "12:00")), name: "work" };
  const down = { ...choreStretch(chore("12:00", "16:00")), name: "down" };
  const back = { ...choreStretch(chore("16:00", "20:00")), name: "work" };
  const added = (...chores: readonly ReturnType<typeof chore>[]) => {
    const made = addChores([work, down, back], chores, {
      ...{ ...stretch("08:00", "20:00"), previousRelease: at(-120), join: 60 },
      isStanddown: ({ name }) => name === "down",
    });
    return {
      stretches: made.stretches.map((one) => `${one.name} ${clocks(one)}`),
      ...{ released: text(made.previousRelease), apart: made.apart.map(clocks) },
      lastNight: made.lastNight === null ? null : text(made.lastNight.to),
    };
  };
  const plain = ["work 08:00-12:00", "down 12:00-16:00", "work 16:00-20:00"];

  it("is the same without one", () => {
    expect(added()).toEqual({ stretches: plain, released: "-02:00", apart: [], lastNight: null });
  });

  it("begins earlier, ends later, or has its stand-down shorter", () => {
    expect(added(chore("07:00", "07:30")).stretches).toEqual([...plain, "chore 07:00-07:30"]);
    expect(added(chore("20:30", "20:40")).stretches).toEqual([...plain, "chore 20:30-20:40"]);
    expect(added(chore("12:30", "12:40")).stretches).toEqual([
      plain[0],
      "down 12:40-16:00",
      plain[2],
      "chore 12:30-12:40",
    ]);
    // A stand-down that is all chores is none.
    expect(added(chore("12:00", "16:00")).stretches).toEqual([plain[0], plain[2], "chore 12:00-16:00"]);
  });

  it("has apart what lies in no duty: at night, in the evening, within a stand-down", () => {
    expect(added(chore("03:00", "03:10"))).toEqual({
      stretches: plain,
      released: "-02:00",
      apart: ["03:00-03:10"],
      lastNight: null,
    });
    expect(added(chore("23:00", "23:10"), chore("03:00", "03:10"))).toMatchObject({
      stretches: plain,
      apart: ["03:00-03:10", "23:00-23:10"],
    });
    expect(added(chore("14:00", "14:10"))).toMatchObject({ apart: ["14:00-14:10"] });
  });

  it("was released later with what joins the last release", () => {
    const night = { ...chore("00:00", "00:10"), from: at(-90), to: at(-80) };
    expect(added(night)).toEqual({ stretches: plain, released: "-01:20", apart: [], lastNight: "-01:20" });
  });
});

describe("spans with chores apart", () => {
  const span = (from: string, to: string, is: PersonSpan["is"]): PersonSpan => ({
    ...{ ...stretch(from, to), is, vehicle: null, activity: null, place: null, doing: is === "off" ? "off" : "work" },
  });
  const parted = (spans: readonly PersonSpan[], ...chores: readonly ReturnType<typeof chore>[]) =>
    partSpans(spans, chores, { slept: "bed", sleeps: "inn" }).map(
      (one) => `${one.is} ${clocks(one)} ${one.place ?? "-"}`,
    );
  const all = [span("06:00", "08:00", "off"), span("08:00", "12:00", "duty")];

  it("part the time off, and nothing else", () => {
    expect(parted(all, chore("06:30", "06:40"))).toEqual([
      ...["off 06:00-06:30 -", "duty 06:30-06:40 lodge", "off 06:40-08:00 -", "duty 08:00-12:00 -"],
    ]);
    expect(parted(all, chore("09:00", "09:10"))).toEqual(["off 06:00-08:00 -", "duty 08:00-12:00 -"]);
    expect(parted(all, chore("07:50", "08:10"))).toEqual([
      "off 06:00-07:50 -",
      "duty 07:50-08:00 lodge",
      "duty 08:00-12:00 -",
    ]);
  });

  it("come with time off between where they lie before or after", () => {
    expect(parted(all, chore("04:00", "04:10"))[0]).toBe("duty 04:00-04:10 lodge");
    expect(parted(all, chore("04:00", "04:10"))[1]).toBe("off 04:10-06:00 bed");
    expect(parted(all, chore("05:50", "06:00")).slice(0, 2)).toEqual(["duty 05:50-06:00 lodge", "off 06:00-08:00 -"]);
    expect(parted(all, chore("13:00", "13:10")).slice(2)).toEqual(["off 12:00-13:00 inn", "duty 13:00-13:10 lodge"]);
    expect(parted(all, chore("12:00", "12:10")).slice(2)).toEqual(["duty 12:00-12:10 lodge"]);
    expect(parted([], chore("12:00", "12:10"))).toEqual(["duty 12:00-12:10 lodge"]);
  });
});
