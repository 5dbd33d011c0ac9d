/**
 * A vehicle on a ferry, by minutes worked out by hand: a truck drives 60 minutes from home to the quay, sails at 10:00 and
 * lands at 14:00 at the isle, from where it is 30 minutes to the inn. House rules: walk-around 15, loading 15.
 */
import { describe, expect, it } from "vitest";
import { driveTime } from "../../src/legs/times.ts";
import { ran } from "../cli/fakeIo.ts";
import { at, type Description, dayOf, text, times } from "./make.ts";
import { dayOfFile } from "./read.ts";

const FERRY = { sail: at("10:00"), land: at("14:00"), bunk: true };
const STOPS: Description["runs"][string]["stops"] = ["home", { place: "quay", ferry: FERRY }, "isle", "inn"];

/** No road leads from the quay to the isle. */
const crossing = (more: Partial<Description> = {}, stops = STOPS) =>
  dayOf({
    crew: { wren: { drives: ["truck"] }, ilse: {} },
    roads: { "home quay": [60, 60], "isle inn": [30, 30] },
    runs: { truck: { driver: "wren", aboard: ["wren", "ilse"], stops } },
    ...more,
  });

describe("the vehicle", () => {
  it("is at the quay when the ferry sails, and at the isle when it lands", () => {
    // 10:00 − 60 = 09:00 from home; 14:00 + 30 = 14:30 at the inn.
    const day = crossing();
    const names = ["truck.1.leave", "truck.2.arrive", "truck.2.leave", "truck.3.arrive", "truck.4.arrive"];
    expect(times(day, ...names)).toEqual(["09:00", "10:00", "10:00", "14:00", "14:30"]);
    expect(day.findings).toEqual([]);
  });

  it("stays at the quay as long as the plan says: 10:00 − 45 − 60 = 08:15", () => {
    const day = crossing({}, ["home", { place: "quay", stayMinutes: 45, ferry: FERRY }, "isle", "inn"]);
    expect(times(day, "truck.1.leave", "truck.2.arrive")).toEqual(["08:15", "09:15"]);
  });

  it("crosses in the same time if it is slow and the roads are icy, and nobody is at the wheel", () => {
    const day = crossing({
      vehicles: { truck: { slower: 1.5 } },
      weather: [{ from: at("00:00"), to: at("23:00"), road: "ice" }],
    });
    const move = day.moves.find(({ id }) => id === "truck.2");
    expect([text(move?.leave ?? null), text(move?.arrive ?? null), move?.wheel]).toEqual(["10:00", "14:00", []]);
    const leg = move?.leg;
    if (leg === undefined) throw new Error("no crossing");
    expect(driveTime(leg, { slower: 1.5, weather: { factor: 1.3, bufferIndex: 0.5, state: "ice" } })).toEqual({
      median: 240,
      spread: 0,
    });
  });

  it("goes over midnight: sails at 22:00, lands at 06:00, at the inn at 06:30", () => {
    const ferry = { sail: at("22:00"), land: at("30:00"), bunk: false };
    const day = crossing({}, ["home", { place: "quay", ferry }, "isle", "inn"]);
    expect(times(day, "truck.1.leave", "truck.3.arrive", "truck.4.arrive")).toEqual(["21:00", "30:00", "30:30"]);
  });
});

describe("a ferry that is missed", () => {
  // A hit at 09:00 for 5 minutes at home: clear 10, strike 20, loading 30 as they check out, road 60: at the quay at 11:05.
  const late = () =>
    crossing({ hits: { dawn: { at: at("09:00"), forMinutes: 5, in: "home", firm: true, who: ["wren"] } } }, [
      { place: "home", do: ["dawn"] },
      ...STOPS.slice(1),
    ]);

  it("is an error by the minutes that are short", () => {
    // The sailing is a stop's own time, which comes before hits: the hit gives way, as for `leave` and `arriveBy`.
    const { findings } = late();
    expect(findings.map(({ code, shortMinutes }) => [code, shortMinutes])).toEqual([["hit-missed", 65]]);
  });

  it("after a ride by others that comes too late is itself what is missed", () => {
    // Wren is at home at 09:20; loading 30, as Ilse checks out, and 60 minutes on the road make 10:50, 50 short.
    const day = crossing({
      crew: { wren: { drives: ["truck"], slept: "far" }, ilse: {} },
      rides: { bus: { from: "far", to: "home", leave: at("08:00"), arrive: at("09:20"), who: ["wren"] } },
    });
    expect(day.findings.map(({ code, shortMinutes }) => [code, shortMinutes])).toEqual([["stop-time-missed", 50]]);
  });
});

describe("the people aboard", () => {
  const spans = (bunk: boolean, who: string) =>
    crossing({}, ["home", { place: "quay", ferry: { ...FERRY, bunk } }, "isle", "inn"])
      .people.find(({ id }) => id === who)
      ?.spans.filter(({ is }) => is === "ferry" || is === "driving" || is === "riding")
      .map(({ is, bunk: berth, from, to }) => [is, berth ?? false, text(from), text(to)]);

  it("the driver drives to the quay and from the isle, and is on a ferry between", () => {
    expect(spans(true, "wren")).toEqual([
      ["driving", false, "09:00", "10:00"],
      ["ferry", true, "10:00", "14:00"],
      ["driving", false, "14:00", "14:30"],
    ]);
  });

  it("who rides is on it as well, without a bunk where there is none", () => {
    expect(spans(false, "ilse")).toEqual([
      ["riding", false, "09:00", "10:00"],
      ["ferry", false, "10:00", "14:00"],
      ["riding", false, "14:00", "14:30"],
    ]);
  });
});

const FILE = (bunk: boolean) => `daywright: 1
date: 2027-01-20
clock: Europe/Paris
zone: Europe/Paris
crew: { wren: { role: camera, drives: truck, slept: home, sleeps: inn } }
history: { wren: { released: 2027-01-19T12:00+01:00 } }
vehicles: { truck: { gross: 7 t, rules: eu } }
places: { home: {}, quay: {}, isle: {}, inn: {} }
roads: [{ link: [home, quay], drive: 4 h, bad: 4 h }, { link: [isle, inn], drive: 2 h, bad: 2 h }]
runs: { truck: [home, { place: quay, ferry: { sail: "12:00", land: "22:00", bunk: ${bunk} } }, isle, inn] }
`;

describe("hours of work", () => {
  const hours = async (bunk: boolean) => {
    const { out } = await ran(["hours", "x.yaml", "--json"], { files: { "x.yaml": FILE(bunk) } });
    const answer: {
      data: {
        people: { limits: { id: string; usedMinutes: number | null }[]; breaches: { limit: string }[] }[];
      } | null;
    } = JSON.parse(out);
    expect(answer.data, out).not.toBeNull();
    return answer.data?.people[0];
  };

  it("no road is asked for, and the day is read from a plan", async () => {
    const day = await dayOfFile("x.yaml", FILE(true));
    expect(day.people[0]?.spans.find(({ is }) => is === "ferry")).toMatchObject({ bunk: true, vehicle: "truck" });
  });

  it("561/2006 Art 9(1): 10 h on a ferry with a bunk are the daily rest; without one the day goes on", async () => {
    // Call 08:00 − 30 − 15 = 07:15; release 00:00 + 10 + 10 = 00:20. A reduced rest of 9 h leaves 15 h: 17 h 05 is in breach.
    const used = async (bunk: boolean) => {
      const one = await hours(bunk);
      const limit = one?.limits.find(({ id }) => id === "eu.daily-rest");
      return [limit?.usedMinutes, one?.breaches.some((breach) => breach.limit === "eu.daily-rest")];
    };
    // From the landing at 22:00 to 00:20.
    expect(await used(true)).toEqual([140, false]);
    expect(await used(false)).toEqual([17 * 60 + 5, true]);
  });

  it("without a bunk the crossing is duty, as riding is; with one it is none", async () => {
    const duty = async (bunk: boolean) => {
      const { out } = await ran(["hours", "x.yaml", "--json"], { files: { "x.yaml": FILE(bunk) } });
      return JSON.parse(out).data.people[0].dutyMinutes;
    };
    // 07:15 to 00:20 is 17 h 5; less 10 h aboard.
    expect([await duty(false), await duty(true)]).toEqual([17 * 60 + 5, 7 * 60 + 5]);
  });

  it("561/2006: the crossing is no driving: 4 h + 2 h in all", async () => {
    const used = (await hours(false))?.limits.find(({ id }) => id === "eu.driving")?.usedMinutes;
    expect(used).toBe(6 * 60);
  });
});

describe("the chance behind a ferry", () => {
  /** 30 minutes to the quay, 50 in 19 of 20 drives: planned at 50, since a firm hit follows. */
  const plan = (stop = "") => `daywright: 1
date: 2027-01-20
clock: Europe/Paris
zone: Europe/Paris
crew: { wren: { role: camera, drives: truck, slept: home, sleeps: isle } }
history: { wren: { released: 2027-01-19T12:00+01:00 } }
vehicles: { truck: {} }
places: { home: { at: [43.3, 5.4] }, quay: { at: [43.33, 5.36] }, isle: { at: [41.9, 8.7] } }
roads: [{ link: [home, quay], drive: 30 min, bad: 50 min }]
hits: { x: { at: "20:00", for: 3 min, place: isle, firm: true } }
runs: { truck: [home, { place: quay, ${stop}ferry: { sail: "12:00", land: "16:00" } }, { place: isle, do: [x] }] }
`;
  const chance = async (stop = "") => {
    const { out } = await ran(["drives", "x.yaml", "--json"], { files: { "x.yaml": plan(stop) } });
    const hit = JSON.parse(out).data.hits[0];
    return [hit.chance, hit.chanceIndependent, hit.chanceSameLuck];
  };

  it("is that of being at the quay when it sails: 95 %, though four hours wait on the other side", async () => {
    // 11:10 + 50 min = 12:00. The normal distribution at 1.645 is 0.9500; cells of 15 s take at most 0.002 from it.
    for (const share of await chance()) expect(Math.abs(share - 0.95)).toBeLessThan(0.002);
  });

  it("half an hour in hand is what the vehicle may be late: 80 min for 30, 99.9 %", async () => {
    // ln(80/30) ÷ (ln(50/30) ÷ 1.645) = 0.9808 ÷ 0.3105 = 3.159; the normal distribution there is 0.9992.
    for (const share of await chance("stay: 30 min, ")) expect(Math.abs(share - 0.9992)).toBeLessThan(0.0005);
  });

  it("who has to check in by 11:30 is too late after it, although the ferry sails at 12:00", async () => {
    for (const share of await chance('arriveBy: "11:30", ')) expect(Math.abs(share - 0.95)).toBeLessThan(0.002);
  });

  it("a ferry that sailed 40 min late by the log is missed 40 min later", async () => {
    const late = `${plan()}actual: { truck.2: { left: "12:40" } }\n`;
    const { out } = await ran(["drives", "x.yaml", "--json"], { files: { "x.yaml": late } });
    // Off at 11:10 as planned: 90 min for 30, ln(90/30) ÷ 0.3105 = 3.538; the normal distribution there is 0.9998.
    expect(Math.abs(JSON.parse(out).data.hits[0].chance - 0.9998)).toBeLessThan(0.0005);
  });

  it("the page says that no later ferry is counted, and has no line of the kind without one", async () => {
    const page = async (text: string) => (await ran(["drives", "x.yaml"], { files: { "x.yaml": text } })).out;
    expect(await page(plan())).toContain("a later ferry is not counted");
    expect(await page(plan().replace(/\{ place: quay,.*?\} \}/, "quay"))).not.toContain("ferry");
  });

  it("the ferry itself leaves for a wanted chance when it sails, or not at all", async () => {
    const wanted = async (share: string) => {
      const args = ["drives", "x.yaml", "--chance", share, "--json"];
      const { data } = JSON.parse((await ran(args, { files: { "x.yaml": plan() } })).out);
      return data.legs.map((leg: { leaveByChance: string | null }) => leg.leaveByChance?.slice(11, 16) ?? null);
    };
    // For 99 %: 2.326 × 0.3105 = 0.7224, 30 min × e^0.7224 = 61.8 min before 12:00.
    expect(await wanted("99%")).toEqual(["10:58", "12:00"]);
  });
});

describe("a crossing on paper", () => {
  const page = async (...words: readonly string[]) =>
    (await ran([words[0] ?? "", "x.yaml", ...words.slice(1)], { files: { "x.yaml": FILE(true) } })).out;

  it("is a ferry on the sheet, in the calendar, in calls and in chat, and nobody drives it", async () => {
    expect(await page("sheet", "--format", "text")).toContain("on a ferry");
    expect(await page("sheet", "--format", "chat")).toContain("to isle, by ferry");
    const calendar = (await page("sheet", "--format", "ics")).replaceAll("\r\n ", "");
    expect(calendar).toContain("SUMMARY:Ferry: truck\\, quay to isle");
    expect(calendar).toContain("By ferry: no one drives\\nAboard: wren");
    const { data } = JSON.parse(await page("calls", "--json"));
    expect(data.moves.map((move: { ferry: boolean }) => move.ferry)).toEqual([false, true, false]);
    // Who drives before and behind it is carried as well.
    expect(await page("calls")).toMatch(/truck +12:00 .* by ferry +wren/);
    expect(await page("sheet", "--format", "text")).toMatch(/truck +12:00 .* by ferry +wren/);
  });

  it("one that a run ends with has no effect, and a note says so", async () => {
    const file = FILE(true).replace("isle, inn] }\n", '{ place: isle, ferry: { sail: "23:00", land: "23:30" } }] }\n');
    const files = { "x.yaml": file.replace("sleeps: inn", "sleeps: isle") };
    expect((await ran(["check", "x.yaml"], { files })).out).toContain(
      "truck does not leave isle: `ferry` there has no effect",
    );
  });
});

it("how long one can go on from a ferry counts from its landing: 4 h 30 at the wheel from 16:00 (561/2006 Art 7)", async () => {
  const file = FILE(true).replace('land: "22:00"', 'land: "16:00"');
  const { out } = await ran(["endurance", "x.yaml", "--now", "13:00", "--json"], { files: { "x.yaml": file } });
  const { data } = JSON.parse(out);
  const [truck] = data.vehicles;
  expect(truck.breakBy.slice(11, 16)).toBe("20:30");
  expect(data.people[0].mayDriveUntil.slice(11, 16)).toBe("20:30");
  // The inn is 2 h from the isle: within what is left at the wheel, there and back.
  expect(data.reach.find(({ place }: { place: string }) => place === "inn")).toMatchObject({ there: true });
});
