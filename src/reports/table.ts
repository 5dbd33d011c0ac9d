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
  calls: { topics: [], load: async () => (await import("./calls/index.ts")).calls },
  hours: { topics: ["hours"], load: async () => (await import("./hours/index.ts")).hours },
  power: { topics: ["power"], load: async () => (await import("./power/index.ts")).power },
  drives: { topics: ["roads"], load: async () => (await import("./drives/index.ts")).drives },
  light: { topics: ["sky"], load: async () => (await import("./light/index.ts")).light },
  signal: { topics: ["signal"], load: async () => (await import("./signal/index.ts")).signal },
  kit: { topics: ["kit"], load: async () => (await import("./kit/index.ts")).kit },
  check: {
    topics: ["sky", "signal", "power", "hours", "kit", "cautions", "roads", "bookings"],
    load: async () => (await import("./check/index.ts")).check,
  },
  repair: {
    topics: ["sky", "signal", "power", "hours", "kit", "cautions", "roads", "bookings"],
    load: async () => (await import("./repair/index.ts")).repair,
  },
  now: {
    topics: ["sky", "signal", "power", "hours", "kit", "cautions", "roads", "bookings"],
    load: async () => (await import("./now/index.ts")).now,
  },
  asrun: { topics: ["power"], load: async () => (await import("./asrun/index.ts")).asrun },
  handover: {
    topics: ["sky", "signal", "power", "hours", "kit", "cautions", "roads", "bookings"],
    load: async () => (await import("./handover/index.ts")).handover,
  },
  bookings: { topics: ["bookings"], load: async () => (await import("./bookings/index.ts")).bookings },
  changes: {
    topics: ["sky", "signal", "power", "hours", "kit", "cautions", "roads", "bookings"],
    load: async () => (await import("./changes/index.ts")).changes,
  },
  compare: {
    topics: ["sky", "signal", "power", "hours", "kit", "cautions", "roads", "bookings"],
    load: async () => (await import("./compare/index.ts")).compare,
  },
  endurance: {
    topics: ["hours", "power", "roads"],
    load: async () => (await import("./endurance/index.ts")).endurance,
  },
  sheet: {
    topics: ["sky", "signal", "power", "hours", "kit", "cautions", "roads", "bookings"],
    load: async () => (await import("./sheet/index.ts")).sheet,
  },
  timecard: { topics: [], load: async () => (await import("./timecard/index.ts")).timecard },
} satisfies Readonly<Record<string, ReportRow>>;
