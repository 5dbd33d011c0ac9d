/** Each command's JSON against its published schema, and the schema against the keys that are promised, listed here by hand. */
import { readdirSync, readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { described, schemaOf } from "../../src/reports/index.ts";
import { ran } from "./fakeIo.ts";
import { HOSTILE_NAMES, MISSED, MISTAKEN, SLIPPING, SMALLEST } from "./plans.ts";
import { misfits } from "./validate.ts";

const DAYS = new URL("../../fixtures/days/", import.meta.url);
const EDGES = new URL("../../fixtures/edges/", import.meta.url);
const demo = Object.fromEntries(readdirSync(DAYS).map((name) => [name, readFileSync(new URL(name, DAYS), "utf8")]));

const PLANS: Readonly<Record<string, string>> = {
  "smallest.yaml": SMALLEST,
  "missed.yaml": MISSED,
  "slipping.yaml": SLIPPING,
  "mistaken.yaml": MISTAKEN,
  "names.yaml": HOSTILE_NAMES,
};
const LOG = `log: 1
zone: America/Chicago
rules: us-property
people:
  tomas:
    - { from: 2027-01-19T22:00, to: 2027-01-20T08:00, is: off }
    - { from: 2027-01-20T08:00, to: 2027-01-20T09:00, is: duty }
    - { from: 2027-01-20T09:00, to: 2027-01-20T21:30, is: driving }
`;

const edges = Object.fromEntries(
  readdirSync(EDGES).map((name) => [`edges/${name}`, readFileSync(new URL(name, EDGES), "utf8")]),
);

const files = { ...demo, ...edges, ...PLANS, "log.yaml": LOG };
const DAY_FILES = Object.keys(demo).filter((name) => /^\d/u.test(name));
const PLAN_COMMANDS = described().filter((command) => command !== "explain");

const answer = async (words: readonly string[]): Promise<unknown> =>
  JSON.parse((await ran([...words, "--json"], { files })).out);

describe("the JSON of", () => {
  it.each(PLAN_COMMANDS)("%s fits its schema, for good, late, mistaken and missing plans", async (command) => {
    const schema = await schemaOf(command);
    for (const name of [...Object.keys(PLANS), "missing.yaml", ...DAY_FILES, ...Object.keys(edges)])
      expect([name, misfits(schema, await answer([command, name]))]).toEqual([name, []]);
  });

  it.each(PLAN_COMMANDS)("%s is one object around several plans", async (command) => {
    const whole = await answer([command, "smallest.yaml", "mistaken.yaml"]);
    expect(misfits(await schemaOf(command), whole)).toEqual([]);
    expect(whole).toMatchObject({ daywright: 1, command, ok: false, plans: [{ ok: true }, { ok: false, data: null }] });
  });

  it("a name that every object has is no command", async () => {
    for (const name of ["constructor", "toString", "__proto__", "hasOwnProperty"]) {
      expect(await schemaOf(name)).toBeNull();
      const { code, err } = await ran(["schema", name]);
      expect([code, err]).toEqual([2, expect.stringContaining("there is no schema of")]);
    }
  });

  // A length is at least 0, or its schema says what a negative one means.
  it.each(PLAN_COMMANDS)("%s explains every length that may be negative", async (command) => {
    const open: string[] = [];
    const walk = (at: unknown): void => {
      if (typeof at !== "object" || at === null) return;
      for (const [key, value] of Object.entries(at)) {
        if (/^(?:slack|late|overLikely)Minutes$/u.test(key) && !/negative: /u.test(JSON.stringify(value)))
          open.push(key);
        walk(value);
      }
    };
    walk(await schemaOf(command));
    expect(open).toEqual([]);
  });

  it("a hit that went out early is negative there, and its schema says so", async () => {
    const early = { ...files, "early.yaml": `${SMALLEST}\nactual:\n  dawn: { at: "06:57" }\n` };
    const { out } = await ran(["asrun", "early.yaml", "--json"], { files: early });
    // Planned for 07:00.
    expect(out).toMatch(/"lateMinutes": -3,/u);
    expect(misfits(await schemaOf("asrun"), JSON.parse(out))).toEqual([]);
  });

  it("hours fits its schema for a log, too", async () => {
    const whole = await answer(["hours", "log.yaml"]);
    expect(misfits(await schemaOf("hours"), whole)).toEqual([]);
    expect(whole).toMatchObject({ ok: false, plan: { file: "log.yaml", clock: "America/Chicago" } });
  });

  it("explain fits its schema", async () => {
    const schema = await schemaOf("explain");
    for (const words of [["explain"], ["explain", "hit-missed"]])
      expect(misfits(schema, await answer(words))).toEqual([]);
  });

  it("power --fly fits, too", async () => {
    const whole = await answer(["power", "2027-01-20.yaml", "--fly"]);
    expect(misfits(await schemaOf("power"), whole)).toEqual([]);
    expect(JSON.stringify(whole)).toContain("49 CFR 175.10");
  });

  it("calls --why and sheet --since fit, too", async () => {
    expect(misfits(await schemaOf("calls"), await answer(["calls", "smallest.yaml", "--why", "wren.call"]))).toEqual(
      [],
    );
    expect(
      misfits(await schemaOf("sheet"), await answer(["sheet", "smallest.yaml", "--since", "slipping.yaml"])),
    ).toEqual([]);
  });
});

describe("the schemas of files that people write", () => {
  it.each([
    ["plan", ["daywright", "date", "clock", "hits", "runs"]],
    ["log", ["log", "zone", "rules", "options", "people"]],
  ])("%s is draft 7 and knows the sections", async (what, sections) => {
    const schema = JSON.parse((await ran(["schema", what])).out);
    expect(schema.$schema).toBe("http://json-schema.org/draft-07/schema#");
    expect(Object.keys(schema.properties)).toEqual(expect.arrayContaining(sections));
    expect(schema.additionalProperties).toBe(false);
  });
});

it.each(["plan", "shared"])(
  "the schema of %s says that a length is never negative, as its pattern has it",
  async (what) => {
    const { length } = JSON.parse((await ran(["schema", what])).out).definitions;
    expect(length.description).toContain("never negative");
    for (const sign of ["-", "−"]) expect(`${sign}10 min`).not.toMatch(new RegExp(length.pattern, "u"));
    expect("10 min").toMatch(new RegExp(length.pattern, "u"));
  },
);

describe("exit 3 with --json", () => {
  it.each(["calls", "check"])("%s gives the envelope with data null", async (command) => {
    for (const name of ["mistaken.yaml", "missing.yaml"]) {
      const { code, out } = await ran([command, name, "--json"], { files });
      expect(code).toBe(3);
      expect(JSON.parse(out)).toMatchObject({
        daywright: 1,
        command,
        plan: { file: name, title: null, date: null, clock: null },
        ok: false,
        data: null,
      });
    }
  });
});

/** The keys that are promised: keys of `data`, lists in brackets with the keys of their items. */
const DOCUMENTED: ReadonlyMap<string, string> = new Map([
  [
    "calls",
    `people[{ id, call, release, place, duties[{ call, release }], spans[{ from, to, is, vehicle, activity, place }], terms[{ name, from, to, minutes, where }] }],
     stops[{ id, vehicle, place, arrive, parked, leave }], moves[{ id, vehicle, driver, riders, from, to, leave, arrive, plannedMinutes, plannedAt, likelyMinutes, badMinutes, leaveBy, slackMinutes, overLikelyMinutes }],
     activities[{ id, kind, place, who, inPosition, start, end, state, slackMinutes, stops }]`,
  ],
  [
    "hours",
    `people[{ id, rules[], restBeforeMinutes, dutyMinutes, drivingMinutes, limits[{ id, clause, allowedMinutes, usedMinutes, leftMinutes, runsOutAt }],
     breaches[{ limit, clause, from, to }], drivingMustStopAt, earliestNextCall, earliestNextDrive }]`,
  ],
  [
    "power",
    "packs[{ id, steps[{ from, to, doing, chargeBefore, chargeAfter }] }], covered[{ activity, load, packs, marginWh, ok }], proof, model, rotation",
  ],
  [
    "drives",
    `legs[{ vehicle, from, to, km, likelyMinutes, badMinutes, basis, leaveBy, slackMinutes, chance, chanceIndependent, chanceSameLuck }],
     gaps[{ vehicle, from, to, place, stayMinutes, turnBack, basis }]`,
  ],
  [
    "light",
    "hits[{ id, at, sunAltitudeDegrees, sunAzimuthDegrees, sky, sunSide, lux, needs[] }], places[{ id, rise, set, civilDawn, civilDusk }]",
  ],
  [
    "signal",
    "looks[{ place, path, azimuthDegrees, elevationDegrees, rangeKm, skewDegrees, clear, outages[] }], hits[{ id, path, spare, ok }]",
  ],
]);

/** Paths of all keys in such a list: `people[].duties[].call`. */
function documentedPaths(text: string): readonly string[] {
  const stack: string[] = [];
  const paths: string[] = [];
  for (const [, word = "", mark = ""] of text.matchAll(/(\w+)|(\[\{|\}\]|\[\])/gu)) {
    if (word !== "") paths.push([...stack, word].join("."));
    else if (mark === "[{") stack.push(`${paths.at(-1)?.split(".").at(-1)}[]`);
    else if (mark === "}]") stack.pop();
  }
  return paths;
}

/** Paths of all keys that a schema describes, in the same form. */
function schemaPaths(schema: unknown, at: readonly string[] = []): readonly string[] {
  if (typeof schema !== "object" || schema === null) return [];
  const found: string[] = [];
  for (const [key, value] of Object.entries(schema)) {
    if (key === "anyOf" && Array.isArray(value)) found.push(...value.flatMap((one) => schemaPaths(one, at)));
    if (key === "items") found.push(...schemaPaths(value, [...at.slice(0, -1), `${at.at(-1)}[]`]));
    if (key !== "properties") continue;
    for (const [name, one] of Object.entries(value)) {
      found.push([...at, name].join("."));
      found.push(...schemaPaths(one, [...at, name]));
    }
  }
  return found;
}

describe("the schema describes every promised key:", () => {
  let schemas: ReadonlyMap<string, unknown> = new Map();
  beforeAll(async () => {
    schemas = new Map(await Promise.all(described().map(async (name) => [name, await schemaOf(name)] as const)));
  });

  it.each([...DOCUMENTED.keys()].filter((name) => described().includes(name)))("%s", (name) => {
    const text = JSON.stringify(schemas.get(name));
    const { definitions } = JSON.parse(text);
    const known = new Set(schemaPaths(definitions.one.properties.data));
    expect(documentedPaths(DOCUMENTED.get(name) ?? "").filter((path) => !known.has(path))).toEqual([]);
  });
});
