/** Every `--set` that the batteries and the gear print as a cure: typed as it stands, it is taken, and it cures. */
import { describe, expect, it } from "vitest";
import { ran } from "./fakeIo.ts";

interface Parts {
  readonly packs: string;
  readonly hits?: string;
  readonly camera?: string;
  readonly chargers?: string;
  readonly lodge?: string;
  readonly uses?: boolean;
}

const HIT = 'dawn: { at: "07:00", for: 3 min, place: pier }';
const TWO = 'dawn: { at: { from: "07:00", every: 60 min, times: 2 }, for: 3 min, place: pier }';

/** One camera; released 20:00, called in the morning. With `uses`, gear and packs stand in a file that the day uses. */
function files({ packs, hits, camera, chargers, lodge, uses }: Parts): Readonly<Record<string, string>> {
  const gear = `
kit: { camera: { in: wagon, watts: 40, mount: wedge, during: hits${camera ?? ""} } }
packs: { brick: { ${packs} wh: 100, mount: wedge, in: wagon } }
chargers: { ${chargers ?? ""} }
`;
  const day = `
daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
history: { wren: { released: 2027-01-19T20:00-06:00 }, ilse: { released: 2027-01-19T20:00-06:00 } }
crew:
  wren: { role: camera, drives: wagon }
  ilse: { role: reporter }
  bea: { role: producer }
vehicles: { wagon: {} }
places: { lodge: { kind: lodging${lodge ?? ""} }, pier: {} }
roads: [{ link: [lodge, pier], drive: 35 min, bad: 50 min }]
hits: { ${hits ?? HIT} }
runs: { wagon: { aboard: [wren, ilse], stops: [lodge, pier, lodge] } }
`;
  return uses === true ? { "day.yaml": `${day}uses: gear.yaml\n`, "gear.yaml": gear } : { "day.yaml": `${day}${gear}` };
}

/** The words of a command line, double quotes taken off as a shell does. */
const shellWords = (text: string): readonly string[] =>
  [...text.matchAll(/(?:"([^"]*)"|[^\s"])+/g)].map((match) => match[1] ?? match[0]);

/** The flags of each printed cure, from the report and from the hints of the findings. */
async function cures(of: Readonly<Record<string, string>>): Promise<readonly (readonly string[])[]> {
  const { out, err } = await ran(["power", "--width", "300", "day.yaml"], { files: of });
  const printed = [...`${out}\n${err}`.matchAll(/--set (?:"[^"]*"|[^\s`"]+)(?: --set (?:"[^"]*"|[^\s`"]+))*/g)];
  return [...new Set(printed.map(([text]) => text))].map(shellWords);
}

const codes = async (of: Readonly<Record<string, string>>, flags: readonly string[] = []) => {
  const { out, code } = await ran(["power", "--json", ...flags, "day.yaml"], { files: of });
  const { findings } = JSON.parse(out) as { findings: readonly { code: string }[] };
  return { code, found: findings.map((one) => one.code) };
};

const bench = (watts: number, more = ""): string =>
  `bench: { mount: wedge, slots: 1, watts: ${watts}, in: wagon${more} }`;

// The camera needs 22 Wh and 15 in reserve; 40 W for two hits an hour apart 31 and 15, with standby more.
const PLANS: readonly (readonly [what: string, parts: Parts, kinds: RegExp])[] = [
  ["a list of charges", { packs: "count: 3, charge: [30%, 20%, 36.5%]," }, /count=4.*charge=\[30%, 20%, 36.5%, 40%\]/],
  ["a list and no count", { packs: "charge: [30%, 20%]," }, /count=3.*charge=\[30%, 20%, 40%\]/],
  ["one charge for all", { packs: "count: 2, charge: 10%," }, /count=3.*charge=\[10%, 10%, 40%\]/],
  ["charges of single packs", { packs: "count: 2, own: { brick.1: { charge: 10% } }," }, /own\.'brick\.3'\.charge=40%/],
  // Three cameras at once and one pack: two more, which are not enough at 20 %.
  [
    "three packs wanted at once, one there",
    { packs: "charge: [60%],", camera: ", count: 3" },
    /count=3 --set packs\.brick\.charge=\[60%, 40%, 40%\]/,
  ],
  ["packs of a shared file", { packs: "count: 2, charge: [30%, 20%],", uses: true }, /count=3/],
  ["two hits, standby", { packs: "charge: 47%,", hits: TWO, camera: ", standby: 12 W" }, /standby=0 W/],
  [
    "standby of a shared file",
    { packs: "charge: 47%,", hits: TWO, camera: ", standby: 12 W", uses: true },
    /standby=0 W/,
  ],
  [
    "a charger of somebody who is off",
    { packs: "charge: 20%,", chargers: bench(60, ", hands: [bea]"), lodge: ", mains: true" },
    /hands=\[bea, (wren|ilse)\]/,
  ],
  // Two packs of 10 Wh that need 37: at 8 W the first takes until 23:24, when all are asleep.
  [
    "a swap before bed, and a slot more",
    {
      packs: "count: 2, charge: 10%,",
      camera: ", count: 2",
      chargers: bench(8),
      lodge: ", mains: true",
    },
    /slots=2(.|\n)*rules\.bedAfter=\d+ min/,
  ],
];

describe("a printed cure", () => {
  it.each(PLANS)("applies as printed: %s", async (_, parts, kinds) => {
    const plan = files(parts);
    const before = await codes(plan);
    expect(before.found.some((code) => /unpowered/.test(code))).toBe(true);
    const flags = await cures(plan);
    expect(flags.map((one) => one.join(" ")).join("\n")).toMatch(kinds);
    for (const one of flags) {
      const after = await codes(plan, one);
      expect([0, 1], one.join(" ")).toContain(after.code);
      expect(
        after.found.filter((code) => /unpowered|left-out/.test(code)),
        one.join(" "),
      ).toEqual([]);
    }
  });
});
