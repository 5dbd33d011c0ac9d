/** Wall clock to instant and back, as often as a long plan needs it. */
import { isoLocal, resolveLocal, zone } from "../../src/time/index.ts";
import type { Bench } from "./bench.ts";

const UNITS = 1000;
const names = ["America/New_York", "America/Chicago", "Europe/London", "Australia/Lord_Howe", "Asia/Tokyo"];

export const benches: readonly Bench[] = [
  {
    name: "a local time to its instant and its ISO text",
    units: UNITS,
    run() {
      let letters = 0;
      for (let i = 0; i < UNITS; i++) {
        const id = zone(names[i % names.length] ?? "");
        if (id === null) continue;
        const reading = resolveLocal("2027-01-20", i % 1440, id);
        if (reading.kind === "once") letters += isoLocal(reading.at, id).length;
      }
      return letters;
    },
  },
];
