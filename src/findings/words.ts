/** Wording that the sentences of findings and the cells of reports share. */
import type { Say } from "./finding.ts";

/** The display names of people, vehicles, places or pieces: `Wren, Ilse`; people in the order of their calls. */
export const names = (ids: readonly string[], say: Pick<Say, "name" | "inOrder">): string =>
  (say.inOrder?.(ids) ?? ids).map((id) => say.name(id)).join(", ");
