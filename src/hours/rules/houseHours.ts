/** The house rules that hours are judged by. */

/** In minutes. */
export interface HouseHours {
  readonly turnaround: number;
  readonly dutyDay: number;
  readonly mealEvery: number;
  readonly mealFor: number;
  readonly wheelDay: number;
  readonly wheelBreak: { readonly minutes: number; readonly every: number };
}
