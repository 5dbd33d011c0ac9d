/** `handover`: how full a tank is, by what is known of it. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";
import { SMALLEST } from "../cli/plans.ts";

const fuelOf = async (vehicle: string, actual: string): Promise<string | undefined> => {
  const plan = `${SMALLEST.replace("wagon: {}", `wagon: ${vehicle}`)}actual:\n  wagon: ${actual}\n`;
  const { out } = await ran(["handover", "day.yaml"], { files: { "day.yaml": plan } });
  return /^wagon +\S+ +(.+?) +–$/mu.exec(out)?.[1];
};

it("says the level where no range is stated, and nothing where neither is", async () => {
  expect(await fuelOf("{}", "{ fuel: 50% }")).toBe("50 % full");
  expect(await fuelOf("{}", "{ at: lodge }")).toBe("–");
});

// Half of 600 km, read as the day ends.
it("says how far it goes where a range is stated", async () => {
  expect(await fuelOf("{ range: 600 km }", '{ fuel: 50%, fuelAt: "09:00" }')).toBe("for 300 km");
});

describe("over the fixtures' last day", () => {
  const FILES = Object.fromEntries(
    readdirSync("fixtures/days").map((name) => [name, readFileSync(`fixtures/days/${name}`, "utf8")]),
  );
  const told = async (...words: readonly string[]) => (await ran(words, { files: FILES })).out;

  it("says the charge of a pack as `power` does, in text and as JSON", async () => {
    const ends = await told("power", "2027-01-21.yaml");
    const given = await told("handover", "2027-01-21.yaml");
    const charges = (text: string, row: RegExp) => [...text.matchAll(row)].map(([, id, share]) => `${id} ${share}`);
    const printed = charges(given, /^(brick\.\d) .* (full|\d+ %)$/gmu);
    expect(printed.length).toBe(5);
    // In a pack's row of `power` the charge at the day's end stands before the number of its moves.
    for (const one of printed) expect(charges(ends, /^(brick\.\d) .* (full|\d+ %) +\d+ /gmu)).toContain(one);
  });
});

it("lists two people under one booking once", async () => {
  const room = (who: string) => `{ who: [${who}], nights: 1, booking: B-5521 }`;
  const lodge = `lodge: { kind: lodging, rooms: [${room("wren")}, ${room("ilse")}],`;
  const plan = SMALLEST.replace("lodge: {", lodge);
  expect(plan).toContain("B-5521");
  const { out } = await ran(["handover", "day.yaml"], { files: { "day.yaml": plan } });
  expect(out.match(/room tonight.*B-5521/gu)).toHaveLength(1);
});

it("lists no wait that is over as open, and one that is not", async () => {
  // From 07:13 + 20 to the hit's line check at 11:40 at a pier without a roof: hours of waiting outside.
  const plan = SMALLEST.replace("hits:", 'hits:\n  noon: { at: "12:00", for: 3 min, place: pier }');
  const open = async (now: string) =>
    (await ran(["handover", "day.yaml", "--now", now], { files: { "day.yaml": plan } })).out.includes("wait-outside");
  expect([await open("09:00"), await open("11:55")]).toEqual([true, false]);
});
