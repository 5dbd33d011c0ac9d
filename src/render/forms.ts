/** The forms of output by command and by suffix. */
import type { OutputForm } from "./form.ts";
import { FORMS } from "./table.ts";

/** The forms of a command, the usual one first. */
export const formsOf = (command: string): readonly OutputForm[] =>
  FORMS.filter(({ commands }) => commands === null || commands.includes(command));

/** The form that a file's suffix asks for; null for one that no form has. */
export const formOfSuffix = (suffix: string): OutputForm | null =>
  FORMS.find(({ suffixes }) => suffixes.includes(suffix.toLowerCase())) ?? null;
