/** How often a random test runs: a little in the usual run, much more under `npm run fuzz` (DAYWRIGHT_FUZZ=1). */
export const runs = (normal: number, fuzz: number): number => (process.env["DAYWRIGHT_FUZZ"] === "1" ? fuzz : normal);
