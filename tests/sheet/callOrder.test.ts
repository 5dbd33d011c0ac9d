/** People stand by call in every form that is read, in plan order in JSON; a sheet says the moment that it is as of, and by how much each falls short. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";

const folder = new URL("../../fixtures/days/", import.meta.url);
const files = Object.fromEntries(
  readdirSync(folder).map((file) => [file, readFileSync(new URL(file, folder), "utf8")]),
);
const DAY = "2027-01-21.yaml";
const out = async (...argv: string[]): Promise<string> => (await ran(argv, { files })).out;

/** Where each name stands first after a heading, in the order of the text. */
const order = (text: string, names: readonly string[]): readonly string[] =>
  names.toSorted((a, b) => text.indexOf(a) - text.indexOf(b));

// The plan has wren, ilse, bea, tomas. Tomas warms the truck up and is called first; Ilse and Bea are called at the same
// minute and stand as the plan has them. The order itself is the house's choice, no source outside.
const PLAN = ["wren", "ilse", "bea", "tomas"];
const NAMES = ["Wren Aalto", "Ilse Brandt", "Bea Okafor", "Tomas Lind"];
const CALLED = ["Tomas Lind", "Wren Aalto", "Ilse Brandt", "Bea Okafor"];

describe("one order of people, by call", () => {
  it.each([
    ["calls", "text"],
    ["calls", "markdown"],
    ["hours", "text"],
    ["hours", "markdown"],
  ])("%s as %s", async (command, form) => {
    const text = await out(command, DAY, "--format", form);
    expect(order(text.slice(text.search(/Calls|Hours/)), NAMES)).toEqual(CALLED);
  });

  it.each(["calls", "hours"])("%s as JSON keeps the plan's order", async (command) => {
    const { data } = JSON.parse(await out(command, DAY, "--json"));
    expect(data.people.map(({ id, who }: { id?: string; who?: string }) => id ?? who)).toEqual(PLAN);
  });
});

it("a sheet with --now says the moment in its head, and without it none", async () => {
  expect((await out("sheet", DAY, "--now", "10:18")).split("\n")[0]).toMatch(/ · as of 10:18 ET$/u);
  expect((await out("sheet", DAY)).split("\n")[0]).not.toContain("as of");
});

it("people of one cause stand in one line of a sheet, each with how much it is by", async () => {
  // Turnaround of 10 h (a house rule). The call of the smallest plan is 04:00: who was released at 20:00 rested 8 h and lacks 2 h, at
  // 20:40 7 h 20 min and lacks 2 h 40 min.
  const plan = readFileSync(new URL("../../fixtures/smallest.yaml", import.meta.url), "utf8");
  const history = `history:
  wren: { released: 2027-01-19T20:00-06:00 }
  ilse: { released: 2027-01-19T20:40-06:00 }
`;
  const { out } = await ran(["sheet", "day.yaml", "--width", "0"], { files: { "day.yaml": plan + history } });
  expect(out).toContain("- too little rest between release and call: wren by 2 h; ilse by 2 h 40 min\n");
});
