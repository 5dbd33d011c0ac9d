/** What can be said of gear: what is not where it is needed, and moves that cannot be made. */
import { define, names } from "../findings/finding.ts";
import type { Instant } from "../time/units.ts";

export const kitMissing = define<{
  item: string;
  for: string;
  activities: readonly string[];
  place: string | null;
  holder: string;
  isAt: string | null;
  lastMove: { at: Instant } | null;
  lastPlace: string | null;
  into: string | null;
  /** How the pieces are to be shared out, where there are several. */
  split: string | null;
}>({
  code: "kit-missing",
  level: "error",
  otherwise: { level: "warning", when: "if only a word such as `hits` asks for the piece" },
  title: "a piece is not where it is needed",
  why: "A monitor without its bracket, a camera in the other vehicle: when the crew finds out on the spot, it is too late.",
  cure: "Put it into a vehicle that will be there (`in:`), or move it at a stop where both vehicles are (`moves: { monitor: truck }`).",
  example: `
    kit:
      camera: { in: wagon, during: hits, needs: [bracket] }
      bracket: { in: truck }     # and noon is the wagon's alone
  `,
  sentence(f, say) {
    const whose = f.activities.includes(f.for) ? "" : ` (${say.name(f.for)} needs it)`;
    const is =
      f.holder === f.isAt
        ? `at ${say.name(f.holder)}`
        : `in ${say.name(f.holder)}, ${f.isAt === null ? "on the road" : `at ${say.name(f.isAt)}`}`;
    return `${names(f.activities, say)} ${f.activities.length === 1 ? "needs" : "need"} ${say.name(f.item)}${whose}, and it is ${is}`;
  },
  hint(f, say) {
    if (f.lastMove === null || f.into === null) return "it cannot get there in time; use another, or change the runs";
    if (f.split !== null) return `\`kit.${f.item}.in: ${f.split}\`, one each where it is needed`;
    const where = f.lastPlace === null ? "" : ` at ${say.name(f.lastPlace)}`;
    return `put it into ${say.name(f.into)}${where} by ${say.time(f.lastMove.at, f.lastPlace)}`;
  },
});

/** What else helps: another order of work for two crews, a word in the plan for gear that is not one a person. */
const otherCure = ({
  item,
  each,
  activities,
}: {
  item: string;
  each: string | null;
  activities: readonly string[];
}) => {
  if (each === "known") return `or \`kit.${item}.per: crew\` if one serves all`;
  return activities.length > 1 ? "or let one crew work after the other" : "or let it need fewer";
};

export const kitTooFew = define<{
  item: string;
  needed: number;
  there: number;
  /** Where so few of them are; null where there are no more of them at all. */
  place: string | null;
  activities: readonly string[];
  /** Whether each person needs one, as the plan says or as its name does. */
  each: "stated" | "known" | null;
}>({
  code: "kit-too-few",
  level: "error",
  otherwise: {
    level: "warning",
    when: "if only a word such as `hits` asks for the piece, or if only its name says that each person needs one",
  },
  title: "more pieces are needed at once than there are",
  why: "Two crews that work at the same time each need their own. An accessory is needed once for each piece that carries it. Earpieces, life jackets, helmets and high-visibility vests, and what is marked `per: person`, are needed once for each person of the hit or task; earpieces of a hit only for those on a line, if `lines` name any of them.",
  cure: "Bring as many as are needed at once, or let one crew work after the other. If one serves the whole crew, state `per: crew`.",
  example: `
    hits:
      noon:
        at: "12:00"
        for: 3 min
        place: dock
        path: cell
        spare: net
        needs: [cam, wide]
    kit:
      cam: { in: wagon, needs: [bracket] }
      wide: { in: wagon, needs: [bracket] }
      bracket: { in: wagon }     # one for two cameras
  `,
  sentence(f, say) {
    const needs = `${names(f.activities, say)} ${f.activities.length === 1 ? "needs" : "need"} ${f.needed} of ${say.name(f.item)} at once${f.each === null ? "" : ", one a person"}`;
    if (f.place === null) return `${needs}; there ${f.there === 1 ? "is" : "are"} ${f.there}`;
    return `${needs}; ${f.there} ${f.there === 1 ? "is" : "are"} at ${say.name(f.place)}`;
  },
  hint: (f, say) =>
    f.place === null
      ? `bring more and state \`kit.${f.item}.count: ${f.needed}\`, ${otherCure(f)}`
      : `put ${f.needed} of them into vehicles that are at ${say.name(f.place)} then (\`kit.${f.item}.in\`)`,
});

export const kitBroken = define<{ item: string; activity: string }>({
  code: "kit-broken",
  level: "error",
  otherwise: { level: "warning", when: "if only a word such as `hits` asks for the piece" },
  title: "a piece is needed while it is out of service",
  why: "The plan says that the piece is broken then.",
  cure: "Use another piece, or state until when it is broken (`broken: { from, to }`).",
  example: `
    kit:
      camera: { in: wagon, during: hits, broken: "05:00" }
  `,
  sentence: (f, say) => `${say.name(f.activity)} needs ${say.name(f.item)}, which is out of service then`,
  hint: () => "use another piece, or state until when it is broken: `broken: { from, to }`",
});

export const moveImpossible = define<{ item: string; to: string; place: string; because: string }>({
  code: "move-impossible",
  level: "error",
  title: "a piece cannot be moved where the plan says",
  why: "To change vehicles a piece needs both of them at one place at one time, and someone awake there to carry it.",
  cure: "Move it at a stop where both vehicles are, or start the day with it in the right one.",
  example: `
    runs:
      truck:     # the wagon never stops at the cove
        driver: tomas
        aboard: [tomas, bea]
        stops:
          - lodge
          - { place: pier, do: [dawn, breakfast] }
          - { place: cove, moves: { monitor: wagon } }
  `,
  sentence: (f, say) => `${say.name(f.item)} cannot go into ${say.name(f.to)} at ${say.name(f.place)}: ${f.because}`,
  hint: () => "move it where both are, or start the day with it in the right vehicle",
});

export const packNotMoved = define<{ item: string; to: string; place: string; holder: string }>({
  code: "pack-not-moved",
  level: "warning",
  title: "a stop moves a pack, and the rotation keeps it elsewhere",
  why: "Packs go where the rotation needs them, and `moves` of a stop does not change that.",
  cure: "Leave the pack out of `moves`: where both vehicles are the rotation moves it if it is needed there. A pack that must start in another vehicle has it in `in`.",
  example: `
    runs:
      truck:     # nothing in the truck needs a pack
        driver: tomas
        aboard: [tomas, bea]
        stops:
          - lodge
          - { place: pier, do: [dawn, breakfast], moves: { brick.5: truck } }
          - lodge
  `,
  sentence: (f, say) =>
    `${say.name(f.item)} does not move into ${say.name(f.to)} at ${say.name(f.place)}: the rotation keeps it in ${say.name(f.holder)}`,
  hint: () => "leave the pack out of `moves`: the rotation moves it where it is needed",
});

export const kitLeftBehind = define<{ items: readonly string[]; place: string }>({
  code: "kit-left-behind",
  level: "warning",
  title: "something stays at a place that everyone leaves",
  why: "The day ends elsewhere, and a piece that lies there is missing tomorrow.",
  cure: "Move it into a vehicle before the last one leaves.",
  example: `
    kit:
      tripod: { in: pier }     # and tonight's beds are at the lodge
  `,
  sentence: (f, say) =>
    `${names(f.items, say)} ${f.items.length === 1 ? "stays" : "stay"} at ${say.name(f.place)}, and no one comes back there`,
  hint: () => "move it into a vehicle before the last one leaves",
});
