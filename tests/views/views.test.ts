/**
 * `now`, `asrun`, `bookings`, `handover` on the demo: what comes next is what comes next at every minute of the second day,
 * and each line traced by hand to the plan. `drives` and `calls` are held by tests of their own.
 */
import { readdirSync, readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import type { Day } from "../../src/day/day.ts";
import { judge, makeReport } from "../../src/index.ts";
import { todoOf } from "../../src/power/todo.ts";
import { instant } from "../../src/time/index.ts";
import { ran } from "../cli/fakeIo.ts";
import { daysOfFile } from "../day/read.ts";

const DAYS = new URL("../../fixtures/days/", import.meta.url);
const files = Object.fromEntries(readdirSync(DAYS).map((name) => [name, readFileSync(new URL(name, DAYS), "utf8")]));

const json = async (...words: readonly string[]) => JSON.parse((await ran([...words, "--json"], { files })).out).data;

const minuteOf = (iso: string | null): number | null => (iso === null ? null : Date.parse(iso) / 60_000);

interface Minute {
  readonly what: string;
  readonly waits: boolean;
  /** The first of its span. */
  readonly first: boolean;
}

/** What somebody does at each minute of the day; undefined outside of their spans. */
function minutesOf(day: Day, who: string): readonly (Minute | undefined)[] {
  const spans = day.people.find(({ id }) => id === who)?.spans ?? [];
  const all: (Minute | undefined)[] = Array.from({ length: day.span.to - day.span.from + 1 }, () => undefined);
  for (const { from, to, is, activity, doing } of spans)
    for (let at = Math.max(from, day.span.from); at < Math.min(to, day.span.to + 1); at++)
      all[at - day.span.from] = {
        what: is === "off" ? "off" : (activity ?? doing),
        waits: doing === "wait",
        first: at === from,
      };
  return all;
}

describe("now", () => {
  let judged: Awaited<ReturnType<typeof judge>>;
  let day: Day;
  beforeAll(async () => {
    judged = await judge({ days: await daysOfFile("fixtures/days/2027-01-20.yaml") });
    day = judged.day;
  });

  it("says at every minute the next departure of each vehicle and the next hit, and nothing that is late", async () => {
    const drives = (await makeReport("drives", judged, {})).data as unknown as {
      legs: { id: string; leaveBy: string | null }[];
    };
    const leaveBys = new Map(drives.legs.map(({ id, leaveBy }) => [id, leaveBy]));
    const power = judged.results.power;
    if (power === undefined) throw new Error("no packs were judged");
    const chores = todoOf(power.built, power.solution);
    const busy = new Map(day.people.map((person) => [person.id, minutesOf(day, person.id)]));
    for (let at = day.span.from; at <= day.span.to; at = instant(at + 1)) {
      const { data } = await makeReport("now", judged, { now: at });
      const said = data as unknown as {
        vehicles: { id: string; next: string | null; nextAt: string | null; leaveBy: string | null }[];
        people: { id: string; doing: string; next: string | null; nextAt: string | null; leaveBy: string | null }[];
        nextHit: { id: string } | null;
        nextChore: { at: string; who: string[] } | null;
        late: unknown[];
      };
      expect(said.late).toEqual([]);
      const hits = day.activities.filter((one) => one.activity.kind === "hit" && (one.start ?? 0) > at);
      expect(said.nextHit?.id ?? null).toBe(hits[0]?.id ?? null);
      for (const row of said.vehicles) {
        const rolling = day.moves.find((move) => move.vehicle === row.id && move.leave <= at && at < move.arrive);
        const next = day.moves.find((move) => move.vehicle === row.id && move.leave > at);
        const expected = rolling?.arrive ?? next?.leave ?? null;
        expect(row.nextAt === null ? null : Date.parse(row.nextAt) / 60_000).toBe(expected);
        expect(minuteOf(row.leaveBy)).toBe(next?.leaveBy ?? null);
        // What `drives` prints of that leg.
        expect(row.leaveBy).toBe(next === undefined ? null : leaveBys.get(next.id));
      }
      for (const row of said.people) {
        // Counted from the minutes of the day alone: what they do now, and the first other thing that is no wait.
        const minutes = busy.get(row.id) ?? [];
        const at0 = at - day.span.from;
        const then = minutes.findIndex((one, index) => index > at0 && one?.first === true && !one.waits);
        const called = day.people.find(({ id }) => id === row.id)?.call ?? null;
        const isOff = (minutes[at0]?.what ?? "off") === "off";
        if (isOff && called !== null && at < called) expect([row.next, minuteOf(row.nextAt)]).toEqual(["call", called]);
        else {
          expect([row.next, minuteOf(row.nextAt)]).toEqual(
            then < 0 ? [null, null] : [minutes[then]?.what, day.span.from + then],
          );
          expect(row.doing).toBe(minutes[at0]?.what ?? "released");
        }
        const own = day.moves.find((move) => move.leave > at && [move.driver, ...move.riders].includes(row.id));
        expect(row.leaveBy).toBe(own === undefined ? null : leaveBys.get(own.id));
      }
      const chore = chores.find(({ from }) => from > at);
      expect([minuteOf(said.nextChore?.at ?? null), said.nextChore?.who]).toEqual([chore?.from ?? null, chore?.who]);
    }
  });

  it("off a terminal and with --plain appends its lines at each save; at a terminal it draws again", async () => {
    const base = ["now", "2027-01-20.yaml", "--now", "10:18 CT", "--watch"];
    const later = (files["2027-01-20.yaml"] ?? "").replace('"12:30 CT"', '"12:40 CT"');
    const save = { files, saves: [{ "2027-01-20.yaml": later }] };
    const piped = await ran(base, save);
    expect(piped.out.match(/^10:18 CT \(11:18 ET\)$/gmu)).toHaveLength(2);
    expect(piped.out).toMatch(/noon 12:30 [\s\S]*noon 12:40 /u);
    expect(piped.out).not.toContain("\u001b");
    const drawn = await ran(base, { ...save, columns: 120 });
    expect(drawn.out.split("\u001b[2J\u001b[H")).toHaveLength(3);
    const plain = await ran([...base, "--plain"], { ...save, columns: 120 });
    expect(plain.out).not.toContain("\u001b[2J");
    expect(
      plain.out.match(/^\S*10:18 CT/gmu)?.length ?? plain.out.split("10:18 CT (11:18 ET)").length - 1,
    ).toBeGreaterThanOrEqual(2);
  });

  it("of an edit says whom to tell: now where the moment is past, else by when", async () => {
    const words = ["now", "2027-01-20.yaml", "--now", "06:00 CT", "--set", "hits.noon.at=13:10 CT"];
    const { out } = await ran(words, { files });
    // Noon moves from 12:30, its line check from 12:10: ilse, bea and tomas by then; wren has packs in hand before.
    expect(out).toMatch(
      /^Tell: Wren Aalto (?:now|by \d\d:\d\d), Ilse Brandt by 12:10, Bea Okafor by 12:10, Tomas Lind by 12:10$/mu,
    );
  });

  it("in the middle of the morning, by hand", async () => {
    // pictures 09:55–10:30 at the cove; the truck left the pier at 09:38 (48 min × 1.1 is 53, 52.8 rounded up) … 10:26.
    const data = await json("now", "2027-01-20.yaml", "--now", "10:18 CT");
    // People by call: the engineer at 04:30, then wren at 04:40.
    expect(data.people[1]).toMatchObject({ id: "wren", doing: "pictures", place: "cove", next: "drive" });
    expect(data.people[1].nextAt).toBe("2027-01-20T10:30-06:00");
    expect(data.nextHit).toMatchObject({ id: "noon", place: "dockeast", path: "dish" });
    expect(data.nextHit.start).toBe("2027-01-20T12:30-06:00");
  });

  it("reads the clock where no moment is given, and ends with a word to the driver", async () => {
    const { out, code } = await ran(["now", "2027-01-20.yaml"], { files });
    expect(code).toBe(0);
    expect(out.trimEnd().split("\n").at(-1)).toBe("For whoever rides: the driver does not read this.");
    const chat = await ran(["now", "2027-01-20.yaml", "--now", "10:18 CT", "--format", "chat"], { files });
    expect(chat.out.split("\n")[0]).toBe("10:18 CT (11:18 ET)");
  });

  it("leaves line numbers out where it is redacted", async () => {
    for (const form of ["text", "json", "chat", "markdown", "csv"]) {
      const { out } = await ran(["now", "2027-01-20.yaml", "--now", "10:18 CT", "--redact", "-f", form], { files });
      expect(out).not.toContain("555");
    }
  });
});

describe("asrun", () => {
  it("tells what was logged, and of the rest that it was not", async () => {
    const one = await json("asrun", "2027-01-19.yaml");
    expect(one.hits[0]).toMatchObject({ id: "midday", lateMinutes: 0, lengthMinutes: 4, path: "dish", logged: true });
    expect(one.hits[0].note).toBe("sound came up on the second line");
    // called 09:40, released 15:50, 40 min of lunch: 5 h 30.
    // By call: tomas 09:20, bea 09:35, wren and ilse 09:40.
    expect(one.people[2]).toMatchObject({ id: "wren", dutyMinutes: 330, meals: 1 });
    const none = await json("asrun", "2027-01-20.yaml");
    expect(none.hits.every((hit: { logged: boolean; start: unknown }) => !hit.logged && hit.start === null)).toBe(true);
    expect(none.people[0]).toMatchObject({ call: null, release: null, dutyMinutes: null });
  });

  it("puts first what deviates, over a week in one go", async () => {
    const late = (files["2027-01-20.yaml"] ?? "").replace(
      "\nweather:",
      '\nactual: { dawn.2: { at: "08:34", end: "08:38" }, dawn.1: { at: "08:00" } }\n\nweather:',
    );
    const { out } = await ran(["asrun", "2027-01-20.yaml", "--week", "--json"], {
      files: { ...files, "2027-01-20.yaml": late },
    });
    const hits = JSON.parse(out).data.hits as { id: string; lateMinutes: number | null; date: string }[];
    expect(hits[0]).toMatchObject({ id: "dawn.2", lateMinutes: 4, lengthMinutes: 4 });
    expect(new Set(hits.map(({ date }) => date))).toEqual(new Set(["2027-01-19", "2027-01-20"]));
  });
});

describe("asrun of packs", () => {
  it("says by how much each fell short, as `power` does, the worst first", async () => {
    const text = (files["2027-01-19.yaml"] ?? "").replace(
      "\nactual:",
      '\nactual:\n  brick.2: { charge: 80%, at: "12:30" }\n  brick.1: { charge: 55%, at: "12:30", note: was cold }',
    );
    const own = { ...files, "2027-01-19.yaml": text };
    const { packs } = JSON.parse((await ran(["asrun", "2027-01-19.yaml", "--json"], { files: own })).out).data;
    const { out } = await ran(["power", "2027-01-19.yaml"], { files: own });
    for (const { id, percent, shortPercent } of packs) {
      const against =
        shortPercent === 0
          ? "as computed"
          : `${Math.abs(shortPercent)} % ${shortPercent > 0 ? "less" : "more"} than computed`;
      expect(out).toContain(`${id} was found at ${percent} %, ${against}.`);
    }
    expect(packs[0]).toMatchObject({ id: "brick.1", percent: 55, note: "was cold" });
    expect(packs[0].shortPercent).toBeGreaterThan(packs[1].shortPercent);
  });
});

describe("bookings", () => {
  it("need the dish from line-up to clear, the slip included", async () => {
    const { paths, nights, permits } = await json("bookings", "2027-01-20.yaml");
    // noon 13:30 ET: in position 13:20, line check from 13:10, line-up from 13:00; ends 13:35, slip 5... clear 10 → 13:40.
    expect(paths[1]).toMatchObject({ path: "dish", uses: ["noon"], booked: true });
    expect(paths[1].from).toBe("2027-01-20T12:00-06:00");
    // evening 17:00 ET: 4 min, clear 10, slip 10: 17:24 ET.
    expect(paths[2].to).toBe("2027-01-20T16:24-06:00");
    expect(nights).toEqual([
      { place: "inn", who: ["wren", "ilse", "bea", "tomas"], night: "2027-01-20", booked: true, booking: "C-118" },
    ]);
    expect(permits[0]).toMatchObject({ permit: "dock", place: "dockeast", covered: true });
  });

  it("find a bed that is missing, a room and a window that nobody uses, a permit that ends too soon", async () => {
    const found = async (edit: (text: string) => string, shared: (text: string) => string = (text) => text) => {
      const own = {
        ...files,
        "d.yaml": edit(files["2027-01-20.yaml"] ?? ""),
        "assignment.yaml": shared(files["assignment.yaml"] ?? ""),
      };
      const { out } = await ran(["check", "d.yaml", "--json"], { files: own });
      return (JSON.parse(out).findings as { code: string }[]).map(({ code }) => code);
    };
    const same = (text: string): string => text;
    expect(await found(same)).not.toContain("booking-missing");
    expect(
      await found(same, (text) =>
        text.replace("[wren, ilse, bea, tomas], nights: [2027-01-20]", "[wren, ilse, bea], nights: [2027-01-20]"),
      ),
    ).toContain("booking-missing");
    expect(
      await found(same, (text) =>
        text.replace(
          "who: [tomas], nights: [2027-01-18, 2027-01-19,",
          "who: [tomas], nights: [2027-01-18, 2027-01-20,",
        ),
      ),
    ).toContain("booking-unused");
    expect(
      await found((text) => text.replace('["16:30", "17:30"]]', '["16:30", "17:30"], ["20:00", "20:30"]]')),
    ).toContain("booking-unused");
    // The last of them leaves the dock at 16:34.
    expect(await found(same, (text) => text.replace("2027-01-20T20:00-06:00", "2027-01-20T16:34-06:00"))).not.toContain(
      "permit-missing",
    );
    expect(await found(same, (text) => text.replace("2027-01-20T20:00-06:00", "2027-01-20T16:33-06:00"))).toContain(
      "permit-missing",
    );
  });
});

describe("handover", () => {
  it("names where everything stands in the evening, and who is rested when", async () => {
    const data = await json("handover", "2027-01-20.yaml");
    expect(data.vehicles.map(({ id, place }: { id: string; place: string }) => [id, place])).toEqual([
      ["truck", "inn"],
      ["wagon", "inn"],
    ]);
    // Released 18:46 ET and ten hours of turnaround.
    expect(data.people[1]).toMatchObject({ id: "wren", nextCall: "2027-01-21T04:46-05:00" });
    expect(data.hits).toEqual([]);
    const noon = await json("handover", "2027-01-20.yaml", "--now", "11:00 CT");
    expect(noon.hits.map(({ id }: { id: string }) => id)).toEqual(["noon", "evening"]);
    // A cold kilometre takes 1 + 0.1765 × (25 − t) / 31.67 of range: 1.1895 at −9, 1.2173 at −14, 1.2006 at −11 °C.
    // Truck: 90 % of 480 km are 432, less 7 × 1.1895 on day one: 423.7; 41 km to the pier: 373.8, on arrival at 06:05. It
    // idles there at 16 km an hour until 09:33: 8:00 is 115 min, 30.7 km: 343.1; 208 min are 55.5: 318.3; 42.5 km to the
    // dock, which has mains: 266.6; 84 km to the inn: 165.7. Wagon (no inverter): 480 − 8.3 − 49.9 − 13.4 − 64.5 − 100.9.
    for (const [clock, truck, wagon] of [
      ["03:00 CT", 424, 472],
      ["06:05 CT", 374, 422],
      ["08:00 CT", 343, 422],
      ["12:00 CT", 267, 344],
      [null, 166, 243],
    ] as const) {
      const { vehicles } = await json("handover", "2027-01-20.yaml", ...(clock === null ? [] : ["--now", clock]));
      expect([clock, ...vehicles.map(({ rangeKm }: { rangeKm: number }) => rangeKm)]).toEqual([clock, truck, wagon]);
    }
    expect(noon.bookings.map(({ what, kind, booked }: Record<string, unknown>) => [what, kind, booked])).toEqual([
      ["dish", "window", true],
      ["dish", "window", true],
      ["inn", "room", true],
      ["dock", "permit", true],
      ["tripod", "return", true],
    ]);
    const { out } = await ran(["handover", "2027-01-20.yaml", "--redact"], { files });
    expect(out).not.toContain("glove box");
  });
});
