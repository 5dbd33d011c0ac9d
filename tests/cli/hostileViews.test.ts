/**
 * Hostile text through every view of a day in motion, in every form: nothing that a terminal, a spreadsheet, a page or a chat
 * would take for more than text. The forms' own tests say why each of these is harmful.
 */
import { readdirSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { parseCsv } from "../render/parseCsv.ts";
import { ran } from "./fakeIo.ts";

const folder = new URL("../../fixtures/days/", import.meta.url);
const demo = Object.fromEntries(
  readdirSync(folder).map((name) => [name, readFileSync(new URL(name, folder), "utf8")] as const),
);

/** A formula, a tag, a mention, a table's bar, a link, code; control characters are refused when a plan is read. */
const EVIL = "=1+1 <img src=x> @everyone | https://x.example [a](b) `c`";
const quoted = `"${EVIL}"`;

/** Every text that these views print: names, titles, notes, what a permit is, bookings, keys, lines. */
const HOSTILE = {
  ...demo,
  "assignment.yaml": (demo["assignment.yaml"] ?? "")
    .replace("title: Freighter in the ice", `title: ${quoted}`)
    .replace("name: Wren Aalto", `name: ${quoted}`)
    .replace("name: uplink truck, keys: with the engineer", `name: ${quoted}, keys: ${quoted}`)
    .replace("name: ore dock, east lot", `name: ${quoted}`)
    .replace("what: two vehicles on the lot", `what: ${quoted}`)
    .replace("holder: the ore dock, number: P-77", `holder: ${quoted}, number: ${quoted}`)
    .replace("booking: C-118", `booking: ${quoted}`)
    .replace('number: "+1 555 0160"', `number: ${quoted}`),
  "2027-01-20.yaml": (demo["2027-01-20.yaml"] ?? "")
    .replace("show: midday", `show: ${quoted}`)
    .replace("booking: L-2194", `booking: ${quoted}`)
    .replace("what: pictures", `what: ${quoted}`)
    .concat(
      `\nactual: { dawn.1: { at: "08:00", note: ${quoted} }, wren: { note: ${quoted} }, truck: { note: ${quoted} } }\n`,
    ),
};

const NOW = ["--now", "07:10 CT"];
const COMMANDS: readonly (readonly string[])[] = [
  ["changes", "2027-01-20.yaml", "--set", `tasks.feed.what=${quoted}`, "--set", "hits.noon.at=13:45"],
  ["compare", "2027-01-20.yaml", "--with", "@everyone <img>: hits.noon.at=13:45", "--with", "<b>: hits.gone.at=13:45"],
  ["endurance", "2027-01-20.yaml", ...NOW],
  ["now", "2027-01-20.yaml", ...NOW],
  ["asrun", "2027-01-20.yaml"],
  ["bookings", "2027-01-20.yaml"],
  ["handover", "2027-01-20.yaml", ...NOW],
];

const rows = COMMANDS.flatMap((words) =>
  [
    "text",
    "list",
    "markdown",
    "csv",
    "json",
    ...(["changes", "compare", "now"].includes(words[0] ?? "") ? ["chat"] : []),
  ].map((form): readonly [string, string, readonly string[]] => [words[0] ?? "", form, words]),
);

it.each(rows)("%s as %s", { timeout: 120_000 }, async (_, form, words) => {
  const { code, out, err } = await ran([...words, "--format", form], { files: HOSTILE });
  expect([0, 1], err.slice(0, 400)).toContain(code);
  expect(out.length).toBeGreaterThan(20);
  // No control character but line ends, and nothing that turns the direction of what follows.
  expect(out).not.toMatch(form === "csv" ? /[^\P{Cc}\r\n]/u : /[^\P{Cc}\n]/u);
  expect(out).not.toMatch(/[\u202a-\u202e\u2066\u2067]/u);
  if (form === "csv") for (const cell of parseCsv(out).flat()) expect(cell).not.toMatch(/^[=+@]|^-(?![\d.])/u);
  if (form === "markdown") expect(out).not.toMatch(/(?<!\\)<img|(?<!\\)\[a\]\(b\)|^# <|^# =/mu);
  if (form === "chat") expect(out).not.toMatch(/[@<>]|(?<!\\)`|https:\/\/|(?<!\\)\[/u);
  if (form === "json") expect(() => JSON.parse(out)).not.toThrow();
  if (["text", "list"].includes(form)) expect(out).not.toContain("\u001b");
});
