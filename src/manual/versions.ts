/** The list of changes by version. */
import { heading, type Page, text } from "./page.ts";

export const page: Page = {
  name: "versions",
  title: "Changes by version",
  blocks: [heading("0.1.0"), text("The first version.")],
};
