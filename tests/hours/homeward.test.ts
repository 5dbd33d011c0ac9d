/**
 * What Regulation (EC) No 561/2006 Art 12 lets a driver depart from where it is claimed: an hour at the wheel more to reach
 * home or base for a weekly rest, two straight after a break of 30 minutes for a regular one, as much rest later; and as
 * far as safety needs to reach a stopping place. As amended by 2020/1054, from memory. By hand; clocks are UTC.
 */
import { describe, expect, it } from "vitest";
import { answerTo, logText } from "./logs.ts";

const START = Date.parse("2027-01-16T06:00Z") / 60_000;

/** Spans given as `kind minutes`, from Saturday 16 January 2027 06:00 on; 48 h off, then Monday 06:00. */
const log = (options: Readonly<Record<string, unknown>>, spans: string): string => {
  let at = START;
  const iso = (): string => new Date(at * 60_000).toISOString().slice(0, 16);
  const written = `off 2880, ${spans}`.split(", ").map((text) => {
    const [is = "", minutes = "0"] = text.split(" ");
    const from = iso();
    at += Number(minutes);
    return { from, to: iso(), is };
  });
  return logText({ zone: "UTC", rules: "eu", options, spans: written });
};

/** Breaches by limit and minutes. */
async function told(options: Readonly<Record<string, unknown>>, spans: string) {
  const { person, codes, errors } = await answerTo(log(options, spans), null);
  const length = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / 60_000;
  const breaches = person.breaches.map(({ limit, from, to }) => `${limit} ${length(from, to)}`);
  return { person, codes, errors, breaches };
}

/** Two days of 10 h at the wheel, the week's two, 1350 min each with the night; a third of 8 h with its last drive to be stated. */
const LONG = "driving 270, off 45, driving 270, off 45, driving 60, off 660";
const THIRD = `${LONG}, ${LONG}, driving 270, off 45, driving 210, off 45`;

describe("an hour more, claimed", () => {
  const hour = { homeHour: true };

  it("to a weekly rest of 24 h: 10 h on a third day, not 10 h 1 min", async () => {
    // 8 h and 2 h: 9 h are allowed, 60 min lie beyond.
    expect((await told({}, `${THIRD}, driving 120, off 1440, duty 1`)).breaches).toEqual(["eu.driving 60"]);
    expect((await told(hour, `${THIRD}, driving 120, off 1440, duty 1`)).breaches).toEqual([]);
    expect((await told(hour, `${THIRD}, driving 121, off 1440, duty 1`)).breaches).toEqual(["eu.driving 1"]);
  });

  it("is none where the rest that follows is no weekly one, and none is known to be until it ends", async () => {
    expect((await told(hour, `${THIRD}, driving 120, off 1439, duty 1`)).breaches).toEqual(["eu.driving 60"]);
    expect((await told(hour, `${THIRD}, driving 120, off 660`)).breaches).toEqual([]);
  });

  it("holds for the day of 13 h, too: 15 h with a reduced rest, and an hour", async () => {
    expect((await told(hour, "duty 960, off 1440, duty 1")).breaches).toEqual([]);
    expect((await told(hour, "duty 961, off 1440, duty 1")).breaches).toEqual(["eu.daily-rest 1"]);
    expect((await told({}, "duty 960, off 1440, duty 1")).breaches).toEqual(["eu.daily-rest 60"]);
  });

  it("is not for breaks: 4 h 30 min at the wheel are the most", async () => {
    expect((await told(hour, "driving 271, off 1440, duty 1")).breaches).toEqual(["eu.break 1"]);
  });

  it("driving must stop an hour later, and the next call comes after the weekly rest", async () => {
    // Driven 8 h 30 min at the end: 30 min are left, and the hour.
    const spans = `${THIRD}, driving 30`;
    const stop = async (options: Readonly<Record<string, unknown>>, driven = spans): Promise<number> => {
      const { person } = await told(options, driven);
      return Date.parse(person.drivingMustStopAt ?? "") / 60_000 - START - 2880 - 2 * 1350 - 600;
    };
    expect(await stop({})).toBe(30);
    expect(await stop(hour)).toBe(90);
    // Gone beyond the hour, too: where it ended.
    expect(await stop({}, `${THIRD}, driving 125`)).toBe(30);
    expect(await stop(hour, `${THIRD}, driving 125`)).toBe(90);
    // Home after 60 min of it, 10 h of the weekly rest taken: to drive now would undo what made them lawful. After 9 h at
    // the wheel nothing hangs on the rest, and 4 h 30 min are free until a break.
    expect(await stop(hour, `${THIRD}, driving 120, off 600`)).toBe(690);
    expect(await stop(hour, `${THIRD}, driving 60, off 600`)).toBe(630 + 270);
    // Gone beyond by 60 min at minute 690 of the third day. A weekly rest that has to be taken is proposed in full: 45 h.
    const { person } = await told(hour, `${THIRD}, driving 120`);
    expect(Date.parse(person.earliestNextCall ?? "") / 60_000 - START - 2880).toBe(2 * 1350 + 690 + 2700);
    const plain = await told({}, `${THIRD}, driving 60`);
    expect(Date.parse(plain.person.earliestNextCall ?? "") / 60_000 - START - 2880).toBe(2 * 1350 + 630 + 540);
  });

  it("leaves as much rest to be made up for by the end of the third week after, and prints what it hangs on", async () => {
    const { person, codes } = await told(hour, `${THIRD}, driving 100, off 585, duty 1`);
    expect(codes).toContain("exception-claimed");
    expect(person.breaches.map(({ limit }) => limit)).toEqual(["eu.driving"]);
    // 40 min beyond on Wednesday 20 January: due on Monday 15 February 00:00, to begin at 23:20. The rest is 45 h.
    const kept = await told(hour, `${THIRD}, driving 100, off 20`);
    expect(kept.person.limits.find(({ id }) => id === "eu.make-up")?.runsOutAt).toBe("2027-02-14T23:20+00:00");
    // 45 h 39 min leave it owed, 45 h 40 min do not.
    const owedAfter = async (minutes: number) =>
      (await told(hour, `${THIRD}, driving 100, off ${minutes}, duty 1`)).person.limits.some(
        ({ id }) => id === "eu.make-up",
      );
    expect(await owedAfter(2740)).toBe(false);
    expect(await owedAfter(2739)).toBe(true);
  });
});

describe("two hours more, claimed", () => {
  const two = { homeTwoHours: true };

  it("straight after a break of 30 min to a regular weekly rest: 11 h on a third day, not 11 h 1 min", async () => {
    expect((await told(two, `${THIRD}, driving 180, off 2700, duty 1`)).breaches).toEqual([]);
    expect((await told(two, `${THIRD}, driving 181, off 2700, duty 1`)).breaches).toEqual(["eu.driving 1"]);
  });

  it("is none after a break of 29 min, with work behind the break, or to a reduced weekly rest", async () => {
    // 8 h 30 min, a break of 30 min or a minute less, then 40 min: 10 beyond the 9 h. The break of 4 h 30 min is 15 and 30.
    const third = `${LONG}, ${LONG}, driving 270, off 45, driving 200, off 15, driving 40`;
    expect((await told(two, `${third}, off 30, driving 40, off 2700, duty 1`)).breaches).toEqual([]);
    expect((await told(two, `${third}, off 29, driving 40, off 2700, duty 1`)).breaches).toEqual([
      "eu.break 10",
      "eu.driving 10",
    ]);
    expect((await told(two, `${THIRD}, duty 1, driving 180, off 2700, duty 1`)).breaches).toEqual(["eu.driving 120"]);
    expect((await told(two, `${THIRD}, driving 180, off 2699, duty 1`)).breaches).toEqual(["eu.driving 120"]);
  });

  it("gives way to one hour where both are claimed and the rest is a reduced one", async () => {
    const both = { homeHour: true, homeTwoHours: true };
    expect((await told(both, `${THIRD}, driving 180, off 2699, duty 1`)).breaches).toEqual(["eu.driving 60"]);
  });
});

describe("a stopping place, claimed", () => {
  it("leaves a breach of Art 6 to 8 to people, with the reason to be noted; without the claim it is one", async () => {
    const claimed = await told({ stoppingPlace: true }, "driving 271, off 660, duty 1");
    expect(claimed.errors).toBe(0);
    expect(claimed.codes).toContain("hours-review");
    expect(claimed.codes).toContain("exception-claimed");
    expect((await told({}, "driving 271, off 660, duty 1")).errors).toBe(1);
  });
});
