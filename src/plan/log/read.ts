/** A log file's text to a checked log; all mistakes in one pass, each at its place. */
import type { Finding } from "../../findings/finding.ts";
import { isoLocal } from "../../time/format.ts";
import { type Instant, instant, type ZoneId } from "../../time/units.ts";
import { logBackwards, logGap, logNobody, logNoDate, logOverlap, timeBad, versionUnknown } from "../findings.ts";
import { parseInstant } from "../read/clock.ts";
import { Reading } from "../read/reading.ts";
import { Fields, type FieldsOf } from "../shape/entry.ts";
import { noMap } from "../shape/issues.ts";
import { reportMisfits } from "../shapes.ts";
import { type Item, itemsOf } from "../text/items.ts";
import { sourceText } from "../text/source.ts";
import { child, type MapNode, type PlanNode, pointAt } from "../text/tree.ts";
import { readYaml } from "../text/yaml.ts";
import { mistaken, type Parsed } from "../values/parsed.ts";
import { parseTime } from "../values/time.ts";
import { beforeForm, claimsForm, logForm, logPersonForm, optionsForm, spanForm, variantForm } from "./form.ts";
import type { HoursLog, LogOptions, LogPerson, WrittenSpan } from "./log.ts";

/** A log, or the findings that say why there is none. */
export interface LogReading {
  /** Null where anything is mistaken; then nothing is to be computed. */
  readonly log: HoursLog | null;
  readonly findings: readonly Finding[];
}

/** Whether a text is meant as a log and not as a plan: it has the key `log`, or, where it cannot be read, a line that begins so. */
export function looksLikeLog(text: string): boolean {
  const { tree } = readYaml(sourceText("", text));
  if (tree === null) return /^["']?log["']?[ \t]*:/m.test(text);
  return tree.kind === "map" && tree.entries.has("log") && !tree.entries.has("daywright");
}

/** The instant that a text names on a log's clock; it needs a date. */
export function parseLogInstant(text: string, zone: ZoneId): Parsed<Instant> {
  const time = parseTime(text);
  const day = text.trim();
  if (!time.ok && /^\d{4}-\d\d-\d\d$/.test(day))
    return mistaken((c) => timeBad.raise({ text, fix: `with the time of day: ${day}T08:00` }, c));
  if (!time.ok) return time;
  if (time.value.date === null) {
    const clock = text.trim().replace(/^(\d\d)(\d\d)$/, "$1:$2");
    const fix = `write the date as well: 2027-01-20T${clock.includes(":") ? clock.padStart(5, "0") : "08:00"}`;
    return mistaken((c) => logNoDate.raise({ text, fix }, c));
  }
  return parseInstant(text, { date: time.value.date, desk: zone, labels: new Map(), untilDays: 0 }, zone);
}

/** Reads a log. `file` as the user named it; null for standard input without a name. */
export async function readLog(text: string, file: string | null): Promise<LogReading> {
  const source = sourceText(file ?? "<stdin>", text);
  const { tree, findings } = readYaml(source);
  if (tree === null || findings.length > 0) return { log: null, findings };
  if (tree.kind !== "map") return { log: null, findings: [noMap(tree, source)] };
  const reading = new Reading(tree);
  reading.fit({ node: tree, path: [] }, logForm);
  await reportMisfits(reading, () => []);
  const log = new LogReader(reading, file).read(tree);
  const inOrder = reading.findings.toSorted(
    (a, b) => (a.span?.line ?? 0) - (b.span?.line ?? 0) || (a.span?.column ?? 0) - (b.span?.column ?? 0),
  );
  return { log: inOrder.length > 0 ? null : log, findings: inOrder };
}

type LogFields = FieldsOf<typeof logForm>;

class LogReader {
  private readonly reading: Reading;
  private readonly file: string | null;
  private zone: ZoneId | null = null;

  constructor(reading: Reading, file: string | null) {
    this.reading = reading;
    this.file = file;
  }

  read(root: MapNode): HoursLog | null {
    const fields = new Fields(logForm, this.reading, { node: root, path: [] });
    const version = fields.text("log");
    if (version !== null && version !== "1") this.reading.mistake(["log"], (c) => versionUnknown.raise({ version }, c));
    this.zone = fields.get("zone");
    const people = child(root, "people");
    const filled = fields.text("fill") === "off";
    const persons =
      people?.kind === "map" ? [...people.entries].map(([id, { value }]) => this.person(id, value, filled)) : [];
    const options = this.options(fields);
    if (this.zone === null) return null;
    return {
      file: this.file,
      title: fields.text("title"),
      zone: this.zone,
      rules: fields.get("rules"),
      options,
      people: persons.flatMap((person) => person ?? []),
      locate: (path) => pointAt(root, path),
    };
  }

  private options(fields: LogFields): LogOptions {
    const inner = fields.inner("options", optionsForm);
    if (inner === null) return { claims: [], weeks: [] };
    const flags = inner.as(claimsForm);
    const variant = inner.as(variantForm);
    const claims = claimsForm.keys.filter((name) => flags.get(name));
    const [week, cycle] = [variant.get("week"), variant.get("cycle")];
    const [drivers, dayStarts] = [variant.get("drivers"), variant.get("dayStarts")];
    return {
      claims,
      weeks: [...(week === null ? [] : [week]), ...(cycle === null ? [] : [`cycle ${cycle}`])],
      ...(dayStarts === null ? {} : { dayStarts }),
      ...(drivers === null ? {} : { drivers }),
    };
  }

  private instant(text: string | null, path: readonly (string | number)[]): Instant | null {
    if (text === null) return null;
    return this.zone === null ? null : this.reading.take(path, parseLogInstant(text, this.zone));
  }

  /** A person's entry in any of its forms: spans, spans with an item `before`, or a map of both. */
  private person(id: string, value: PlanNode, filled: boolean): LogPerson | null {
    const path = ["people", id];
    const whole = new Fields(logPersonForm, this.reading, { node: value, path });
    const items = value.kind === "map" ? whole.items("spans") : itemsOf({ node: value, path });
    const stated = items.filter(({ node }) => child(node, "before") !== null);
    const first = stated[0];
    const beforeItem: Item | null =
      first === undefined
        ? whole.item("before")
        : { node: child(first.node, "before") ?? first.node, path: [...first.path, "before"] };
    const before = new Fields(beforeForm, this.reading, beforeItem ?? { node: null, path });
    const releasedAt = this.instant(before.text("releasedAt"), before.at("releasedAt"));
    const spans = items.filter((item) => !stated.includes(item)).flatMap((item) => this.span(item) ?? []);
    const written = this.inOrder(id, spans, filled, releasedAt, before.at("releasedAt"));
    const dutyMinutesBefore = before.get("dutyMinutes");
    if (items.length === stated.length && (value.kind !== "scalar" || value.value !== null)) {
      this.reading.mistakeAtKey(path, (c) => logNobody.raise({ person: id }, c));
    }
    return { id, path, dutyMinutesBefore, releasedAt, spans: written };
  }

  private span(item: Item): WrittenSpan | null {
    const { path } = item;
    const fields = new Fields(spanForm, this.reading, item);
    const [from, to] = [
      this.instant(fields.text("from"), fields.at("from")),
      this.instant(fields.text("to"), fields.at("to")),
    ];
    const is = fields.get("is");
    if (from === null || to === null || is === null) return null;
    if (to <= from) {
      this.reading.mistake([...path, "to"], (c) => logBackwards.raise({ from: this.text(from), to: this.text(to) }, c));
      return null;
    }
    const bunk = is === "ferry" && fields.get("bunk");
    return { from, to, is, in: fields.get("in"), bunk, path };
  }

  private text(at: Instant): string {
    return this.zone === null ? "" : isoLocal(at, this.zone);
  }

  /** The spans in time order, with what `fill: off` and `releasedAt` say of the gaps; holes and overlaps are mistakes. */
  private inOrder(
    person: string,
    spans: readonly WrittenSpan[],
    filled: boolean,
    releasedAt: Instant | null,
    releasePath: readonly (string | number)[],
  ): WrittenSpan[] {
    const sorted = spans.toSorted((a, b) => a.from - b.from);
    const first = sorted[0];
    if (first === undefined) return [];
    const done: WrittenSpan[] = [];
    if (releasedAt !== null && releasedAt > first.from) {
      const facts = { person, until: this.text(first.from), from: this.text(releasedAt) };
      this.reading.mistake(releasePath, (c) => logOverlap.raise(facts, c));
    }
    let end = instant(Math.min(first.from, releasedAt ?? first.from));
    let known = filled || releasedAt !== null;
    for (const span of sorted) {
      const at = [...(span.path ?? []), "from"];
      if (span.from < end) {
        const facts = { person, until: this.text(end), from: this.text(span.from) };
        this.reading.mistake(at, (c) => logOverlap.raise(facts, c));
      } else if (span.from > end) {
        const facts = { person, from: this.text(end), to: this.text(span.from) };
        if (known) done.push({ from: end, to: span.from, is: "off", in: "commercial", bunk: false, path: null });
        else this.reading.mistake(at, (c) => logGap.raise(facts, c));
      }
      done.push(span);
      end = instant(Math.max(end, span.to));
      known = filled;
    }
    return done;
  }
}
