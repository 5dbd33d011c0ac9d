/** Fatigue figures against `hours-rules` FAT-01, FAT-02, FAT-07: published tables, and S + C worked from the published parameters. */
import { describe, expect, it } from "vitest";
import { asleepS, awakeS, circadian } from "../../src/hours/fitness/alertness.ts";
import { bloodAlcoholLevel, crashRatio } from "../../src/hours/fitness/fitness.ts";
import { ran } from "../cli/fakeIo.ts";
import { SMALLEST } from "../cli/plans.ts";

describe("sleep in the last 24 h against the crash rate (Tefft, AAA Foundation, December 2016)", () => {
  const table: readonly (readonly [hours: number, ratio: number])[] = [
    [7, 1],
    [9, 1],
    [6.5, 1.3],
    [6, 1.3],
    [5.5, 1.9],
    [5, 1.9],
    [4.5, 4.3],
    [4, 4.3],
    [3.9, 11.5],
    [0, 11.5],
  ];
  for (const [hours, ratio] of table) it(`${hours} h: ${ratio}`, () => expect(crashRatio(hours * 60)).toBe(ratio));
});

describe("hours awake against blood alcohol (Dawson and Reid, Nature 388:235, 1997)", () => {
  it("17 h is at 0.05 %, 16.5 h below, 24 h at 0.10 %", () => {
    expect(bloodAlcoholLevel(17 * 60)).toBe("0.05 %");
    expect(bloodAlcoholLevel(16.5 * 60)).toBeNull();
    expect(bloodAlcoholLevel(24 * 60)).toBe("0.10 %");
  });
});

describe("S + C (Ingre and others, PLoS ONE 9:e108679, 2014, parameters as printed there)", () => {
  it("S after 8, 16, 17 and 24 h awake from 14", () => {
    for (const [hours, s] of [
      [8, 11.146],
      [16, 8.994],
      [17, 8.766],
      [24, 7.372],
    ] as const) {
      expect(awakeS(14, hours)).toBeCloseTo(s, 3);
    }
  });

  it("C peaks at 16:48 and is lowest at 04:48", () => {
    expect(circadian(16.8)).toBeCloseTo(2.5, 9);
    expect(circadian(4.8)).toBeCloseTo(-2.5, 9);
  });

  it("woke at 06:00 at 14: S + C at 14:00, 22:00, 02:00 and 04:00", () => {
    for (const [hour, index] of [
      [14, 13.004],
      [22, 9.514],
      [26, 6.268],
      [28, 5.29],
    ] as const) {
      expect(awakeS(14, hour - 6) + circadian(hour % 24)).toBeCloseTo(index, 3);
    }
  });

  it("sleep brings S up, fast while low and ever slower near the ceiling", () => {
    expect(asleepS(7.96, 0)).toBeCloseTo(7.96, 9);
    expect(asleepS(12.5, 3)).toBeCloseTo(14.3 - 1.8 * Math.exp(-0.38135645 * 3), 9);
    expect(asleepS(8, 1)).toBeCloseTo(8 + 0.38135645 * 1.8, 6);
    expect(asleepS(8.994, 8)).toBeGreaterThan(13.5);
  });
});

describe("the night of a plan", () => {
  const plan = (history: string) => `${SMALLEST}history:\n  wren: { ${history} }\n`;
  const fitness = async (text: string) => {
    const { out } = await ran(["hours", "x.yaml", "--json"], { files: { "x.yaml": text } });
    return JSON.parse(out).data.fitness[0];
  };

  it("is from 90 min after release to 45 min before the call at 04:00, at most 9 h", async () => {
    expect(await fitness(plan("released: 2027-01-19T20:00-06:00"))).toMatchObject({
      id: "wren",
      sleepMinutes: 345,
      sleepStated: false,
      up: "2027-01-20T03:15-06:00",
      crashRatio: 1.9,
    });
    expect((await fitness(plan("released: 2027-01-19T12:00-06:00"))).sleepMinutes).toBe(540);
  });

  it("begins no earlier than check-in", async () => {
    const late = plan("released: 2027-01-19T14:00-06:00").replace("-90.88] }", '-90.88], checkIn: "21:15" }');
    expect((await fitness(late)).sleepMinutes).toBe(360);
  });

  it("is as stated where it is stated", async () => {
    expect(await fitness(plan("asleep: 6 h"))).toMatchObject({ sleepMinutes: 360, sleepStated: true, crashRatio: 1.3 });
  });

  it("has S + C hour by hour from getting up to the release", async () => {
    const { curve } = await fitness(plan("asleep: 8 h"));
    // In bed at 8.994, up at 03:15: 5.1075 h at 0.68644 an hour to 12.5, then 14.3 - 1.8 exp(-0.38136 x 2.8925) = 13.703;
    // C = 2.5 cos(2 pi (3.25 - 16.8) / 24) = -2.297. At 07:15: 2.4 + 11.303 exp(-0.0353 x 4) - 2.003. Released at 07:18.
    expect(curve).toHaveLength(5);
    expect(curve[0]).toEqual({ at: "2027-01-20T03:15-06:00", alertness: 11.41 });
    expect(curve[4]).toEqual({ at: "2027-01-20T07:15-06:00", alertness: 10.21 });
    expect((await fitness(SMALLEST)).curve).toEqual([]);
  });

  it("says where its figures come from, and what is doubtful in them, where someone drives", async () => {
    const { out } = await ran(["hours", "x.yaml"], { files: { "x.yaml": plan("asleep: 8 h") } });
    for (const said of ["AAA Foundation", "Nature 388:235", "PLoS ONE 9:e108679", "Doubtful", "03:15 11.4"])
      expect(out).toContain(said);
  });
});
