/** Slips of tired fingers in values: times, clocks, dates, lengths, amounts, coordinates; each is one finding that gives the text as meant. */
import { describe, expect, test } from "vitest";
import { findingView, slipped } from "./slipped.ts";

describe("a time", () => {
  test.each([
    ["7:10 pm", '"19:10"'],
    ["7:10 PM", '"19:10"'],
    ["7:10pm", '"19:10"'],
    ["7 AM", '"07:00"'],
    ["7 p.m.", '"19:00"'],
    ["12 am", '"00:00"'],
    ["12:30 pm CT", '"12:30 CT"'],
    ["17:00pm", '"17:00"'],
    ["13 am", '"13:00"'],
    ["13:00 pm", '"13:00"'],
    ["25:00", '"01:00 +1d"'],
    ["24:30 CT", '"00:30 +1d CT"'],
    ["7.10", '"07:10"'],
    ["710", '"07:10"'],
    ["17;00", '"17:00"'],
    ["17\u201300", '"17:00"'],
    ["7h30", '"07:30"'],
    ["01:30 +1", '"01:30 +1d"'],
    ["01:30 +1 day", '"01:30 +1d"'],
    ["05:00CT", '"05:00 CT"'],
    ["noon CT", '"12:00 CT"'],
    ["midnight", '"24:00"'],
    ["2027-1-20T05:00-06:00", '"2027-01-20T05:00 -06:00"'],
  ])("%s", async (wrong, hint) => {
    const text = slipped("late: { at: 01:30 +1d", `late: { at: ${wrong}`);
    expect(await findingView(text)).toEqual([`time-bad: ${wrong}: ${hint}`]);
  });

  test("without a colon is read right", async () => {
    expect(await findingView(slipped("at: 01:30 +1d", "at: 0710"))).toEqual([]);
  });

  test("on the clock of a place stays one", async () => {
    expect(await findingView(slipped('checkOut: "11:00"', "checkOut: 11 am"))).toEqual(['time-bad: 11 am: "11:00"']);
    expect(await findingView(slipped('checkOut: "11:00"', 'checkOut: "25:00"'))).toEqual([
      'time-bad: "25:00": "05:30", on the clock of the place',
    ]);
  });
});

describe("a clock", () => {
  test.each([
    ["01:30 lcoal", "01:30 local"],
    ["01:30 Local", "01:30 local"],
    ["01:30 ct", "01:30 CT"],
    ["01:30 EST", "01:30 ET"],
    ["01:30 America/Chigaco", "01:30 America/Chicago"],
  ])("%s", async (wrong, hint) => {
    const text = slipped("late: { at: 01:30 +1d", `late: { at: ${wrong}`);
    expect(await findingView(text)).toEqual([`zone-unknown: ${wrong}: ${hint}`]);
  });

  // An offset is no zone, and `Etc/GMT-6` of the tz database is six hours east: it is never offered for `GMT-6`.
  test.each([
    ["CST", "America/Chicago"],
    ["EST", "America/New_York"],
    ["MST", "America/Denver"],
    ["Central", "America/Chicago"],
    ["Chicago", "America/Chicago"],
    ["america/chicago", "America/Chicago"],
    ["GMT-6", "a zone such as America/Chicago"],
    ["UTC-06:00", "a zone such as America/Chicago"],
  ])("zone: %s", async (wrong, hint) => {
    expect(await findingView(slipped("zone: America/Chicago", `zone: ${wrong}`))).toEqual([
      `zone-unknown: ${wrong}: ${hint}`,
    ]);
  });
});

describe("a date", () => {
  test.each([
    ["2027-1-9", "2027-01-09"],
    ["2027/01/09", "2027-01-09"],
    ["20270109", "2027-01-09"],
    ["2027\u201301\u201309", "2027-01-09"],
    ["19.01.2027", "2027-01-19"],
    ["9. 1. 2027", "2027-01-09"],
    ["1/19/2027", "2027-01-19"],
    ["19 Jan 2027", "2027-01-19"],
    ["January 19th, 2027", "2027-01-19"],
    ["tomorrow", "write year, month and day, with dashes between"],
    ["2027-02-30", "2027-02-28"],
  ])("%s", async (wrong, hint) => {
    expect(await findingView(slipped("date: 2027-01-20", `date: ${wrong}`))).toEqual([`date-bad: ${wrong}: ${hint}`]);
  });

  test.each([
    ["1d", "+1d"],
    ["+2 days", "+2d"],
    ["21.01.2027", "2027-01-21"],
  ])("until: %s", async (wrong, hint) => {
    expect(await findingView(slipped("until: +1d", `until: ${wrong}`))).toEqual([`value-bad: ${wrong}: ${hint}`]);
  });
});

describe("a length of time", () => {
  test.each([
    ["30 minuts", "`30 min`"],
    ["3 minits", "`3 min`"],
    ["35 mn", "write whole hours and minutes, with `h` and `min`"],
    ["2 huors", "`2 h`"],
    ["1:20", "`1 h 20 min`"],
    ["1 hour and 20 minuts", "`1 h 20 min`"],
    ["1 houre 20", "`1 h 20 min`"],
    ["half an hour", "`30 min`"],
    ["35 sec", "`1 min`"],
  ])("%s", async (wrong, hint) => {
    expect(await findingView(slipped("drive: PT20M", `drive: ${wrong}`))).toEqual([`length-bad: ${wrong}: ${hint}`]);
  });

  test("without a unit may be minutes or hours", async () => {
    expect(await findingView(slipped("turnaround: 11 h", "turnaround: 11"))).toEqual([
      "unit-missing: 11: 11 min or 11 h",
    ]);
  });
});

describe("an amount", () => {
  test.each([
    ["range: 300 mi", "range: 28 miles", "unit-wrong: 28 miles: `28 mi`"],
    ["range: 300 mi", "range: 28 mlies", "unit-wrong: 28 mlies: `28 mi`"],
    ["range: 300 mi", "range: 300 kilometers", "unit-wrong: 300 kilometers: `300 km`"],
    ["range: 300 mi", 'range: "1,300 mi"', 'value-bad: "1,300 mi": 1300 mi'],
    ["range: 300 mi", "range: 400 kg", "unit-wrong: 400 kg: m, km, mi, ft or cm"],
    ["range: 300 mi", "range: 300", "unit-missing: 300: 300 km; the units are m, km, mi, ft, cm"],
    ["gross: 16000 lb", 'gross: "9,800 lb"', 'value-bad: "9,800 lb": 9800 lb'],
    ["gross: 16000 lb", "gross: 16 000 lb", "value-bad: 16 000 lb: 16000 lb"],
    ["gross: 16000 lb", "gross: 16000 pounds", "unit-wrong: 16000 pounds: `16000 lb`"],
    ["temp: -14 C", "temp: \u201314 C", "value-bad: \u201314 C: -14 C"],
    ["temp: -14 C", "temp: -14 celsius", "unit-wrong: -14 celsius: `-14 C`"],
    ["temp: -14 C", "temp: -14 degrees F", "value-bad: -14 degrees F: -14 F"],
    ["wind: 30 km/h", "wind: 30 kmph", "unit-wrong: 30 kmph: `30 km/h`"],
    ["wind: 30 km/h", "wind: 30 knots", "unit-wrong: 30 knots: `30 kn`"],
    ["rate: 3 Gbit/s", "rate: 3 Gbits", "unit-wrong: 3 Gbits: `3 Gbit/s`"],
    ["watts: 38", "watts: 38 watts", "unit-wrong: 38 watts: `38 W`"],
    ["health: 90%", "health: 90", "unit-missing: 90: 90%"],
    ["health: 90%", "health: 90 percent", "unit-wrong: 90 percent: `90%`"],
    ["slower: 1.1", 'slower: "1,1"', 'value-bad: "1,1": 1.1'],
  ])("%s as %s", async (right, wrong, told) => {
    expect(await findingView(slipped(right, wrong))).toEqual([told]);
  });

  test("with a no-break space is read right", async () => {
    expect(await findingView(slipped("range: 300 mi", "range: 300\u00a0mi"))).toEqual([]);
  });
});

describe("coordinates", () => {
  test.each([
    ["[46.5 N, 90.1 W]", ["value-bad: 46.5 N: 46.5", "value-bad: 90.1 W: -90.1"]],
    ["[46.5, \u201390.1]", ["value-bad: \u201390.1: -90.1"]],
    ["[-90.1, 46.5]", ["coordinates-swapped: [-90.1, 46.5]: [46.5, -90.1]"]],
  ])("%s", async (wrong, told) => {
    expect(await findingView(slipped("[46.5, -90.1]", wrong))).toEqual(told);
  });
});
