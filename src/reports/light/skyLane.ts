/** The sky over one place as a lane of a drawing, looked at all along it: one night or many, and summers without one. */
import { type SkyWord, skyWord } from "../../sky/words.ts";
import { after, type Instant, type Interval } from "../../time/index.ts";
import type { Bar, Lane } from "../shared/view.ts";

/** The sky is looked at this often, minutes; where it has changed in between, at every minute. */
const STEP = 5;

const STYLES: Readonly<Record<SkyWord, Bar["style"]>> = {
  day: "day",
  "low sun": "day",
  "civil twilight": "twilight",
  "nautical twilight": "twilight",
  night: "night",
};

const WORDS: Partial<Record<Bar["style"], string>> = { day: "daylight", twilight: "twilight", night: "dark" };

/** Dark, twilight and daylight by the sun's altitude, each to its first minute; null where the altitude is not known. */
export function skyLane(sunAltitude: (at: Instant) => number | null, { from, to }: Interval): Lane | null {
  const styleAt = (at: Instant): Bar["style"] | null => {
    const altitude = sunAltitude(at);
    return altitude === null ? null : STYLES[skyWord(altitude)];
  };
  const bars: Bar[] = [];
  for (let at = from; at < to; at = after(at, STEP)) {
    const style = styleAt(at);
    if (style === null) return null;
    const last = bars.at(-1);
    if (last?.style === style) continue;
    let start = at;
    while (last !== undefined && styleAt(after(start, -1)) === style) start = after(start, -1);
    if (last !== undefined) bars[bars.length - 1] = { ...last, to: start };
    bars.push({ from: start, to, style, text: WORDS[style] ?? "" });
  }
  return { label: "sky", bars };
}
