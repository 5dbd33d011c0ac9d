/** Which kinds of edit may help against which finding: each code names its own, in the order in which they are tried. */
import type { Finding } from "../findings/finding.ts";

/** The kinds of edits that a repair may be made of. */
export const EDIT_KINDS = [
  "outage",
  "leave",
  "order",
  "taskTime",
  "meal",
  "stay",
  "driver",
  "standIn",
  "hand",
  "kit",
  "pack",
  "slot",
  "mount",
  "fuel",
  "path",
  "place",
  "lodging",
  "fetch",
  "dropTask",
  "giveUp",
] as const;
/** A kind of edit. */
export type EditKind = (typeof EDIT_KINDS)[number];

const LONG_DAY: readonly EditKind[] = [
  "leave",
  "order",
  "taskTime",
  "stay",
  "standIn",
  "hand",
  "fetch",
  "dropTask",
  "giveUp",
];
/** At the wheel too long, too late or without a break: how work lies before and between the legs counts as much as who drives. */
const WHEEL: readonly EditKind[] = [
  "driver",
  "standIn",
  "taskTime",
  "order",
  "lodging",
  "leave",
  "stay",
  "dropTask",
  "giveUp",
];
const NO_ROOM: readonly EditKind[] = [
  ...(["leave", "order", "taskTime", "stay", "hand", "path", "place", "dropTask", "giveUp"] as const),
];
const SIGNAL: readonly EditKind[] = ["path", "place", "giveUp"];
const POWER: readonly EditKind[] = ["pack", "slot", "giveUp"];

/** The engines that find what an edit may help against; `day`: the placing of the day itself, which every judgement has. */
export type Engine = "hours" | "power" | "signal" | "kit" | "roads" | "bookings";

/** By the engine that finds it. */
const KINDS: Readonly<Record<Exclude<Engine, "bookings"> | "day", Readonly<Record<string, readonly EditKind[]>>>> = {
  day: {
    "out-of-service": ["outage", "giveUp"],
    "hit-missed": NO_ROOM,
    "task-missed": NO_ROOM,
    "stop-time-missed": ["leave", "order", "taskTime", "stay", "dropTask", "giveUp"],
    "ride-missed": ["leave", "order", "taskTime", "stay", "dropTask", "giveUp"],
  },
  hours: {
    "rest-too-short": LONG_DAY,
    "rest-too-late": LONG_DAY,
    "duty-too-long": LONG_DAY,
    "day-off-too-short": LONG_DAY,
    "driving-too-long": WHEEL,
    "window-over": WHEEL,
    "break-missed": [...WHEEL, "meal"],
    "week-too-long": WHEEL,
    "awake-too-long-at-wheel": WHEEL,
    "short-sleep-at-wheel": WHEEL,
    "meal-late": ["meal", "taskTime", "order"],
  },
  roads: {
    "place-closed": ["order", "taskTime", "place", "dropTask"],
    "chance-low": ["order", "taskTime", "stay", "dropTask"],
    "slip-too-long": ["order", "taskTime", "stay", "dropTask"],
    "fuel-short": ["fuel"],
    "fuel-due-short": ["fuel"],
  },
  power: {
    "hit-unpowered": POWER,
    "hit-left-out": POWER,
    "standby-unpowered": POWER,
    "packs-fit-nothing": ["mount"],
    "load-fits-no-pack": ["mount"],
    "charger-fits-no-pack": ["mount"],
  },
  kit: {
    "kit-missing": ["kit", "place", "giveUp", "dropTask"],
  },
  signal: {
    "skyline-blocks": SIGNAL,
    "slot-too-low": SIGNAL,
    "slot-below-horizon": SIGNAL,
    "window-missing": SIGNAL,
    "window-too-short": SIGNAL,
    "dish-elsewhere": SIGNAL,
    "cellular-signal-none": SIGNAL,
    "cellular-signal-weak": ["path", "place"],
    "path-double-booked": ["path", "order", "taskTime", "giveUp"],
    "feed-too-slow": ["path"],
    "cable-too-short": SIGNAL,
    "cable-beyond-reach": SIGNAL,
    "cable-across-road": SIGNAL,
  },
};

interface KnownCode {
  readonly kinds: readonly EditKind[];
  readonly engine: Engine | null;
}

const BY_CODE: ReadonlyMap<string, KnownCode> = new Map(
  (["day", "hours", "roads", "power", "kit", "signal"] as const).flatMap((engine) =>
    Object.entries(KINDS[engine]).map(([code, kinds]): [string, KnownCode] => [
      code,
      { kinds, engine: engine === "day" ? null : engine },
    ]),
  ),
);

/** The kinds of edit that may help against a code; none if only a person can tell. */
export const kindsFor = (code: string): readonly EditKind[] => BY_CODE.get(code)?.kinds ?? [];

/** The engines that find these codes, besides the placing of the day. */
export const enginesFor = (codes: readonly string[]): readonly Engine[] => [
  ...new Set(codes.flatMap((code) => BY_CODE.get(code)?.engine ?? [])),
];

/** Every code that has kinds of edit. */
export const repairableCodes: readonly string[] = [...BY_CODE.keys()];

/** Findings that an edit of some kind may help against. */
export const repairable = (findings: readonly Finding[]): readonly Finding[] =>
  findings.filter(({ code, accepted }) => accepted === null && kindsFor(code).length > 0);
