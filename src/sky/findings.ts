/** What can be said of the light. */
import { define, names } from "../findings/finding.ts";

export const lightUnknown = define<{ place: string; activities: readonly string[] }>({
  code: "light-unknown",
  level: "note",
  title: "a place has no coordinates, so its light is not known",
  why: "Sun, twilight, moon, the side the light comes from and whether lamps are needed follow from where a place is; nothing is guessed. Loads that work in the dark are then counted as needed.",
  cure: "Add `at: [latitude, longitude]` to the place, degrees, north and east positive.",
  example: `
    places:
      pier: {}            # no \`at\`
  `,
  sentence: (f, say) =>
    `${say.name(f.place)} has no coordinates: sun, light and the need for lamps are not known for ${names(f.activities, say)}`,
  hint: (f) => `add \`at: [latitude, longitude]\` to ${f.place}`,
});

export const sunInLens = define<{ hit: string; altitude: number; azimuth: number; facing: number }>({
  code: "sun-in-lens",
  level: "warning",
  title: "a low sun in the picture",
  why: "With the sun within 30 degrees of the lens and no higher than 20 the face goes dark or the picture flares. Common practice, no source.",
  cure: "Turn the camera, move the subject, or bring shade for the lens and a strong light for the face.",
  example: `
    hits:
      dusk:
        at: "17:10"
        for: 3 min
        place: dock
        path: cell
        spare: net
        facing: 235
  `,
  sentence: (f, say) =>
    `the sun is in the picture at ${say.name(f.hit)}: ${f.altitude.toFixed(1)} degrees high at ${f.azimuth.toFixed(0)}, the camera faces ${f.facing.toFixed(0)}`,
  hint: () => "turn the camera by more than 30 degrees, or bring shade for the lens and a light for the face",
});

export const darkWithoutLamp = define<{ hits: readonly string[] }>({
  code: "dark-without-lamp",
  level: "warning",
  title: "a hit needs lamps and the plan lists none",
  why: "Below 400 lx of daylight a face needs a key light; the plan lists its gear, and no piece of it works in the dark.",
  cure: "List the lamp under `kit` with `during: dark` (and its watts, so that packs are planned for it).",
  example: `
    kit:
      lamp: { in: wagon, watts: 40, mount: wedge }     # no \`during: dark\`
  `,
  sentence: (f, say) =>
    `${names(f.hits, say)} ${f.hits.length === 1 ? "needs" : "need"} lamps, and no piece in the plan is for the dark`,
  hint: () => "add a lamp to `kit` with `during: dark`",
});

export const lightChangesFast = define<{ hit: string; stops: number; minutes: number }>({
  code: "light-changes-fast",
  level: "note",
  title: "the light changes by a stop or more while a hit may be on air",
  why: "Around sunset and sunrise the sky loses or gains a stop in about four minutes; the desk may slip the hit by its `late`, and a picture set up at its start no longer fits at its end.",
  cure: "Set exposure and lamps for the end of the live window, and keep a hand at the iris.",
  example: `
    hits:
      sunrise:
        at: "08:20"
        for: 3 min
        late: 15 min
        place: pier
        path: dish
        spare: cell
  `,
  sentence: (f, say) =>
    `the sky ${f.stops < 0 ? "loses" : "gains"} ${Math.abs(f.stops).toFixed(1)} stops over the ${say.length(f.minutes)} that ${say.name(f.hit)} may be on air`,
  hint: () => "set up for the end of the live window",
});
