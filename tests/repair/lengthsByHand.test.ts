/** Which lengths the search asks for, one after the other, and which it keeps. */
import { describe, expect, it } from "vitest";
import type { AimedCandidate } from "../../src/repair/outcome.ts";
import { leg, weather } from "../day/parts.ts";
import { at, day } from "../roads/days.ts";
import { A, B, house, searched, step, type World } from "./played.ts";

describe("lengths", () => {
  const cutTask = (n: number, was: number, minutes: number) =>
    step(n, ["hit-missed"], {
      edits: [{ path: ["tasks", `t${n}`, "for"], value: `${minutes} min` }],
      length: { was, minutes },
    });

  it("are cut no more than they must be: 25 of 40 do", async () => {
    const after: World["after"] = (_, [value = ""]) => (Number.parseInt(value, 10) <= 25 ? [] : [A]);
    const world = { now: [A], candidates: [cutTask(0, 40, 10)], after };
    const { asked, found, proof } = await searched(world);
    // Halving between 10 and 40: 25 does, 32, 28 and 26 do not.
    expect(asked).toEqual(["10", "25", "32", "28", "26"].map((minutes) => `${minutes} min brief`));
    expect(found).toEqual(["25 min"]);
    expect(proof.judged).toBe(5);
    // Nothing is left to ask: as short as it was tried.
    expect((await searched(world, { budget: 1 })).found).toEqual(["10 min"]);
    expect((await searched(world, { budget: 2 })).found).toEqual(["25 min"]);
  });

  it("are no longer where that stands worse", async () => {
    const after: World["after"] = (_, [value = ""]) => {
      const minutes = Number.parseInt(value, 10);
      return minutes <= 20 ? [] : minutes <= 25 ? [house(1)] : [A];
    };
    const { found } = await searched({ now: [A], candidates: [cutTask(0, 40, 10)], after });
    expect(found).toEqual(["20 min"]);
  });

  it("are cut one after the other where two are needed", async () => {
    const after: World["after"] = (used, values) => {
      const minutes = new Map(used.map((n, index) => [n, Number.parseInt(values[index] ?? "", 10)]));
      return [...((minutes.get(0) ?? 99) <= 25 ? [] : [A]), ...((minutes.get(1) ?? 99) <= 12 ? [] : [B])];
    };
    const candidates = [cutTask(0, 40, 10), cutTask(1, 30, 10)];
    expect((await searched({ now: [A, B], candidates, after })).found[0]).toBe("25 min+12 min");
  });

  // 05:00 to the pier at 05:30, ten minutes of work, then home from 05:40; the road is bad until 05:52.
  const own = day([
    {
      ...{ vehicle: "wagon", people: ["wren"], leave: at(300) },
      way: [
        [leg("lodge", "pier", 30, 30), "drive", { work: 10 }],
        [leg("pier", "lodge", 30, 30), "drive", {}],
      ],
    },
  ]);
  const snowy = { ...own, plan: { ...own.plan, weather: [weather({ from: at(300), to: at(352), road: "snow" })] } };
  const path = [...(own.stops.find(({ place }) => place === "pier")?.stop.path ?? []), "for"];
  const atPier = (minutes: number, most = 30): AimedCandidate => ({
    ...{ edits: [{ path, value: `${minutes} min` }], codes: ["hit-missed"], length: { was: most, minutes } },
  });

  it("are tried as well so that a bad road has ended: 12 minutes later", async () => {
    const after: World["after"] = (_, [value = ""]) => {
      const minutes = Number.parseInt(value, 10);
      return minutes === 10 ? [house(30)] : minutes <= 22 ? [house(1)] : [A];
    };
    const { asked, found } = await searched({ now: [A], candidates: [atPier(10)], after, own: snowy });
    // 10 + (05:52 − 05:40) = 22; then between 22 and 30: 26, 24 and 23.
    expect(asked).toEqual(["10", "22", "26", "24", "23"].map((minutes) => `${minutes} min brief`));
    expect(found).toEqual(["22 min"]);
    // The shorter one stays where it stands better.
    const better: World["after"] = (_, [value = ""]) =>
      value === "10 min" ? [] : value === "22 min" ? [house(1)] : [A];
    expect((await searched({ now: [A], candidates: [atPier(10)], after: better, own: snowy })).found).toEqual([
      "10 min",
    ]);
  });
});
