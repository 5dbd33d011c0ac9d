/** All commands, in the order in which help lists them. */
import type { CommandFile } from "../command.ts";
import { asrun } from "./asrun.ts";
import { bookingsCommand } from "./bookings.ts";
import { calls } from "./calls.ts";
import { changes } from "./changes.ts";
import { check } from "./check.ts";
import { compare } from "./compare.ts";
import { completion } from "./completion.ts";
import { drives } from "./drives.ts";
import { endurance } from "./endurance.ts";
import { explain } from "./explain.ts";
import { handover } from "./handover.ts";
import { hoursCommand } from "./hours.ts";
import { kit } from "./kit.ts";
import { light } from "./light.ts";
import { log } from "./log.ts";
import { create } from "./new.ts";
import { next } from "./next.ts";
import { now } from "./now.ts";
import { power } from "./power.ts";
import { repair } from "./repair.ts";
import { schemaCommand } from "./schema.ts";
import { sheet } from "./sheet.ts";
import { signal } from "./signal.ts";
import { timecard } from "./timecard.ts";

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
