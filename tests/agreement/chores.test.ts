/** Work with packs is somebody's time, and is done where the pack, the hands and the charger are together. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { judge, readPlan, solveDay } from "../../src/index.ts";
import { holderStays } from "../../src/kit/track.ts";
import type { Id } from "../../src/plan/plan.ts";
import { bayAt } from "../../src/power/model.ts";
import { type Instant, instant } from "../../src/time/units.ts";
import { FILES, read } from "./fixtures.ts";

const WITH_PACKS = FILES.filter((file) => /^packs:/m.test(readFileSync(file, "utf8")));

async function powered(file: string) {
  const reading = await readPlan(readFileSync(file, "utf8"), { file, files: { read } });
  if (!reading.ok) throw new Error(`${file} is no plan`);
  const solved = await solveDay(reading);
  if (!solved.ok) throw new Error(`${file} has no day`);
  const { day, results } = await judge(solved, { topics: ["power"] });
  if (results.power === undefined) throw new Error(`${file} was not judged`);
  return { day, built: results.power.built, solution: results.power.solution };
}

describe.each(WITH_PACKS)("%s", (file) => {
  it("has every chore in its person's spans, and nobody asleep at it", async () => {
    const { day } = await powered(file);
    for (const { id, chores, spans } of day.people) {
      for (const { from, to } of chores) {
        const at = `${id} from ${from} to ${to}`;
        const inside = spans.filter((span) => span.from < to && from < span.to);
        const covered = inside.reduce((sum, span) => sum + Math.min(span.to, to) - Math.max(span.from, from), 0);
        expect(covered, at).toBe(to - from);
        expect(
          inside.filter(({ is }) => is === "off"),
          at,
        ).toEqual([]);
      }
    }
  });

  it("has the pack, the piece or charger and the hands of every move at one place", async () => {
    const { built, solution } = await powered(file);
    // The day before its chores are entered: they are what is asked about.
    const { day, presence } = built.around;
    /** The vehicle or place that a pack's place in the model is part of. */
    const holderOf = (place: Id, at: Instant): Id => {
      const load = built.model.loads.find(({ id }) => id === place);
      const charger = built.model.chargers.find(({ id }) => id === place);
      const bay = load === undefined ? (charger?.bay ?? place) : bayAt(load, at);
      return built.handBays.find(({ id }) => id === bay)?.within ?? bay;
    };
    /** Where a vehicle or place is; a vehicle on the road is its own place. */
    const spot = (holder: Id, at: Instant): Id | null => {
      const stay = holderStays(day, presence, holder).find(({ from, to }) => from <= at && at < to);
      return stay === undefined ? null : (stay.place ?? holder);
    };
    for (const { pack, from, to, touch } of solution.rotation.moves) {
      const work = solution.rotation.chores.find((one) => one.touch === touch);
      if (work === undefined) continue;
      // Hands are at their work until its end: the last whole minute of it, or the instant where it takes no time.
      const at = instant(Math.max(work.begins, work.ends - 1));
      const where = spot(holderOf(from, at), at);
      const said = `${pack} from ${from} to ${to} at ${touch}`;
      expect(where, said).not.toBeNull();
      expect(spot(holderOf(to, at), at), said).toBe(where);
      for (const who of work.who) {
        const stretch = presence.personAt(who, at);
        expect([stretch?.place ?? stretch?.vehicle, stretch?.awake], `${said}, ${who}`).toEqual([where, true]);
      }
    }
  });
});

it("is asked of days that have such work", async () => {
  const all = await Promise.all(WITH_PACKS.map(powered));
  expect(all.flatMap(({ day }) => day.people.flatMap(({ chores }) => chores)).length).toBeGreaterThan(10);
});
