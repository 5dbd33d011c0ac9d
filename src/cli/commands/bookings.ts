/** `bookings PLAN…`: windows, beds, permits and returns: what is booked, what is missing, whom to call. */
import { planCommand } from "../plan/planCommand.ts";

/** The command `bookings`. */
export const bookingsCommand = planCommand({
  name: "bookings",
  place: 80,
  summary: "print what must be booked: windows, beds, permits, returns; what is missing, whom to call",
});
