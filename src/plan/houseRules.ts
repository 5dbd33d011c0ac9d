/** The house rules of a plan: common practice unless the plan states its own. */

/** The house rules with their defaults filled in; lengths in minutes, `…Share` 0 to 1. */
export interface HouseRules {
  readonly walkAround: number;
  readonly postTrip: number;
  readonly loading: number;
  readonly loadingCheckOut: number;
  readonly park: number;
  readonly setUp: number;
  readonly dishUp: number;
  readonly lineCheck: number;
  readonly inPosition: number;
  readonly clear: number;
  readonly strike: number;
  readonly unload: number;
  readonly turnaround: number;
  readonly dutyDay: number;
  readonly mealEvery: number;
  readonly mealFor: number;
  readonly wheelDay: number;
  readonly wheelBreak: number;
  readonly wheelBreakEvery: number;
  readonly wheelAwake: number;
  readonly reserveShare: number;
  readonly reserveColdShare: number;
  readonly swap: number;
  /** A chore within this of a release or a call is part of that duty. */
  readonly choreJoin: number;
  /** Of a frozen pack before it charges. */
  readonly warmUp: number;
  readonly upBefore: number;
  readonly upBeforeOnCamera: number;
  readonly bedAfter: number;
  readonly planDrivesAt: "bad-into-firm" | "bad" | "drive";
  readonly roundCalls: number;
  readonly enoughWh: number;
  readonly shelterAfter: number;
  readonly dayRate: number;
  /** Names of the rules that the plan states itself, for "by the plan" against "by default". */
  readonly stated: ReadonlySet<string>;
}

/** What hours are judged by where the plan states nothing, in minutes. Common practice, no source. */
export const HOUSE_HOURS = {
  turnaround: 600,
  dutyDay: 840,
  mealEvery: 360,
  mealFor: 30,
  wheelDay: 600,
  wheelBreak: 15,
  wheelBreakEvery: 120,
} as const satisfies Partial<HouseRules>;
