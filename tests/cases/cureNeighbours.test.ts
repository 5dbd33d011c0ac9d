/**
 * Neighbours of the cases of suggestions: what each must say was written down, with its reason, before it was run. No call
 * that cannot be later, no fact to falsify, no static example in the place of a value, nothing that the plan does not have.
 */
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";

/** Dawn at a fixed time; dario, released 21:00, drives; the lodge is left at 05:30. */
const DAY = `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
labels: { CT: America/Chicago }
history: { dario: { released: 2027-01-19T21:00-06:00 }, ilse: { released: 2027-01-19T17:00-06:00 } }
crew:
  dario: { role: camera, drives: [wagon], slept: lodge, sleeps: lodge }
  ilse: { role: reporter, slept: lodge, sleeps: lodge }
vehicles: { wagon: { range: 400 km, fuel: 90% } }
places:
  lodge: { kind: lodging, mains: true, signal: good }
  pier: { shelter: true, signal: good }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 35 min, km: 40 }]
hits: { dawn: { at: "07:00", for: 3 min, place: pier, path: cell } }
paths: { cell: { kind: cellular } }
runs: { wagon: { driver: dario, aboard: [dario, ilse], stops: [lodge, { place: pier, do: [dawn] }, lodge] } }
`;

interface Said {
  readonly code: string;
  readonly hint: string | null;
}

async function hints(text: string, code: string): Promise<readonly (string | null)[]> {
  const { out } = await ran(["check", "day.yaml", "--json"], { files: { "day.yaml": text } });
  const found = JSON.parse(out).findings as readonly Said[];
  return found.filter((one) => one.code === code).map(({ hint }) => hint);
}

const day = (...changes: readonly (readonly [string, string])[]): string =>
  changes.reduce((text, [from, to]) => {
    expect(text).toContain(from);
    return text.replace(from, to);
  }, DAY);

const UNTIMED = "stops: [lodge, { place: pier, do: [walk] }, lodge]";
const WALK: readonly (readonly [string, string])[] = [
  [
    'hits: { dawn: { at: "07:00", for: 3 min, place: pier, path: cell } }',
    "tasks: { walk: { place: pier, for: 40 min, who: all } }",
  ],
  ["stops: [lodge, { place: pier, do: [dawn] }, lodge]", UNTIMED],
];

const CASES: readonly (readonly [what: string, text: string, code: string, expected: readonly (string | null)[]])[] = [
  // The hit is fixed and so is the way to it: no call can be later.
  ["a call without slack", DAY, "rest-too-short", ["let someone else begin the day"]],
  ["short sleep before such a call", DAY, "short-sleep-at-wheel", ["let someone who slept longer drive"]],
  // The task would have time until noon, and the departure is stated to the minute.
  [
    "a call before a stated departure",
    day(
      ...WALK,
      ["for: 40 min, who: all", 'for: 40 min, who: all, by: "12:00"'],
      [UNTIMED, 'stops: [{ place: lodge, leave: "05:30" }, { place: pier, do: [walk] }, lodge]'],
    ),
    "rest-too-short",
    ["let someone else begin the day"],
  ],
  // The same for a day that is too long: the hit is fixed, so only the evening gives.
  [
    "a long day before a fixed time",
    day(["crew:\n", "rules: { dutyDay: 1 h }\ncrew:\n"]),
    "duty-too-long",
    ["release dario earlier", "release ilse earlier"],
  ],
  // A departure stated to the minute is kept like a hit.
  [
    "a long day before a stated departure",
    day(
      ...WALK,
      [UNTIMED, 'stops: [{ place: lodge, leave: "05:30" }, { place: pier, do: [walk] }, lodge]'],
      ["crew:\n", "rules: { dutyDay: 1 h }\ncrew:\n"],
    ),
    "duty-too-long",
    ["release dario earlier", "release ilse earlier"],
  ],
  // What was logged is a fact; a later call would falsify it.
  [
    "a call that was logged",
    `${DAY}actual: { dario: { call: "05:15" } }\n`,
    "rest-too-short",
    ["let someone else begin the day"],
  ],
  // The zone of what was typed, not a label that the plan happens to have.
  ["a zone that is no label", day(['at: "07:00"', 'at: "07:00 PT"']), "zone-unknown", ["07:00 America/Los_Angeles"]],
  [
    "the same of another hit, in the east",
    day(['at: "07:00"', 'at: "07:00 AT"']),
    "zone-unknown",
    ["07:00 America/Halifax"],
  ],
  // Nothing says how much is meant: the form, and not a value.
  ["a share in words", day(["fuel: 90%", "fuel: plenty"]), "value-bad", ["write it like `80%`"]],
  // What was typed says it: the value.
  ["a share with a comma", day(["fuel: 90%", 'fuel: "90,5 %"']), "value-bad", ["90.5%"]],
  // The driver sleeps, and nobody else may drive: only one way out.
  [
    "a sleeping driver",
    day(["do: [dawn] }", "do: [dawn], asleep: [dario] }"]),
    "driver-asleep",
    ["write `asleep: []`"],
  ],
  [
    "a sleeping driver beside somebody who may drive",
    day(
      ["do: [dawn] }", "do: [dawn], asleep: [dario] }"],
      ["ilse: { role: reporter,", "ilse: { role: reporter, drives: [wagon],"],
    ),
    "driver-asleep",
    ["write `driver: ilse` at wagon.2, or `asleep: []`"],
  ],
];

describe("suggestions", () => {
  it.each(CASES)("%s", async (_, text, code, expected) => {
    expect(await hints(text, code)).toEqual(expected);
  });

  it("a stand-down that cannot be whole is shortened by what is missing", async () => {
    // On air at 12:00, in position 10 min before; the line check was before dawn, on the same path.
    const text = day(
      [
        "hits: { dawn",
        'tasks: { rest: { kind: standdown, place: pier, window: ["11:00", "12:00"], who: all } }\nhits: { noon: { at: "12:00", for: 3 min, place: pier, path: cell }, dawn',
      ],
      ["do: [dawn]", "do: [dawn, rest, noon]"],
      ["dario: { released: 2027-01-19T21:00-06:00 }", "dario: { released: 2027-01-19T17:00-06:00 }"],
    );
    const { out } = await ran(["repair", "day.yaml", "--json"], { files: { "day.yaml": text } });
    const [best] = JSON.parse(out).data.repairs as readonly { edits: readonly { path: string; new: string }[] }[];
    expect(best?.edits.map(({ path, new: value }) => `${path}=${value}`)).toEqual([
      'tasks.rest.window=["11:00", "11:50"]',
    ]);
  });
});
