/** All commands, in the order in which help lists them. */
import type { CommandFile } from "../command.ts";
import { calls } from "./calls.ts";
import { check } from "./check.ts";
import { completion } from "./completion.ts";
import { explain } from "./explain.ts";

export const COMMANDS: readonly CommandFile[] = [calls, check, explain, completion];
