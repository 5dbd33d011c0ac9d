/** A spare over a cellular signal that nobody noted is neither ok nor failing. */
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
