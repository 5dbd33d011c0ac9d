/**
 * The cases of `fixtures/cases/sheet`. With `--redact` nothing of what a sheet keeps from strangers is in any form of any
 * command; hostile text is inert; long and right-to-left names and one person alone make a sheet.
 */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { formsOf } from "../../src/render/forms.ts";
import { ran } from "../cli/fakeIo.ts";

const FOLDER = new URL("../../fixtures/cases/sheet/", import.meta.url);
const CASES = readdirSync(FOLDER);
const read = (name: string): string => readFileSync(new URL(name, FOLDER), "utf8");
/** Every command that prints a report of a plan, each with the flags that make it print the most. */
const LINES: readonly (readonly string[])[] = [
  ...["calls", "hours", "power", "drives", "light", "signal", "kit", "check", "sheet", "timecard"].map((one) => [one]),
  ...["bookings", "handover", "asrun", "repair"].map((one) => [one]),
  ["endurance", "--now", "09:00"],
  ["now", "--now", "06:30"],
  ["handover", "--now", "09:00"],
  ["changes", "--since", "OLD"],
  [
    "compare",
    ...["--with", "later 999 888 7030: hits.dawn.at=07:30", "--with", "OLD"],
    ...["--with", "gate: places.pier.parking=PARKSECRET", "--with", "x: hits.dawn.show=code 4716"],
  ],
  ["calls", "--since", "OLD"],
  ["calls", "--why", "wren.call"],
  ["sheet", "--since", "OLD"],
  ["sheet", "--for", "wren"],
  ["sheet", "--for", "wagon"],
  ["sheet", "--for", "dawn"],
  ["sheet", "--for", "pier"],
  ["drives", "--relief"],
  ["check", "--long"],
];

/** Digits of any script as ASCII, so that one pattern finds them all. */
const ascii = (text: string): string =>
  text.replace(/\p{Nd}/gu, (digit) => {
    const zero = [...Array(10).keys()].find(
      (value) => !/\p{Nd}/u.test(String.fromCodePoint((digit.codePointAt(0) ?? 0) - value - 1)),
    );
    return String(zero ?? digit);
  });

/**
 * What was written into the cases to be kept: numbers that begin 999 888 7, words that end in SECRET, addresses, codes of
 * doors (47…, 44…, 55…), plates, positions.
 */
const SECRETS =
  /PLATE|BND|Hidden|999\D{0,3}888\D{0,3}70|SECRET|PARK\b|4417|551[0-9]|552[0-9]|471\d|BOOKREF|PIERNOTE|address|Hospitalroad|46\.(?:59321|81123)|46,?81123|90\.8(?:8432|1765)|46°48|example\.org/u;

const FORMS = LINES.flatMap((line) =>
  formsOf(line[0] ?? "")
    .filter(({ coordinates }) => coordinates !== true)
    .map(({ name }) => [line.join(" "), name, line] as const),
);

/** A second version of a plan, with other secrets in the same places. */
const older = (text: string): string =>
  text
    .replaceAll(/(?<=\D)70([012]\d)/gu, "708$1")
    .replace('at: "07:00"', 'at: "07:15"')
    .replace("revision: 3", "revision: 2");

describe.each(["red.yaml", "redmin.yaml", "accept.yaml", "secrets.yaml"])("%s", (name) => {
  // A file's name may hold a number as well.
  const file = "call 999 888 7000.yaml";
  const old = "old 999 888 7031.yaml";
  const files = { [file]: read(name), [old]: older(read(name)) };
  it.each(FORMS)("%s as %s keeps every secret", { timeout: 60_000 }, async (_, form, [command = "", ...flags]) => {
    const words = flags.map((word) => (word === "OLD" ? old : word));
    const { code, out, err } = await ran([command, file, ...words, "--format", form, "--redact"], { files });
    expect([0, 1], err).toContain(code);
    const found = `${out}${err}`.split("\n").filter((line) => SECRETS.test(ascii(line)));
    expect(found).toEqual([]);
  });
});

it("the secrets are there without the flag, so that the pattern finds them", async () => {
  const { out } = await ran(["sheet", "x.yaml"], { files: { "x.yaml": read("secrets.yaml") } });
  expect(out.split("\n").filter((line) => SECRETS.test(ascii(line))).length).toBeGreaterThan(10);
});

describe.each(CASES)("%s", (name) => {
  it.each(formsOf("sheet").map((form) => form.name))("is a sheet as %s", { timeout: 60_000 }, async (form) => {
    const { code, out, err } = await ran(["sheet", name, "--format", form], { files: { [name]: read(name) } });
    expect([0, 1], err).toContain(code);
    expect(out.length).toBeGreaterThan(0);
    // Controls and marks that turn the reading direction are inert everywhere; line ends and tabs may stand.
    expect(/\p{Cc}|[\u202a-\u202e]/u.test(out.replaceAll(/[\n\r\t]/gu, ""))).toBe(false);
    if (form === "html") expect(/<(?:script|img|iframe|a href="javascript)/iu.test(out)).toBe(false);
  });
});
