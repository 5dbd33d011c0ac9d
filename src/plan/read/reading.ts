/** What the readers of all sections share while one plan is read: its tree, clocks, ids and the mistakes found so far. */
import type { Finding, PlanPath } from "../../findings/finding.ts";
import { cityText, offsetText, signed } from "../../time/format.ts";
import type { Instant, ZoneId } from "../../time/units.ts";
import { offsetMinutes } from "../../time/zone.ts";
import { offsetDoubtful } from "../findings.ts";
import type { Form } from "../shape/kind.ts";
import type { Id } from "../terms.ts";
import type { Item } from "../text/items.ts";
import { keySpan, type MapNode, pointAt } from "../text/tree.ts";
import type { Mistake, Parsed } from "../values/parsed.ts";
import { parseClock, parseTime } from "../values/time.ts";
import { BEFORE_THE_DAY, type Clocks, OF_THE_DAY, parseInstant } from "./clock.ts";
import { Ids } from "./ids.ts";

/** One reading of a plan. */
export class Reading {
  readonly findings: Finding[] = [];
  readonly ids = new Ids();
  readonly root: MapNode;
  /** Values whose kinds or keys are wrong, to be worded by `reportMisfits`. */
  readonly misfits: { readonly spot: Item; readonly form: Form }[] = [];
  /** Null while the head of the plan is read or where it is mistaken: then times are only looked at, not placed. */
  clocks: Clocks | null = null;
  /** The plan's `clock` and `zone`, known even where its date is mistaken; null where not stated or mistaken themselves. */
  desk: ZoneId | null = null;
  zone: ZoneId | null = null;
  /** Zones of the places, once these are read. */
  readonly placeZones = new Map<Id, ZoneId>();
  /** Who has which role, once the crew is read. */
  readonly roles = new Map<string, Id[]>();

  constructor(root: MapNode) {
    this.root = root;
  }

  /** Notes a value that does not fit its form. */
  fit(spot: Item, form: Form): void {
    if (!form.fits(spot.node)) this.misfits.push({ spot, form });
  }

  /** Whether something at `path` or below was not understood, so that nothing can be said to be missing there. */
  mistakenAt(path: PlanPath): boolean {
    return this.findings.some(
      (one) => one.level === "error" && path.every((step, index) => one.path?.[index] === step),
    );
  }

  /** Records a mistake at the value of `path`. */
  mistake(path: PlanPath, mistake: Mistake): void {
    this.findings.push(mistake({ path, span: pointAt(this.root, path) }));
  }

  /** Records a mistake at the key that `path` ends with. */
  mistakeAtKey(path: PlanPath, mistake: Mistake, first: PlanPath | null = null): void {
    const related = first === null ? [] : [{ span: keySpan(this.root, first), label: "first stated here" }];
    this.findings.push(mistake({ path, span: keySpan(this.root, path), related }));
  }

  /** Records a mistake at the value of `path` that is one together with the value of `first`. */
  mistakeWith(path: PlanPath, mistake: Mistake, first: PlanPath): void {
    const related = [{ span: pointAt(this.root, first), label: "first stated here" }];
    this.findings.push(mistake({ path, span: pointAt(this.root, path), related }));
  }

  /** The value, or null with its mistake recorded. */
  take<T>(path: PlanPath, result: Parsed<T>): T | null {
    if (result.ok) return result.value;
    this.mistake(path, result.mistake);
    return null;
  }

  /** As `take`, for what a key itself says. */
  takeAtKey<T>(path: PlanPath, result: Parsed<T>): T | null {
    if (result.ok) return result.value;
    this.mistakeAtKey(path, result.mistake);
    return null;
  }

  /** Minutes after midnight of a clock time at `path`; `overnight` also takes `02:00 +1d`, which is 1560. */
  clockAt(path: PlanPath, text: string | null, overnight: boolean): number | null {
    return text === null ? null : this.take(path, parseClock(text, overnight ? 1 : 0));
  }

  /** Warns of an offset that no clock of the plan has at that time; UTC is always meant. */
  private checkOffset(text: string, path: PlanPath, local: ZoneId | null): void {
    const time = parseTime(text);
    if (this.clocks === null || !time.ok || time.value.clock.kind !== "offset") return;
    const { minutes } = time.value.clock;
    const at = parseInstant(text, this.clocks, local, BEFORE_THE_DAY);
    if (minutes === 0 || !at.ok) return;
    const { desk, labels } = this.clocks;
    const zones = new Set([...(local === null ? [] : [local]), ...this.placeZones.values(), ...labels.values(), desk]);
    if (this.zone !== null) zones.add(this.zone);
    if ([...zones].some((zone) => offsetMinutes(zone, at.value) === minutes)) return;
    const clocks = [...zones].map((zone) => `${cityText(zone)} is at ${offsetText(zone, at.value)}`);
    const facts = { text, offset: `UTC${signed(minutes)}`, clocks };
    this.mistake(path, (c) => offsetDoubtful.raise(facts, c));
  }

  /** The clock of a place; with no place the one that all places of the plan are on, null where they are on several. */
  private localZone(place: Id | null): ZoneId | null {
    if (place !== null) return this.placeZones.get(place) ?? null;
    const [first = null, ...others] = new Set(this.placeZones.values());
    return others.length === 0 ? first : null;
  }

  /** The instant that a text at `path` names. `place` is where it happens, for `local`. */
  instant(text: string, path: PlanPath, place: Id | null): Instant | null {
    const local = this.localZone(place);
    if (this.clocks !== null && (place === null || local !== null)) {
      this.checkOffset(text, path, local);
      const reach = path[0] === "history" || path.at(-1) === "since" ? BEFORE_THE_DAY : OF_THE_DAY;
      return this.take(path, parseInstant(text, this.clocks, local, reach));
    }
    this.take(path, parseTime(text));
    return null;
  }
}
