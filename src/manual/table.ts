/** The pages of the manual by name: what help and completion need to know of them; the rest is loaded when it is asked for. Made by `npm run tables`. */
import type { PageRow } from "./page.ts";

/** Every page, in the order in which help lists them. */
export const PAGES: Readonly<Record<string, PageRow>> = {
  "first-night": {
    about: "a first plan and what comes of it, command by command",
    load: async () => (await import("./pages/firstNight.ts")).firstNightEntry,
  },
  plan: {
    about: "the plan's sections and values; `help plan SECTION` has each key",
    load: async () => (await import("./pages/plan.ts")).planEntry,
  },
  json: { about: "JSON, its schemas, streams and CSV", load: async () => (await import("./pages/json.ts")).jsonEntry },
  logs: { about: "log files, for hours and pay alone", load: async () => (await import("./pages/logs.ts")).logsEntry },
  recipes: {
    about: "a hook, a step for CI, a message to the chat, a weekly report",
    load: async () => (await import("./pages/recipes.ts")).recipesEntry,
  },
  numbers: {
    about: "where each figure is from, and what is not modelled",
    load: async () => (await import("./pages/numbers.ts")).numbersEntry,
  },
  promises: {
    about: "what stays as it is from version to version",
    load: async () => (await import("./pages/promises.ts")).promisesEntry,
  },
  versions: {
    about: "what changed in each version",
    load: async () => (await import("./pages/versions.ts")).versionsEntry,
  },
};
