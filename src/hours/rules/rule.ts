/** The form of a rule set: data only. One mechanism (`judge/judge.ts`) evaluates every one of them. */

/** What someone does in a stretch of time, as plans and logs state it. `ferry`: aboard a ferry or train that carries the vehicle, free of duty. */
export const SPAN_KINDS = [
  "off",
  "berth",
  "driving",
  "duty",
  "riding",
  "standby",
  "meal",
  "personal",
  "ferry",
] as const;

/** What a person does in a span. */
export type SpanKind = (typeof SPAN_KINDS)[number];

/**
 * What a span is to one rule set. `idle` is neither work nor rest: personal conveyance, which stops nothing and rests
 * no one, and for the house a stand-down.
 */
export type Status = "off" | "berth" | "meal" | "duty" | "driving" | "idle";

/** What a limit adds up. `busy` is everything but rests of at least half an hour. */
export type Count = "elapsed" | "duty" | "driving" | "busy";

/** Two rests that together stand in for one (the sleeper berth provisions). */
export interface Split {
  /** The least minutes of either. */
  readonly each: number;
  /** The least minutes of both together. */
  readonly sum: number;
  /** One of the two holds at least this many minutes in the berth without a break; null where both are all berth. */
  readonly longBerth: number | null;
  /**
   * Where a rest could be paired with several earlier ones, for each such rest in time order: how many of them are passed
   * over, from the latest on. The latest from where the list ends. The text leaves it open.
   */
  readonly choices?: readonly number[];
}

/** From when on a limit counts, and what sets it back to nothing. */
export type Since =
  /** A rest of so many consecutive minutes, or a pair of rests that stands in for it. */
  | {
      readonly kind: "rest";
      readonly minutes: number;
      readonly split?: Split;
      /** A stated release and call also begin anew, however short the night. */
      readonly orNight?: true;
    }
  /** An interruption: consecutive minutes in these statuses, in one piece or, where `parts` says, in pieces in that order. */
  | {
      readonly kind: "break";
      readonly minutes: number;
      readonly of: readonly Status[];
      readonly parts?: readonly number[];
      /** Consecutive minutes beside another who drives that do as well; left out where they never do. */
      readonly beside?: number;
    }
  /** The daily rest of Regulation 561/2006 and what is like it: inside each `within` minutes, regular or a few times reduced. */
  | {
      readonly kind: "dailyRest";
      readonly within: number;
      readonly regular: number;
      readonly reduced: number;
      /** How many reduced ones between two weekly rests. */
      readonly times: number;
      readonly weekly: number;
      /** A first part of this length lets `reduced` count as regular; null where the rest is not divided. */
      readonly firstPart: number | null;
      /** A rest of this length ends the count of driving, and the day, even where it is too short for a daily rest. */
      readonly endsCount: number;
      /** The clause that allows no more reduced ones. */
      readonly clause: string;
    }
  /** The running day or week of the calendar and `count` − 1 before it, or a rest of `restart` minutes. */
  | { readonly kind: "calendar"; readonly unit: "day" | "week"; readonly count: number; readonly restart?: number }
  /** So many minutes from the first work on, then from the next work after them. */
  | { readonly kind: "period"; readonly minutes: number };

/** A larger allowance that may be used a few times. */
export interface Extension {
  readonly allows: number;
  readonly times: number;
  /** Counted over this many calendar days ending with the day in question, or over its calendar week. */
  readonly over: number | "week";
  /** A rest this long wipes the uses before it. */
  readonly clearedBy?: number;
  /** Void where the shift, duty included, goes on beyond this many minutes from its start. */
  readonly releasedWithin?: number;
}

interface LimitHead {
  /** `us-property.window`: the rule set and a word. */
  readonly id: string;
  readonly clause: string;
  /** `14 h window`: a few words for tables and sentences. */
  readonly title: string;
  /** Leaves breaches to people: each becomes a question instead. */
  readonly defer?: string;
  /** The key of the plan's `rules` that states it. */
  readonly planKey?: string;
  /** A breach of it is advice only. */
  readonly advice?: boolean;
}

/** So much beyond a limit in a shift that ends in a long rest (561/2006 Art 12). */
export interface Article12 {
  readonly more: number;
  /** The least rest at the end of the shift. */
  readonly before: number;
  /** The least break straight before the drive that goes beyond; null where none is asked for. */
  readonly after: number | null;
}

/** No more than `allows` minutes of `counts` since `since`; beyond them nothing that it forbids. */
export interface MaxLimit extends LimitHead {
  readonly kind: "max";
  readonly counts: Count;
  readonly allows: number;
  /** It says how often people eat: a breach is a meal missed. */
  readonly meal?: boolean;
  readonly forbids: "driving" | "work";
  /** Every one of these holds; the tightest is shown. */
  readonly since: readonly Since[];
  readonly extension?: Extension;
  /** `allows` is what the day must leave free instead: the allowance is the day's length less it, the breach the whole day. */
  readonly leavesFree?: boolean;
  /** Two hours or less of the free time may move to the next day (SOR/2005-313 s. 16). */
  readonly deferral?: { readonly most: number; readonly twoDaysDriving: number; readonly core: number };
  /** Excuses what lies a little beyond, at the price of as much rest later; the widest that holds. */
  readonly homeward?: readonly Article12[];
  /** Counts only periods with driving in a vehicle the rules are for, and no week with less than this at the wheel every day. */
  readonly exemptWeekBelow?: number;
  /** Breaches after a rest of this length that began too late to help are breaches of the rest rule named here. */
  readonly asRest?: { readonly id: string; readonly parting: number };
  /** Not for a shift that ended (release included) within so many minutes of its start; a shift that did not is a question. */
  readonly waivedWithin?: number;
}

/** A rest of at least `requires` before `forbids`. */
export interface RestLimit extends LimitHead {
  readonly kind: "rest";
  readonly requires: number;
  readonly forbids: "driving" | "work";
  /** A rest of at least this length parts two shifts; one shorter is a break inside a shift. */
  readonly parting: number;
  /**
   * `short`: working before the rest is complete, until it would have been; `none`: driving without such a rest at all;
   * `aboard`: a rest that long taken in a vehicle.
   */
  readonly breach: "short" | "none" | "aboard";
  /** Only in a calendar week after one in which no rest of `parting` or more was as long as `requires`: reduced weekly rests. */
  readonly afterShorter?: boolean;
}

/** What a weekly rest that was cut short leaves to be rested later, and where (561/2006 Art 8(6) to 8(7)). */
export interface MakeUp {
  /** A rest of at least this length is a weekly one, and one of at least this a full one. */
  readonly weekly: number;
  readonly full: number;
  /** What is missing is rested in one piece beside another rest of at least this length. */
  readonly beside: number;
  /** It is due at the end of so many calendar weeks after the week of the short one. */
  readonly weeks: number;
}

/** No work from the last moment at which what is owed could still be rested in time, until it is. */
export interface MakeUpLimit extends LimitHead {
  readonly kind: "makeUp";
  readonly forbids: "work";
  readonly makeUp: MakeUp;
}

/** A limit of any shape. */
export type Limit = MaxLimit | RestLimit | MakeUpLimit;

/** A vehicle that someone drives or rides in, as far as rules ask for it. */
export interface DrivenVehicle {
  /** The rule sets that it names. */
  readonly rules: readonly string[];
  /** Heavy enough, or with enough seats, for one of them. */
  readonly commercial: boolean;
}

/** A vehicle of a day, as far as questions about it go. */
export interface AskedVehicle extends DrivenVehicle {
  /** With its trailer. */
  readonly totalKg: number;
  readonly dayStarts: number | null;
}

/** What a rule set leaves open, and what gives reason to ask it. A question is a clause of a sentence, without a capital. */
export interface Questions {
  /** Wherever the rules bind; a warning. */
  readonly always?: readonly string[];
  /** What a claimed exception leaves open. */
  readonly claimed?: readonly string[];
  /** About a vehicle driven on the day: once a day. */
  readonly vehicle?: {
    readonly clause: string;
    readonly question: string;
    applies(vehicle: AskedVehicle): boolean;
  };
  /** Where something breaks a limit: whether the rules hold at all. */
  readonly breach?: string;
  /** Where a drive to bed in the vehicle breaks a limit. */
  readonly wayToBed?: string;
  /** About the first stretch of a kind. */
  readonly kinds?: readonly { readonly is: SpanKind; readonly question: string }[];
  /** Where a rest of `core` and `other` minutes or more is the day's only free time. */
  readonly surplus?: { readonly core: number; readonly other: number; readonly question: string };
  /** Where rules of another country bind on the same day. */
  readonly border?: string;
  /** Where someone drives both vehicles that the rules are for and others. */
  readonly mixedVehicles?: { readonly clause: string; readonly question: string };
  /** About a meal of at least `least` minutes that is shorter than `under`. */
  readonly shortMeal?: { readonly least: number; readonly under: number; readonly question: string };
  /** About driving for oneself, where it is neither work nor rest. */
  readonly personal?: string;
  /** About what it breaks, and would not if it were off duty. */
  readonly personalBreach?: string;
  /** Where a daily rest was too short, and the count of driving ended with it. */
  readonly shortRest?: string;
  /** About work by night: at least `least` minutes of a shift between these minutes of the clock. */
  readonly night?: {
    readonly fromMinute: number;
    readonly toMinute: number;
    readonly least: number;
    readonly question: string;
  };
}

/** A crossing on a ferry with a berth of one's own. */
export interface FerryRule {
  readonly status: Status;
  /** It holds for crossings longer than so many minutes; a shorter one is as one without a berth. */
  readonly over: number;
  /** Rest on board that getting on and off may interrupt; null where nothing may. */
  readonly interrupted: { readonly times: number; readonly minutes: number } | null;
}

/** What the law asks of two who share the wheel. */
export interface TeamRule {
  readonly clause: string;
  /** Where it says that both are there throughout. */
  readonly together: string;
  /** Minutes from the first departure in which one may drive alone until the other joins. */
  readonly aloneAtFirst: number;
  /** Whether the vehicle must have a sleeper berth. */
  readonly berth: boolean;
}

/** A rule set with its options chosen: limits, clauses, source. */
export interface RuleSet {
  readonly id: string;
  readonly title: string;
  readonly source: string;
  readonly legallyBinding: boolean;
  /** Rules of one country count each other's driving and ask what a border day means. */
  readonly country: string | null;
  readonly statuses: Readonly<Record<SpanKind, Status>>;
  /** A crossing with a berth of one's own; `statuses.ferry` is one without. */
  readonly ferry: FerryRule;
  /** Whether driving a vehicle is driving in the sense of these rules. */
  covers(vehicle: DrivenVehicle): boolean;
  /** Driving a vehicle that the rules do not cover. */
  readonly lightDriving: Status;
  readonly pause: Status;
  readonly rest: readonly Status[];
  /** A rest with a stay in the berth is one only from so many minutes on, unless it follows a release. */
  readonly berthParts?: number;
  readonly duty: readonly Status[];
  /** Riding by order is free if at least so many minutes off follow on arrival; null where it never is. */
  readonly travel: number | null;
  /** The passenger seat beside the berth: rest for up to `most` minutes directly before or after `berth` minutes in it. */
  readonly seat: { readonly berth: number; readonly most: number } | null;
  /** What ends one shift and begins the next; null where the rules know no shift. */
  readonly shift: Since | null;
  readonly limits: readonly Limit[];
  /** The minute of the clock at which the days it counts begin: the carrier's choice, or midnight where the text says so. */
  readonly dayStarts: number;
  /** What must hold for an exception that the plan claims, for a caution. */
  readonly conditions: readonly string[];
  readonly asks: Questions;
}
