/** How hard the search may try: counted work, never seconds, so that every machine prints the same. */

import type { Model } from "../model.ts";
import type { Desk } from "./desk.ts";

/** How long to search, counted in steps. */
export interface Effort {
  /** Multiplies every budget below; above 1 margin and moves are also asked of the solver. */
  readonly patience: number;
  /** Without the solver: what the fast way does not find counts as not coverable, and nothing is proved by it. */
  readonly quick?: boolean;
  /** Coverage only, with whatever margin and chores it is found with: for plans that are only tried. */
  readonly brief?: boolean;
  /** What all questions of one search together may still take; each for itself where left out. */
  readonly left?: SearchWork;
}

/** Work that questions may still take. */
export interface SearchWork {
  /** Labels of paths, as the desk counts them: what takes as long as so many counts as so many. */
  labels: number;
  /** The same for saving chores. */
  chores: number;
  /** The same for more margin. */
  margin: number;
}

/** Whether margin and moves are to be proved, and not only coverage. */
export const isPatient = (effort: Effort): boolean => effort.patience > 1;

/** Times that packs are taken out and put back, for one threshold. */
export const coverRounds = (effort: Effort): number => Math.ceil(40 * effort.patience);

/** The same for a rotation from an empty start that keeps more than one that keeps less than a grain. */
export const freshRounds = (effort: Effort): number => Math.ceil(200 * effort.patience);

/** The same for a margin beyond covering. */
export const marginRounds = (effort: Effort): number => Math.ceil(3 * effort.patience);

/** The same for packs that keep too little, whose uses must all be powered by those that are put back. */
export const raiseRounds = (effort: Effort): number => Math.ceil(9 * effort.patience);

/** The same while saving chores, for every touch that is tried without: fewer on large days, so that more touches are tried. */
export const choreRounds = (effort: Effort, model: Model): number =>
  Math.ceil((waysOf(model) > LARGE ? 8 : 12) * effort.patience);

const waysOf = ({ packs, touches }: Model): number => packs.length * touches.length;
const LARGE = 200;

/** Work that may pass without a chore saved, in labels: the more uses there are, the longer a gain may take to come. */
const calmWork = (effort: Effort, uses: number): number => (1_000 + 80 * uses ** 3) * effort.patience ** 2;

/** Work that a search may still do: up to a number of labels in all, and up to a number of them without a gain. */
export class Allowance {
  private readonly desk: Pick<Desk, "work">;
  /** The work of the desk at which it is spent. */
  readonly until: number;
  private readonly calm: number;
  private gainedAt: number;

  constructor(desk: Pick<Desk, "work">, most: number, calm: number) {
    this.desk = desk;
    this.until = desk.work + most;
    this.calm = calm;
    this.gainedAt = desk.work;
  }

  /** Something was gained just now. */
  gain(): void {
    this.gainedAt = this.desk.work;
  }

  isSpent(): boolean {
    const { work } = this.desk;
    return work >= this.until || work - this.gainedAt >= this.calm;
  }
}

/** What saving chores may take where so many uses are covered: what is left of it, or a little where nothing is. */
export const choreAllowance = (effort: Effort, uses: number, desk: Desk): Allowance =>
  new Allowance(desk, Math.max(LEAST_CHORE_WORK, searchWork(effort).chores), calmWork(effort, uses));

const LEAST_CHORE_WORK = 10_000;

/** Rotations that keep people's rest looked for, after one that does not. */
export const restQuestions = (effort: Effort): number => Math.ceil(12 * effort.patience);

/** Linear programs solved to answer one question. */
export const lpRounds = (effort: Effort): number => Math.ceil(120 * effort.patience);

/** Of all questions in one search, and of all chores that it saves. */
export const searchWork = ({ patience, left, brief }: Effort): SearchWork =>
  left ?? {
    labels: (brief === true ? BRIEF_LABELS : SEARCH_LABELS) * patience ** 2,
    chores: CHORE_LABELS * patience ** 2,
    margin: MARGIN_LABELS * patience ** 2,
  };

const SEARCH_LABELS = 900_000;
/** Of our examples no plan that is only tried takes more. */
const BRIEF_LABELS = 20_000;
/** Saving the chores of random days takes up to 215,000. */
const CHORE_LABELS = 400_000;
/** More margin for random days takes up to 22,000. */
const MARGIN_LABELS = 100_000;

/** The same while looking for what blocks and what cures. */
export const diagnosisWork = ({ patience }: Effort): SearchWork => ({
  labels: 200_000 * patience ** 2,
  chores: 0,
  margin: 0,
});

/** Of one question to the fast way on so many spots in so many intervals: what it finds for random days takes a tenth. */
export const fastWork = ({ patience }: Effort, size: number): number => Math.max(10_000, 40 * size) * patience ** 2;

/** Of one from an empty start for more than a grain. */
export const freshWork = (effort: Effort, size: number): number => 8 * fastWork(effort, size);

/** Of what a search may take, what the solver leaves to the fast way, which still finds much where the solver does not. */
export const fastShare = ({ patience }: Effort): number => FAST_LABELS * patience ** 2;

const FAST_LABELS = 100_000;

/** Of one question to the solver: a third of what is left, so that a hopeless one leaves something to the next. */
export const solverWork = ({ labels }: Pick<SearchWork, "labels">): number => labels / 3;

/** Paths fixed on the way from fractions to a rotation. */
export const diveSteps = (effort: Effort): number => Math.ceil(24 * effort.patience);

/** Coverage questions answered while looking for what blocks and what cures. */
export const diagnosisQuestions = (effort: Effort): number => Math.ceil(60 * effort.patience);
