/** What findings suggest is sound: each case went wrong once, with what it must say now and why, by hand. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";

const folder = (name: string): Readonly<Record<string, string>> =>
  Object.fromEntries(
    readdirSync(`fixtures/cases/${name}`)
      .filter((file) => file.endsWith(".yaml"))
      .map((file) => [file, readFileSync(`fixtures/cases/${name}/${file}`, "utf8")]),
  );

interface Said {
  readonly code: string;
  readonly level: string;
  readonly message: string;
  readonly hint: string | null;
  readonly who: string | null;
  readonly where: { readonly line: number | null } | null;
}

async function check(files: Readonly<Record<string, string>>, ...words: readonly string[]): Promise<readonly Said[]> {
  return JSON.parse((await ran(["check", "--json", ...words], { files })).out).findings as readonly Said[];
}

const of = (findings: readonly Said[], code: string): readonly Said[] => findings.filter((one) => one.code === code);

describe("a meal that is suggested", () => {
  it("may begin in the wait, and at the latest when it is due (facts/meal3)", async () => {
    // wren waits from 10:33 (noon's hit 10:00–10:03, clear 10 min, strike 20) to 14:50; called 08:20: six hours end at 14:20.
    const [meal] = of(await check(folder("facts"), "meal3.yaml"), "meal-late");
    expect(meal?.hint).toMatch(/begins from 10:33 .* to 14:20/);
  });

  it.each(["10:33", "14:20"])("at %s leaves no meal missing (facts/meal3)", async (at) => {
    const files = folder("facts");
    const end = at === "10:33" ? "11:03" : "14:50";
    const meal = `tasks:\n  snack: { kind: meal, place: pier, for: 30 min, who: [wren], window: ["${at}", "${end}"] }`;
    const edited = (files["meal3.yaml"] ?? "")
      .replace("tasks:", meal)
      .replace("do: [noon, lunch] }", "do: [noon, snack, lunch] }");
    expect(of(await check({ "day.yaml": edited }, "day.yaml"), "meal-late")).toEqual([]);
  });

  it("is late enough for all that follows (chain/meal-cure)", async () => {
    const files = folder("chain/meal-cure");
    const found = of(await check(files, "2027-03-12.yaml"), "meal-late");
    expect(found.map(({ who }) => who)).toEqual(["pia", "sven", "finn", "lena"]);
    // pia works until 20:08 ET: 18:43 and 1 h 25 min. A meal of 30 min six hours before that begins at 13:38; she waits
    // until the set-up for news, 18:20 ET.
    expect(found[0]?.hint).toMatch(/begins from 13:38 ET/);
    const plan = (files["2027-03-12.yaml"] ?? "")
      .replace(
        "packs:",
        '  lunch2: { kind: meal, for: 30 min, place: ridge, who: all, window: ["13:38", "14:08"] }\npacks:',
      )
      .replace("do: [noon, lunch, news]", "do: [noon, lunch, lunch2, news]");
    expect(of(await check({ ...files, "day.yaml": plan }, "day.yaml"), "meal-late")).toEqual([]);
  });
});

describe("an order that is suggested", () => {
  it.each(["ca.yaml", "ca2.yaml"])("is one for both tasks, and works (together/%s)", async (name) => {
    const files = folder("together");
    const missed = of(await check(files, name), "task-missed");
    expect(missed.length).toBeGreaterThan(0);
    // By their windows: diner from 11:30, pics from 14:00 ET, soir at 18:00.
    for (const { hint } of missed) expect(hint).toContain("do: [diner, pics, soir]");
    const edited = (files[name] ?? "")
      .replace("lac, gare, auberge]", "lac, { place: gare, do: [diner, pics, soir] }, auberge]")
      .replace("do: [diner, soir, pics]", "do: [diner, pics, soir]");
    expect(of(await check({ "day.yaml": edited }, "day.yaml"), "task-missed")).toEqual([]);
  });

  it("names `do` as the reason of a ring, and an order without one (together/bad-loop)", async () => {
    const files = folder("together");
    const [loop] = await check(files, "bad-loop.yaml");
    expect(loop?.code).toBe("order-loop");
    const line = (files["bad-loop.yaml"] ?? "").split("\n").findIndex((text) => text.includes("do: [early]")) + 1;
    expect(loop?.message).toContain(`snack waits for early.5 (bad-loop.yaml:${line})`);
    const order = "[early.1, early.2, early.3, early.4, snack, early.5, early.6, early.7]";
    expect(loop?.hint).toBe(`\`do\` at silo puts them the other way round: write \`do: ${order}\``);
    const edited = (files["bad-loop.yaml"] ?? "").replace("do: [early]", `do: ${order}`);
    expect(of(await check({ "day.yaml": edited }, "day.yaml"), "order-loop")).toEqual([]);
  });

  it("is given as well where what `do` leaves out would follow the strike: a meal between two hits", async () => {
    const text = (list: string) => `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew: { wren: { role: camera, drives: wagon }, bo: { role: reporter } }
vehicles: { wagon: {} }
places: { lodge: { at: [46.60, -90.88] }, pier: { at: [46.81, -90.82] } }
roads: [ { link: [lodge, pier], drive: 35 min, bad: 50 min } ]
hits: { dawn: { at: "07:00", for: 3 min, place: pier }, noon: { at: "12:00", for: 3 min, place: pier } }
tasks: { lunch: { kind: meal, for: 30 min, place: pier, who: all, after: dawn, before: noon } }
runs:
  wagon: { driver: wren, aboard: [wren, bo], stops: [lodge, { place: pier, do: [${list}] }, lodge] }
`;
    const [loop] = await check({ "day.yaml": text("dawn, noon") }, "day.yaml");
    expect(loop?.message).toBe(
      "these wait for each other: noon waits for lunch (day.yaml:10); lunch waits for noon (day.yaml:12)",
    );
    expect(loop?.hint).toBe("`do` at pier puts them the other way round: write `do: [dawn, lunch, noon]`");
    expect(of(await check({ "day.yaml": text("dawn, lunch, noon") }, "day.yaml"), "order-loop")).toEqual([]);
  });
});

describe("who drives on from a last stop", () => {
  it("is said to have no effect (together/laststop)", async () => {
    const [note] = of(await check(folder("together"), "laststop.yaml"), "departure-missing");
    expect([note?.level, note?.message]).toEqual(["note", "wagon does not leave lodge: `driver` there has no effect"]);
  });
});

describe("suggestions", () => {
  it("ask for no other release and no call that the day cannot have", async () => {
    for (const name of ["ca.yaml", "ca2.yaml"])
      for (const { hint } of await check(folder("together"), name))
        expect(hint ?? "").not.toMatch(/release by|\d+ (min|h) later/);
  });

  it("lead to `repair` where codes have kinds of edit", async () => {
    const { out } = await ran(["check", "ca.yaml"], { files: folder("together") });
    expect(out).toContain("daywright repair ca.yaml looks for edits that help");
    const clean = await ran(["check", "laststop.yaml"], { files: folder("together") });
    expect(clean.out).not.toContain("daywright repair");
  });
});
