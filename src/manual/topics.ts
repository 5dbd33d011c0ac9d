/** The pages of the manual by name, each with what it is about: all that help and completion need to know of them. */

/** Pages without those of a section of the plan. */
export const HELP_PAGES: ReadonlyMap<string, string> = new Map([
  ["first-night", "a first plan and what comes of it, command by command"],
  ["plan", "the plan's sections and values; `help plan SECTION` has each key"],
  ["json", "JSON, its schemas, streams and CSV"],
  ["logs", "log files, for hours and pay alone"],
  ["recipes", "a hook, a step for CI, a message to the chat, a weekly report"],
  ["numbers", "where each figure is from, and what is not modelled"],
  ["promises", "what stays as it is from version to version"],
  ["versions", "what changed in each version"],
]);
