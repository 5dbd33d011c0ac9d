/**
 * Do the batteries last? Which pack is on which load at each hit, which in which slot and when somebody swaps it, and a proof.
 *
 * `assess` solves every day of a chain that has packs, each from where the day before left them, and gives the days back with
 * the chores of their people: whatever is judged after it sees them.
 */
import { withChores } from "../day/chain.ts";
import type { Chore, Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import type { JudgeInput, Judgement } from "../findings/judgement.ts";
import type { Id } from "../plan/plan.ts";
import type { SkyResult } from "../sky/index.ts";
import { type Instant, instant } from "../time/units.ts";
import { asFound, holderOfSpot } from "./asFound.ts";
import { buildModel, type CarriedPacks, type DayModel, NO_CARRIED_PACKS, type PacksLeft } from "./day/build.ts";
import type { Gear } from "./day/demands.ts";
import type { RestBounds } from "./day/rests.ts";
import type { Effort } from "./fast/effort.ts";
import { powerFindings } from "./judge.ts";
import { type Resumed, resumed } from "./past.ts";
import type { Solution } from "./proof/solve.ts";
import { replay } from "./replay.ts";
import { crewed } from "./rested.ts";
import type { ShortageCause } from "./shortage/diagnose.ts";

export type { DayModel } from "./day/build.ts";
export type { Solution } from "./proof/solve.ts";
export type { ShortageCause } from "./shortage/diagnose.ts";

/** The rotation of a day's packs, and what is short. */
export interface PowerResult {
  readonly built: DayModel;
  readonly solution: Solution;
  /** Null where everything is covered. */
  readonly missing: ShortageCause | null;
  /** The chain that was judged, with the chores of its people. */
  readonly days: readonly Day[];
}

/** The rests that bind a person on the last of some days, by the rules alone. */
export type BoundsOf = (
  days: readonly Day[],
  who: Id,
) => readonly { readonly minutes: number; readonly legallyBinding: boolean }[];

/** Where the gear is on the last of some days. */
export type GearOf = (days: readonly Day[]) => Gear | null;

/** What other engines know that this one goes by. */
export interface Neighbours {
  readonly boundsOf?: BoundsOf;
  readonly gearOf?: GearOf;
}

/** The turnaround of the house binds everyone. */
const houseBounds: BoundsOf = (days) =>
  days.slice(-1).map(({ plan }) => ({ minutes: plan.rules.turnaround, legallyBinding: false }));

const noGear: GearOf = () => null;

/** The longest of each kind for everyone. */
function boundsFor(days: readonly Day[], boundsOf: BoundsOf): RestBounds {
  const crew = [...(days.at(-1)?.plan.crew.keys() ?? [])];
  const longest = (rests: ReturnType<BoundsOf>, law: boolean): number | null => {
    const minutes = rests.filter((one) => one.legallyBinding === law).map((one) => one.minutes);
    return minutes.length === 0 ? null : Math.max(...minutes);
  };
  return new Map(
    crew.map((who) => {
      const rests = boundsOf(days, who);
      return [who, { lawMinutes: longest(rests, true), houseMinutes: longest(rests, false) }];
    }),
  );
}

/** Judges the batteries of the last of `days`, which have no chores yet. `sky` null: every hit counts as dark. */
export async function assess(
  { days, patience, brief, now }: JudgeInput,
  sky: SkyResult | null,
  { boundsOf = houseBounds, gearOf = noGear }: Neighbours = {},
): Promise<Judgement<PowerResult>> {
  const day = days.at(-1);
  if (day === undefined) throw new RangeError("no day to judge");
  const effort = { patience, brief: brief === true, quick: brief === true };
  const { carried, chores: earlier } = await before({ days: days.slice(0, -1), sky, boundsOf, gearOf }, patience);
  const chores = earlier.map((one) => [...one]);
  const planned = buildModel(day, { sky, carried, bounds: boundsFor(days, boundsOf), gear: gearOf(days) });
  const { built, solution, left } = await underWay(planned, { days, sky, carried, boundsOf, gearOf }, effort);
  const missing = brief === true ? null : await missingOf(fromNow(built, now), fromNow(left, now), solution, effort);
  const findings: readonly Finding[] = powerFindings(built, solution, missing);
  share(days, days.length - 1, choresOf(built, solution), chores);
  const worked = chores.every((one) => one.length === 0) ? days : withChores(days, chores);
  return { result: { built, solution, missing, days: worked }, findings };
}

/** What the days before the last one leave to it. */
interface Before {
  readonly carried: CarriedPacks;
  /** By day, the last one too: chores after a release belong to the day after. */
  readonly chores: readonly (readonly Chore[])[];
}

type Asked = Omit<Around, "carried">;

/** By the latest of the days: what is tried with the last day of a chain asks for those before it again and again. */
const leftBefore = new WeakMap<
  Day,
  { readonly asked: Asked; readonly patience: number; readonly left: Promise<Before> }
>();

/** What `days`, all before the last one, leave to it, whatever is tried with that. */
function before(asked: Asked, patience: number): Promise<Before> {
  const latest = asked.days.at(-1);
  if (latest === undefined) return Promise.resolve({ carried: NO_CARRIED_PACKS, chores: [[]] });
  const known = leftBefore.get(latest);
  if (known !== undefined && known.patience === patience && isSame(known.asked, asked)) return known.left;
  const left = solvedUpTo(asked, patience);
  leftBefore.set(latest, { asked, patience, left });
  return left;
}

/** Of the sky only whether it is known counts: earlier days have their own. */
const isSame = (one: Asked, other: Asked): boolean =>
  (one.sky === null) === (other.sky === null) &&
  one.boundsOf === other.boundsOf &&
  one.gearOf === other.gearOf &&
  one.days.length === other.days.length &&
  one.days.every((day, n) => day === other.days[n]);

async function solvedUpTo({ days, sky, boundsOf, gearOf }: Asked, patience: number): Promise<Before> {
  let carried: CarriedPacks = NO_CARRIED_PACKS;
  const chores: Chore[][] = [[], ...days.map(() => [])];
  for (const [n, day] of days.entries()) {
    if (day.plan.packs.size === 0) {
      carried = { ...carried, settled: day.span.to };
      continue;
    }
    const chain = days.slice(0, n + 1);
    const bounds = boundsFor(chain, boundsOf);
    const built = buildModel(day, { sky: await skyOf(day, sky), carried, bounds, gear: gearOf(chain) });
    // The days before are what they are, whatever is tried today.
    const went = await asFound(built, { patience }, (one) => solvedBefore(one, { patience }));
    carried = leftBy(went.built, went.solution);
    share(days, n, choresOf(went.built, went.solution), chores);
  }
  return { carried, chores };
}

/** With those moments alone at which somebody can still be asked to give up rest. */
const fromNow = (built: DayModel, now: Instant | null): DayModel =>
  now === null ? built : { ...built, now, restful: built.restful.filter(({ at }) => at >= now) };

/**
 * Why something is left out: of what was still open when it was searched, so that nothing is asked of a past that stands.
 * Most days leave out nothing, and do not load what asks.
 */
async function missingOf(
  built: DayModel,
  left: DayModel,
  solution: Solution,
  effort: Effort,
): Promise<ShortageCause | null> {
  const [out] = solution.dropped;
  if (out === undefined) return null;
  const isOpen = left.model.demands.some(({ id }) => id === out.demand.id);
  return (await import("./shortage/diagnose.ts")).diagnose(isOpen ? left : built, out, effort);
}

interface Around {
  readonly days: readonly Day[];
  readonly sky: SkyResult | null;
  readonly carried: CarriedPacks;
  readonly boundsOf: BoundsOf;
  readonly gearOf: GearOf;
}

/** The rotation of the day; of one that is edited while it is under way only what comes later is searched. */
async function underWay(
  planned: DayModel,
  { days, sky, carried, boundsOf, gearOf }: Around,
  effort: Effort,
): Promise<Resumed> {
  const unedited = days.at(-1)?.unedited ?? null;
  if (unedited !== null) {
    const chain = [...days.slice(0, -1), unedited.day];
    const light = await skyOf(unedited.day, sky);
    const bounds = boundsFor(chain, boundsOf);
    const before = buildModel(unedited.day, { sky: light, carried, bounds, gear: gearOf(chain) });
    const calm = { patience: effort.patience };
    const earlier = await asFound(before, calm, (one) => solvedBefore(one, calm));
    const found = await resumed(withSeen(planned, earlier.built), earlier, unedited.now, effort);
    if (found !== null) return found;
  }
  return asFound(planned, effort, (one) => crewed(one, effort));
}

/** An edit changes nothing of where packs were seen. */
function withSeen(built: DayModel, { model }: DayModel): DayModel {
  const packs = built.model.packs.map((pack) => {
    const { seen } = model.packs.find(({ id }) => id === pack.id) ?? pack;
    return seen === undefined ? pack : { ...pack, seen };
  });
  return { ...built, model: { ...built.model, packs } };
}

/** Rotations of earlier days by what they are made from: a folder of days, or a day tried again and again, asks for the same. */
const known = new Map<string, Solution>();
const KEPT = 32;

async function solvedBefore(built: DayModel, effort: Effort): Promise<Solution> {
  const { model, touches, around } = built;
  const demands = model.demands.map((demand) => ({ ...demand, watts: [...demand.watts] }));
  const people = around.day.people.map(({ id, duties, previousRelease }) => ({ id, duties, previousRelease }));
  const key = JSON.stringify([effort, { ...model, demands }, touches, people, [...around.day.plan.chargers.values()]]);
  const found = known.get(key);
  if (found !== undefined) return found;
  const solution = await crewed(built, effort);
  const [oldest] = known.keys();
  if (known.size >= KEPT && oldest !== undefined) known.delete(oldest);
  known.set(key, solution);
  return solution;
}

/** The work of each person at each touch; in a vehicle on the road, or at a place. */
function choresOf({ touches, around }: DayModel, { rotation }: Solution): Chore[] {
  const { plan } = around.day;
  return rotation.chores.flatMap(({ touch, begins, ends, who }) => {
    const where = touches.find((one) => one.id === touch)?.where ?? null;
    const isPlace = where !== null && plan.places.has(where);
    return who.map((id) => ({
      ...{ who: id, from: begins, to: ends },
      ...{ place: isPlace ? where : null, vehicle: isPlace ? null : where },
    }));
  });
}

/** A chore after someone's release belongs to the day after, where `all` has one: its night begins there. */
function share(days: readonly Day[], n: number, chores: readonly Chore[], all: Chore[][]): void {
  for (const chore of chores) {
    const release = days[n]?.people.find(({ id }) => id === chore.who)?.release ?? null;
    const later = release !== null && chore.from >= release && n + 1 < all.length;
    all[later ? n + 1 : n]?.push(chore);
  }
}

/** The light of an earlier day; not known where that of the last day is not. */
async function skyOf(day: Day, sky: SkyResult | null): Promise<SkyResult | null> {
  if (sky === null) return null;
  const { assess: light } = await import("../sky/index.ts");
  return (await light({ days: [day], patience: 1, now: null })).result;
}

/** What a day leaves: nothing of packs whose charge it does not know. */
function leftBy(built: DayModel, { rotation }: Solution): CarriedPacks {
  const { model } = built;
  const unknown = new Set(built.unstated);
  const covered = model.demands.filter(({ id }) => rotation.covered.includes(id));
  const ends = [model.from, ...covered.map(({ to }) => to), ...rotation.chores.map((chore) => chore.ends)];
  const settled = instant(Math.max(...ends));
  const packsAt = (at: Instant): PacksLeft => {
    const to = instant(Math.max(settled, Math.min(at, model.to)));
    const { steps } = replay({ ...model, to }, rotation);
    return new Map(
      model.packs.flatMap((pack): [Id, { share: number; at: Id }][] => {
        const last = steps.get(pack.id)?.at(-1);
        // What was found without a moment holds from the last release on, and so does where a pack was found.
        const found = built.around.day.plan.actual.packs.get(pack.id);
        const stated = found === undefined || found.at !== null ? null : found.charge;
        if (unknown.has(pack.id) && stated === null) return [];
        const share = stated ?? (last?.whAfter ?? pack.startWh) / pack.wh;
        const counted = found?.at != null && found.at <= model.to ? null : (found?.in ?? null);
        return [[pack.id, { share, at: counted ?? last?.at ?? pack.at }]];
      }),
    );
  };
  return { settled, packsAt };
}

/** Where each pack lies or rides, from when on: a bay, or the bay of the charger or piece that it is in. */
export function packStays({ built, solution }: PowerResult): ReadonlyMap<Id, readonly PackStay[]> {
  const { model } = built;
  return new Map(
    model.packs.map((pack): [Id, readonly PackStay[]] => {
      const steps = solution.replay.steps.get(pack.id) ?? [];
      // A piece that changes vehicles takes its pack along.
      const changes = model.loads.flatMap(({ bay }) => bay.map(({ from }) => from));
      const stays = steps.flatMap((step) =>
        [step.from, ...changes.filter((at) => step.from < at && at < step.to)].map((from) => ({
          from,
          holder: holderOfSpot(built, step.at, from),
        })),
      );
      return [pack.id, stays.filter(({ holder }, n) => n === 0 || holder !== stays[n - 1]?.holder)];
    }),
  );
}

/** From then on, until the next one. */
export interface PackStay {
  readonly from: Instant;
  readonly holder: Id;
}
