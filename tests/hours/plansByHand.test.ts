/** A day's hours at small changes of its plan: drivers in turn, vehicles, rules that are stated, releases, meals and sleep; by hand. */
import { describe, expect, it } from "vitest";
import { fitnessOf } from "../../src/hours/fitness/fitness.ts";
import { assess } from "../../src/hours/index.ts";
import { ledgerOf } from "../../src/hours/judge/ledger.ts";
import { personHours } from "../../src/hours/judge/person.ts";
import { mealsMissed } from "../../src/hours/pay/timecard.ts";
import { judgedText } from "../cases/judged.ts";
import { SMALLEST } from "../cli/plans.ts";
import { DAYS, judged, utc } from "./records.ts";
import { asked, plan, sinceWork } from "./vehicleDays.ts";

const released = (clock: string, more = ""): string =>
  `${SMALLEST}history:\n  wren: { released: 2027-01-19T${clock}-06:00 }\n  ilse: { released: 2027-01-19T12:00-06:00 }\n${more}`;

describe("two who take turns at the wheel", () => {
  it("each begin at the place that the vehicle left", async () => {
    const { day } = await judgedText(
      SMALLEST.replace("ilse: { role: reporter }", "ilse: { role: reporter, drives: wagon }")
        .replaceAll("drives: wagon }", "drives: wagon, slept: lodge, sleeps: lodge }")
        .replace("-90.88] }", "-90.88], kind: lodging }")
        .replace(
          "wagon: [lodge, pier, lodge]",
          "wagon: { driver: wren, stops: [lodge, { place: pier, do: [dawn], relieve: [{ after: 15 min, driver: ilse }] }, lodge] }",
        ),
    );
    const begins = (who: string) => {
      const person = day.people.find(({ id }) => id === who);
      return person === undefined ? [] : fitnessOf(day, person).wheel.map(({ place }) => place);
    };
    expect(begins("wren")).toEqual(["lodge", "pier"]);
    expect(begins("ilse")).toEqual(["pier"]);
  });
});

describe("the record of a drive", () => {
  const kind = async (wagon: string) => {
    const { day } = await judgedText(SMALLEST.replace("wagon: {}", `wagon: { ${wagon} }`));
    return [...new Set(ledgerOf([day], "wren").spans.flatMap((span) => (span.is === "driving" ? [span.in] : [])))];
  };

  it("is in a commercial vehicle if it names rules or is heavy enough for some", async () => {
    expect(await kind("gross: 2 t, rules: us-property")).toEqual(["commercial"]);
    expect(await kind("gross: 2 t")).toEqual(["light"]);
  });
});

describe("the line of a plan that a limit stands in", () => {
  // Called at 04:00: 9 h after 19:00.
  const where = async (text: string, code: string) => {
    const { found } = await judgedText(text);
    return found(code).map(({ chain }) => chain[0]?.where ?? null);
  };

  it("is that of the house rule, if the plan states it", async () => {
    expect(await where(released("19:00", "rules: { turnaround: 9 h 30 min }\n"), "rest-too-short")).toEqual([
      ["rules", "turnaround"],
    ]);
    expect(await where(released("19:00"), "rest-too-short")).toEqual([null]);
  });

  it("is the vehicle's rules for a limit of law", async () => {
    // On duty from 10:00 on: the 14 h end at midnight, before the drives (49 CFR 395.3(a)(2)).
    for (const rules of ["us-property", "[eu, us-property]"])
      expect(await where(plan(sinceWork("10:00"), `rules: ${rules}`), "window-over")).toEqual([
        ["vehicles", "wagon", "rules"],
      ]);
  });
});

describe("a release that cannot be", () => {
  // On duty from 04:00 to 07:18: 18 min more than 3 h.
  const codes = async (history: string) => {
    const text = SMALLEST.replace("wagon: {}", "wagon: { gross: 5 t, rules: us-property }");
    const { findings } = await judgedText(`${text}${history}rules: { dutyDay: 3 h }\n`);
    const own = findings.filter(({ who }) => who === "wren").map(({ code }) => code);
    return ["release-after-call", "rest-not-stated", "duty-too-long"].filter((code) => own.includes(code));
  };

  it("hides the rest that is then not known, and nothing else", async () => {
    expect(await codes("history:\n  wren: { released: 2027-01-20T19:00-06:00 }\n")).toEqual([
      ...["release-after-call", "duty-too-long"],
    ]);
    expect(await codes("")).toEqual(["rest-not-stated", "duty-too-long"]);
    expect(await codes("history:\n  wren: { released: 2027-01-19T17:00-06:00 }\n")).toEqual(["duty-too-long"]);
  });
});

describe("who slept too little to drive", () => {
  // Ilse slept at the pier and takes the wheel on the way back, which no hit holds.
  const told = async (asleep: string, more = "") => {
    const text = SMALLEST.replace(
      "ilse: { role: reporter }",
      "ilse: { role: reporter, drives: wagon, slept: pier }",
    ).replace(
      "wagon: [lodge, pier, lodge]",
      "wagon: { driver: wren, stops: [{ place: lodge, aboard: [wren] }, { place: pier, do: [dawn], aboard: [wren, ilse], relieve: [{ after: 15 min, driver: ilse }] }, lodge] }",
    );
    const { found } = await judgedText(
      `${text}history:\n  ilse: { released: 2027-01-19T17:00-06:00, asleep: ${asleep} }\n${more}`,
    );
    return found("short-sleep-at-wheel").map(({ who, facts: { mayBeLater, sleepMinutes } }) => [
      ...[who, sleepMinutes, mayBeLater],
    ]);
  };

  it("may be called later, unless the call is a fact", async () => {
    expect(await told("5 h")).toEqual([["ilse", 300, true]]);
    expect(await told("5 h", 'actual:\n  ilse: { call: "06:00" }\n')).toEqual([["ilse", 300, false]]);
  });

  it("is one with less than 7 h (Tefft, AAA Foundation, December 2016)", async () => {
    expect(await told("7 h")).toEqual([]);
    expect(await told("6 h 59 min")).toEqual([["ilse", 419, true]]);
  });
});

describe("when someone may drive again", () => {
  it("is told to those who drive today and to those who may on another day", async () => {
    const text = SMALLEST.replace(
      "  ilse: { role: reporter }",
      "  ilse: { role: reporter, drives: wagon }\n  bea: {}",
    ).replace("wagon: [lodge, pier, lodge]", "wagon: { driver: wren, stops: [lodge, pier, lodge] }");
    const { days } = await judgedText(text);
    const { people } = assess({ days, patience: 1, now: null }).result;
    const drives = (who: string) => (people.get(who)?.hours.earliestNextDrive ?? null) !== null;
    expect([drives("wren"), drives("ilse"), drives("bea")]).toEqual([true, true, false]);
  });
});

describe("meals that were missed", () => {
  const missed = (text: string) => {
    const person = personHours({
      ...{ id: "tomas", recordIn: () => ({ spans: [], before: [] }), bindings: [], calendars: () => DAYS },
      ...{ drives: true, released: false, foretells: false },
    });
    const all = { ...person, verdicts: [judged("house", "18 00:00", text)] };
    return mealsMissed(all, { since: utc("18 00:00"), rules: [] });
  };

  it("are those of the rule for meals, whatever else is too long", () => {
    // A meal every 6 h and 10 h a day at the wheel, 11 h driven in two parts.
    expect(missed("off 12, driving 5:30, meal 0:30, driving 5:30")).toBe(0);
    expect(missed("off 12, driving 5:30, duty 0:30, driving 5:30")).toBe(1);
  });

  it("are one when the 6 h are over, another 6 h later", () => {
    expect(missed("off 12, duty 6")).toBe(0);
    expect(missed("off 12, duty 6:01")).toBe(1);
    expect(missed("off 12, duty 12")).toBe(1);
    expect(missed("off 12, duty 12:01")).toBe(2);
  });
});

describe("over 2.5 t abroad, Reg 561/2006 Art 2(1)(aa), from 1 July 2026", () => {
  const questions = async (wagon: string, more: { readonly date?: string; readonly pier?: string } = {}) => {
    const { date = "2027-01-20", pier = "Europe/Brussels" } = more;
    const text = SMALLEST.replace("2027-01-20", date)
      .replace("clock: America/New_York\nzone: America/Chicago", "clock: Europe/Paris\nzone: Europe/Paris")
      .replace("wagon: {}", `wagon: { ${wagon} }`)
      .replace("[46.60, -90.88] }", "[50.63, 3.06], zone: Europe/Paris }")
      .replace("[46.81, -90.82] }", `[50.60, 3.39], zone: ${pier} }`);
    const { findings } = await judgedText(text);
    return findings.filter(({ facts }) => String(facts["question"]).startsWith("over 2.5 t abroad")).length;
  };

  it("is asked of a vehicle of more than 2.5 t with its trailer, up to 3.5 t, where the rules begin by themselves", async () => {
    expect(await questions("gross: 2500 kg")).toBe(0);
    expect(await questions("gross: 2501 kg")).toBe(1);
    expect(await questions("gross: 3500 kg")).toBe(1);
    expect(await questions("gross: 3501 kg")).toBe(0);
    expect(await questions("gross: 2 t, towing: 500 kg")).toBe(0);
    expect(await questions("gross: 2 t, towing: 501 kg")).toBe(1);
  });

  it("is not asked before that day, at home, or where the rules are named", async () => {
    expect(await questions("gross: 3 t", { date: "2026-06-30" })).toBe(0);
    expect(await questions("gross: 3 t", { date: "2026-07-01" })).toBe(1);
    expect(await questions("gross: 3 t", { pier: "Europe/Paris" })).toBe(0);
    expect(await questions("gross: 3 t, rules: eu")).toBe(0);
  });
});

describe("vehicles of one rule set that state different things", () => {
  const told = async (text: string, files: Readonly<Record<string, string>> = {}) =>
    (await asked(text, files)).found.map(({ message }) => message).join("\n");

  it("say which is claimed for two drivers, Reg 561/2006 Art 4(o)", async () => {
    const two = plan(sinceWork("12:00"), "rules: eu, drivers: 2", {
      others: "  van: { gross: 5 t, rules: eu }\n",
      runs: "  wagon: { driver: wren, stops: [lodge, pier] }\n  van: { driver: wren, stops: [{ place: pier, after: wagon.2 }, lodge] }\n",
    });
    expect(await told(two)).toContain("wagon is claimed for two drivers, van under the same rules is not");
  });

  it("ask for the hour of the carrier's days under rules that count in them, beside others that do not", async () => {
    const first = (hour: string) => plan(sinceWork("12:00"), `rules: [us-property, eu], dayStarts: "${hour}"`);
    const next = first("06:30")
      .replace("date: 2027-01-20", "date: 2027-01-21\nfollows: first.yaml")
      .replace(/history:[\s\S]*$/, "");
    expect(await told(next, { "first.yaml": first("05:45") })).toContain(
      "the days of wagon begin at 05:45, in this one at 06:30",
    );
  });
});
