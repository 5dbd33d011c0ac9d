/** `--for` is one person's view: what is another's alone is left out. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { ran } from "./fakeIo.ts";

/** 19 January: the truck carries tomas and bea and no gear, the wagon wren and ilse and all of it (19's runs, `kit`). */
const DEMO = Object.fromEntries(
  ["assignment.yaml", "2027-01-19.yaml"].map((name) => [name, readFileSync(`fixtures/days/${name}`, "utf8")]),
);

const FILES = { "day.yaml": readFileSync("fixtures/smallest.yaml", "utf8") };

it("leaves out findings of others, and keeps those of nobody in particular", async () => {
  const whose = async (...flags: readonly string[]): Promise<readonly (string | null)[]> => {
    const { out } = await ran(["check", "--json", ...flags, "day.yaml"], { files: FILES });
    const { findings } = JSON.parse(out) as { findings: readonly { who: string | null }[] };
    return [...new Set(findings.map(({ who }) => who))].sort();
  };
  expect(await whose()).toEqual(["ilse", null, "wren"].sort());
  expect(await whose("--for", "ilse")).toEqual(["ilse", null].sort());
});

it("power: the chores of that person, the packs that ride with them, and the hits they work at", async () => {
  const told = async (who: string) => {
    const args = ["--for", who, "2027-01-19.yaml"];
    const { data } = JSON.parse((await ran(["power", "--json", ...args], { files: DEMO })).out) as {
      data: { hands: readonly { who: readonly string[]; others: readonly string[] }[] };
    };
    return { hands: data.hands, text: (await ran(["power", "--width", "200", ...args], { files: DEMO })).out };
  };
  // One chore, before anybody's loading: Wren's, or else Ilse's.
  const wren = await told("wren");
  expect(wren.hands.length).toBeGreaterThan(0);
  expect(wren.hands.every(({ who, others }) => [...who, ...others].includes("wren"))).toBe(true);
  expect(wren.text).toContain("Pack moves for Wren Aalto");
  expect(wren.text).toMatch(/^brick\.1 /m);
  const bea = await told("bea");
  expect(bea.hands).toEqual([]);
  expect(bea.text).toContain("No pack moves for Bea Okafor.");
  expect(bea.text).toMatch(/^midday +10:40 +11:04 +camera /m);
});

it("kit: what that person's vehicles load and hold", async () => {
  const told = async (who: string) => {
    const { out } = await ran(["kit", "--json", "--for", who, "2027-01-19.yaml"], { files: DEMO });
    const { data } = JSON.parse(out) as {
      data: { pieces: readonly { id: string }[]; loading: readonly { vehicle: string }[] };
    };
    return { pieces: data.pieces.map(({ id }) => id), vehicles: data.loading.map(({ vehicle }) => vehicle) };
  };
  expect(await told("tomas")).toEqual({ pieces: [], vehicles: ["truck"] });
  const wren = await told("wren");
  expect(wren.vehicles).toEqual(["wagon"]);
  expect(wren.pieces).toContain("camera");
});

it("a stand-down is written as the trade writes it, and the plan's own key stays", async () => {
  const files = { "day.yaml": readFileSync("fixtures/cases/facts/now.yaml", "utf8") };
  const sheet = await ran(["sheet", "day.yaml"], { files });
  expect(sheet.out).toContain("free (stand-down)");
  for (const form of ["text", "html", "markdown", "chat"]) {
    const { out } = await ran(["sheet", "day.yaml", "--format", form], { files });
    expect([form, out.includes("standdown")]).toEqual([form, false]);
  }
});
