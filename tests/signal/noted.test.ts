/** What is not known is neither ok nor failing: a cellular signal that no one noted, a dish without its look angle. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { assess } from "../../src/signal/index.ts";
import { daysOfFile } from "../day/read.ts";

const FILE = "fixtures/smallest.yaml";
const TEXT = readFileSync(FILE, "utf8")
  .replace("place: pier }", "place: pier, path: line, spare: cell }")
  .concat("paths:\n  line: { kind: wifi }\n  cell: { kind: cellular }\n");

async function spare(signal: string): Promise<boolean | null | undefined> {
  const days = await daysOfFile(FILE, TEXT.replace("-90.82] }", `-90.82]${signal} }`));
  const { result } = await assess({ days, patience: 1, now: null });
  return result.hits[0]?.spareOk;
}

it("is not known where the place says nothing, works where it says good, fails where it says none", async () => {
  expect([await spare(""), await spare(", signal: good"), await spare(", signal: none")]).toEqual([null, true, false]);
});

it("is so of the main path as well, and of a dish without coordinates or a slot; a failure stays one", async () => {
  const main = async (path: string, pier: string): Promise<unknown> => {
    const text = readFileSync(FILE, "utf8")
      .replace("place: pier }", "place: pier, path: out }")
      .replace("{ at: [46.81, -90.82] }", pier)
      .concat(`paths:\n  out: ${path}\n`);
    const { result } = await assess({ days: await daysOfFile(FILE, text), patience: 1, now: null });
    return result.hits[0]?.ok;
  };
  const placed = "{ at: [46.81, -90.82] }";
  expect(await main("{ kind: cellular }", placed)).toBe(null);
  expect(await main("{ kind: cellular }", "{ signal: good }")).toBe(true);
  expect(await main("{ kind: satellite, slot: 101 west }", placed)).toBe(true);
  expect(await main("{ kind: satellite, slot: 101 west }", "{}")).toBe(null);
  expect(await main("{ kind: satellite }", placed)).toBe(null);
  expect(await main('{ kind: satellite, slot: 101 west, windows: [["12:00", "13:00"]] }', "{}")).toBe(false);
});
