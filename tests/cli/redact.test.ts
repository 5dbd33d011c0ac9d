/** `--redact`: no command in any form prints a telephone number, a booking or an address of the demo, its plan lines included. */
import { readdirSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { ran } from "./fakeIo.ts";
import { SMALLEST } from "./plans.ts";

const folder = new URL("../../fixtures/days/", import.meta.url);
const files = Object.fromEntries(
  readdirSync(folder).map((name) => [name, readFileSync(new URL(name, folder), "utf8")] as const),
);
/** Numbers of crew, lines and the satellite's desk; bookings of windows and rooms, a permit's number; where keys are; the lodge's street; a number in a title. */
const PRIVATE = /555 01\d\d|L-21\d\d|Shore Road|555 0199|B-552\d|C-118|P-77|glove box/u;
const REPORT = ["text", "list", "json", "markdown", "csv"];

const FORMS: readonly (readonly [command: string, forms: readonly string[]])[] = [
  ["calls", ["text", "list", "json", "markdown", "csv"]],
  ["hours", ["text", "list", "json", "markdown", "csv"]],
  ["power", ["text", "list", "json", "markdown", "csv"]],
  ["drives", ["text", "list", "json", "markdown", "csv"]],
  ["light", ["text", "list", "json", "markdown", "csv"]],
  ["signal", ["text", "list", "json", "markdown", "csv"]],
  ["kit", ["text", "list", "json", "markdown", "csv"]],
  ["check", ["text", "list", "json", "markdown", "csv", "ndjson", "sarif", "unix"]],
  ["sheet", ["text", "markdown", "html", "ics", "chat", "csv", "json"]],
  ["timecard", REPORT],
  [
    "changes --set hits.noon.at=13:45 --set paths.dish.phone=+15550199 --set paths.dish.booking=L-2199",
    [...REPORT, "chat"],
  ],
  ["compare --with", [...REPORT, "chat"]],
  ["endurance", REPORT],
  ["now", [...REPORT, "chat"]],
  ["asrun", REPORT],
  ["bookings", REPORT],
  ["handover", REPORT],
  ["repair", REPORT],
];

it.each(FORMS)("%s", { timeout: 120_000 }, async (command, forms) => {
  const title = "title='Freighter, desk 1 906 555 0199'";
  const [name = "", ...flags] = command.split(" ");
  const more = flags[0] === "--with" ? ["--with", "call 1 906 555 0199: title=other"] : flags;
  for (const form of forms) {
    const words = [name, "2027-01-20.yaml", ...more, "--set", title, "--format", form];
    const { code, out, err } = await ran([...words, "--redact"], { files });
    expect([0, 1], `${form}: ${err}`).toContain(code);
    expect(
      `${out}${err}`.split("\n").filter((line) => PRIVATE.test(line)),
      form,
    ).toEqual([]);
  }
});

it("without the flag they are there", async () => {
  const { out } = await ran(["sheet", "2027-01-20.yaml"], { files });
  for (const one of ["555 0101", "L-2194", "Shore Road"]) expect(out).toContain(one);
});

it("a line beside the one at fault is not shown either", async () => {
  const line = (phone: string): string => `  wren: { role: camera, drives: wagon, phone: "${phone}" }\n`;
  const text = SMALLEST.replace(/ {2}wren: .*\n/u, `${line("+1 555 0101")}${line("+1 555 0102")}`);
  const told = async (...more: readonly string[]) => {
    const { code, out, err } = await ran(["check", "x.yaml", ...more], { files: { "x.yaml": text } });
    return { code, text: `${out}${err}` };
  };
  // The second wren is the mistake, the first stands beside it.
  const open = await told();
  expect([open.code, open.text.includes("555 0101"), open.text.includes("555 0102")]).toEqual([3, true, true]);
  const closed = await told("--redact");
  expect([closed.code, PRIVATE.test(closed.text)]).toEqual([3, false]);
  expect(closed.text).toMatch(/x\.yaml:7.*\(key-twice\)/u);
});

it.each(["geojson", "gpx"])("%s is made of coordinates and refuses", async (form) => {
  const { code, out, err } = await ran(["drives", "2027-01-20.yaml", "--format", form, "--redact"], { files });
  expect([code, out]).toEqual([2, ""]);
  expect(err).toContain("--redact leaves out");
});

it("a plan for tomorrow is not written without its numbers: it would be no plan", async () => {
  const { code, err, files: after } = await ran(["next", "2027-01-20.yaml", "--redact", "-o", "t.yaml"], { files });
  expect([code, after.has("/plans/t.yaml")]).toEqual([2, false]);
  expect(err).toContain("--redact is for what is printed");
});
