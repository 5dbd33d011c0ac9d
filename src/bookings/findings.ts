/** What can be said of what must be booked: beds, windows, permits, and what goes back. */
import { define, names } from "../findings/finding.ts";
import type { Instant } from "../time/units.ts";

export const bookingMissing = define<{ who: readonly string[]; place: string; night: string }>({
  code: "booking-missing",
  level: "warning",
  title: "someone sleeps where no room is booked for them",
  why: "The plan lists the rooms of this lodging, and none of them is for these people that night.",
  cure: "Book a room and add it to `rooms`, or correct `sleeps`.",
  example: `
    places:
      lodge:
        rooms: [{ who: wren, nights: [2027-01-20] }]
  `,
  sentence: (f, say) =>
    `${names(f.who, say)} ${f.who.length === 1 ? "sleeps" : "sleep"} at ${say.name(f.place)} on ${f.night} without a room`,
  hint: () => "book one and add it to `rooms`",
});

export const bookingUnused = define<{
  what: string;
  who: readonly string[];
  night: string | null;
  from: { at: Instant } | null;
}>({
  code: "booking-unused",
  level: "note",
  title: "a booking that nothing uses",
  why: "A room or a window that stands empty costs money, and may be meant for another night or another hit.",
  cure: "Cancel it, or correct its dates.",
  example: `
    paths:
      dish: { windows: [["05:15", "09:15"], ["21:00", "21:30"]] }
  `,
  sentence: (f, say) =>
    f.night === null
      ? `a window of ${say.name(f.what)} is booked and not used${f.from === null ? "" : `: ${say.time(f.from.at)}`}`
      : `a room at ${say.name(f.what)} is booked on ${f.night} for ${names(f.who, say)}, who ${f.who.length === 1 ? "sleeps" : "sleep"} elsewhere`,
  hint: () => "cancel it, or correct it",
});

export const permitMissing = define<{ permit: string; place: string; from: { at: Instant }; to: { at: Instant } }>({
  code: "permit-missing",
  level: "warning",
  title: "a stay outside its permit",
  why: "The plan states a permit for this place, and someone is there when it does not hold.",
  cure: "Have it extended, or be there while it holds.",
  example: `
    permits:
      quay: { what: parking, place: pier, from: "04:00", to: "05:00" }
  `,
  sentence: (f, say) =>
    `${f.permit} does not cover the whole stay at ${say.name(f.place)}: ${say.time(f.from.at, f.place)} to ${say.time(f.to.at, f.place)}`,
  hint: () => "have it extended",
});

export const lateCheckout = define<{
  who: readonly string[];
  place: string;
  until: { at: Instant };
  checkOut: { at: Instant };
}>({
  code: "late-checkout",
  level: "note",
  title: "someone leaves their lodging after check-out",
  why: "They sleep elsewhere the next night and are still at the lodging, or come back to it, after the time of check-out.",
  cure: "Ask for a late check-out, or take the bags along.",
  example: `
    places:
      lodge: { checkOut: "03:00" }
    runs:     # the night after is at the inn
      wagon:
        aboard: [wren, ilse]
        stops: [lodge, { place: pier, do: [dawn, breakfast] }, dock, inn]
  `,
  sentence: (f, say) =>
    `${names(f.who, say)} ${f.who.length === 1 ? "is" : "are"} at ${say.name(f.place)} until ${say.time(f.until.at, f.place)}; check-out is at ${say.time(f.checkOut.at, f.place)}`,
  hint: () => "ask for a late check-out, or take the bags along",
});

export const returnLate = define<{ item: string; place: string | null; due: { at: Instant }; is: string | null }>({
  code: "return-late",
  level: "warning",
  title: "something rented is not back in time",
  why: "When it is due, it is elsewhere.",
  cure: "Have it brought back by then, or have the rental extended.",
  example: `
    kit:
      monitor: { in: truck, due: { at: "12:00", place: dock } }
  `,
  sentence: (f, say) =>
    `${say.name(f.item)} is due${f.place === null ? "" : ` at ${say.name(f.place)}`} at ${say.time(f.due.at, f.place)}${f.is === null ? "" : ` and is ${f.is === "road" ? "on the road" : `at ${say.name(f.is)}`} then`}`,
  hint: () => "have it brought back by then, or extend the rental",
});
