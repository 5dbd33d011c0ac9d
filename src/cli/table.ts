/** All commands. Made by `npm run tables`. */
import type { CommandFile } from "./command.ts";
import { asrun } from "./commands/asrun.ts";
import { bookingsCommand } from "./commands/bookings.ts";
import { calls } from "./commands/calls.ts";
import { changes } from "./commands/changes.ts";
import { check } from "./commands/check.ts";
import { compare } from "./commands/compare.ts";
import { completion } from "./commands/completion.ts";
import { drives } from "./commands/drives.ts";
import { endurance } from "./commands/endurance.ts";
import { explain } from "./commands/explain.ts";
import { handover } from "./commands/handover.ts";
import { hoursCommand } from "./commands/hours.ts";
import { kit } from "./commands/kit.ts";
import { light } from "./commands/light.ts";
import { log } from "./commands/log.ts";
import { create } from "./commands/new.ts";
import { next } from "./commands/next.ts";
import { now } from "./commands/now.ts";
import { power } from "./commands/power.ts";
import { repair } from "./commands/repair.ts";
import { schemaCommand } from "./commands/schema.ts";
import { sheet } from "./commands/sheet.ts";
import { signal } from "./commands/signal.ts";
import { timecard } from "./commands/timecard.ts";

/** All commands, in the order in which help lists them. */
export const COMMANDS: readonly CommandFile[] = [
  calls,
  hoursCommand,
  power,
  drives,
  light,
  signal,
  kit,
  bookingsCommand,
  check,
  changes,
  compare,
  repair,
  endurance,
  sheet,
  create,
  next,
  log,
  now,
  asrun,
  handover,
  timecard,
  explain,
  schemaCommand,
  completion,
];
