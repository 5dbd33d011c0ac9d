/** Rules under which someone drove the day before bind the next drive, and are named once. By hand. */
import { expect, it } from "vitest";
import { bindingsOf } from "../../src/hours/judge/applicableRules.ts";
import { daysOf } from "../power/plans.ts";

const SHARED = `clock: America/Chicago
zone: America/Chicago
crew: { wren: { drives: [wagon, truck] } }
vehicles: { wagon: { rules: [us-property] }, truck: { rules: [eu] } }
places: { lodge: { kind: lodging }, pier: {}, cove: {} }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 40 min }, { link: [pier, cove], drive: 30 min, bad: 40 min }]
`;
const BOTH = `
  wagon: { driver: wren, aboard: [wren], stops: [{ place: lodge, leave: "08:00" }, pier, lodge] }
  truck: { driver: wren, aboard: [wren], stops: [{ place: lodge, leave: "12:00", after: [wagon.3] }, pier, lodge] }
`;
const ONE = (vehicle: string) =>
  `\n  ${vehicle}: { driver: wren, aboard: [wren], stops: [{ place: lodge, leave: "08:00" }, pier, lodge] }\n`;

/** The sets that bind wren today, those for the next drive with a mark. */
async function bound(yesterday: string, today: string) {
  const dated = (date: string, runs: string, more = "") =>
    `daywright: 1\nuses: shared.yaml\ndate: ${date}\nruns:${runs}${more}`;
  const texts = new Map([
    ["shared.yaml", SHARED],
    ["one.yaml", dated("2027-01-20", yesterday)],
  ]);
  const days = await daysOf(dated("2027-01-21", today, "follows: one.yaml\n"), texts);
  const [before, day] = days;
  if (before === undefined || day === undefined) throw new RangeError("two days were asked for");
  return bindingsOf(day, "wren", [before]).map(({ rules, forNextDrive }) =>
    forNextDrive === true ? `${rules.id} next` : rules.id,
  );
}

it("names what bound yesterday once, whether it binds today or not", async () => {
  expect(await bound(ONE("wagon"), ONE("wagon"))).toEqual(["us-property", "house"]);
  expect(await bound(ONE("wagon"), ONE("truck"))).toEqual(["eu", "us-property next", "house"]);
  expect((await bound(BOTH, ONE("wagon"))).toSorted()).toEqual(["eu next", "house", "us-property"]);
  expect((await bound(ONE("wagon"), BOTH)).toSorted()).toEqual(["eu", "house", "us-property"]);
  expect((await bound(BOTH, BOTH)).toSorted()).toEqual(["eu", "house", "us-property"]);
});
