/**
 * Neighbours of pack-work-in-rest: a driver of a commercial vehicle is left ten hours in a row off duty (49 CFR 395.3(a)(1),
 * 395.2) whatever his packs need, wherever they are, on whatever night; who else is there takes the work.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type Judged, judge, readPlan, solveDay } from "../../src/index.ts";
import { choresInSpans, choresWhereDone, movesTogether } from "../agreement/packLaws.ts";

const CASE = readFileSync("fixtures/cases/together/pack-work-in-rest.yaml", "utf8");
const changed = (...pairs: readonly (readonly [string, string])[]): string =>
  pairs.reduce((text, [from, to]) => {
    if (!text.includes(from)) throw new Error(`nothing says ${from}`);
    return text.replace(from, to);
  }, CASE);

async function judged(text: string, before: string | null = null): Promise<Judged> {
  const read = () =>
    before === null ? ({ kind: "missing", near: [] } as const) : ({ kind: "text", text: before } as const);
  const reading = await readPlan(text, { file: "day.yaml", files: { read } });
  if (!reading.ok) throw new Error(reading.findings.map(({ code, span }) => `${code} ${span?.line}`).join());
  const made = await solveDay(reading);
  if (!made.ok) throw new Error(made.findings.map(({ code }) => code).join());
  return judge(made, { topics: ["power", "hours"] });
}

/** The longest stretch off duty of each person before a call, minutes. */
const longestOff = ({ day }: Judged, who: string): number => {
  const person = day.people.find(({ id }) => id === who);
  const off = (person?.spans ?? []).filter(({ is, to }) => is === "off" && to <= (person?.duties.at(-1)?.call ?? 0));
  return Math.max(0, ...off.map(({ from, to }) => to - from));
};

const FORTY = Array.from({ length: 39 }, (_, n) => `  p${n}: { slept: lodge, sleeps: lodge }`).join("\n");
const RELEASED = "2027-01-19T17:40-06:00";
const TOMAS = "  tomas: { role: engineer, drives: [truck] }\n";
const DOWN = `tasks: { down: { kind: standdown, place: lodge, window: ["08:30", "19:30"] } }
`;

const NEIGHBOURS: readonly (readonly [string, string])[] = [
  ["the case itself, one person", CASE],
  [
    "packs in another vehicle",
    changed(
      ["drives: [truck]", "drives: [truck, van]"],
      ["places:", "  van: { inverter: 2000 W }\nplaces:"],
      ["charge: 5%, in: truck", "charge: 5%, in: van"],
      ["watts: 20, in: truck", "watts: 20, in: van"],
      ["  truck: [lodge, pier, lodge]", "  truck: { driver: tomas, stops: [lodge, pier, lodge] }"],
    ),
  ],
  // Called before midnight for a hit after it.
  ["midnight", changed([RELEASED, "2027-01-19T12:20-06:00"], ['at: "06:00"', 'at: "00:40"'])],
  [
    "the clocks going forward: an hour less than they show",
    changed(["2027-01-20", "2027-03-14"], [RELEASED, "2027-03-13T16:40-06:00"]),
  ],
  [
    "the clocks going back: an hour more than they show",
    changed(["2027-01-20", "2027-11-07"], [RELEASED, "2027-11-06T18:40-05:00"]),
  ],
  ["forty people", changed([TOMAS, `${TOMAS}${FORTY}\n`], ["truck: { gross", "truck: { seats: 41, gross"])],
  [
    "the other order of entries",
    CASE.split(/^(?=\w)/mu)
      .toReversed()
      .join(""),
  ],
  [
    "others awake, no hands stated",
    changed([TOMAS, `${TOMAS}  ilse: { slept: lodge, sleeps: lodge }\n`], [", hands: [tomas]", ""]),
  ],
  [
    "a second call",
    changed(
      [
        'dawn: { at: "06:00", for: 3 min, place: pier }',
        'dawn: { at: "06:00", for: 3 min, place: pier }\n  dusk: { at: "21:10", for: 3 min, place: pier }',
      ],
      ["kit:", `${DOWN}kit:`],
      [
        "  truck: [lodge, pier, lodge]",
        "  truck: [lodge, { place: pier, do: [dawn] }, { place: lodge, do: [down] }, { place: pier, do: [dusk] }, lodge]",
      ],
    ),
  ],
  [
    "a berth in the vehicle with the charger",
    changed(["inverter: 2000 W", "inverter: 2000 W, berth: true, inside: 15 C"]),
  ],
];

describe("a driver's ten hours off duty stand before his packs", () => {
  it.each(NEIGHBOURS)("%s", async (_, text) => {
    const one = await judged(text);
    choresInSpans(one);
    choresWhereDone(one);
    movesTogether(one);
    expect(longestOff(one, "tomas")).toBeGreaterThanOrEqual(600);
    expect(one.findings.filter(({ code, law }) => law && code === "rest-too-short")).toEqual([]);
  });

  it("over two days, by the release that the first has with its chores", async () => {
    // The day before: out for a hit at 15:55 and back at the lodge; released about 17:40 as in the case.
    const before = changed(
      ["2027-01-20", "2027-01-19"],
      [RELEASED, "2027-01-18T17:40-06:00"],
      ['at: "06:00"', 'at: "15:55"'],
    );
    const after = changed(["history: { tomas: { released: 2027-01-19T17:40-06:00 } }\n", "follows: first.yaml\n"]);
    const one = await judged(after, before);
    choresInSpans(one);
    expect(longestOff(one, "tomas")).toBeGreaterThanOrEqual(600);
  });
});
