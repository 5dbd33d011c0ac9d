/** All commands, in the order in which help lists them. */
import type { CommandFile } from "../command.ts";
import { calls } from "./calls.ts";
import { check } from "./check.ts";
import { completion } from "./completion.ts";
import { drives } from "./drives.ts";
import { explain } from "./explain.ts";
import { schema } from "./schema.ts";
import { sheet } from "./sheet.ts";

export const COMMANDS: readonly CommandFile[] = [calls, drives, check, sheet, explain, schema, completion];
