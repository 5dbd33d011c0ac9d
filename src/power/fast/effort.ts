/** How hard the search may try: counted work, never seconds, so that every machine prints the same. */

export interface Effort {
  /** Multiplies every budget below. */
  readonly patience: number;
  /** `cover`: goal 1 proved, goals 2 and 3 as covering leaves them; `all`: the three goals proved where possible. */
  readonly goals: "cover" | "all";
}

/** Times that packs are taken out and put back, for one threshold. */
export const coverRounds = (effort: Effort): number => Math.ceil(40 * effort.patience);

/** The same while saving moves, for every rotation. */
export const quickRounds = (effort: Effort): number => Math.ceil(8 * effort.patience);

/** And where the fewest moves are asked for. */
export const saveRounds = (effort: Effort): number => Math.ceil(60 * effort.patience);

/** Linear programs solved to answer one question. */
export const lpRounds = (effort: Effort): number => Math.ceil(120 * effort.patience);

/** Paths fixed on the way from fractions to a rotation. */
export const diveSteps = (effort: Effort): number => Math.ceil(24 * effort.patience);

/** Coverage questions answered while looking for what blocks and what cures. */
export const diagnosisQuestions = (effort: Effort): number => Math.ceil(60 * effort.patience);
