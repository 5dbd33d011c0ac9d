/** Questions of law about a log are printed by `hours` itself, because `check` reads plans only. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { ran } from "./fakeIo.ts";

// Four shifts from 21:00 to 06:00 are night work: Directive 2003/88/EC Art 8 asks what national law allows.
it("night work in a log is asked about once in the text, and --quiet leaves it out", async () => {
  const files = { "log.yaml": readFileSync("fixtures/cases/hours/log-T03.yaml", "utf8") };
  const { err } = await ran(["hours", "log.yaml"], { files });
  expect(err.match(/night work: 8 h on average in 24/g)).toHaveLength(1);
  expect((await ran(["hours", "log.yaml", "--quiet"], { files })).err).toBe("");
});
