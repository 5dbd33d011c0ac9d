/** What is said of sleep before the wheel, of long waking, and of driving at night. */
import { define } from "../../findings/finding.ts";
import type { At } from "../findings.ts";

export const sleepShort = define<{
  who: string;
  sleepMinutes: number;
  stated: boolean;
  ratio: number;
  from: At;
  /** Whether the fixed times of the day leave room for a later call. */
  mayBeLater: boolean;
}>({
  code: "short-sleep-at-wheel",
  level: "warning",
  title: "driving after a short night",
  why: "With 6 to 7 hours of sleep in the last 24 the crash rate is 1.3 times that of 7 or more, with 5 to 6 1.9, with 4 to 5 4.3, with less 11.5 (not for crashes from midnight to 06:00, which were not sampled; a group average, no verdict on a person).",
  cure: "Let someone who slept longer drive, call later, or release earlier the night before.",
  source: { title: "Tefft, AAA Foundation for Traffic Safety, December 2016", clause: null },
  example: `
    history:
      wren: { released: 2027-01-19T17:00-06:00, asleep: 5 h }
  `,
  sentence: (f, say) =>
    `${say.name(f.who)} takes the wheel at ${say.time(f.from.at)} after ${f.stated ? "" : "an estimated "}${say.length(f.sleepMinutes)} of sleep: crash rate ${f.ratio} times that after 7 h`,
  hint: (f) => `let someone who slept longer drive${f.mayBeLater ? ", or call later" : ""}`,
});

export const wheelAwake = define<{
  who: string;
  awakeMinutes: number;
  limitMinutes: number;
  level: string | null;
  from: At;
  assumed: boolean;
}>({
  code: "awake-too-long-at-wheel",
  level: "warning",
  title: "driving after being awake too long",
  why: "After 17 hours awake people did as badly on a test as with 0.05 % alcohol in the blood, after 24 as with 0.10 % (n = 40; Williamson and Feyer 2000 found it between 16.9 and 19.7 hours). The house limit comes earlier: common practice, no source.",
  cure: "Let someone else drive, or sleep before the drive.",
  source: { title: "Dawson and Reid, Nature 388:235, 1997", clause: null },
  example: "rules: { wheelAwake: 3 h }     # wren drives at 12:00 and was up at four",
  sentence: (f, say) =>
    `${say.name(f.who)} is at the wheel ${say.length(f.awakeMinutes)} after getting up${f.assumed ? " (assumed: nothing states when)" : ""}; the house limit is ${say.length(f.limitMinutes)}${f.level === null ? "" : `, and tests put this at the level of ${f.level} blood alcohol`}`,
  hint: (f, say) =>
    `let someone else drive from then on${f.assumed ? `, or state when ${say.name(f.who)} slept: \`inBed\`` : ""}`,
});

export const nightDriving = define<{ who: string; from: At; to: At; minutes: number }>({
  code: "night-driving",
  level: "note",
  title: "driving between midnight and 06:00",
  why: "Sleep-related crashes peak then: at 04:00 5.7 times the rate of the late morning, fatal ones 11.4 (Åkerstedt and others 2001, Swedish highways); NHTSA names midnight to 06:00 as well. Not to be multiplied with the figures for short sleep.",
  cure: "Drive the evening before, or after 06:00.",
  source: { title: "Åkerstedt, Kecklund, Hörte, Sleep 24(4):401, 2001", clause: null },
  example: `
    hits:
      dawn: { at: "06:00", for: 3 min, place: pier }
  `,
  sentence: (f, say) =>
    `${say.name(f.who)} drives ${say.length(f.minutes)} between midnight and 06:00, from ${say.time(f.from.at)} on`,
});
