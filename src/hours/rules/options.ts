/** What a log or a vehicle states beside the name of a rule set: which variant holds, which exceptions are claimed. */
export interface RuleOptions {
  /** 60 h in 7 days or 70 h in 8 (49 CFR 395.3(b)); by default the second, for a crew that works every day. */
  readonly week: "60/7" | "70/8";
  /** 49 CFR 395.1(b)(1). */
  readonly adverse: boolean;
  /** 49 CFR 395.1(e)(1). */
  readonly shortHaul: boolean;
  /** 49 CFR 395.1(e)(2). */
  readonly nonCdlShortHaul: boolean;
  /** 49 CFR 395.1(o). */
  readonly sixteenHour: boolean;
  /** SOR/2005-313 s. 16. */
  readonly deferral: boolean;
  /** 561/2006 Art 12: an hour more to reach home or base for a weekly rest. */
  readonly homeHour: boolean;
  /** 561/2006 Art 12: two hours more after a break of 30 minutes, for a regular weekly rest. */
  readonly homeTwoHours: boolean;
  /** 561/2006 Art 12: as far as safety needs, to reach a place to stop at. */
  readonly stoppingPlace: boolean;
  /** Drivers who share the wheel: 2 for multi-manning (561/2006 Art 8(5)) and the team's berth split (SOR/2005-313 s. 19). */
  readonly drivers: 1 | 2;
  /** The minute of the clock at which a day of the record begins. */
  readonly dayStarts: number;
  /** SOR/2005-313 ss. 26, 27. */
  readonly cycle: 1 | 2;
}

export const NO_OPTIONS: RuleOptions = {
  week: "70/8",
  adverse: false,
  shortHaul: false,
  nonCdlShortHaul: false,
  sixteenHour: false,
  deferral: false,
  homeHour: false,
  homeTwoHours: false,
  stoppingPlace: false,
  drivers: 1,
  dayStarts: 0,
  cycle: 1,
};

export const hours = (count: number): number => count * 60;
