/** Plans side by side: what two of them use at the same time. */
export { claimOf, compareClaims } from "../day/bookings.ts";
