/** Every report by its name, which is that of its folder: the topics that it needs; the rest is loaded when it is asked for. Made by `npm run tables`. */
import type { Topic } from "./shared/judged.ts";
import type { ReportMaker } from "./shared/report.ts";

/** A report before it is loaded. */
export interface ReportRow {
  readonly topics: readonly Topic[];
  readonly load: () => Promise<ReportMaker>;
}

/** All reports of a judged day. */
export const REPORTS = {
  calls: { topics: [], load: async () => (await import("./calls/index.ts")).callsMaker },
  hours: { topics: ["hours"], load: async () => (await import("./hours/index.ts")).hoursMaker },
  power: { topics: ["power"], load: async () => (await import("./power/index.ts")).powerMaker },
  drives: { topics: ["roads"], load: async () => (await import("./drives/index.ts")).drivesMaker },
  light: { topics: ["sky"], load: async () => (await import("./light/index.ts")).lightMaker },
  signal: { topics: ["signal"], load: async () => (await import("./signal/index.ts")).signalMaker },
  kit: { topics: ["kit"], load: async () => (await import("./kit/index.ts")).kitMaker },
  check: {
    topics: ["sky", "signal", "power", "hours", "kit", "cautions", "roads", "bookings"],
    load: async () => (await import("./check/index.ts")).checkMaker,
  },
  repair: {
    topics: ["sky", "signal", "power", "hours", "kit", "cautions", "roads", "bookings"],
    load: async () => (await import("./repair/index.ts")).repairMaker,
  },
  now: {
    topics: ["sky", "signal", "power", "hours", "kit", "cautions", "roads", "bookings"],
    load: async () => (await import("./now/index.ts")).nowMaker,
  },
  asrun: { topics: ["power"], load: async () => (await import("./asrun/index.ts")).asrunMaker },
  handover: {
    topics: ["sky", "signal", "power", "hours", "kit", "cautions", "roads", "bookings"],
    load: async () => (await import("./handover/index.ts")).handoverMaker,
  },
  bookings: { topics: ["bookings"], load: async () => (await import("./bookings/index.ts")).bookingsMaker },
  changes: {
    topics: ["sky", "signal", "power", "hours", "kit", "cautions", "roads", "bookings"],
    load: async () => (await import("./changes/index.ts")).changesMaker,
  },
  compare: {
    topics: ["sky", "signal", "power", "hours", "kit", "cautions", "roads", "bookings"],
    load: async () => (await import("./compare/index.ts")).compareMaker,
  },
  endurance: {
    topics: ["hours", "power", "roads"],
    load: async () => (await import("./endurance/index.ts")).enduranceMaker,
  },
  sheet: {
    topics: ["sky", "signal", "power", "hours", "kit", "cautions", "roads", "bookings"],
    load: async () => (await import("./sheet/index.ts")).sheetMaker,
  },
  timecard: { topics: [], load: async () => (await import("./timecard/index.ts")).timecardMaker },
} satisfies Readonly<Record<string, ReportRow>>;
