/** The list of changes by version. */
import { type DeclaredPage, heading, type PageText, textBlock } from "../page.ts";

const page: PageText = {
  title: "Changes by version",
  blocks: [
    heading("0.1.0"),
    textBlock("The first version."),
    textBlock(
      "Calendars: the UIDs of `sheet --format ics` changed once, before this version was published. Delete the calendar that an earlier build made, or unsubscribe from it, then import or subscribe again; otherwise each event appears twice. From this version on an event keeps its UID in every revision, as long as the plan keeps its `id` (without one: its title, date and clock).",
    ),
  ],
};

/** The page for the table. */
export const versionsEntry: DeclaredPage = {
  name: "versions",
  place: 80,
  about: "what changed in each version",
  page: () => page,
};
