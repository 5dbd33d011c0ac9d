/** What the packs start with where the plan leaves it to the day before. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";

it("says where charges come from that the plan does not state, and only then", async () => {
  const names = ["2027-01-19.yaml", "2027-01-20.yaml", "2027-01-21.yaml", "assignment.yaml"];
  const folder = new URL("../../fixtures/days/", import.meta.url);
  const files = Object.fromEntries(names.map((name) => [name, readFileSync(new URL(name, folder), "utf8")]));
  const said = async (name: string): Promise<boolean> =>
    (await ran(["power", name, "--width", "0"], { files })).out.includes("follows from the day before");
  // The second day states all five, the third none.
  expect(await said("2027-01-20.yaml")).toBe(false);
  expect(await said("2027-01-21.yaml")).toBe(true);
});

/** Two full packs of 98 Wh without a charger; a camera draws 60 W from 06:40 to 07:40, on the second day as well. */
const SHARED = `clock: America/Chicago
zone: America/Chicago
crew: { wren: { drives: wagon, slept: lodge, sleeps: lodge } }
vehicles: { wagon: {} }
places: { lodge: { kind: lodging }, pier: { shelter: true } }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 45 min }]
kit: { cam: { in: wagon, watts: 60, mount: wedge, during: hits } }
packs: { brick: { count: 2, wh: 98, mount: wedge, charge: 100%, in: wagon } }
runs: { wagon: { driver: wren, aboard: [wren], stops: [lodge, { place: pier, do: [dawn] }, lodge] } }
`;
const dated = (date: string, more: string) =>
  `daywright: 1\nuses: shared.yaml\ndate: ${date}\nhits: { dawn: { at: "07:00", for: 30 min, place: pier } }\n${more}`;
const SECOND = (more: string) => ({
  "shared.yaml": SHARED,
  "one.yaml": dated("2027-01-20", "history: { wren: { released: 2027-01-19T18:00-06:00 } }\n"),
  "two.yaml": dated("2027-01-21", `follows: one.yaml\n${more}`),
});

const startsOf = async (more: string): Promise<readonly number[]> => {
  const { out } = await ran(["power", "two.yaml", "--json"], { files: SECOND(more) });
  return [...out.matchAll(/"startWh":\s*([\d.]+)/g)].map(([, wh]) => Math.round((100 * Number(wh)) / 98));
};

it("takes a charge in a shared file for the first day's alone", async () => {
  // 98 - 60 = 38 Wh are 39 %.
  expect((await startsOf("")).toSorted((a, b) => a - b)).toEqual([39, 100]);
});

it("takes a charge in the day's own file, and a note says what the day before left", async () => {
  const full = "packs: { brick: { charge: 100% } }";
  expect(await startsOf(full)).toEqual([100, 100]);
  const { out } = await ran(["check", "two.yaml", "--width", "0"], { files: SECOND(full) });
  expect(out).toMatch(/brick\.[12] starts with 100 % \(the day before: 39 %\) {2}\(pack-charge-restated\)/);
  expect((await ran(["check", "two.yaml"], { files: SECOND("") })).out).not.toContain("pack-charge-restated");
});
