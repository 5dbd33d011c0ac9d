/** What might let a demand be covered after all: changed copies of a model, the least asked first. */
import type { Id, Pack } from "../../plan/plan.ts";
import type { Instant } from "../../time/units.ts";
import { bayOfCharger, type DayModel, touchesFor } from "../day/build.ts";
import { chargerOf } from "../day/chargers.ts";
import { frozenMinutes, hotMinutes } from "../day/idleChargers.ts";
import { type HandMoment, spareTouches } from "../day/touches.ts";
import { type Demand, type Model, type ModelCharger, type ModelPack, workSpan } from "../model.ts";

/** A change that would end a shortage. */
export interface Cure {
  readonly kind: "touch" | "hands" | "standby" | "inside" | "total" | "slot" | "charger" | "pack";
  /** The charger, vehicle, load or group of packs it concerns; the place of a touch. */
  readonly id: Id;
  readonly at: Instant | null;
  /** Who could do it, for a touch; who may also touch the charger, for hands. */
  readonly who: readonly Id[];
  /** How many more, of packs. */
  readonly count: number;
  /** Rest that the one who does it would be left with, minutes, where that is less than the house asks for; else null. */
  readonly restMinutes: number | null;
  /** Charge of a pack more, 0 to 1. */
  readonly share: number | null;
  /** The changes of the plan as `--set` takes them, to be made together; none where no line of the plan says it. */
  readonly edits: readonly string[];
}

/** A change and the model with it. */
export interface Offer {
  readonly cure: Cure;
  readonly model: Model;
}

const NO_CURE = { at: null, who: [], count: 1, restMinutes: null, share: null, edits: [] } as const;

/**
 * Moments at which someone could be up, or whose rest only the house rule keeps whole; ended before the demand begins, the most
 * rest left first, then nearest to an existing touch. What would take a rest below the law is never offered.
 */
export function touchOffers(built: DayModel, demand: Demand): Offer[] {
  const { model } = built;
  const asleep = spareTouches(built.around, built.handBays);
  const distance = (one: HandMoment): number => Math.min(...model.touches.map((touch) => Math.abs(touch.at - one.at)));
  return [...asleep, ...built.restful]
    .filter((one) => Math.max(model.from, built.now ?? model.from) <= one.at && one.at <= demand.from)
    .flatMap((one) => lawful(built, one) ?? [])
    .map((offer) => ({ ...offer, far: distance(offer.one) }))
    .sort((a, b) => a.lacks - b.lacks || a.far - b.far || b.one.at - a.one.at)
    .map(({ one, keptMinutes, lacks }) => ({
      cure: {
        ...NO_CURE,
        kind: "touch",
        id: one.where,
        at: one.at,
        who: handsAt(built, one),
        restMinutes: lacks > 0 ? keptMinutes : null,
        edits: touchEdits(built, one, lacks > 0 ? keptMinutes : null),
      },
      model: { ...model, touches: withTouch(model, one) },
    }));
}

/** Moments before the demand at which somebody who sleeps in a vehicle could make a swap: that sleep is part of no rest between calls. */
export function sleepersAboard(
  { around, handBays, model, now, rests }: DayModel,
  demand: Demand,
): readonly HandMoment[] {
  return spareTouches(around, handBays)
    .filter(({ at }) => Math.max(model.from, now ?? model.from) <= at && at <= demand.from)
    .flatMap((moment) => {
      const hands = moment.hands.filter(
        (hand) => rests.restAt(hand.who, workSpan({ ...moment, free: hand }, model.swapMinutes)) === null,
      );
      return hands.length === 0 ? [] : [{ ...moment, hands }];
    });
}

/** The moment with those whose rest stays lawful, the rest that the first of them is left with, and what it lacks for the house. */
function lawful({ rests, model }: DayModel, moment: HandMoment) {
  const found = moment.hands
    .flatMap((hand) => {
      const work = workSpan({ ...moment, free: hand }, model.swapMinutes);
      const rest = rests.restAt(hand.who, work);
      if (rest === null) return [];
      const keptMinutes = rests.kept(rest, [work]);
      const lacks = Math.max(0, rests.needed(hand.who, rest) - keptMinutes);
      return keptMinutes < rests.neededByLaw(hand.who, rest) ? [] : [{ hand, keptMinutes, lacks }];
    })
    .toSorted((a, b) => a.lacks - b.lacks);
  const [best] = found;
  if (best === undefined) return null;
  const hands = found.filter(({ lacks }) => lacks === best.lacks).map(({ hand }) => hand);
  return { one: { ...moment, hands }, keptMinutes: best.keptMinutes, lacks: best.lacks };
}

/** Those of them who may touch every charger, where there are any. */
function handsAt({ around }: DayModel, one: HandMoment): readonly Id[] {
  const chargers = [...around.day.plan.chargers.values()];
  const there = one.hands.map(({ who }) => who);
  const free = there.filter((id) => chargers.every(({ hands }) => hands === null || hands.includes(id)));
  return free.length > 0 ? free : there;
}

/** One more who may touch a charger: for each that only some may, everybody else in plan order. */
function handsOffers(built: DayModel): Offer[] {
  const { model, around, handBays } = built;
  const { chargers, crew } = around.day.plan;
  return [...chargers.values()].flatMap((charger) => {
    const { hands } = charger;
    if (hands === null) return [];
    return [...crew.keys()]
      .filter((who) => !hands.includes(who))
      .map((who): Offer => {
        const more = [...hands, who];
        const bays = handBays.map((bay) => (bay.id === bayOfCharger(charger) ? { ...bay, hands: more } : bay));
        const edits = [`chargers.${charger.id}.hands=[${more.join(", ")}]`];
        return {
          cure: { ...NO_CURE, kind: "hands", id: charger.id, who: [who], edits },
          model: { ...model, touches: touchesFor(built, bays) },
        };
      });
  });
}

/** All of them at once: where even that does not help, none alone does. */
export function allTouches(built: DayModel, offers: readonly Offer[]): Model {
  const known = new Set(built.model.touches.map((touch) => touch.id));
  const fresh = offers.flatMap(({ model }) => model.touches.filter((touch) => !known.has(touch.id)));
  return { ...built.model, touches: [...built.model.touches, ...fresh].sort((a, b) => a.at - b.at) };
}

const withTouch = (model: Model, one: HandMoment): Model["touches"] =>
  [...model.touches, { id: `extra.${one.where}.${one.at}`, at: one.at, reach: one.reach }].sort((a, b) => a.at - b.at);

/** Longer after a release no one stays up: then the night is broken, and no line of the plan says so. */
const LATE_MINUTES = 6 * 60;

/** Staying up later is a house rule: a night's sleep begins `bedAfter` behind the release. */
function touchEdits({ around }: DayModel, one: HandMoment, restMinutes: number | null): readonly string[] {
  const { bedAfter } = around.day.plan.rules;
  const nights = one.hands.filter(({ doing }) => doing === "sleep");
  const since = Math.min(...nights.map(({ from }) => one.at - from + bedAfter));
  if (nights.length > 0 && since > LATE_MINUTES) return [];
  return [
    ...(nights.length === 0 ? [] : [`rules.bedAfter=${since} min`]),
    ...(restMinutes === null ? [] : [`rules.turnaround=${restMinutes} min`]),
  ];
}

/** Other hands, standby off, a vehicle kept warm or cool, a charger that shares less, a slot more, a charger in a vehicle. */
export function gearOffers(built: DayModel, demand: Demand): Offer[] {
  return [
    ...handsOffers(built),
    ...standbyOffers(built, demand),
    ...insideOffers(built),
    ...totalOffers(built),
    ...slotOffers(built),
    ...chargerOffers(built),
  ];
}

function standbyOffers({ model, loads }: DayModel, demand: Demand): Offer[] {
  if (demand.kind !== "standby") return [];
  const load = loads.find((one) => demand.watts.has(one.load.id));
  const rest = model.demands.filter((one) => one.id !== demand.id);
  if (load === undefined) return [];
  const edits = load.piece.standbyWatts === null ? [] : [`kit.${load.piece.id}.standby=0 W`];
  return [{ cure: { ...NO_CURE, kind: "standby", id: load.piece.id, edits }, model: { ...model, demands: rest } }];
}

/** As warm as packs may be charged at their full power, and cool enough. */
const GOOD_CELSIUS = 10;
const COOL_CELSIUS = 25;

/** A vehicle whose charger has power in the frost or the heat, kept at a good temperature while it runs. */
function insideOffers(built: DayModel): Offer[] {
  const { plan } = built.around.day;
  return [...plan.vehicles.values()].flatMap((vehicle): Offer[] => {
    const frost = frozenMinutes(built, vehicle.id) > 0;
    if (![...plan.chargers.values()].some((charger) => charger.in === vehicle.id)) return [];
    if (!frost && hotMinutes(built, vehicle.id) === 0) return [];
    const insideCelsius = frost ? GOOD_CELSIUS : COOL_CELSIUS;
    const vehicles = new Map([...plan.vehicles, [vehicle.id, { ...vehicle, insideCelsius }]]);
    const edits = [`vehicles.${vehicle.id}.inside=${insideCelsius} C`];
    return [{ cure: { ...NO_CURE, kind: "inside", id: vehicle.id, edits }, model: built.again({ ...plan, vehicles }) }];
  });
}

/** A charger that asks too much of its vehicle, set to share what there is. */
function totalOffers(built: DayModel): Offer[] {
  const { plan } = built.around.day;
  return built.overloads.flatMap(({ charger, haveWatts }): Offer[] => {
    const one = plan.chargers.get(charger);
    const totalWatts = Math.floor(haveWatts);
    if (one === undefined || totalWatts <= 0) return [];
    const watts = Math.min(one.watts, totalWatts);
    const chargers = new Map([...plan.chargers, [charger, { ...one, watts, totalWatts }]]);
    const edits = [
      ...(watts < one.watts ? [`chargers.${charger}.watts=${watts} W`] : []),
      `chargers.${charger}.total=${totalWatts} W`,
    ];
    return [{ cure: { ...NO_CURE, kind: "total", id: charger, edits }, model: built.again({ ...plan, chargers }) }];
  });
}

function slotOffers({ model }: DayModel): Offer[] {
  return model.chargers.map((charger) => ({
    cure: { ...NO_CURE, kind: "slot", id: charger.id, edits: [`chargers.${charger.id}.slots=${charger.slots + 1}`] },
    model: {
      ...model,
      chargers: model.chargers.map((one) => (one === charger ? { ...one, slots: one.slots + 1 } : one)),
    },
  }));
}

/** The first charger's like in each vehicle that has an inverter and no charger. */
function chargerOffers({ model, around }: DayModel): Offer[] {
  const { plan } = around.day;
  const [like] = plan.chargers.values();
  if (like === undefined) return [];
  return [...plan.vehicles.values()].flatMap((vehicle) => {
    if (
      vehicle.inverterWatts === null ||
      [...plan.chargers.values()].some((one) => one.in === vehicle.id) ||
      !model.bays.includes(vehicle.id)
    )
      return [];
    const id = `${like.id}.${vehicle.id}`;
    const { charger } = chargerOf(around, { ...like, id, in: vehicle.id, hands: null }, vehicle.id, model);
    const chargers: ModelCharger[] = [...model.chargers, charger];
    return [{ cure: { ...NO_CURE, kind: "charger", id: vehicle.id }, model: { ...model, chargers } }];
  });
}

/** The groups of packs of the plan, in its order. */
export const packGroups = ({ around }: DayModel): readonly Id[] => [
  ...new Set([...around.day.plan.packs.values()].map((pack) => pack.group)),
];

/** So many packs more of a group, each with this share of a full charge. */
export function packOffer({ model, around }: DayModel, group: Id, count: number, share: number): Offer | null {
  const members = [...around.day.plan.packs.values()].filter((pack) => pack.group === group);
  const [first] = members;
  const like = model.packs.find((one) => one.id === first?.id);
  if (first === undefined || like === undefined) return null;
  const ids = Array.from({ length: count }, (_, n) => `${group}.${members.length + 1 + n}`);
  const { found: _found, broken: _broken, ...kind } = like;
  const extra = ids.map((id): ModelPack => ({ ...kind, id, startWh: like.wh * share, at: first.in }));
  return {
    cure: { ...NO_CURE, kind: "pack", id: group, count, share, edits: packEdits(members, group, ids, share) },
    model: { ...model, packs: [...model.packs, ...extra] },
  };
}

/** More in the group, and their charge: in a list with the others', or each by itself where those are not all stated. */
function packEdits(members: readonly Pack[], group: Id, ids: readonly Id[], share: number): readonly string[] {
  const charges = [...members.map((pack) => pack.charge), ...ids.map(() => share)].flatMap((charge) => charge ?? []);
  const count = members.length + ids.length;
  const charge =
    charges.length === count
      ? [`packs.${group}.charge=[${charges.map(percent).join(", ")}]`]
      : ids.map((id) => `packs.${group}.own.${JSON.stringify(id)}.charge=${percent(share)}`);
  return [`packs.${group}.count=${count}`, ...charge];
}

/** `37.5%`, as a plan states it. */
const percent = (share: number): string => `${Number((share * 100).toFixed(4))}%`;
