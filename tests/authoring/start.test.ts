/** The few words that a new plan is made from: each grammar as the help states it, what it takes and what it refuses. */
import { describe, expect, it } from "vitest";
import {
  personAnswer,
  readDrive,
  readHit,
  readReleased,
  type Said,
  type StartHit,
  stopTexts,
  vehicleAnswer,
} from "../../src/authoring/start.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";

const value = <T>(said: Said<T>): T | null => (said.ok ? said.value : null);
const refused = <T>(read: (text: string) => Said<T>, texts: readonly string[]): readonly string[] =>
  texts.filter((text) => read(text).ok);

describe("a person", () => {
  it.each([
    ["wren", { id: "wren", roles: [], drives: [], rides: null }],
    ["wren camera drives wagon", { id: "wren", roles: ["camera"], drives: ["wagon"], rides: null }],
    [
      "wren camera, lead drives wagon, truck",
      { id: "wren", roles: ["camera", "lead"], drives: ["wagon", "truck"], rides: null },
    ],
    [
      "liv producer and sound drives wagon and truck",
      { id: "liv", roles: ["producer", "sound"], drives: ["wagon", "truck"], rides: null },
    ],
    ["ilse reporter in wagon", { id: "ilse", roles: ["reporter"], drives: [], rides: "wagon" }],
    ["bea producer drives truck in wagon", { id: "bea", roles: ["producer"], drives: ["truck"], rides: "wagon" }],
    ["  bea   producer in wagon drives truck ", { id: "bea", roles: ["producer"], drives: ["truck"], rides: "wagon" }],
  ])("%s", (text, person) => expect(value(personAnswer(text))).toEqual(person));

  it("is not made of anything else", () => {
    expect(
      refused(personAnswer, ["", "wren: camera", "1wren", "wren -x", "wren cam_era", "wren { }", "a\nb: c #"]),
    ).toEqual([]);
  });
});

describe("a vehicle", () => {
  it.each([
    ["wagon", { id: "wagon", gross: null, rules: null }],
    ["truck 16000 lb", { id: "truck", gross: "16000 lb", rules: null }],
    ["truck 7300kg us-property", { id: "truck", gross: "7300kg", rules: "us-property" }],
    ["truck 7.5 t eu", { id: "truck", gross: "7.5 t", rules: "eu" }],
    ["truck us-property", { id: "truck", gross: null, rules: "us-property" }],
  ])("%s", (text, vehicle) => expect(value(vehicleAnswer(text))).toEqual(vehicle));

  it("is not made of anything else", () => {
    expect(
      refused(vehicleAnswer, [
        "",
        "truck 16000",
        "truck 16000 stone",
        "16000 lb",
        "truck heavy and slow",
        "truck, wagon",
      ]),
    ).toEqual([]);
  });
});

describe("a drive", () => {
  it.each([
    ["lodge pier 35 min", { from: "lodge", to: "pier", likely: "35 min", bad: null }],
    ["lodge pier 35 min 50 min", { from: "lodge", to: "pier", likely: "35 min", bad: "50 min" }],
    ["lodge pier 1h20 2 h", { from: "lodge", to: "pier", likely: "1h20", bad: "2 h" }],
    ["lodge pier 1 h 20 min 1 h 45 min", { from: "lodge", to: "pier", likely: "1 h 20 min", bad: "1 h 45 min" }],
  ])("%s", (text, drive) => expect(value(readDrive(text))).toEqual(drive));

  it("is not made of anything else", () => {
    expect(
      refused(readDrive, [
        "",
        "lodge pier",
        "lodge pier 35",
        "lodge 35 min",
        "lodge pier 35 min 50",
        "lodge pier soon",
      ]),
    ).toEqual([]);
  });
});

describe("a hit", () => {
  it.each([
    ["dawn 07:00 pier 3 min", { id: "dawn", at: "07:00", place: "pier", length: "3 min" }],
    // What is no time is refused by the plan's own reader, with the time that is meant.
    ["dawn 07.00 pier 3 min", { id: "dawn", at: "07.00", place: "pier", length: "3 min" }],
    ["dawn 0700 pier 3 min", { id: "dawn", at: "0700", place: "pier", length: "3 min" }],
    ["dawn 06:00 CT pier 3 min", { id: "dawn", at: "06:00 CT", place: "pier", length: "3 min" }],
    ["dawn 06:00 local pier 1h20", { id: "dawn", at: "06:00 local", place: "pier", length: "1h20" }],
    ["late 01:30 +1d pier 3 min", { id: "late", at: "01:30 +1d", place: "pier", length: "3 min" }],
  ])("%s", (text, hit) => expect(value(readHit(text))).toEqual(hit));

  it("is not made of anything else", () => {
    expect(
      refused(readHit, [
        "",
        "dawn",
        "dawn pier 3 min",
        "dawn 07:00 3 min",
        "dawn 07:00 pier",
        "dawn 07:00 pier 3",
        "dawn 7 pier 3 min",
      ]),
    ).toEqual([]);
  });
});

describe("the last release", () => {
  it.each(["18:00 -1d", "18:00 CT -1d", "05:00 +0d", "2027-01-19T18:00-06:00", "20270119T1800Z", "soon"])(
    "is taken as it was typed: %s",
    (text) => expect(value(readReleased(text))).toBe(text),
  );

  it.each(["20:00 yesterday", "20:00, last night", "20:00 the evening before"])("in words: %s", (text) => {
    const said = readReleased(text);
    if (said.ok) throw new Error("taken");
    expect(said.finding.hint(plainWording)).toBe("20:00 -1d");
  });

  // A bare time is on the day of the plan: at 22:40 the evening before, "19:00" would be a release after the call.
  it.each(["19:00", "1900", "19.00", "19:00 CT"])("says of which day: %s", (text) => {
    const said = readReleased(text);
    if (said.ok) throw new Error("taken");
    expect(said.finding.hint(plainWording)).toBe(`${text} -1d`);
  });
});

describe("the stops of a run", () => {
  const hit = (id: string, at: string, place: string): StartHit => ({ id, at, place, length: "3 min" });
  const dawn = hit("dawn", "06:10", "shore");
  const seven = hit("seven", "7:10", "shore");
  const noon = hit("noon", "12:30", "quay");
  const late = hit("late", "22:10", "shore");
  const after = hit("after", "00:30 +1d", "shore");

  it.each<[string, readonly StartHit[], string]>([
    ["each place once", [dawn, seven, noon], "[inn, shore, quay, inn]"],
    [
      "a place that is visited twice says what each visit is for",
      [dawn, seven, noon, late],
      "[inn, { place: shore, do: [dawn, seven] }, quay, { place: shore, do: [late] }, inn]",
    ],
    ["hits are visited by time, however they were typed", [noon, seven, dawn], "[inn, shore, quay, inn]"],
    ["hits on two clocks stay as typed", [noon, hit("dawn", "06:10 CT", "shore")], "[inn, quay, shore, inn]"],
    ["past midnight is last", [after, noon], "[inn, quay, shore, inn]"],
    ["no hits", [], "[inn, inn]"],
    ["a hit where one sleeps", [hit("bed", "07:00", "inn")], "[{ place: inn, do: [bed] }, inn]"],
    [
      "a hit where one sleeps, then one elsewhere",
      [hit("bed", "07:00", "inn"), noon],
      "[{ place: inn, do: [bed] }, quay, inn]",
    ],
  ])("%s", (_, hits, stops) => expect(`[${stopTexts("inn", hits, "inn").join(", ")}]`).toBe(stops));
});

describe("what is not clear", () => {
  it("says so, with an example that is", () => {
    for (const read of [personAnswer, vehicleAnswer, readDrive, readHit]) {
      const said = read("?");
      if (said.ok) throw new Error("taken");
      const hint = said.finding.hint(plainWording) ?? "";
      expect(said.finding.code).toBe("start-unclear");
      expect(read(hint).ok, hint).toBe(true);
    }
  });
});
