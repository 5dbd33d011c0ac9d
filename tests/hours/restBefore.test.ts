/** The longest stretch off before a call, which work for the gear may part. */
import { expect, it } from "vitest";
import { assess } from "../../src/hours/index.ts";
import { leg } from "../day/parts.ts";
import { at, day } from "../roads/days.ts";

it.each([
  ["nothing", null, 720],
  ["a chore early in it", [100, 130], 470],
  ["a chore late in it", [450, 480], 570],
  ["a chore right after the release", [-120, -100], 700],
] as const)("of twelve hours with %s", (_, chore, longest) => {
  // Released at 22:00 the evening before, called at 10:00: 12 h, from minute -120 to 600.
  const made = day([
    { vehicle: "wagon", people: ["wren"], leave: at(600), way: [[leg("lodge", "pier", 30, 30), "drive", {}]] },
  ]);
  const people = made.people.map((person) => {
    const [off, ...rest] = person.spans;
    if (off === undefined) throw new Error("no rest");
    const parts =
      chore === null
        ? [off]
        : [
            { ...off, to: at(chore[0]) },
            { ...off, is: "duty" as const, doing: "packs", from: at(chore[0]), to: at(chore[1]) },
            { ...off, from: at(chore[1]) },
          ].filter(({ from, to }) => to > from);
    return { ...person, previousRelease: at(-120), spans: [...parts, ...rest] };
  });
  const { result } = assess({ days: [{ ...made, people }], patience: 1, now: null });
  expect([...result.people.values()].map(({ hours }) => hours.restBeforeMinutes)).toEqual([longest]);
});
