/** What the file of a rule set declares: everything that the program knows of it, from the plan's keys to its limits. */
import type { RuleOptions } from "./options.ts";
import type { PayRule } from "./payRule.ts";
import type { RuleSet, TeamRule } from "./rule.ts";

/** From when on a vehicle is one that the rules are for. */
export interface Threshold {
  /** With its trailer. */
  readonly leastKg: number;
  /** The driver's seat counts. */
  readonly leastSeats: number;
  /** `from 10,001 lb or 16 seats on`. */
  readonly says: string;
}

/** All that is said of a rule set. */
export interface RuleSetDeclaration {
  /** Where it stands among the others; the threshold of the first counts for a vehicle that names none. */
  readonly place: number;
  /** The law by its name, for sentences. */
  readonly title: string;
  /** The text that was read. */
  readonly source: string;
  readonly legallyBinding: boolean;
  /** Null for rules that no vehicle names. */
  readonly threshold: Threshold | null;
  /** Whether a person or a contract may name it: it then binds without driving. */
  readonly forPeople: boolean;
  /** Exceptions that a vehicle or a log claims, and what each one is. */
  readonly claims: Readonly<Record<string, string>>;
  /** The values of `week` that it knows, its default first. */
  readonly weeks: readonly string[];
  /** Whether it counts in days that begin at an hour the carrier names. */
  readonly carriersDays: boolean;
  /** From when on it asks about lighter vehicles that cross a border; left out where it never does. */
  readonly abroad?: {
    readonly overKg: number;
    readonly from: string;
    /** How the zones of its countries begin: a change of zone inside them is a border. */
    readonly zones: string;
    readonly clause: string;
    readonly question: string;
  };
  /** Null where it knows no second driver. */
  readonly team: TeamRule | null;
  /** How it is paid, for labour law. */
  readonly pay: PayRule | null;
  /** Its limits with these options; the house rules only for the set that they are. */
  make(options: RuleOptions, house: HouseHours): Omit<RuleSet, "id" | "title" | "source" | "legallyBinding">;
}

/** What most sets have nothing of. */
export const PLAIN = {
  legallyBinding: true,
  forPeople: false,
  claims: {},
  weeks: [],
  carriersDays: false,
  team: null,
  pay: null,
} as const satisfies Partial<RuleSetDeclaration>;

/** In minutes. */
export interface HouseHours {
  readonly turnaround: number;
  readonly dutyDay: number;
  readonly mealEvery: number;
  readonly mealFor: number;
  readonly wheelDay: number;
  readonly wheelBreak: { readonly minutes: number; readonly every: number };
}
