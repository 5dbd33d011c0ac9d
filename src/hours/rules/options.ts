/** What a log or a vehicle states besides the name of a rule set: which variant holds, which exceptions are claimed. */
export interface RuleOptions {
  /** Values of `week`: each set takes the one it knows, else its default. */
  readonly weeks: readonly string[];
  /** Names of exceptions; a set ignores those of others. */
  readonly claims: readonly string[];
  /** Drivers who share the wheel. */
  readonly drivers: 1 | 2;
  /** The minute of the clock at which a day of the record begins. */
  readonly dayStarts: number;
}

/** No claim, no variant, one driver, days that begin at midnight. */
export const NO_OPTIONS: RuleOptions = { weeks: [], claims: [], drivers: 1, dayStarts: 0 };

/** Asks which of a set's own exceptions are claimed. */
export const claimed =
  <Name extends string>({ claims }: RuleOptions, _names: Readonly<Record<Name, string>>) =>
  (name: Name): boolean =>
    claims.includes(name);

/** The variant that holds: the first of those stated that the set knows, else its default. */
export const weekOf = <const Week extends string>({ weeks }: RuleOptions, known: readonly [Week, ...Week[]]): Week =>
  known.find((one) => weeks.includes(one)) ?? known[0];

/** Minutes of hours. */
export const hoursToMinutes = (count: number): number => count * 60;
