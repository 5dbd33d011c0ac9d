/** What a tired hand types: each slip's message says what is wrong and no more, and its hint can be typed as it stands. */
import { expect, test } from "vitest";
import { readOnePlan } from "../../src/plan/index.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";

const WHOLE = `daywright: 1
date: 2027-01-20
clock: Europe/London
zone: Europe/London
crew:
  ann: { role: camera, drives: car }
vehicles:
  car: {}
places:
  flat: { at: [54.60, -2.80] }
  beck: { at: [54.66, -2.60] }
roads:
  - { link: [flat, beck], drive: 35 min }
hits:
  nine: { at: "09:00", for: 3 min, place: beck }
runs:
  car: [flat, beck, flat]
`;

async function saidOf(from: string, to: string): Promise<readonly string[]> {
  expect(WHOLE).toContain(from);
  const { findings } = await readOnePlan(WHOLE.replace(from, to), { file: null });
  return findings
    .filter(({ level }) => level === "error")
    .map((finding) => `${finding.sentence(plainWording)}: ${finding.hint(plainWording)}`);
}

// Rounded up by hand: 90 s are 1.5 min, 1 min 30 s as well, 61 s a second more than one minute.
test.each([
  ["for: 90s", "`90s` is not a length of time in whole minutes: `2 min`"],
  ["for: 90 sec", "`90 sec` is not a length of time in whole minutes: `2 min`"],
  ["for: 1 min 30 s", "`1 min 30 s` is not a length of time in whole minutes: `2 min`"],
  ["for: 61 seconds", "`61 seconds` is not a length of time in whole minutes: `2 min`"],
  ["for: 60s", "`60s` is not a length of time in whole minutes: `1 min`"],
  ["for: 2:30", "`2:30` is not a length of time in whole minutes: `2 h 30 min`, or `3 min` for minutes and seconds"],
  ["for: 2:00", "`2:00` is not a length of time in whole minutes: `2 h`, or `2 min` for minutes and seconds"],
])("seconds: %s", async (typed, said) => expect(await saidOf("for: 3 min", typed)).toEqual([said]));

test.each([
  ["[54,60, -2.80]", "`at` takes [latitude, longitude] in degrees, not a list of 3: `[54.60, -2.80]`"],
  ["[54.60, -2,80]", "`at` takes [latitude, longitude] in degrees, not a list of 3: `[54.60, -2.80]`"],
])("one decimal comma of two: %s", async (typed, said) =>
  expect(await saidOf("[54.60, -2.80]", typed)).toEqual([said]),
);

// A mistaken value is not a missing key: `checkin` means `checkIn`, not `at`.
test("a mistyped key beside a mistaken value", async () => {
  expect(await saidOf("{ at: [54.60, -2.80] }", '{ at: [54,60, -2.80], checkin: "15:00" }')).toEqual([
    "`at` takes [latitude, longitude] in degrees, not a list of 3: `[54.60, -2.80]`",
    "`places.flat` has no `checkin`: `checkIn`",
  ]);
});

test("a comment that swallows a brace", async () => {
  const [said] = await saidOf("place: beck }", "place: beck, show: News # the long one }");
  expect(said).toMatch(/^this `#` begins a comment, and the brace before it is never closed: /);
  const [open] = await saidOf("place: beck }", "place: beck # the long one");
  expect(open).toBe("this brace is never closed: add `}` where it ends");
});

test.each([
  ["a word before braces", 'nine: { at: "09:00"', 'nine { at: "09:00"', "no colon after `nine`: nine: { …"],
  [
    "an item further left",
    "  - { link: [flat, beck], drive: 35 min }",
    "  - { link: [flat, beck], drive: 35 min }\n- { link: [beck, flat], km: 30 km, oneWay: true }",
    "this entry begins further left than those above it: begin it in the same column as its neighbours",
  ],
  [
    "an item without its dash",
    "car: [flat, beck, flat]",
    "car:\n    - flat\n    - beck\n    flat",
    "this entry has no dash, those around it do: begin it with `- `",
  ],
  ["a sign in words", "runs:", "weather:\n  - { temp: minus 2 C }\nruns:", "`minus 2 C` is not a temperature: -2 C"],
  ["a share in words", "car: {}", "car: { fuel: full }", "`full` is not a share: 100%"],
  ["half of it", "car: {}", "car: { fuel: half }", "`half` is not a share: 50%"],
  ["a gauge's quarters", "car: {}", "car: { fuel: 3/4 }", "`/4` is not a unit of a share: `75%`"],
  ["more than the whole", "car: {}", "car: { fuel: 5/4 }", "`/4` is not a unit of a share: %"],
  ["the sky's cover", "runs:", "weather:\n  - { sky: 80% }\nruns:", "`weather[0]` has no `sky`: `cloud`"],
  [
    "a house rule at a vehicle",
    "car: {}",
    "car: { lineCheck: 9 min }",
    "`vehicles.car` has no `lineCheck`: `lineCheck` is a key of `rules`; here one of: name, gross, towing, seats, rules, week, claims, drivers, dayStarts, range, fuel, slower, inverter, shore, berth, inside, due, broken, keys",
  ],
  [
    "a key that many sections have",
    "car: {}",
    "car: { place: flat }",
    "`vehicles.car` has no `place`: one of: name, gross, towing, seats, rules, week, claims, drivers, dayStarts, range, fuel, slower, inverter, shore, berth, inside, due, broken, keys",
  ],
])("%s", async (_, from, to, said) => expect(await saidOf(from, to)).toEqual([said]));
