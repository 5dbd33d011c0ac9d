/** Plans beside each other, and pieces beside hits: who is booked twice to the minute, and what `during` says of each kind. */
import { describe, expect, it } from "vitest";
import { type Claim, claimOf, compareClaims } from "../../src/day/bookings.ts";
import { useOf } from "../../src/day/during.ts";
import { readOnePlan } from "../../src/plan/index.ts";
import { instant } from "../../src/time/units.ts";
import { at, dayOf } from "./make.ts";

describe("plans that use the same", () => {
  const claim = (
    file: string | null,
    from: number,
    to: number,
    ids: readonly string[],
    plan: string | null = null,
  ) => ({
    ...{ file, plan, from: instant(from), to: instant(to), span: null },
    uses: ids.map((id) => ({ id, span: null })),
  });
  const told = (...claims: readonly Claim[]) =>
    [...compareClaims(claims)].flatMap(([file, found]) => found.map(({ code, facts }) => [file, code, facts]));

  it("at the same time are told in both files, and not if one ends when the other begins", () => {
    const morning = claim("a.yaml", 0, 100, ["wren", "wagon"]);
    expect(told(morning, claim("b.yaml", 100, 200, ["wren"]))).toEqual([]);
    expect(told(claim("b.yaml", 100, 200, ["wren"]), morning)).toEqual([]);
    expect(told(morning, claim("b.yaml", 99, 200, ["wren"]))).toEqual([
      ["a.yaml", "booked-twice", { what: ["wren"], others: ["b.yaml"] }],
      ["b.yaml", "booked-twice", { what: ["wren"], others: ["a.yaml"] }],
    ]);
    expect(told(morning, claim("b.yaml", 50, 60, ["ilse"]))).toEqual([]);
  });

  it("are one finding for all that share the same, and another for what others share", () => {
    const found = told(
      claim("a.yaml", 0, 100, ["wren", "wagon"]),
      claim("b.yaml", 10, 100, ["wagon", "wren"]),
      claim("c.yaml", 20, 100, ["wren", "wagon"]),
      claim("d.yaml", 30, 100, ["wren"]),
    );
    expect(found.filter(([file]) => file === "a.yaml")).toEqual([
      ["a.yaml", "booked-twice", { what: ["wren", "wagon"], others: ["b.yaml", "c.yaml"] }],
      ["a.yaml", "booked-twice", { what: ["wren"], others: ["d.yaml"] }],
    ]);
  });

  it("are versions of one plan if they have its id: only that is told, in the later file", () => {
    const found = told(claim("a.yaml", 0, 100, ["wren"], "tour"), claim("b.yaml", 0, 100, ["wren"], "tour"));
    expect(found).toEqual([["b.yaml", "date-twice", { plan: "tour", other: "a.yaml" }]]);
    // Two plans without an id are two plans.
    expect(told(claim("a.yaml", 0, 9, ["wren"]), claim("b.yaml", 0, 9, ["wren"])).map(([, code]) => code)).toEqual([
      "booked-twice",
      "booked-twice",
    ]);
    expect(told(claim("a.yaml", 0, 9, ["wren"], "x"), claim("b.yaml", 0, 9, ["wren"], "y"))).toHaveLength(2);
  });

  it("have nothing told of one without a file", () => {
    expect(told(claim(null, 0, 100, ["wren"]), claim("b.yaml", 0, 100, ["wren"])).map(([file]) => file)).toEqual([
      "b.yaml",
    ]);
  });
});

describe("what a day uses", () => {
  const day = (dawn: string) =>
    dayOf({
      crew: { wren: { drives: ["wagon"] }, odo: { slept: "home" } },
      roads: { "home pier": [30, 40] },
      hits: { dawn: { at: at(dawn), forMinutes: 5, signalPath: "net" } },
      paths: { net: {}, sky: {} },
      runs: {
        wagon: { driver: "wren", aboard: ["wren"], stops: [{ place: "home", leave: at("06:25") }, "pier", "home"] },
      },
    });

  it("is who has a duty from the first call to the last release, its vehicles, and the paths that go out", () => {
    const own = claimOf(day("08:00"), "a.yaml");
    expect(own?.uses.map(({ id }) => id)).toEqual(["wren", "wagon", "net"]);
    expect([own?.from, own?.to]).toEqual([at("06:10"), at("09:15")]);
    // A hit that is missed uses no path.
    expect(claimOf(day("06:30"), "a.yaml")?.uses.map(({ id }) => id)).toEqual(["wren", "wagon"]);
    expect(
      claimOf(dayOf({ crew: { odo: { slept: "home" } }, roads: {}, places: { home: {} }, runs: {} }), "a.yaml"),
    ).toBeNull();
  });
});

describe("`during`", () => {
  const uses = async (during: string, isDark = false) => {
    const { plan: read } = await readOnePlan(
      `daywright: 1
date: 2027-01-20
clock: UTC
zone: UTC
crew: { wren: { drives: [wagon], slept: lodge, sleeps: lodge } }
vehicles: { wagon: {} }
places: { lodge: { zone: UTC, kind: lodging }, pier: { zone: UTC } }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 30 min }]
paths: { net: { kind: cellular }, sky: { kind: cellular } }
hits: { dawn: { at: "09:00", for: 5 min, place: pier, path: net, spare: sky } }
tasks:
  edit: { kind: work, place: pier, for: 10 min, after: dawn }
  send: { kind: feed, place: pier, for: 10 min, after: dawn }
  ready: { kind: standby, place: pier, for: 10 min, after: dawn }
  lunch: { kind: meal, place: pier, for: 10 min, after: dawn }
runs: { wagon: { driver: wren, stops: [lodge, pier, lodge] } }
kit: { box: { in: wagon, during: [hits] } }
`,
      { file: "day.yaml" },
    );
    const box = read?.kit.get("box");
    if (read === null || box === undefined) throw new Error("no piece");
    const plan = { ...read, groups: new Map([["both", ["dawn", "edit"]]]) };
    const piece = { ...box, during: during.split(", ") };
    return [...plan.hits.values(), ...plan.tasks.values()].flatMap((one) => {
      const use = useOf(plan, piece, one, () => isDark);
      return use === null ? [] : [`${one.id} ${use.by}${use.inReserve ? " in reserve" : ""}`];
    });
  };

  it.each([
    ["hits", ["dawn usual", "ready usual"]],
    ["tasks", ["edit usual", "send usual"]],
    ["dawn", ["dawn stated"]],
    ["both", ["dawn stated", "edit stated"]],
    ["net", ["dawn stated"]],
    ["sky", ["dawn stated in reserve"]],
    ["sky, net", ["dawn stated"]],
    ["hits, sky", ["dawn stated", "ready usual"]],
    ["tasks, edit", ["edit stated", "send usual"]],
  ])("%s", async (during, wanted) => {
    expect(await uses(during)).toEqual(wanted);
  });

  it("dark is the hits and stand-bys that are in the dark", async () => {
    expect(await uses("dark", true)).toEqual(["dawn usual", "ready usual"]);
    expect(await uses("dark", false)).toEqual([]);
  });
});
