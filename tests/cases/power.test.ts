/** Days of packs that went wrong, or asked too much of people: each with what it should say and why. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Day } from "../../src/day/day.ts";
import type { PowerResult } from "../../src/power/index.ts";
import { had } from "../../src/reports/shared/judged.ts";
import { ran } from "../cli/fakeIo.ts";
import { judgedFile, judgedText } from "./judged.ts";

const CASES = "fixtures/cases";

const powerOf = async (path: string): Promise<PowerResult> => had((await judgedFile(`${CASES}/${path}`)).results.power);

const textOf = (path: string): string => readFileSync(`${CASES}/${path}`, "utf8");

/** Chores and moves of a rotation, those that only charge spares left out of the moves. */
function work({ solution }: PowerResult): { readonly chores: number; readonly moves: number } {
  return { chores: solution.rotation.chores.length, moves: solution.moveCount - solution.spareMoves };
}

const clock = (day: Day, at: number): string =>
  new Intl.DateTimeFormat("en-GB", { timeZone: day.plan.zone, hour: "2-digit", minute: "2-digit" }).format(at * 60_000);

describe("fewest chores", () => {
  // Before: 26 moves in 14 and in 13 chores. By a longer search: 17 moves in 8, 13 in 7.
  it.each([
    ["power/scale-6p-8h.yaml", 8],
    ["power/tight-3p-12h.yaml", 7],
  ])("%s needs at most %i at the default effort", async (path, chores) => {
    const result = await powerOf(path);
    expect(result.solution.dropped).toEqual([]);
    expect(work(result).chores).toBeLessThanOrEqual(chores);
  });

  it.each(["power/scale-8p-12h.yaml", "power/scale-10p-16h.yaml"])(
    "%s moves far less than 48 times, and prints no bound that says nothing",
    async (path) => {
      expect(work(await powerOf(path)).moves).toBeLessThan(45);
      const { out } = await ran(["power", "day.yaml", "--width", "0"], { files: { "day.yaml": textOf(path) } });
      expect(out).toContain("`--patience 4` looks for fewer moves");
      expect(out).not.toContain("at least 0");
    },
  );

  it("with twenty packs and three chargers asks for fewer than thirteen chores", async () => {
    expect(work(await powerOf("power/20p-8h-3c.yaml")).chores).toBeLessThan(13);
  });
});

describe("sense among what is equal", () => {
  it("puts a pack into a slow charger at the release and takes it out at loading: 25.9 Wh kept, not 17.2", async () => {
    const result = await powerOf("power/lazy-8w.yaml");
    const { day } = result.built.around;
    const [first, second] = result.solution.rotation.chores;
    // Released 18:00: the hands are there. Loading ends when the wagon rolls.
    expect(clock(day, first?.begins ?? 0)).toBe("18:00");
    expect(second?.ends).toBe(day.moves[0]?.leave);
    expect(result.solution.replay.leastMarginWh ?? 0).toBeGreaterThan(25);
  });

  it("takes off before it puts into, and no place ever holds too many between two moves of a chore", async () => {
    for (const path of ["power/scale-6p-8h.yaml", "power/20p-8h-3c.yaml", "power/cold-15.yaml"]) {
      const { solution } = await powerOf(path);
      const { model, rotation } = solution;
      const at = new Map(model.packs.map((pack) => [pack.id, pack.at]));
      const room = (place: string): number =>
        model.loads.some(({ id }) => id === place)
          ? 1
          : (model.chargers.find(({ id }) => id === place)?.slots ?? Number.POSITIVE_INFINITY);
      for (const chore of rotation.chores) {
        const moves = rotation.moves.filter(({ touch }) => touch === chore.touch);
        // Taken off first, all of them in hand; then put where they go.
        for (const { pack } of moves) at.delete(pack);
        for (const { pack, to } of moves) {
          at.set(pack, to);
          expect([...at.values()].filter((place) => place === to).length, `${path} ${to}`).toBeLessThanOrEqual(
            room(to),
          );
        }
        // What leaves a slot for another place comes before what goes into one, unless it changes slots itself.
        const isCharger = (place: string): boolean => model.chargers.some(({ id }) => id === place);
        const ins = moves.findIndex(({ from, to }) => isCharger(to) && !isCharger(from));
        const lastOut = moves.findLastIndex(({ from, to }) => isCharger(from) && model.bays.includes(to));
        if (ins >= 0 && lastOut >= 0) expect(lastOut, path).toBeLessThan(ins);
      }
    }
  });

  it("counts what comes off a charger until its chore begins: the margin that the printed sheet gives", async () => {
    const { solution } = await powerOf("power/scale-6p-8h.yaml");
    for (const { touch, begins, ends } of solution.rotation.chores) {
      const moves = solution.rotation.moves.filter((move) => move.touch === touch).length;
      // Two minutes a pack.
      expect(ends - begins).toBeGreaterThanOrEqual(Math.min(2 * moves, 2));
      for (const { pack, from } of solution.rotation.moves.filter((move) => move.touch === touch)) {
        const charging = (solution.replay.steps.get(pack) ?? []).filter(
          ({ doing, at }) => doing === "charge" && at === from,
        );
        expect(charging.every((step) => step.to <= begins || step.from >= ends)).toBe(true);
      }
    }
  });

  it("charges spares where slots are free and hands are there anyway, in no chore more", async () => {
    const one = await judgedText(textOf("power/base.yaml"));
    const three = await judgedText(textOf("power/base.yaml").replace("slots: 1", "slots: 3"));
    const [alone, spares] = [had(one.results.power), had(three.results.power)];
    expect(work(spares).chores).toBeLessThanOrEqual(work(alone).chores);
    expect(spares.solution.spareMoves).toBeGreaterThan(0);
    // 12 h at 25 W fill a pack of 98 Wh.
    const full = spares.solution.model.packs.filter(
      ({ id, wh }) => (spares.solution.replay.steps.get(id)?.at(-1)?.whAfter ?? 0) > 0.9 * wh,
    );
    expect(full.length).toBeGreaterThanOrEqual(2);
  });
});

describe("rest", () => {
  it("that law asks for is cut by no swap: at the release, not at 19:08, and none before getting up (49 CFR 395.3(a)(1))", async () => {
    const judged = await judgedFile(`${CASES}/together/pack-work-in-rest.yaml`);
    expect(judged.findings.filter(({ level }) => level === "error")).toEqual([]);
    const [tomas] = judged.day.people;
    const off = (tomas?.spans ?? []).filter(({ is }) => is === "off").map(({ from, to }) => to - from);
    // Released 17:40, called 03:45: 10 h 5 min, of which a joined chore may take five minutes.
    expect(Math.max(...off)).toBeGreaterThanOrEqual(600);
    expect(tomas?.chores.every(({ apart }) => !apart)).toBe(true);
  });

  it("of the demo's Wren: her packs lie in her call, and every hit is covered", async () => {
    const judged = await judgedFile("fixtures/days/2027-01-20.yaml");
    expect(had(judged.results.power).solution.dropped).toEqual([]);
    for (const { chores, spans } of judged.day.people) {
      expect(chores.every(({ apart }) => !apart)).toBe(true);
      for (const { from, to } of chores)
        expect(spans.some((span) => span.from <= from && to <= span.to && span.is !== "off")).toBe(true);
    }
  });
});

describe("a charge that was found", () => {
  it("at 07:00 at 5 % leaves the hit at ten dark: 4.9 Wh are under the reserve", async () => {
    const judged = await judgedFile(`${CASES}/facts/charge.yaml`);
    expect(judged.found("hit-unpowered").map(({ facts }) => facts["demand"])).toEqual(["ten"]);
    const { out } = await ran(["power", "day.yaml", "--now", "07:05", "--width", "0"], {
      files: { "day.yaml": textOf("facts/charge.yaml") },
    });
    // 98 - 35 W for 23 min = 84.6 Wh were left after dawn, 86 %.
    expect(out).toContain("vl.1 was found at 5 %, 81 % less than computed.");
  });
});

describe("an edit of a day under way", () => {
  const rotation = async (flags: readonly string[]) => {
    const files = { "day.yaml": textOf("facts/split.yaml") };
    const { data } = JSON.parse((await ran(["power", "--json", "day.yaml", ...flags], { files })).out) as {
      data: { hands: readonly { from: string; moves: readonly unknown[] }[] };
    };
    return data.hands;
  };

  it("keeps every swap of the night and the morning, move for move; without the edit all of them", async () => {
    const planned = await rotation([]);
    expect(await rotation(["--now", "11:30 ET"])).toEqual(planned);
    const edited = await rotation(["--now", "11:30 ET", "--set", 'tasks.lunch.window=["13:00","14:30"]']);
    // 11:30 New York is 10:30 at the mill.
    const past = (hands: typeof planned) => hands.filter(({ from }) => from < "2026-10-14T10:30");
    expect(past(planned).length).toBeGreaterThan(1);
    expect(past(edited)).toEqual(past(planned));
  });
});

describe("somebody with nothing to do", () => {
  it("changes nothing of the packs' account, which begins where the day before ended", async () => {
    const read = (name: string): string => textOf(`together/idle-guest/${name}`);
    const before = { "2027-02-04.yaml": read("2027-02-04.yaml") };
    const second = read("2027-02-05.yaml");
    const guest = "history: { guest: { released: 2027-02-03T12:00+01:00 } }\n";
    const alone = await judgedText(second, before);
    const withGuest = await judgedText(`${second.replace(/crew: \{\}.*/, "crew: { guest: {} }")}${guest}`, before);
    const during = ({ results }: typeof alone) => {
      const { model } = had(results.power).solution;
      return [model.from, model.to, model.touches];
    };
    expect(during(withGuest)).toEqual(during(alone));
    expect(during(alone)[0]).toBeGreaterThanOrEqual(alone.days[0]?.span.to ?? Number.POSITIVE_INFINITY);
  });
});
