/** Mistakes in lengths, times and zones of a plan. */
import { wordList } from "../../findings/figures.ts";
import { mistake } from "./mistake.ts";

export const lengthBad = mistake<{ text: string; fix: string | null; isHit: boolean }>({
  code: "length-bad",
  title: "a length of time that cannot be read",
  why: "Lengths are whole minutes: `35 min`, `1h20`, `1 h 20 min`, `PT35M`.",
  cure: "Write it like one of these.",
  example: `
    hits:
      dawn: { at: 07:00, for: 3 minits, place: pier }
  `,
  sentence: ({ text }) =>
    /^\s*[-−–]\s?\d/.test(text)
      ? `\`${text}\` is a negative length of time`
      : `\`${text}\` is not a length of time in whole minutes`,
  hint: ({ text, fix, isHit }) => {
    if (fix === null) return "write whole hours and minutes, with `h` and `min`";
    // `2:30` on a rundown is two and a half minutes.
    const [, minutes = null, seconds = "0"] = (isHit ? /^(\d{1,2}):([0-5]\d)$/.exec(text) : null) ?? [];
    const onAir =
      minutes === null ? "" : `, or \`${Number(minutes) + (Number(seconds) > 0 ? 1 : 0)} min\` for minutes and seconds`;
    return `\`${fix.replace(" or ", "` or `")}\`${onAir}`;
  },
});

export const timeBad = mistake<{ text: string; fix: string | null }>({
  code: "time-bad",
  title: "a time that cannot be read",
  why: 'A time is `"05:00"`, followed by a zone if it is not on the control room\'s clock.',
  cure: "Write it like one of the examples.",
  example: `
    hits:
      dawn: { at: 7 am, for: 3 min, place: pier }
  `,
  sentence: ({ text }) => `\`${text}\` is not a time`,
  hint: ({ fix }) => fix ?? 'write it like `"05:00"`, `"05:00 local"`, `"01:30 +1d"` or `2027-01-20T05:00-06:00`',
});

export const timeSkipped = mistake<{ text: string; zone: string; before: string; after: string }>({
  code: "time-skipped",
  title: "a time that the clocks skip",
  why: "When the clocks go forward, the minutes in between do not exist, so it is unclear which hour is meant.",
  cure: "Write the time with its offset from UTC, or the clock time that is meant.",
  example: `
    date: 2027-03-14
    hits:
      night: { at: 02:30, for: 3 min, place: pier }
  `,
  sentence: ({ text, zone }) => `the clocks of ${zone} skip \`${text}\``,
  hint: ({ before, after }) => `${before} or ${after}`,
});

export const timeTwice = mistake<{ text: string; zone: string; earlier: string; later: string }>({
  code: "time-twice",
  title: "a time that the clocks show twice",
  why: "When the clocks go back, an hour comes twice, so it is unclear which one is meant.",
  cure: "Write the time with its offset from UTC.",
  example: `
    date: 2027-11-07
    hits:
      night: { at: 01:30, for: 3 min, place: pier }
  `,
  sentence: ({ text, zone }) => `the clocks of ${zone} show \`${text}\` twice`,
  hint: ({ earlier, later }) => `${earlier} or ${later}`,
});

export const timeOutside = mistake<{ text: string; years: string }>({
  code: "time-outside",
  title: "a date outside the table of clock rules",
  why: "The table of time zones covers a span of years; beyond it an hour could be wrong.",
  cure: "Check the year.",
  example: "date: 2207-01-20",
  sentence: ({ text, years }) => `\`${text}\` is outside ${years}, for which clock rules are known`,
  hint: () => "check the year",
});

/** `364 days`, `a year`, `10 years`. */
function daysText(days: number): string {
  const years = Math.round(days / 365.25);
  if (Math.abs(days - years * 365.25) > 1 || years === 0) return `${days} days`;
  return years === 1 ? "a year" : `${years} years`;
}

export const timeFar = mistake<{ text: string; days: number; date: string; near: string | null }>({
  code: "time-far",
  title: "a time far from the plan's own date",
  why: "A plan covers a day. A time in another year or month is almost always a typing error.",
  cure: "Correct the date; the days before the plan belong in `history`, or in files of their own that it `follows`.",
  example: `
    date: 2027-01-20
    hits:
      dawn: { at: 2026-01-20T07:00-05:00, for: 3 min, place: pier }
  `,
  sentence: ({ text, days, date }) =>
    `\`${text}\` is ${daysText(Math.abs(days))} ${days < 0 ? "before" : "after"} the plan's date, ${date}`,
  hint: ({ near }) => near ?? "correct the days behind the time",
});

export const loggedDayOff = mistake<{ id: string; text: string; days: number; near: string | null }>({
  code: "logged-day-off",
  title: "a hit logged on another day than it was planned for",
  why: "A time without a day is on the plan's own date. Past midnight `+1d` is easily forgotten, and every time that follows would be a day off.",
  cure: "Add `+1d` to a time past midnight, or correct the day.",
  example: 'hits:\n  late: { at: "00:40 +1d", for: 3 min, place: pier }\nactual:\n  late: { at: "00:44" }',
  sentence: ({ id, text, days }) =>
    `\`${text}\` is ${Math.abs(days) === 1 ? "a day" : `${Math.abs(days)} days`} ${days < 0 ? "before" : "after"} \`${id}\` was planned`,
  hint: ({ near }) => near ?? "correct the day",
});

export const noSuchLeg = mistake<{ vehicle: string; stop: string; key: string; place: string; near: string | null }>({
  code: "no-such-leg",
  title: "an arrival is logged where a run begins, or a departure where it ends",
  why: "A stop and the drive from it have one number: `wagon.1` is the first stop, and the drive from there arrives at `wagon.2`. A time that belongs to no drive would be left aside in silence.",
  cure: "Log an arrival at the stop that was reached, and a departure or a driver at the stop that was left.",
  example: `
    runs:     # from the lodge to the pier and back
      wagon: [lodge, { place: pier, do: [dawn] }, lodge]
    actual:
      wagon.1: { arrived: "06:00" }
  `,
  sentence: ({ vehicle, stop, key, place }) =>
    key === "arrived"
      ? `the run of ${vehicle} begins at ${stop}, ${place}: it does not arrive there`
      : `the run of ${vehicle} ends at ${stop}, ${place}: ${key === "left" ? "it does not leave there" : "no one drives on from there"}`,
  hint: ({ key, near }) =>
    near === null
      ? null
      : key === "arrived"
        ? `write \`${near}\` for the arrival at the next stop`
        : `write \`${near}\` for the ${key === "left" ? "departure from" : "driver since"} the stop before`,
});

export const localNowhere = mistake<{ text: string }>({
  code: "local-nowhere",
  title: "`local` may be more than one clock",
  why: "`local` is the clock of the place where something happens; with no place it is the one clock of all places, if they are on one.",
  cure: "Name the clock: a label, a zone, or none for the control room's.",
  example: `
    places:
      quay: { zone: America/New_York }
    weather:
      - { from: 05:00 local, temp: -14 C }
  `,
  sentence: ({ text }) => `\`${text}\`: no place is named here, and the plan's places are not all on one clock`,
  hint: () => "name the clock in place of `local`: its label or its zone",
});

export const zoneUnknown = mistake<{ text: string; near: string | null; labels: readonly string[] }>({
  code: "zone-unknown",
  title: "an unknown time zone or label",
  why: "Zones are named as in the tz database; a label must be declared in `labels`.",
  cure: "Use a zone such as `America/Chicago`, or declare the label.",
  example: "clock: America/New_Yrok",
  sentence: ({ text }) => `\`${text}\` is not a known time zone or label`,
  hint: ({ near, labels }) => {
    if (near !== null) return near;
    return labels.length > 0
      ? `a zone such as America/Chicago, or ${wordList(labels, "or")}`
      : "a zone such as America/Chicago";
  },
});

export const zoneWithoutSummer = mistake<{ zone: string; date: string; hours: string }>({
  code: "zone-without-summer",
  level: "warning",
  title: "Greenwich time on a day of summer time",
  why: "`GMT` is the same all year. Clocks in London and Lisbon are an hour ahead of it in summer.",
  cure: "Name the zone of the clocks that are meant, `Europe/London`; `UTC` if it is the same time all year.",
  example: `
    date: 2027-06-20
    clock: GMT
  `,
  sentence: ({ zone, date, hours }) =>
    `\`${zone}\` has no summer time, and on ${date} clocks in London are ${hours} ahead of it`,
  hint: () => "Europe/London, or UTC if the same time all year is meant",
});
