/** What can be said of a cable run. */
import { counted } from "../../findings/figures.ts";
import { define } from "../../findings/finding.ts";
import { OF_SPARE } from "../use.ts";

/** A hit on a cable, as a plan writes it. */
const withRun = (run: string): string => `
    hits:
      dawn:
        at: "07:00"
        for: 3 min
        place: pier
        path: line
        spare: cell
        run: { ${run} }
  `;

/** The same with the path it is on. */
const onCable = (path: string, run: string, remark = ""): string => `
    paths:
      line: { kind: cable, ${path} }${remark}${withRun(run)}`;

export const cableRunMissing = define<{ activity: string; path: string }>({
  code: "cable-run-missing",
  level: "warning",
  title: "a hit on a cable does not say how long the run is",
  why: "Whether the reels reach and the picture survives depends on the length.",
  cure: "Pace it out and write `run: { cable: 70 m }` on the hit.",
  example: `
    hits:     # no \`run\`
      dawn: { at: "07:00", for: 3 min, place: pier, path: line, spare: cell }
  `,
  sentence: (f, say) => `${say.name(f.activity)} is on ${f.path} and does not say how long the run is`,
  hint: () => "pace it out and add `run: { cable: … }` to the hit",
});

export const cableTooShort = define<{ activity: string; path: string; needs: number; has: number }>({
  code: "cable-too-short",
  level: "error",
  otherwise: OF_SPARE,
  title: "the reels together are shorter than the run",
  why: "There is not enough cable on hand.",
  cure: "Bring another reel, move the camera or the truck, or use another path.",
  example: onCable("reels: [50 m], rate: 270 Mbit/s", "cable: 70 m"),
  sentence: (f, say) => `${say.name(f.activity)} needs ${f.needs} m of cable; the reels of ${f.path} have ${f.has} m`,
  hint: (f) => `bring ${f.needs - f.has} m more, or bring camera and truck nearer`,
});

export const cableBeyondReach = define<{
  activity: string;
  path: string;
  run: number;
  reach: number;
  joins: number;
  rate: number;
}>({
  code: "cable-beyond-reach",
  level: "error",
  otherwise: OF_SPARE,
  title: "the run is longer than the picture reaches at its bit rate",
  why: "Loss grows with the root of the bit rate, a tenth more for each join and for cable stiff with cold; beyond the limit the picture is gone within some 15 m.",
  cure: "Lower the rate, use one reel instead of two, add an amplifier or fibre, or shorten the run.",
  example: onCable("reels: [90 m], rate: 3 Gbit/s", "cable: 90 m"),
  source: {
    title: "SMPTE ST 259, ST 292, ST 424, ST 2081, ST 2082: loss at half the clock; typical Series 6 data sheet",
    clause: null,
  },
  sentence: (f, say) =>
    `${say.name(f.activity)} runs ${f.run} m of cable; at ${f.rate} Mbit/s with ${counted(f.joins, "join")} it reaches ${f.reach} m`,
  hint: () => "lower the rate, lay one longer reel, or go nearer",
});

export const cableNearReach = define<{ activity: string; path: string; run: number; reach: number }>({
  code: "cable-near-reach",
  level: "warning",
  title: "the run is within a tenth of what the picture reaches",
  why: "Between a clean picture and none lie some 15 m, and wet, crushed or stiff cable uses them up.",
  cure: "Test it early, or shorten the run.",
  example: onCable("reels: [70 m], rate: 3 Gbit/s", "cable: 70 m"),
  sentence: (f, say) => `${say.name(f.activity)} runs ${f.run} m of cable, near the ${f.reach} m that it reaches`,
  hint: () => "test it early, or go nearer",
});

export const reelBeyondReach = define<{ activity: string; path: string; cable: number; run: number; reach: number }>({
  code: "reel-beyond-reach",
  level: "warning",
  title: "the reels for a run hold more cable than the picture reaches",
  why: "The signal passes through the whole reel, also through what stays on the drum; the run itself is short enough.",
  cure: "Bring a shorter reel for this run, or lower the rate.",
  example: onCable("reels: [100 m], rate: 3 Gbit/s", "cable: 60 m"),
  sentence: (f, say) =>
    `${say.name(f.activity)} runs ${f.run} m, but the reels laid for it hold ${f.cable} m of cable and the picture reaches ${f.reach} m`,
  hint: () => "bring a shorter reel, or lower the rate",
});

export const cableRateUnknown = define<{ activity: string; path: string }>({
  code: "cable-rate-unknown",
  level: "note",
  title: "how far a cable reaches is not known",
  why: "The reach follows from the bit rate; the path states none, or one beyond every standard.",
  cure: "State it: `rate: 1.5 Gbit/s`.",
  example: onCable("reels: [100 m]", "cable: 70 m", "     # no `rate`"),
  sentence: (f, say) =>
    `the bit rate of ${f.path} is not known, so the reach for ${say.name(f.activity)} is not checked`,
  hint: () => "add `rate: 3 Gbit/s` or what the camera sends",
});

export const cableAcrossRoad = define<{ activity: string; path: string; crosses: string }>({
  code: "cable-across-road",
  level: "error",
  otherwise: OF_SPARE,
  title: "a cable run crosses a road",
  why: "A cable on a road trips people, is cut by tyres and is a hazard to traffic. Common practice, no source.",
  cure: "Park on the other side, or use a path without cable.",
  example: withRun("cable: 40 m, crosses: road"),
  sentence: (f, say) => `the cable of ${say.name(f.activity)} crosses a ${f.crosses}`,
  hint: () => "park on the same side, or use a path without cable",
});
