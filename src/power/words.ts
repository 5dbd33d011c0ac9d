/** How cures and energies are worded, in findings and in the report. */
import type { Wording } from "../findings/finding.ts";
import type { Id } from "../plan/plan.ts";
import type { Cure } from "./shortage/cures.ts";
import type { Shortage } from "./shortage/shortage.ts";

/** Whole Wh; tenths below one. */
const wh = (value: number, round: (value: number) => number): string =>
  `${Math.abs(value) < 1 ? round(value * 10) / 10 : round(value)} Wh`;

/** What is there, never flattered: `12 Wh` of 12.4. */
export const spareWh = (value: number): string => wh(value, Math.floor);

/** What lacks, or may be at most: `13 Wh` of 12.4. */
export const shortWh = (value: number): string => wh(value, Math.ceil);

/** `41 %`. */
export const percentText = (share: number): string => `${wholePercent(share)} %`;

/** A share of full in whole per cent, as every view prints it. */
export const wholePercent = (share: number): number => Math.round(share * 100);

/** From this share on a pack is called full. */
const FULL_SHARE = 0.99;

/** `41 %`, or `full`. */
export const shareText = (share: number): string => (share >= FULL_SHARE ? "full" : percentText(share));

/** `swap packs at 21:40 Chicago at Birch Point Lodge (Wren Aalto)`: imperative, without the edits. */
export function cureText(cure: Cure, say: Wording): string {
  const name = say.name(cure.id);
  const who = cure.who.map((id) => say.name(id)).join(" or ");
  switch (cure.kind) {
    case "touch": {
      const early = cure.edits.some((edit) => edit.startsWith("rules.bedAfter")) ? "before bed, " : "";
      const at = cure.at === null ? "another moment" : say.time(cure.at, cure.id);
      const rest = cure.restMinutes === null ? "" : `, who would then have ${say.length(cure.restMinutes)} of rest`;
      return `swap packs ${early}at ${at} at ${name} (${who}${rest})`;
    }
    case "hands":
      return `let ${who} also work at ${name}`;
    case "standby":
      return `switch ${name} off between hits`;
    case "inside":
      return `keep ${name} at a temperature at which packs charge`;
    case "total":
      return `set ${name} to share the power that is there`;
    case "slot":
      return `add one slot to ${name}`;
    case "charger":
      return `put a charger into ${name}`;
    case "pack":
      return `bring ${cure.count === 1 ? "one more pack" : `${cure.count} more packs`} (${name}) at ${percentText(cure.share ?? 1)}`;
  }
}

/** What helps where no pack is large enough: no single edit, as each is another decision. */
export const beyondHint = (packWh: number): string =>
  `draw less, make the hit shorter or split it, or bring a pack of ${packWh} Wh or more`;

/** A charge that nobody stated comes before all that would be brought or moved. */
export const unstatedHint = (packs: readonly Id[]): string =>
  `state the charge of ${packs.join(", ")} first: taken as empty`;

const UNPOWERED = "no charger has mains or a running engine";
const UNUSED: Readonly<Record<NonNullable<Shortage["because"]>, string>> = {
  frost: "the chargers have power only below 0 °C, where packs must not be charged",
  heat: "the chargers have power only above 45 °C, where packs must not be charged",
  overload: "the chargers draw more than their vehicle gives",
  hands: "no one who may work at a charger is there",
};

/** `7 Wh short, about 7 min more in a charger; until then the 3 slots have power for 12 h`: what lacks, and by how much. */
export function shortageText(
  { packs, beyond, missingWh, charging, moments, because, forRest, asleep }: Shortage,
  say: Wording,
): string {
  if (packs !== null)
    return `${packs.needed === 1 ? "1 pack is" : `${packs.needed} packs are`} needed at once, ${packs.there === 1 ? "there is" : "there are"} ${packs.there}: ${packs.needed - packs.there} short`;
  if (beyond !== null)
    return `${say.name(beyond.load)} needs ${shortWh(beyond.needsWh)} on one pack, and a full one gives ${spareWh(beyond.givesWh)}; charging does not help`;
  if (forRest) return "the swaps that it needs would leave someone too little rest";
  if (asleep.length > 0)
    return `only ${asleep.map((id) => say.name(id)).join(" or ")}, asleep aboard then, could make the swaps that it needs`;
  if (missingWh === null)
    return moments === 0
      ? "no charge would help: no one is free to put packs on until then"
      : `no charge would help: at none of the ${moments} moments at which someone is free can the packs get there in time`;
  const lacks = `${shortWh(missingWh)} short`;
  if (charging === null) return `${lacks}, and the plan has no charger`;
  if (because !== null) return `${lacks}, and until then ${UNUSED[because]}`;
  if (charging.minutes === 0) return `${lacks}, and until then ${UNPOWERED}`;
  const longer = say.length(Math.ceil((missingWh / charging.watts) * 60));
  const slots = charging.slots === 1 ? "the one slot has" : `the ${charging.slots} slots have`;
  return `${lacks}, about ${longer} more in a charger; until then ${slots} power for ${say.length(charging.minutes)}`;
}

/** `--set packs.brick.count=4 --set "packs.brick.charge=[100%, 20%]"`: in quotes that the shells of Windows take as well; quotes inside are single ones. */
export const setText = (edits: readonly string[]): string =>
  edits.map((edit) => `--set ${/^[\w.=%-]+$/.test(edit) ? edit : `"${edit.replaceAll('"', "'")}"`}`).join(" ");
