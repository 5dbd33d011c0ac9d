/** Parts of the library that are loaded when they are asked for. */

/** How an outcome is put into words: words, order of findings, the JSON envelope. */
export const answers = () => import("./answers.ts");
/** Plans written: a first one, tomorrow's, what really happened. */
export const authoring = () => import("./authoring.ts");
/** Plans side by side: who or what two of them use at the same time. */
export const doubleBookings = () => import("../day/bookings.ts");
/** Every code of a finding, explained. */
export const codes = () => import("./codes.ts");
/** Edits of a plan's text that keep its comments. */
export const edits = () => import("./edits.ts");
/** What findings suggest, tried before it is shown. */
export const hints = () => import("../repair/cures.ts");
/** Log files: read, judged, paid. */
export const logs = () => import("./logs.ts");
/** What a plan can say, key by key, for a manual. */
export const planKeys = () => import("../plan/reference.ts");
/** The day on a map. */
export const maps = () => import("../reports/drives/map.ts");
/** Proposed drivers. */
export const relief = () => import("./relief.ts");
/** Ways out of what is wrong with a day. */
export const repairs = () => import("./repairs.ts");
/** Times, lengths and zones as people write them. */
export const times = () => import("./times.ts");
