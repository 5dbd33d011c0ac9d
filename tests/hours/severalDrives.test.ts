/** Two drivers of one vehicle, and two vehicles of one driver: what each states for its rules, worked out by hand from the clauses named. */
import { describe, expect, it } from "vitest";
import {
  type Answer,
  asked,
  FROM_SIX,
  LONG_DAY,
  plan,
  type Span,
  sinceWork,
  spanLines,
  type Told,
} from "./vehicleDays.ts";

describe("two drivers are a claim", () => {
  const conditions = ({ found }: Answer): readonly string[] =>
    found.filter(({ code }) => code === "exception-claimed").map(({ who, message }) => `${who}: ${message}`);

  it("whose conditions are told to each driver it binds, as a note", async () => {
    const eu = await asked(plan(sinceWork("12:00"), "rules: eu, drivers: 2"));
    expect(conditions(eu)).toHaveLength(1);
    expect(conditions(eu)[0]).toMatch(/^wren: .*two drivers, Reg 561\/2006 Art 8\(5\)/);
    const canada = await asked(plan(LONG_DAY, "rules: ca-south, drivers: 2, berth: true"));
    expect(conditions(canada)[0]).toMatch(/^wren: .*team, SOR\/2005-313 s.19/);
    expect(conditions(await asked(plan(LONG_DAY, "rules: eu, drivers: 1")))).toEqual([]);
    expect(conditions(await asked(plan(LONG_DAY, "rules: eu")))).toEqual([]);
  });

  /** Wren alone up to the pier, where ilse slept. */
  const joins = (rules: string, bad: number): string =>
    plan(sinceWork("12:00"), `rules: ${rules}, drivers: 2, berth: true`, {
      runs: "  wagon: { driver: wren, stops: [{ place: lodge, aboard: [wren] }, { place: pier, aboard: [wren, ilse] }, lodge] }\n",
    })
      .replace("bad: 50 min", `bad: ${bad} min`)
      .replace("drives: all }\nvehicles", "drives: all, slept: pier }\nvehicles");
  const missing = async (text: string): Promise<readonly Told[]> =>
    (await asked(text)).found.filter(({ code }) => code === "second-driver-missing");

  it("who may join within the first hour, Reg 561/2006 Art 4(o)", async () => {
    expect(await missing(joins("eu", 60))).toEqual([]);
    const [told] = await missing(joins("eu", 61));
    expect(told).toMatchObject({ level: "error", who: "wren" });
    expect(told?.message).toMatch(/no one aboard except wren may drive it; 1 min in all/);
  });

  it("not in Canada, where a team is two, SOR/2005-313 s.19", async () => {
    expect((await missing(joins("ca-south", 60)))[0]?.message).toMatch(/; 1 h in all/);
  });

  it("one of whom must be there at all: the first hour alone is no multi-manning", async () => {
    const alone = plan(sinceWork("12:00"), "rules: eu, drivers: 2", {
      runs: "  wagon: { driver: wren, aboard: [wren], stops: [lodge, pier, lodge] }\n",
    });
    expect((await missing(alone))[0]?.message).toMatch(/; 1 h 25 min in all/);
    expect(await missing(plan(sinceWork("12:00"), "rules: eu, drivers: 2"))).toEqual([]);
  });
});

/** There in the wagon, back in the van. */
const two = (before: readonly Span[], wagon: string, van: string): string =>
  plan(before, wagon, {
    others: `  van: { gross: 5 t, ${van} }\n`,
    runs: "  wagon: { driver: wren, stops: [lodge, pier] }\n  van: { driver: wren, stops: [{ place: pier, after: wagon.2 }, lodge] }\n",
  });

describe("one person who drives two vehicles", () => {
  const review = ({ found }: Answer): string =>
    found
      .filter(({ code }) => code === "hours-review")
      .map(({ message }) => message)
      .join("\n");

  it("is judged by each rule set in the days of its own vehicle", async () => {
    const total = (text: string): string =>
      text.replace("    spans:", "    totals: { 2027-01-12: { duty: 10 h } }\n    spans:");
    // 13 h and 3 h 58 min, from 03:45 to 07:43. At 07:43 the 8 days of 395.3(b)(2) from noon on are those of the 12th to
    // the 19th, with its 10 h; from 06:00 on those of the 13th to the 20th, without.
    const noon = await asked(
      total(two(LONG_DAY, 'rules: ca-south, dayStarts: "06:00"', 'rules: us-property, dayStarts: "12:00"')),
    );
    expect(noon.used.get("us-property.week")).toBe(780 + 238 + 600);
    expect(noon.breaches.filter((one) => one.startsWith("ca-"))).toEqual(FROM_SIX);
    expect(review(noon)).not.toContain("which hour");
    const six = await asked(
      total(two(LONG_DAY, 'rules: ca-south, dayStarts: "00:00"', 'rules: us-property, dayStarts: "06:00"')),
    );
    expect(six.used.get("us-property.week")).toBe(780 + 238);
    expect(six.breaches.filter((one) => one.startsWith("ca-"))).toEqual([]);
    // 24:00 is the next day's 00:00, and the 12th is as far away.
    const late = await asked(total(two(LONG_DAY, "rules: eu", 'rules: us-property, dayStarts: "24:00"')));
    expect(late.used.get("us-property.week")).toBe(780 + 238);
  });

  it("with what is known only from before a hole, too", async () => {
    // 10 h on the 13th, of which the 4 h before 06:00 are the 12th's where days begin then, and out of the 8 days.
    const before: readonly Span[] = [["2027-01-13T02:00", "duty"]];
    const holed = (starts: string): string =>
      two(LONG_DAY, "rules: eu", `rules: us-property, dayStarts: "${starts}"`).replace(
        "    spans:\n",
        `    spans:\n${spanLines(before, "2027-01-13T12:00").replace("    -", "      -")}`,
      );
    expect((await asked(holed("06:00"))).used.get("us-property.week")).toBe(780 + 238 + 360);
    expect((await asked(holed("00:00"))).used.get("us-property.week")).toBe(780 + 238 + 600);
  });

  it("under one rule set with two day starts is judged by the stricter, and that is asked", async () => {
    for (const [a, b] of [
      ["06:00", "00:00"],
      ["00:00", "06:00"],
    ]) {
      const mixed = await asked(
        two(LONG_DAY, `rules: ca-south, dayStarts: "${a}"`, `rules: ca-south, dayStarts: "${b}"`),
      );
      expect(mixed.breaches).toEqual(FROM_SIX);
      expect(review(mixed)).toContain(`for wagon at ${a}, for van at ${b}: which hour`);
    }
    const alike = await asked(
      two(LONG_DAY, 'rules: ca-south, dayStarts: "06:00"', 'rules: ca-south, dayStarts: "06:00"'),
    );
    expect(review(alike)).not.toContain("which hour");
  });

  it("shares the wheel only where each is claimed for two, Reg 561/2006 Art 4(o)", async () => {
    const both = await asked(two(sinceWork("10:43"), "rules: eu, drivers: 2", "rules: eu, drivers: 2"));
    expect(both.breaches).toEqual([]);
    expect(review(both)).toBe("");
    for (const [a, b] of [
      ["drivers: 2", "drivers: 1"],
      ["drivers: 1", "drivers: 2"],
    ]) {
      const one = await asked(two(sinceWork("10:43"), `rules: eu, ${a}`, `rules: eu, ${b}`));
      // 15 h from 10:43 on.
      expect(one.breaches).toEqual(["eu.daily-rest 01-20T01:43 01-20T07:43"]);
      expect(review(one)).toContain("Counted as one driver");
    }
  });
});
