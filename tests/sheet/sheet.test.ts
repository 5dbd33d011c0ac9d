import { describe, expect, it } from "vitest";
import type { Block } from "../../src/reports/shared/view.ts";
import { weatherText } from "../../src/reports/sheet/head.ts";
import { sheetOf, sheetReport } from "../../src/reports/sheet/index.ts";
import type { SheetRequest } from "../../src/reports/sheet/input.ts";
import type { SectionId } from "../../src/reports/sheet/view.ts";
import { after } from "../../src/time/units.ts";
import { demoDay } from "./demoDay.ts";
import { demoInput } from "./demoInput.ts";

const blockText = (block: Block): string => {
  if (block.kind === "table") return block.rows.map((row) => row.map((cell) => cell.text).join(" | ")).join("\n");
  if (block.kind === "list") return block.items.map((item) => item.text).join("\n");
  if (block.kind === "line") return block.cells.map((cell) => cell.text).join("");
  return block.kind === "heading" ? block.text : "";
};

function section(id: SectionId, changes: Partial<SheetRequest> = {}): string | null {
  const found = sheetOf(demoInput(changes)).sections.find((one) => one.id === id);
  return found ? found.blocks.map(blockText).join("\n") : null;
}

const allText = (changes: Partial<SheetRequest>): string =>
  JSON.stringify({ ...sheetOf(demoInput(changes)), say: null, findings: null });

describe("a sheet", () => {
  // What one glance must answer first, an error before all; common practice, no source.
  it("keeps its order, with an error at the head", () => {
    const ids = sheetOf(demoInput()).sections.map((one) => one.id);
    expect(ids).toEqual([
      ...["open", "calls", "timeline", "hits", "phones", "moves", "meals", "places", "lines", "decide", "wake"],
      ...["cautions", "batteries", "gear", "reach", "accepted"],
    ]);
  });

  it("begins with the title, four figures, hospitals, both clocks and the weather", () => {
    const { title, head, figures, contacts } = sheetOf(demoInput());
    expect(title).toBe("The ore freighter in the ice · Wednesday 20 January 2027 · revision 2");
    // Wind chill of the National Weather Service (2001) at 6.8 °F and 18.6 mph: 35.74 + 0.6215 × 6.8 − 35.75 × 18.6^0.16
    // + 0.4275 × 6.8 × 18.6^0.16 = 35.74 + 4.23 − 57.07 + 4.64 = −12.46 °F, −24.7 °C.
    expect(figures.map(({ label, main, side, what }) => [label, main, side, what])).toEqual([
      ["First call", "04:00", "Chicago (05:00 New York)", null],
      ["First hit", "06:00", "Chicago (07:00 New York)", "dawn.1"],
      ["Daylight", "07:43–16:56", "light 07:10 to 17:29", "Pier"],
      ["Feels like", "−25 °C", "−12 °F, air −14 °C, wind 30 km/h", null],
    ]);
    expect(contacts.map((cells) => cells.map((cell) => cell.text).join(""))[0]).toBe(
      "Hospital, Pier: County hospital, Sixth Street, 35 min",
    );
    expect(head.map((cells) => cells.map((cell) => cell.text).join(""))).toEqual([
      "Times are Chicago unless marked; desk New York, 1 h ahead; Detroit, 1 h ahead.",
      "Weather: to 10:00: −14 °C (7 °F), wind 30 km/h (19 mph), thin cloud, snow on the roads.",
    ]);
  });

  it("says who is called when, where, with whom, when to be up, and the release on the bed's clock", () => {
    expect(section("calls")?.split("\n")).toEqual([
      "Tomas (engineer) | 04:00 | 05:00 | Lodge | Truck, at the wheel, with Bea | 03:15 | 20:30 Detroit",
      "Bea (producer) | 04:00 | 05:00 | Lodge | Truck, with Tomas | 03:15 | 20:30 Detroit",
      "Wren (camera) | 04:15 | 05:15 | Lodge | Wagon, at the wheel, with Ilse | 03:30 | 20:10 Detroit",
      "Ilse (reporter) | 04:15 | 05:15 | Lodge | Wagon, with Wren | 03:00 | 20:10 Detroit",
    ]);
  });

  it("names the day after and the night before", () => {
    const [evening = ""] = section("batteries")?.split("During the day") ?? [];
    expect(evening).toContain("Tuesday evening\n22:14–22:20 Lodge · Wren\n");
    expect(evening).toContain("23:26–23:30 Lodge · Wren\nbrick.3: bench slot 3 → wagon\nbrick.2: wagon → bench");
  });

  it("parts the batteries of the night from those of the day", () => {
    const [tonight = "", day = ""] = section("batteries")?.split("During the day") ?? [];
    expect(tonight).not.toContain("04:15");
    // More than four moves at once are a table.
    expect(day).toContain("04:05–04:15 Lodge · Wren\nbrick.1 | bench | wagon\nbrick.2 | bench | wagon");
  });

  it("tells hits with place, path, spare and show, and a missed one by name", () => {
    expect(section("hits")).toContain("noon | 11:00 | 12:00 | 5 min | 10:50 | Ore dock | all | dish | cell | midday");
    const activities = demoDay.activities.map((one) =>
      one.id === "noon" ? { ...one, state: "missed" as const, start: null, end: null, inPosition: null } : one,
    );
    expect(section("hits", { day: { ...demoDay, activities } })).toContain("noon: cannot be met | 11:00");
  });

  it("tells moves with leave-by, drivers and an estimate as one", () => {
    expect(section("moves")).toContain("Truck | 04:15 | 05:15 | 04:25 | Lodge | Pier | 05:05 | 50 min | Tomas | Bea");
    expect(section("moves")).toContain("20:00 Detroit | 1 h 27 min (estimate) | Wren | Ilse (asleep)");
  });

  it("says who sleeps and is woken, when nobody can be reached, and until when to decide", () => {
    expect(section("wake")).toBe("20:00 Detroit Ilse, asleep in Wagon, at Harbour inn");
    expect(section("reach")).toContain("14:40 to 17:33: Tomas, Bea, Ore dock to Point lookout, at Point lookout");
    expect(section("decide")).toBe("10:15 latest for noon: go, or do it at Pier by cell");
  });

  it("ends with cautions and whose word counts, what is taken knowingly, what is open, what nobody judged", () => {
    expect(section("cautions")).toContain("A planning aid; local law, the contract and licensed people decide.");
    expect(section("accepted")).toContain("accepted by the lead: he slept in the truck all afternoon");
    expect(section("open")?.split("\n")[0]).toBe("Bea has 9 h 40 min of rest; the house asks for 10 h");
    expect(section("open")).not.toContain("Tomas");
    expect(section("open")).toContain("Not judged yet: repairs");
  });

  it("leaves out what no topic has judged, and names the topic", () => {
    const facts = {
      sun: null,
      sunAltitude: null,
      batteries: null,
      gear: null,
      cautions: null,
      notJudged: ["light", "power", "kit", "cautions"],
    };
    for (const id of ["batteries", "gear", "cautions"] as const) expect(section(id, { facts })).toBeNull();
    expect(section("open", { facts })).toContain("Not judged yet: light, power, kit, cautions");
  });

  it("stands for a plan with nothing in it", () => {
    const day = { ...demoDay, people: [], stops: [], moves: [], activities: [] };
    const empty = sheetOf(demoInput({ day, findings: [] }));
    expect(empty.events).toEqual([]);
    expect(sheetReport(empty).blocks.length).toBeGreaterThan(0);
  });
});

describe("one person's sheet", () => {
  it("has their call, their lines, what concerns everyone, and nobody else's trouble", () => {
    expect(section("calls", { person: "ilse" })).toBe(
      "Ilse (reporter) | 04:15 | 05:15 | Lodge | Wagon, with Wren | 03:00 | 20:10 Detroit",
    );
    expect(section("lines", { person: "ilse" })).toContain("ear");
    expect(section("lines", { person: "ilse" })).not.toContain("producer");
    expect(section("moves", { person: "ilse" })).not.toContain("Truck");
    expect(section("open", { person: "ilse" })).not.toContain("Bea has");
    expect(sheetOf(demoInput({ person: "ilse" })).title).toBe(
      "The ore freighter in the ice · Wednesday 20 January 2027 · revision 2 · Ilse",
    );
  });
});

describe("a redacted sheet", () => {
  it("has no number, address, booking or position left in any form of it", () => {
    const plan = {
      ...demoDay.plan,
      places: new Map(
        [...demoDay.plan.places].map(([id, place]) => [
          id,
          { ...place, note: "ring 715-555-0177 or desk@ice.example" },
        ]),
      ),
    };
    const text = allText({ redact: true, day: { ...demoDay, plan } });
    for (const secret of ["Telephones", "555", "Birch", "Street", "7741", "46.81", "geo:", "tel:", "desk@ice"])
      expect(text).not.toContain(secret);
    expect(text).toContain("Addresses, positions and numbers are left out.");
    const open = allText({ day: { ...demoDay, plan } });
    for (const shown of ["+1 715 555 0142", "+1 715 555 0111", "14 Birch Road", "ref 7741", "geo:46.81,-90.82"])
      expect(open).toContain(shown);
  });
});

describe("weather in words", () => {
  // -14 °C is 6.8 °F and 30 km/h is 18.64 mph: the units' definitions (SI Brochure; NIST SP 811, appendix B.8).
  it("gives both systems, whole", () => {
    const [row] = demoDay.plan.weather;
    expect(row && weatherText({ ...row, gustKmh: 80.4672 })).toContain(
      "−14 °C (7 °F), wind 30 km/h (19 mph), gusts 80 km/h (50 mph)",
    );
  });
});

describe("the sheet's JSON", () => {
  it("has every key, the same sections, and local offsets", () => {
    const { data } = sheetOf(demoInput());
    expect(Object.keys(data ?? {})).toEqual([
      ...[
        "revision",
        "person",
        "redacted",
        "firstCall",
        "firstHit",
        "lastRelease",
        "sections",
        "events",
        "changes",
        "notJudged",
      ],
    ]);
    const text = JSON.stringify(data);
    expect(text).toContain('"call":"2027-01-20T04:15-06:00"');
    expect(text).toContain('"release":"2027-01-20T20:10-05:00"');
    expect(text).toContain('"changes":null');
  });

  it("moves with the day", () => {
    const later = demoDay.people.map((one) => ({
      ...one,
      duties: one.duties.map((duty) => ({ ...duty, call: after(duty.call, 5) })),
    }));
    expect(JSON.stringify(sheetOf(demoInput({ day: { ...demoDay, people: later } })).data)).toContain(
      "2027-01-20T04:20-06:00",
    );
  });
});

describe("a sheet for no person", () => {
  const ids = (changes: Partial<SheetRequest>) => sheetOf(demoInput(changes)).sections.map(({ id }) => id);

  it("of a vehicle has its moves and whoever rides", () => {
    const focus = { kind: "vehicle", id: "wagon" } as const;
    expect(
      section("calls", { focus })
        ?.split("\n")
        .map((line) => line.split(" ")[0]),
    ).toEqual(["Wren", "Ilse"]);
    expect(section("moves", { focus })).not.toContain("Truck");
  });

  it("of a hit has that hit alone", () => {
    const focus = { kind: "hit", id: "noon" } as const;
    expect(section("hits", { focus })?.split("\n")[0]).toMatch(/^noon /u);
    expect(section("hits", { focus })).not.toContain("dawn");
    expect(sheetOf(demoInput({ focus })).figures[1]?.main).toBe("11:00");
  });

  it("of a place has arrivals and departures with vehicles and names, and nothing else", () => {
    const focus = { kind: "place", id: "pier" } as const;
    expect(ids({ focus })).toEqual(["moves"]);
    const moves = section("moves", { focus })?.split("\n") ?? [];
    expect(moves.every((line) => line.includes("Pier"))).toBe(true);
    const sheet = sheetOf(demoInput({ focus }));
    expect([sheet.figures, sheet.people, sheet.head]).toEqual([[], [], []]);
    expect(sheet.data).toMatchObject({ firstCall: null, firstHit: null, lastRelease: null, changes: null });
    expect(sheet.brief.map(({ lead }) => lead)).toEqual(["On the road (Chicago): "]);
    expect(new Set(sheet.events.map(({ kind }) => kind))).toEqual(new Set(["move"]));
  });
});
