/** What a finding suggests, as far as it is sound: every report of a plan needs it, and seldom the search of repairs. */
export { withSoundHints } from "../repair/cures.ts";
