/**
 * DEVELOPERS.md's recipe for a rule set, followed literally: one declaration, and plans and logs may
 * name it; its weight, week, claim, team, question and limit are asked for from nowhere else. The law is invented.
 */
import { afterAll, describe, expect, it, vi } from "vitest";
import type { RuleSetDeclaration } from "../../src/hours/rules/declaration.ts";

/** Over 2 t; 6 h at the wheel, 7 where `fairWind` is claimed, since a rest of 5 h. */
const harbour = ((): RuleSetDeclaration => {
  const shift = { kind: "rest", minutes: 300 } as const;
  return {
    place: 5,
    title: "Harbour Act",
    source: "invented for this test",
    legallyBinding: true,
    threshold: { leastKg: 2000, leastSeats: 7, says: "from 2 t or 7 seats on" },
    forPeople: false,
    claims: { fairWind: "an hour more with the wind behind, Harbour Act s. 9" },
    weeks: ["long week", "short week"],
    carriersDays: false,
    team: null,
    pay: null,
    make: ({ claims, weeks }) => ({
      country: "Harbour",
      statuses: {
        off: "off",
        berth: "berth",
        meal: "off",
        driving: "driving",
        duty: "duty",
        standby: "duty",
        riding: "duty",
        personal: "duty",
        ferry: "duty",
      },
      ferry: { status: "off", over: 0, interrupted: null },
      covers: ({ rules }) => rules.some((name) => name === "harbour"),
      lightDriving: "duty",
      pause: "off",
      rest: ["off", "berth"],
      duty: ["duty", "driving"],
      travel: null,
      seat: null,
      shift,
      limits: [
        {
          kind: "max",
          id: "harbour.wheel",
          clause: "Harbour Act s. 3",
          title: claims.includes("fairWind") ? "7 h at the wheel" : "6 h at the wheel",
          counts: "driving",
          allows: claims.includes("fairWind") ? 420 : 360,
          forbids: "driving",
          since: [shift],
        },
        {
          kind: "max",
          id: "harbour.week",
          clause: "Harbour Act s. 4",
          title: weeks.includes("short week") ? "30 h in the week" : "50 h in the week",
          counts: "duty",
          allows: weeks.includes("short week") ? 1800 : 3000,
          forbids: "work",
          since: [{ kind: "calendar", unit: "week", count: 1 }],
        },
      ],
      dayStarts: 0,
      conditions: claims.includes("fairWind") ? ["the wind behind, Harbour Act s. 9"] : [],
      asks: {
        vehicle: { clause: "Harbour Act s. 1", question: "is it a ship?", applies: ({ totalKg }) => totalKg > 2500 },
      },
    }),
  };
})();

// Modules are loaded once a worker: the table with the line added must be read afresh, and forgotten afterwards.
vi.resetModules();
vi.doMock("../../src/hours/rules/table.ts", async (original) => {
  const { RULE_SETS } = await original<typeof import("../../src/hours/rules/table.ts")>();
  return { RULE_SETS: { ...RULE_SETS, harbour } };
});

const { readLog } = await import("../../src/plan/log/read.ts");
const { readOnePlan: readPlan } = await import("../../src/plan/index.ts");
const { logHours } = await import("../../src/hours/judge/logHours.ts");
const { ALL_SETS, VEHICLE_SETS } = await import("../../src/hours/rules/index.ts");

afterAll(() => {
  vi.doUnmock("../../src/hours/rules/table.ts");
  vi.resetModules();
});

const log = (more: string, hours: number): string => `log: 1
zone: America/Chicago
rules: harbour
${more}people:
  tomas:
    - { from: 2027-01-20T00:00, to: 2027-01-20T06:00, is: off }
    - { from: 2027-01-20T06:00, to: 2027-01-20T${String(6 + hours).padStart(2, "0")}:00, is: driving }
`;

async function broken(text: string): Promise<readonly string[]> {
  const { log: read, findings } = await readLog(text, null);
  expect(findings.map(({ code }) => code)).toEqual([]);
  if (read === null) throw new Error("not read");
  return logHours(read, null).flatMap(({ verdicts }) =>
    verdicts.flatMap(({ breaches }) => breaches.map(({ limit, from, to }) => `${limit.id} ${to - from}`)),
  );
}

const plan = (vehicle: string): string => `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew: { tomas: { role: engineer, drives: tug } }
vehicles: { tug: ${vehicle} }
places: { lodge: { at: [46.60, -90.88] }, pier: { at: [46.81, -90.82] } }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 30 min }]
hits: { dawn: { at: "07:00", for: 3 min, place: pier } }
runs: { tug: [lodge, pier, lodge] }
`;

describe("a rule set that is one declaration and one line in the table", () => {
  it("may be named by vehicles and logs", () => {
    expect(VEHICLE_SETS).toContain("harbour");
    expect(ALL_SETS).toContain("harbour");
  });

  it("judges a log to the minute: 6 h are lawful, an hour more is not, and is with its claim", async () => {
    expect(await broken(log("", 6))).toEqual([]);
    expect(await broken(log("", 7))).toEqual(["harbour.wheel 60"]);
    expect(await broken(log("options: { fairWind: true }\n", 7))).toEqual([]);
  });

  it("decides by its own threshold who is commercial, and knows its own week and claim on a vehicle", async () => {
    const read = await readPlan(plan("{ gross: 2100 kg, rules: harbour, week: short week, claims: [fairWind] }"), {
      file: null,
    });
    expect(read.findings.map(({ code }) => code)).toEqual([]);
    expect(read.plan?.vehicles.get("tug")?.commercialBecause).toBe("gross 2100 kg; from 2 t or 7 seats on");
    const light = await readPlan(plan("{ gross: 1900 kg, rules: harbour }"), { file: null });
    expect(light.plan?.vehicles.get("tug")?.commercial).toBe(false);
  });
});
