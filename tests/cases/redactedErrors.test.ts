/** `--redact` where a plan cannot be read: what an error says and quotes of the plan keeps its secrets as well. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { formsOf } from "../../src/render/forms.ts";
import { ran } from "../cli/fakeIo.ts";

const PLAN = readFileSync(new URL("../../fixtures/cases/sheet/secrets.yaml", import.meta.url), "utf8");
/** Written where something else is expected, or as a key that the plan does not have. */
const MISPLACED = ["77 Hidden Road", "plate ZZPLATE9", "+1 999 888 7001", "gate code 4711", "46.81123, -90.81765"];
const KEPT = /Hidden|PLATE|999.888|4711|46\.811|-90\.817|SECRET/u;
const SPOTS = [
  "place: pier",
  "who: [ilse]",
  "in: wagon",
  "drive: 35 min",
  'at: "07:00"',
  "kind: lodging",
  "revision: 3",
  "zone: America/Chicago",
  "code: rest-not-stated",
  "role: reporter",
  "nights: 2027-01-20",
  "path: dish",
];
const FORMS = formsOf("check").map(({ name }) => name);

it.each(SPOTS)("%s", { timeout: 120_000 }, async (spot) => {
  expect(PLAN).toContain(spot);
  const [key = ""] = spot.split(":");
  for (const [at, secret] of MISPLACED.entries()) {
    const wrong = [PLAN.replace(spot, `${key}: "${secret}"`), PLAN.replace(spot, `"${secret}": x`)];
    for (const [which, text] of wrong.entries()) {
      const form = FORMS[(at + which) % FORMS.length] ?? "text";
      const { out, err } = await ran(["check", "x.yaml", "--redact", "--format", form], { files: { "x.yaml": text } });
      expect(out + err).not.toBe("");
      expect(`${out}${err}`.split("\n").filter((line) => KEPT.test(line))).toEqual([]);
    }
  }
});

it("a missing file is not named by its address", async () => {
  for (const key of ["uses", "follows"]) {
    const files = { "x.yaml": `${key}: 77 Hidden Road.yaml\n${PLAN}` };
    const { code, out, err } = await ran(["check", "x.yaml", "--redact"], { files });
    expect([code, KEPT.test(`${out}${err}`)]).toEqual([3, false]);
  }
});

it("a private value of another shape than is read is not quoted, nor a line that is no YAML", async () => {
  const shapes = [
    "Rossi, under the mat",
    "[Rossi]",
    "{ Rossi: 1 }",
    "'Rossi",
    "!Rossi x",
    "&Rossi x",
    "*Rossi",
    "\n   - Rossi",
  ];
  const places = [
    "paths: { dish: { booking: V } }",
    "crew: { wren: { phone: V } }",
    "vehicles: { wagon: { keys: V } }",
    "places: { pier: { address: V } }",
    "places: { pier: { parking: V, note: V } }",
    "lines: { fair: { number: V } }",
  ];
  for (const shape of shapes)
    for (const place of places) {
      const text = `daywright: 1\ndate: 2027-01-20\nclock: America/Chicago\n${place.replaceAll("V", shape)}\n`;
      for (const form of ["text", "json"]) {
        const { code, out, err } = await ran(["check", "x.yaml", "--redact", "--format", form], {
          files: { "x.yaml": text },
        });
        expect([code, `${out}${err}`.split("\n").filter((line) => line.includes("Rossi"))]).toEqual([3, []]);
      }
    }
});
