/** The hand-written day as a sheet's input, with what the topics would have found out. */

import { define } from "../../src/findings/finding.ts";
import { wordingOf } from "../../src/reports/shared/wording.ts";
import type { SheetRequest } from "../../src/reports/sheet/input.ts";
import { at, demoDay } from "./demoDay.ts";

const SHORT = define<{ who: string; rest: number }>({
  ...{ code: "rest-too-short", level: "error", title: "", why: "", cure: "", example: "" },
  sentence: ({ who, rest }, say) => `${say.name(who)} has ${say.length(rest)} of rest; the house asks for 10 h`,
  hint: () => "call later or release earlier",
});

const COLD = define<{ chill: number }>({
  ...{
    code: "frostbite",
    level: "warning",
    title: "",
    why: "",
    cure: "",
    example: "",
    source: { title: "wind chill chart of the weather service", clause: null },
  },
  sentence: ({ chill }) => `Wind chill ${chill} °C: bare skin freezes within 30 minutes`,
});

/** A chore of hers alone, with as much time as it takes. */
const wrens = (from: string, to: string) => ({
  from: at(from),
  to: at(to),
  who: ["wren"],
  others: [],
  workMinutes: at(to) - at(from),
});

const onto = (...packs: readonly string[]) => packs.map((pack) => ({ pack, from: "wagon", to: "bench" }));

const frostbite = COLD.raise({ chill: -25 });

export const demoInput = (changes: Partial<SheetRequest> = {}): SheetRequest => ({
  day: demoDay,
  facts: {
    sun: [
      { place: "pier", civilDawn: at("7:10"), rise: at("7:43"), set: at("16:56"), civilDusk: at("17:29"), word: null },
    ],
    // The sun of the line above, in steps.
    sunAltitude: (_, moment) => {
      if (moment < at("7:10") || moment >= at("17:29")) return -20;
      return moment < at("7:43") || moment >= at("16:56") ? -3 : 20;
    },
    batteries: [
      { ...wrens("-2:14", "-2:20"), place: "lodge", moves: onto("brick.4", "brick.5", "brick.3") },
      {
        ...wrens("-1:26", "-1:30"),
        place: "lodge",
        moves: [{ pack: "brick.3", from: "bench slot 3", to: "wagon" }, ...onto("brick.2")],
      },
      {
        ...wrens("4:05", "4:15"),
        place: "lodge",
        moves: ["brick.1", "brick.2", "brick.3", "brick.4", "brick.5"].map((pack) => ({
          pack,
          from: "bench",
          to: "wagon",
        })),
      },
      {
        ...wrens("8:03", "8:05"),
        place: "pier",
        moves: [
          { pack: "brick.1", from: "camera", to: "wagon" },
          { pack: "brick.2", from: "wagon", to: "camera" },
        ],
      },
    ],
    gear: [
      { vehicle: "truck", items: ["dish", "cable reel 50 m", "cable reel 100 m", "lamp × 2"] },
      { vehicle: "wagon", items: ["camera", "tripod", "monitor with bracket", "brick × 5", "bench charger"] },
    ],
    cautions: [frostbite],
    notJudged: ["repairs"],
  },
  findings: [
    SHORT.raise({ who: "bea", rest: 580 }, { who: "bea" }),
    { ...SHORT.raise({ who: "tomas", rest: 590 }, { who: "tomas" }), accepted: "he slept in the truck all afternoon" },
    frostbite,
  ],
  say: wordingOf(demoDay.plan),
  desk: null,
  person: null,
  redact: false,
  changes: null,
  ...changes,
});
