/** What can be said of batteries. */
import { figureText } from "../findings/figures.ts";
import { define, type Wording } from "../findings/finding.ts";
import type { Instant } from "../time/units.ts";
import type { Cure } from "./shortage/cures.ts";
import type { Shortage } from "./shortage/shortage.ts";
import { beyondHint, cureText, setText, shortageText, unstatedHint } from "./words.ts";

const BATTERY_SOURCE = {
  title: "no charge below 0 °C, reduced to 5 °C: makers' usual charging window for lithium-ion packs",
  clause: null,
};

/** A cure as facts hold it. */
type CureFacts = {
  readonly cure: string | null;
  readonly cureId: string | null;
  readonly cureAt: { readonly at: Instant } | null;
  readonly cureWho: readonly string[];
  readonly cureCount: number;
  readonly cureRest: number | null;
  readonly cureShare: number | null;
  readonly edits: readonly string[];
};

/** The facts of the cure that asks least; all null where none was found. */
export const cureFacts = (cure: Cure | undefined): CureFacts => ({
  cure: cure?.kind ?? null,
  cureId: cure?.id ?? null,
  cureAt: cure?.at == null ? null : { at: cure.at },
  cureWho: cure?.who ?? [],
  cureCount: cure?.count ?? 0,
  cureRest: cure?.restMinutes ?? null,
  cureShare: cure?.share ?? null,
  edits: cure?.edits ?? [],
});

const KINDS = ["touch", "hands", "standby", "inside", "total", "slot", "charger", "pack"] as const;

function cureHint(f: CureFacts & Pick<ShortFacts, "unstated">, say: Wording): string | null {
  if (f.unstated.length > 0) return unstatedHint(f.unstated);
  const kind = KINDS.find((one) => one === f.cure);
  if (kind === undefined || f.cureId === null) return null;
  const cure: Cure = {
    ...{ kind, id: f.cureId, at: f.cureAt?.at ?? null, who: f.cureWho },
    ...{ count: f.cureCount, restMinutes: f.cureRest, share: f.cureShare, edits: f.edits },
  };
  return `${cureText(cure, say)}${f.edits.length === 0 ? "" : `: \`${setText(f.edits)}\``}`;
}

/** A shortage as facts hold it; all null where it is not worked out. */
type ShortFacts = {
  readonly packsNeeded: number | null;
  readonly packsThere: number | null;
  readonly beyondLoad: string | null;
  readonly beyondNeedsWh: number | null;
  readonly beyondGivesWh: number | null;
  readonly beyondPackWh: number | null;
  readonly missingWh: number | null;
  readonly slots: number | null;
  readonly chargeMinutes: number | null;
  readonly chargeWatts: number | null;
  readonly moments: number | null;
  readonly unpowered: Shortage["because"];
  readonly forRest: boolean;
  readonly asleep: readonly string[];
  readonly unstated: readonly string[];
};

/** The facts of a shortage for a finding. */
export const shortFacts = (short: Shortage | undefined): ShortFacts => ({
  packsNeeded: short?.packs?.needed ?? null,
  packsThere: short?.packs?.there ?? null,
  beyondLoad: short?.beyond?.load ?? null,
  beyondNeedsWh: short?.beyond?.needsWh ?? null,
  beyondGivesWh: short?.beyond?.givesWh ?? null,
  beyondPackWh: short?.beyond?.packWh ?? null,
  missingWh: short?.missingWh ?? null,
  slots: short?.charging?.slots ?? null,
  chargeMinutes: short?.charging?.minutes ?? null,
  chargeWatts: short?.charging?.watts ?? null,
  moments: short?.moments ?? null,
  unpowered: short?.because ?? null,
  forRest: short?.forRest ?? false,
  asleep: short?.asleep ?? [],
  unstated: short?.unstated ?? [],
});

/** `: 7 Wh short …`; nothing where it is not worked out. */
function shortText(f: ShortFacts, say: Wording): string {
  const { packsNeeded: needed, packsThere: there, missingWh, moments } = f;
  if (moments === null) return "";
  const { slots, chargeMinutes: minutes, chargeWatts: watts } = f;
  const packs = needed === null || there === null ? null : { needed, there };
  const charging = slots === null || minutes === null || watts === null ? null : { slots, minutes, watts };
  const { beyondLoad: load, beyondNeedsWh: needsWh, beyondGivesWh: givesWh, beyondPackWh: packWh } = f;
  const beyond =
    load === null || needsWh === null || givesWh === null || packWh === null
      ? null
      : { load, needsWh, givesWh, packWh };
  return `: ${shortageText({ packs, beyond, missingWh, charging, moments, because: f.unpowered, forRest: f.forRest, asleep: f.asleep, unstated: f.unstated }, say)}`;
}

type Unpowered = CureFacts &
  ShortFacts & {
    readonly demand: string;
    readonly loads: readonly string[];
    readonly blocking: readonly string[];
  };

const names = (ids: readonly string[], say: Wording): string => ids.map((id) => say.name(id)).join(", ");

export const hitUnpowered = define<Unpowered>({
  code: "hit-unpowered",
  level: "error",
  title: "no rotation of the packs powers this hit together with those before it",
  why: "Every way to charge, carry and swap the packs was excluded: at this hit a load would fall under the reserve or have no pack. Hits come in the order firm, others, each by time; an earlier one is never given up for a later one.",
  cure: "Take the edit that is named, give up one of the hits that block it, or bring more packs, slots or hands.",
  example: `
    kit:
      heater: { in: wagon, watts: 900, mount: wedge, during: [noon] }
  `,
  sentence: (f, say) => `${say.name(f.demand)} cannot be powered (${names(f.loads, say)})${shortText(f, say)}`,
  label: (f, say) =>
    f.blocking.length > 1
      ? `not together with ${names(
          f.blocking.filter((id) => id !== f.demand),
          say,
        )}`
      : null,
  hint: (f, say) => cureHint(f, say) ?? (f.beyondPackWh === null ? null : beyondHint(f.beyondPackWh)),
});

export const hitLeftOut = define<{
  demand: string;
  loads: readonly string[];
  /** The one of which is known what it lacks; null where that could not be computed. */
  first: string | null;
}>({
  code: "hit-left-out",
  level: "error",
  title: "one more hit cannot be powered",
  why: "Another hit cannot be powered, and it is proved that this one does not go together with those that can. What is missing is computed for one hit only.",
  cure: "Solve the hit that is named first, then look again.",
  example: `
    packs:     # too little for dawn, and for noon
      brick: { count: 2, wh: 98, mount: wedge, charge: 20%, in: wagon }
  `,
  sentence: (f, say) =>
    `${say.name(f.demand)} cannot be powered (${names(f.loads, say)})${f.first === null ? "" : `; solve ${say.name(f.first)} first`}`,
});

export const standbyUnpowered = define<Unpowered>({
  code: "standby-unpowered",
  level: "warning",
  title: "a load cannot stay on between two hits",
  why: "The hits are powered, but with the standby draw between them some pack would fall under its reserve.",
  cure: "Switch the load off between the hits, or take the edit that is named.",
  example: `
    hits:
      noon:
        at: ["12:00", "13:00"]
        for: 3 min
        place: dock
        path: cell
        spare: net
    kit:
      camera: { in: wagon, watts: 30, standby: 30 W, mount: wedge, during: hits }
    packs:
      brick: { count: 4, wh: 98, mount: wedge, charge: 40%, in: wagon }
  `,
  sentence: (f, say) => `${names(f.loads, say)} cannot stay on between the hits${shortText(f, say)}`,
  hint: cureHint,
});

export const powerUndecided = define<{ demand: string }>({
  code: "power-undecided",
  level: "warning",
  title: "no rotation was found that powers this, and none was excluded",
  why: "The search has a counted budget, so that every machine prints the same. It ran out before a rotation or a proof.",
  cure: "Try again with `--patience 4`, or make the day easier with one more pack, slot or free moment.",
  example: `
    hits:     # eight on three packs, and the search ends before it can tell
      noon:
        at: { from: "12:00", every: 20 min, times: 8 }
        for: 3 min
        place: dock
        path: cell
        spare: net
    packs:
      brick: { count: 3, wh: 98, mount: wedge, charge: 70%, in: wagon }
  `,
  sentence: (f, say) => `whether ${say.name(f.demand)} can be powered is undecided: no rotation found, none excluded`,
  hint: () => "try `--patience 4`",
});

export const packChargeUnstated = define<{ packs: readonly string[] }>({
  code: "pack-charge-unstated",
  level: "warning",
  title: "the charge of a pack is not stated",
  why: "A charge that is not stated never counts: the pack is taken as empty at last night's release.",
  cure: "State `charge`, or `follows` a day that says where the packs ended.",
  example: `
    packs:
      block: { count: 2, wh: 146, mount: wedge, in: wagon }     # no \`charge\`
  `,
  sentence: (f) => `the charge of ${f.packs.join(", ")} is not stated: taken as empty`,
  hint: () => "state `charge`: one value, or a list with one for each pack",
});

export const packChargeRestated = define<{
  packs: readonly string[];
  percents: readonly string[];
  before: readonly string[];
}>({
  code: "pack-charge-restated",
  level: "note",
  title: "a day states another charge of a pack than the day before ends with",
  why: "On a day that follows another, each pack holds what the day before left in it. A charge in the day's own file wins, as a reading or an overnight charge does; one in a shared file is the first day's.",
  cure: "Nothing, if the charge was read. Otherwise drop `charge` from this day's file.",
  example: `
    follows: 2027-01-19.yaml     # which leaves less in the pack
    packs:
      brick: { wh: 98, mount: wedge, charge: 100%, in: wagon }
  `,
  sentence: (f) =>
    `as this day's file states, ${f.packs.map((pack, at) => `${pack} starts with ${f.percents[at]} % (the day before: ${f.before[at]} %)`).join(", ")}`,
  hint: () => null,
});

export const loadFitsNoPack = define<{ load: string; mount: string; near: string | null }>({
  code: "load-fits-no-pack",
  level: "error",
  title: "a piece is used and no pack fits its mount",
  why: "The piece draws from packs at a hit of this day, and no pack in the plan has its mount.",
  cure: "Bring packs with this mount, or correct `mount`.",
  example: `
    kit:
      monitor: { in: wagon, watts: 45, mount: plate, during: hits }
  `,
  sentence: (f, say) => `no pack fits ${say.name(f.load)} (mount ${f.mount})`,
  hint: (f) =>
    f.near === null ? `add packs with \`mount: ${f.mount}\`` : `\`mount: ${f.near}\`, as the packs have it`,
});

export const packsFitNothing = define<{ packs: string; mount: string; near: string }>({
  code: "packs-fit-nothing",
  level: "error",
  title: "packs have a mount that nothing else has",
  why: "No piece and no charger in the plan has the mount of these packs; several have one that is spelled nearly alike, which no pack has.",
  cure: "Correct `mount` at the packs.",
  example: `
    packs:
      brick: { count: 4, wh: 98, mount: wegde, in: wagon }
  `,
  sentence: (f, say) => `${say.name(f.packs)} (mount ${f.mount}) fits no piece and no charger`,
  hint: (f) => `\`mount: ${f.near}\`, as pieces and chargers have it`,
});

export const loadWithoutMount = define<{ load: string; watts: number }>({
  code: "load-without-mount",
  level: "note",
  title: "a piece has watts and no mount, so no pack is planned for it",
  why: "Packs go where the mount fits. A piece without one counts as plugged into its vehicle and draws on the inverter there.",
  cure: "State `mount` if the piece runs on packs.",
  example: `
    kit:
      camera: { in: wagon, watts: 38 }
  `,
  sentence: (f, say) => `${say.name(f.load)} draws ${f.watts} W and has no mount: no pack is planned for it`,
  hint: () => "add `mount`, as packs and chargers name it",
});

export const chargerFitsNoPack = define<{ charger: string; mount: string; near: string | null }>({
  code: "charger-fits-no-pack",
  level: "warning",
  title: "a charger takes none of the packs",
  why: "No pack in the plan has the mount of this charger.",
  cure: "Bring the charger that fits, or correct `mount`.",
  example: `
    chargers:
      bench: { mount: plate, slots: 3, watts: 60, in: wagon }
  `,
  sentence: (f, say) => `${say.name(f.charger)} (mount ${f.mount}) takes none of the packs`,
  hint: (f) => (f.near === null ? null : `\`mount: ${f.near}\`, as the packs have it`),
});

export const chargerOverInverter = define<{
  charger: string;
  vehicle: string;
  source: string;
  needWatts: number;
  haveWatts: number;
}>({
  code: "charger-over-inverter",
  level: "warning",
  title: "a charger draws more than its vehicle gives",
  why: "With all slots full the charger and the pieces plugged into the vehicle need more than the inverter or shore lead carries; the charger is not counted there.",
  cure: "A smaller charger, a larger inverter, or `total` if the charger shares less.",
  example: `
    vehicles:
      wagon: { inverter: 150 W }
    chargers:
      bench: { mount: wedge, slots: 3, watts: 60, in: wagon }
  `,
  sentence: (f, say) =>
    `${say.name(f.charger)} draws ${Math.round(f.needWatts)} W, the ${f.source === "shore" ? "shore lead" : "inverter"} of ${say.name(f.vehicle)} has ${Math.round(f.haveWatts)} W left; the charger is not counted there`,
});

export const chargerInFrost = define<{ charger: string; minutes: number }>({
  code: "charger-in-frost",
  level: "note",
  title: "a charger has power below 0 °C, where packs must not be charged",
  why: "Charging below 0 °C plates lithium and ruins the pack; that time is not counted.",
  cure: "State how warm the vehicle is while it runs (`inside: 8 C`), or charge indoors.",
  source: BATTERY_SOURCE,
  example: `
    vehicles:
      wagon: { inverter: 300 W, seats: 5 }     # no \`inside\`
    chargers:
      bench: { mount: wedge, slots: 3, watts: 60, in: wagon }
    weather:
      - { temp: -14 C }
  `,
  sentence: (f, say) =>
    `${say.name(f.charger)} has power for ${f.minutes} min below 0 °C, where packs must not be charged; this time is not counted`,
  hint: () => "state `inside` of the vehicle, or charge indoors",
});

export const packsBeyondTable = define<{ demand: string; celsius: number }>({
  code: "packs-beyond-table",
  level: "warning",
  title: "colder than the known figures for packs",
  why: "How much a pack gives in the cold is known down to −20 °C. Below that the last figure is used, and the pack may give less.",
  cure: "Keep the packs warm until the hit, bring more of them, or work indoors.",
  source: { title: "planning default for lithium-ion packs; no figure below −20 °C", clause: null },
  example: `
    weather:
      - { temp: -30 C }
  `,
  sentence: (f, say) =>
    `${say.name(f.demand)} is at ${figureText(Math.floor(f.celsius))} °C; packs are counted as at −20 °C, the last known figure, and may give less`,
  hint: () => "keep the packs warm until the hit, and bring a spare",
});

export const chargerInHeat = define<{ charger: string; minutes: number }>({
  code: "charger-in-heat",
  level: "note",
  title: "a charger has power where it is too hot to charge",
  why: "Packs are not charged above 45 °C; that time is not counted.",
  cure: "Charge in the shade, in a cooled vehicle (`inside: 25 C`) or at night.",
  source: BATTERY_SOURCE,
  example: `
    vehicles:
      wagon: { inverter: 300 W, seats: 5 }     # no \`inside\`
    chargers:
      bench: { mount: wedge, slots: 3, watts: 60, in: wagon }
    weather:
      - { temp: 47 C }
  `,
  sentence: (f, say) =>
    `${say.name(f.charger)} has power for ${f.minutes} min above 45 °C, where packs must not be charged; this time is not counted`,
  hint: () => "state `inside` of the vehicle, or charge where it is cooler",
});

const AIR_SOURCE = { title: "49 CFR 175.10", clause: "(a)(18)" };

export const packsNotForCabin = define<{
  group: string;
  count: number;
  allowed: number;
  wh: number;
  how: string;
  people: number;
}>({
  code: "packs-not-for-cabin",
  level: "warning",
  law: "always",
  title: "more packs are in the plan than its flyers may take into the cabin",
  why: "Spare lithium-ion packs fly in the cabin only: up to 100 Wh without approval, up to 160 Wh two a person with the operator's approval, larger ones not as baggage at all. Airlines may be stricter.",
  cure: "Leave them with a vehicle, send them as cargo, or share them out over more people.",
  source: AIR_SOURCE,
  example: `
    packs:
      block: { count: 3, wh: 146, mount: wedge, charge: 50%, in: wagon }
    rides:
      flight:
        from: lodge
        to: home
        leave: "14:00"
        arrive: "17:00"
        lead: 1 h
        by: air
        who: [wren]
  `,
  sentence: (f) =>
    `${f.count} packs of ${f.group} (${Math.round(f.wh)} Wh): ${f.how}; ${f.people} ${f.people === 1 ? "person flies" : "people fly"}, so ${f.allowed} may go along`,
});
