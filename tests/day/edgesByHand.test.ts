/** Who drives, sleeps and attends where a plan leaves little room for doubt: one small plan for each, times by hand. */
import { describe, expect, it } from "vitest";
import type { Finding } from "../../src/findings/finding.ts";
import { judgedText } from "../cases/judged.ts";

const HEAD = `daywright: 1
date: 2027-01-20
clock: UTC
zone: UTC
`;
const PLACES = `vehicles: { wagon: {}, car: {} }
places: { lodge: { zone: UTC, kind: lodging }, pier: { zone: UTC }, hall: { zone: UTC } }
roads:
  - { link: [lodge, pier], drive: 30 min, bad: 30 min }
  - { link: [pier, hall], drive: 30 min, bad: 30 min }
  - { link: [lodge, hall], drive: 30 min, bad: 30 min }
`;
const judged = (rest: string) => judgedText(`${HEAD}${PLACES}${rest}`);
const facts = (found: readonly Finding[]) => found.map((one) => one.facts);

describe("whoever is logged at the wheel", () => {
  const plan = (stop: string, actual: string) => `crew:
  wren: { drives: [wagon], slept: lodge, sleeps: lodge }
  ilse: { drives: [wagon], slept: lodge, sleeps: lodge }
hits: { dawn: { at: "09:00", for: 5 min, place: pier } }
runs: { wagon: { driver: wren, aboard: [wren, ilse], stops: [{ place: lodge, ${stop} }, pier, lodge] } }
actual: ${actual}
`;
  const asleep = async (stop: string, actual: string) => {
    const { day } = await judged(plan(stop, actual));
    const move = day.moves.find(({ id }) => id === "wagon.1");
    return [move?.driver, move?.asleep];
  };

  it("was awake on that leg, even if the plan has them asleep", async () => {
    expect(await asleep("asleep: [ilse]", "{}")).toEqual(["wren", ["ilse"]]);
    expect(await asleep("asleep: [ilse]", "{ wagon.1: { driver: ilse } }")).toEqual(["ilse", []]);
    expect(await asleep("asleep: [ilse]", "{ wagon.1: { driver: wren } }")).toEqual(["wren", ["ilse"]]);
  });

  it("sleeps while another relieves them", async () => {
    const relieved = "asleep: [ilse], relieve: [{ after: 10 min, driver: wren }]";
    expect(await asleep(relieved, "{ wagon.1: { driver: ilse } }")).toEqual(["ilse", ["ilse"]]);
    const same = "asleep: [ilse], relieve: [{ after: 10 min, driver: ilse }]";
    expect(await asleep(same, "{ wagon.1: { driver: ilse } }")).toEqual(["ilse", []]);
  });
});

describe("who is twice where they work", () => {
  it("is asked which of the two stays is meant: from the bed, or come by a ride", async () => {
    const plan = `crew:
  wren: { drives: [wagon], slept: lodge, sleeps: lodge }
  odo: { slept: lodge, sleeps: lodge }
hits: { dawn: { at: "09:00", for: 5 min, place: pier } }
tasks: { pack: { place: lodge, who: [odo], for: 20 min } }
runs: { wagon: { driver: wren, aboard: [wren], stops: [hall, pier, hall] } }
rides:
  out: { from: lodge, to: hall, leave: "05:00", arrive: "05:30", who: [odo, wren] }
  home: { from: hall, to: lodge, leave: "18:00", arrive: "18:30", who: [odo, wren] }
`;
    const said = await judged(plan).then(
      ({ found }) => JSON.stringify(facts(found("visit-open"))),
      (error: Error) => error.message,
    );
    expect(said).toContain('"stops":["from the bed","home"]');
  });
});

describe("who has nothing to do", () => {
  const plan = (more: string, history: string, odo = "") => `crew:
  wren: { drives: [wagon], slept: lodge, sleeps: lodge }
  odo: { slept: lodge, sleeps: lodge${odo} }
${more}history: ${history}
`;
  const hit = `hits: { dawn: { at: "09:00", for: 5 min, place: pier } }
runs: { wagon: { driver: wren, aboard: [wren], stops: [lodge, pier, lodge] } }
`;
  const off = async (text: string) =>
    (await judged(text)).day.people.find(({ id }) => id === "odo")?.spans.map(({ from, to, is }) => [from, to, is]);

  it("is off from the last release known to the last of the day, and nothing is known without one", async () => {
    const { day } = await judged(plan(hit, "{}"));
    const last = day.people.find(({ id }) => id === "wren")?.release;
    const evening = Date.UTC(2027, 0, 19, 20) / 60_000;
    expect(await off(plan(hit, "{ odo: { released: 2027-01-19T20:00Z } }"))).toEqual([[evening, last, "off"]]);
    expect(await off(plan(hit, "{}"))).toEqual([]);
    // Nobody has a duty that could end the day.
    expect(await off(plan("", "{ odo: { released: 2027-01-19T20:00Z } }"))).toEqual([]);
  });
});
