/** What plans of one folder say of each other. */
import { define, names } from "../../findings/finding.ts";

export const bookedTwice = define<{ what: readonly string[]; others: readonly string[] }>({
  code: "booked-twice",
  level: "warning",
  title: "two plans use the same people or gear at the same time",
  why: "One person, vehicle, pack, piece or path cannot serve two crews at once.",
  cure: "Take it out of one of the plans, or move one of them; versions of one plan state the same `id`.",
  example: "daywright check day.yaml other.yaml     # both have the wagon",
  sentence: (f, say) =>
    `${names(f.what, say)} ${f.what.length === 1 ? "is" : "are"} also booked in ${files(f.others)} at that time`,
  hint: (f) =>
    `take ${f.what.length === 1 ? "it" : "them"} out of one of the plans; versions of one plan state the same \`id\``,
});

/** So many plans are named; more are counted. */
const NAMED = 3;

const files = (all: readonly string[]): string =>
  all.length > NAMED + 1 ? `${all.slice(0, NAMED).join(", ")} and ${all.length - NAMED} more plans` : all.join(", ");

export const dateTwice = define<{ plan: string; other: string }>({
  code: "date-twice",
  level: "note",
  title: "two files are versions of one plan",
  why: "Plans of one `id` are an old copy, or another variant, of the same day: their bookings are not compared.",
  cure: "Nothing, if that is meant; otherwise give one of them an `id` of its own.",
  example: "daywright check calm.yaml storm.yaml     # both state id: the-day",
  sentence: (f) =>
    `\`id: ${f.plan}\` is also that of ${f.other}: two versions of one plan, whose bookings are not compared`,
  hint: () => null,
});
