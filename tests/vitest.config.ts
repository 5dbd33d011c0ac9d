/** Tests run on two cores, under a time zone and a language that would show any use of the machine's own. */
import { defineConfig } from "vitest/config";

process.env["TZ"] = "Pacific/Apia";
process.env["LANG"] = "tr_TR.UTF-8";
// Node 20 reads these certificates at each start; tests that start the program would pay for it every time.
delete process.env["NODE_EXTRA_CA_CERTS"];

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    pool: "threads",
    maxWorkers: 2,
    // The code under test keeps no state between tests, and loading it once a worker saves more than half of the run.
    isolate: false,
    testTimeout: process.env["DAYWRIGHT_FUZZ"] === "1" ? 1_800_000 : 60_000,
  },
});
