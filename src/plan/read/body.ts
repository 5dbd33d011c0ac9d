/** The part of a plan that its sections make. */
import type { Plan } from "../plan.ts";
import type { Head } from "../text/head.ts";

/** What of a plan lies below its head. */
export type Body = Omit<Plan, keyof Head | "file" | "groups" | "source">;
