/** What is judged of a day, in the order in which it is judged: a topic may read what earlier ones found out. */
export const TOPICS = ["sky", "signal", "power", "hours", "kit", "cautions", "roads", "bookings"] as const;
/** A topic that an engine judges. */
export type Topic = (typeof TOPICS)[number];
