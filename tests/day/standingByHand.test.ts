/** Who parks, sets up and strikes with a vehicle that stands at a hit: whoever comes with it or goes with it, and nobody else. */
import { describe, expect, it } from "vitest";
import { at, type Description, dayOf } from "./make.ts";

const WORK = ["park", "set-up", "strike"];
const work = (description: Description, id: string) =>
  dayOf(description)
    .people.find((person) => person.id === id)
    ?.terms.flatMap(({ name, to, from }) => (WORK.includes(name) && to > from ? [name] : []));

const base = (more: Partial<Description>): Description => ({
  crew: { wren: { drives: ["wagon"], slept: "home" }, ilse: { slept: "home" }, bea: { slept: "home" } },
  roads: { "home pier": [30, 40] },
  runs: {},
  ...more,
});

describe("at the last stop of a vehicle", () => {
  const ending = (leave: string | null) =>
    base({
      hits: { dawn: { at: at("08:00"), forMinutes: 5, in: "pier", who: ["wren", "ilse"] } },
      runs: { wagon: { driver: "wren", aboard: ["wren", "ilse"], stops: ["home", { place: "pier", do: ["dawn"] }] } },
      ...(leave === null
        ? {}
        : {
            rides: {
              taxi: { leadMinutes: 0, who: ["ilse"], from: "pier", to: "home", leave: at(leave), arrive: at("10:00") },
            },
          }),
    });

  it("whoever stays with it strikes, and who leaves by a ride does not", () => {
    expect(work(ending(null), "wren")).toEqual(WORK);
    expect(work(ending(null), "ilse")).toEqual(WORK);
    expect(work(ending("09:30"), "wren")).toEqual(WORK);
    expect(work(ending("09:30"), "ilse")).toEqual(["park", "set-up"]);
  });
});

describe("at the first stop of a vehicle", () => {
  const starting = base({
    hits: {
      early: { at: at("06:00"), forMinutes: 5, in: "home", who: ["wren", "bea"] },
      dawn: { at: at("09:00"), forMinutes: 5, in: "pier", who: ["wren"] },
    },
    runs: {
      wagon: {
        driver: "wren",
        aboard: ["wren"],
        stops: [{ place: "home", do: ["early"] }, { place: "pier", do: ["dawn"] }, "home"],
      },
    },
  });

  it("whoever leaves with it sets up and strikes, and who sleeps there and only makes the hit does not", () => {
    expect(work(starting, "wren")?.filter((name) => name === "strike")).toEqual(["strike", "strike"]);
    expect(work(starting, "bea")).toEqual([]);
  });
});
