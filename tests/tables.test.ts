/** The tables of forms, commands, pages, rule sets and reports are as the files of their folders make them. */
import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

it("are what `npm run tables` writes", { timeout: 60_000 }, () => {
  const script = fileURLToPath(new URL("../bin/makeTables.mjs", import.meta.url));
  expect(() => execFileSync(process.execPath, [script, "--check"], { stdio: "pipe" })).not.toThrow();
});
