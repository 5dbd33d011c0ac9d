/** What the random plans and command lines have broken, each kept as the shortest input of its class. */
import { expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";
import { SMALLEST } from "../cli/plans.ts";
import { wrongs } from "./judged.ts";

const files = { "day.yaml": SMALLEST };

it.each([
  ["a name that every object has is looked up as an own one", ["schema", "constructor"], 2],
  ["the same with JSON asked for", ["schema", "constructor", "--bom", "--json"], 2],
  ["a finding of that name", ["explain", "__proto__"], 2],
  ["the version as JSON is JSON", ["--version", "--json"], 0],
  ["and so in the other order, with a command beside it", ["--json", "--version", "check"], 0],
  ["a wish of blanks alone takes no time", ["compare", "day.yaml", "--with", `a${" ".repeat(50_000)}x`], 2],
] as const)("%s", async (_, argv, status) => {
  const timed = async () => {
    const begin = process.cpuUsage();
    const run = await ran(argv, { files });
    return { run, cpuMs: process.cpuUsage(begin).user / 1000 };
  };
  // The first run compiles what no run before it needed.
  await timed();
  const { run, cpuMs } = await timed();
  expect([run.code, wrongs(argv, SMALLEST, run, cpuMs)]).toEqual([status, []]);
});

it("a comma behind a private value does not bring it into an error", async () => {
  const text = `${SMALLEST}paths: { b: { booking: "ZQHIDDEN 1", phone: "ZQHIDDEN 1", 0 } }\n`;
  for (const argv of [
    ["sheet", "day.yaml", "--ascii", "--redact", "--set", "km.UTC.1=here"],
    ["check", "day.yaml", "--redact", "--json"],
  ]) {
    const run = await ran(argv, { files: { "day.yaml": text } });
    expect([run.code, wrongs(argv, text, run, 0)]).toEqual([3, []]);
  }
});
