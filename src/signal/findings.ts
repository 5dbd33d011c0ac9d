/** What can be said of the way out of the signal; the satellite's own codes are in `findingsDish.ts`. */
import { define, names } from "../findings/finding.ts";
import type { Instant } from "../time/units.ts";
import { OF_SPARE } from "./use.ts";

export const pathMissing = define<{ hits: readonly string[] }>({
  code: "path-missing",
  level: "warning",
  otherwise: { level: "note", when: "if the plan lists no paths at all" },
  title: "a hit has no way out for its signal",
  why: "A hit without a path cannot be checked against windows, skyline, cable or signal, and the crew does not see how it gets out.",
  cure: "Name a path of `paths` on the hit: `path: dish`.",
  example: `
    hits:
      dawn: { at: "07:00", for: 3 min, place: pier }     # no \`path\`
  `,
  sentence: (f, say) => `no path out is stated for ${names(f.hits, say)}`,
  hint: () => "add `path:` to the hit, and the path to `paths`",
});

export const spareMissing = define<{ hits: readonly string[] }>({
  code: "spare-missing",
  level: "warning",
  title: "a hit has no spare path",
  why: "A dish that will not line up or a full cell is common, and a live hit cannot be made up later.",
  cure: "Name a second path on the hit that does not fail with the first: `spare: cell`.",
  example: `
    hits:
      dawn: { at: "07:00", for: 3 min, place: pier, path: dish }
  `,
  sentence: (f, say) => `no spare path is stated for ${names(f.hits, say)}`,
  hint: () => "add `spare:` to the hit",
});

export const spareFailsToo = define<{ hits: readonly string[]; path: string; spare: string; because: string }>({
  code: "spare-fails-too",
  level: "warning",
  title: "the spare path fails with the main one",
  why: "A spare on the same dish, satellite, cable or network fails at the same moment.",
  cure: "Choose a spare of another kind.",
  example: `
    paths:
      pack: { kind: backpack }
    hits:     # both on the cellular network
      dawn: { at: "07:00", for: 3 min, place: pier, path: cell, spare: pack }
  `,
  sentence: (f, say) => `the spare ${f.spare} of ${names(f.hits, say)} fails with ${f.path}: ${f.because}`,
  hint: () => "choose a spare of another kind",
});

export const pathDoubleBooked = define<{
  path: string;
  first: string;
  second: string;
  from: { at: Instant };
  to: { at: Instant };
}>({
  code: "path-double-booked",
  level: "error",
  title: "one path has two users at once",
  why: "A dish, a cable or a bonding unit carries one programme at a time; a hit holds its path from its line check until the desk lets go.",
  cure: "Give one of them another path, or move it.",
  example: `
    tasks:
      send:     # from the pier, while noon at the dock is on the same path
        kind: feed
        path: cell
        size: 300 MB
        place: pier
        window: ["12:00", "12:10"]
        who: [bea]
  `,
  sentence: (f, say) =>
    `${say.name(f.first)} and ${say.name(f.second)} both need ${f.path} from ${say.time(f.from.at)} to ${say.time(f.to.at)}`,
  hint: (f, say) => `give ${say.name(f.second)} another path or another time`,
});

export const cellularSignalNone = define<{ activities: readonly string[]; path: string; where: string }>({
  code: "cellular-signal-none",
  level: "error",
  otherwise: OF_SPARE,
  title: "a cellular path at a place without signal",
  why: "Bonding joins several weak links into one; with no signal there is nothing to join.",
  cure: "Use another path there, or another place.",
  example: `
    places:
      dock: { at: [46.596, -90.869], shelter: true, signal: none }
  `,
  sentence: (f, say) => `${f.path} has no cellular signal ${f.where} for ${names(f.activities, say)}`,
  hint: () => "use a dish or a cable there, or go where there is signal",
});

export const cellularSignalWeak = define<{ activities: readonly string[]; path: string; place: string }>({
  code: "cellular-signal-weak",
  level: "warning",
  title: "a cellular path on a weak signal",
  why: "A weak uplink breaks when the street fills with people and their telephones.",
  cure: "Try it there at the same hour, lower the bit rate, raise an aerial, or have another spare.",
  example: `
    places:
      dock: { at: [46.596, -90.869], shelter: true, signal: weak }
  `,
  sentence: (f, say) => `${f.path} has only a weak signal at ${say.name(f.place)} for ${names(f.activities, say)}`,
});

export const cellularSignalUnknown = define<{ activities: readonly string[]; path: string; place: string }>({
  code: "cellular-signal-unknown",
  level: "note",
  title: "the cellular signal of a place is not stated",
  why: "The plan cannot say whether the path will carry a picture there.",
  cure: "State what was found: `signal: good`, `weak` or `none`.",
  example: `
    places:
      dock: { at: [46.596, -90.869], shelter: true }     # no \`signal\`
  `,
  sentence: (f, say) =>
    `the signal at ${say.name(f.place)} is not stated; ${f.path} is used there for ${names(f.activities, say)}`,
  hint: (f) => `write \`signal: good\`, \`weak\` or \`none\` on ${f.place}`,
});

export const feedTooSlow = define<{ feed: string; path: string; needs: number; has: number }>({
  code: "feed-too-slow",
  level: "error",
  title: "a feed does not go through its path in its time",
  why: "The size divided by the path's rate is the least time it takes; no time for a second try is added.",
  cure: "Give it more time or a faster path, or send less.",
  example: `
    tasks:     # cell: rate 12 Mbit/s
      send: { kind: feed, path: cell, size: 3 GB, for: 20 min, place: pier }
  `,
  sentence: (f, say) =>
    `${say.name(f.feed)} needs ${say.length(f.needs)} on ${f.path}; the plan gives it ${say.length(f.has)}`,
  hint: (f, say) => `give it ${say.length(f.needs)}, or a faster path`,
});

export const feedRateMissing = define<{ feed: string; path: string | null }>({
  code: "feed-rate-missing",
  level: "note",
  title: "how long a feed takes cannot be checked",
  why: "The time follows from the size of the feed and the rate of its path.",
  cure: "Add `size` to the feed, and `rate` to its path.",
  example: `
    tasks:
      send: { kind: feed, path: cell, for: 20 min, place: pier }     # no \`size\`
  `,
  sentence: (f, say) =>
    f.path === null
      ? `${say.name(f.feed)} has no path, so its length is not checked`
      : `${say.name(f.feed)} has no size, or ${f.path} no rate, so its length is not checked`,
});

export const earLineMissing = define<{ who: string; hits: readonly string[] }>({
  code: "ear-line-missing",
  level: "warning",
  otherwise: { level: "note", when: "if the plan lists no lines at all" },
  title: "someone appears and has no ear line",
  why: "Someone who cannot hear the studio cannot be asked a question.",
  cure: "Add an ear line under `lines` with its number and `who` is on it.",
  example: `
    lines:
      ear: { number: 555 0160, who: [bea] }     # and ilse is the reporter
  `,
  sentence: (f, say) => `${say.name(f.who)} appears in ${names(f.hits, say)} and has no ear line`,
  hint: (f) => `add \`ear: { number: …, who: [${f.who}] }\` to \`lines\``,
});

export const producerLineMissing = define<{ who: string; hits: readonly string[] }>({
  code: "producer-line-missing",
  level: "warning",
  otherwise: { level: "note", when: "if the plan lists no lines at all" },
  title: "a camera has no producer line",
  why: "The camera operator hears from the producer when to frame, when the hit slips and when it is over.",
  cure: "Add a producer line under `lines`.",
  example: `
    lines:
      producer: { number: 555 0170, who: [bea] }     # and wren is at the camera
  `,
  sentence: (f, say) => `${say.name(f.who)} is at the camera for ${names(f.hits, say)} and has no producer line`,
  hint: (f) => `add \`producer: { number: …, who: [${f.who}] }\` to \`lines\``,
});

export const hitUncrewed = define<{
  hits: readonly string[];
  missing: readonly string[];
  elsewhere: readonly string[];
}>({
  code: "hit-uncrewed",
  level: "note",
  otherwise: { level: "warning", when: "if someone in the crew has the role and is elsewhere" },
  title: "a hit without anyone at the camera, or anyone in front of it",
  why: "No one who is there has the role of camera, or no one has a role that appears.",
  cure: "Bring them there, or give someone who is there the role as well: `role: [engineer, camera]`.",
  example: `
    crew:
      wren: { role: engineer, drives: wagon }
  `,
  sentence: (f, say) => `${names(f.hits, say)}: no one there has the role ${f.missing.join(" or ")}`,
  hint: (f, say) =>
    f.elsewhere.length > 0
      ? `bring ${names(f.elsewhere, say)} there, or add the role to someone who is there`
      : `add to someone who is there: \`role: ${f.missing.length === 1 ? (f.missing[0] ?? "") : `[${f.missing.join(", ")}]`}\``,
});

export const satellitePhoneMissing = define<{ place: string; hits: readonly string[] }>({
  code: "satellite-phone-missing",
  level: "warning",
  title: "no telephone works at a hit, and no satellite telephone is listed",
  why: "Without a telephone there is no line-up with the satellite operator, no ear line and no call for help.",
  cure: "List a satellite telephone under `kit` (a piece named so) or a line of that name.",
  example: `
    places:     # and \`kit\` has no satellite telephone
      pier: { at: [46.811, -90.817], signal: none }
  `,
  sentence: (f, say) =>
    `there is no signal at ${say.name(f.place)} for ${names(f.hits, say)}, and no satellite telephone is listed`,
  hint: () => "add a satellite telephone to `kit`",
});
