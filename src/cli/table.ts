/** All commands. Made by `npm run tables`. */
import type { CommandFile } from "./command.ts";
import { asrunCommand } from "./commands/asrun.ts";
import { bookingsCommand } from "./commands/bookings.ts";
import { callsCommand } from "./commands/calls.ts";
import { changesCommand } from "./commands/changes.ts";
import { checkCommand } from "./commands/check.ts";
import { compareCommand } from "./commands/compare.ts";
import { completionCommand } from "./commands/completion.ts";
import { drivesCommand } from "./commands/drives.ts";
import { enduranceCommand } from "./commands/endurance.ts";
import { explainCommand } from "./commands/explain.ts";
import { handoverCommand } from "./commands/handover.ts";
import { hoursCommand } from "./commands/hours.ts";
import { kitCommand } from "./commands/kit.ts";
import { lightCommand } from "./commands/light.ts";
import { logCommand } from "./commands/log.ts";
import { newCommand } from "./commands/new.ts";
import { nextCommand } from "./commands/next.ts";
import { nowCommand } from "./commands/now.ts";
import { powerCommand } from "./commands/power.ts";
import { repairCommand } from "./commands/repair.ts";
import { schemaCommand } from "./commands/schema.ts";
import { sheetCommand } from "./commands/sheet.ts";
import { signalCommand } from "./commands/signal.ts";
import { timecardCommand } from "./commands/timecard.ts";

/** All commands, in the order in which help lists them. */
export const COMMANDS: readonly CommandFile[] = [
  callsCommand,
  hoursCommand,
  powerCommand,
  drivesCommand,
  lightCommand,
  signalCommand,
  kitCommand,
  bookingsCommand,
  checkCommand,
  changesCommand,
  compareCommand,
  repairCommand,
  enduranceCommand,
  sheetCommand,
  newCommand,
  nextCommand,
  logCommand,
  nowCommand,
  asrunCommand,
  handoverCommand,
  timecardCommand,
  explainCommand,
  schemaCommand,
  completionCommand,
];
