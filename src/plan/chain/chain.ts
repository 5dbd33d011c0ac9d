/** The chain of days along `follows`, oldest first. */
import type { Finding } from "../../findings/finding.ts";
import { dateOfDay, dayNumber, startOnClock, type ZoneId } from "../../time/index.ts";
import { chainTooLong, daysMissing, fileLoop } from "../findings.ts";
import type { HistorySpan, Plan } from "../plan.ts";
import { findFile, folderOf, noFiles } from "../text/files.ts";
import { Loader, type OnePlanReading, type PlanOrigin } from "./load.ts";

/** No rule looks further back than a few weeks. */
const MOST_FILES = 40;

/** A plan and the days that it follows, or the findings that say why not. */
export interface ChainReading {
  /** Oldest first, the named plan last; null where anything in the chain is mistaken. */
  readonly plans: readonly Plan[] | null;
  /** The named plan, where it alone is sound. */
  readonly plan: Plan | null;
  readonly findings: readonly Finding[];
}

/** Reads a plan and the days before it. */
export async function readChain(text: string, options: PlanOrigin): Promise<ChainReading> {
  const loader = new Loader(options.files ?? noFiles, folderOf(options.file ?? ""));
  const last = await loader.load(text, options.file, options.disk);
  const plans: Plan[] = [];
  const findings = [...last.findings];
  const seen = [options.file ?? ""];
  let day: OnePlanReading | null = last;
  while (day?.plan != null) {
    plans.unshift(day.plan);
    day = await before(day.plan, loader, seen, findings);
  }
  const sound = findings.every(({ level }) => level !== "error");
  return { plans: sound ? plans : null, plan: last.plan, findings };
}

/** The day that `plan` follows; null where it follows none or what it names cannot be had. */
async function before(plan: Plan, loader: Loader, seen: string[], findings: Finding[]): Promise<OnePlanReading | null> {
  const span = plan.source.locate(["follows"]);
  const name = plan.follows;
  if (name === null || span === null) return null;
  const at = { path: ["follows"], span };
  const found = findFile(loader.files, { name, ...at }, plan.file ?? "", loader.within);
  const refused = (finding: Finding): null => {
    findings.push(finding);
    return null;
  };
  if (!found.ok) return refused(found.finding);
  if (seen.includes(found.file)) return refused(fileLoop.raise({ name, chain: [...seen, found.file] }, at));
  if (seen.length >= MOST_FILES) return refused(chainTooLong.raise({ most: MOST_FILES }, at));
  seen.push(found.file);
  const day = await loader.load(found.text, found.file);
  // What several days use is reported once.
  findings.push(...day.findings.filter((one) => !findings.some((other) => sameMistake(one, other))));
  if (day.plan !== null)
    findings.push(...missingDays(day.plan, plan, name).map((facts) => daysMissing.raise(facts, at)));
  return day;
}

const sameMistake = (a: Finding, b: Finding): boolean =>
  a.code === b.code &&
  a.span?.file === b.span?.file &&
  a.span?.line === b.span?.line &&
  a.span?.column === b.span?.column;

/** Whether history says of everyone who is in both plans what that date was. */
function isStated(earlier: Plan, later: Plan, date: string): boolean {
  const both = [...later.crew.keys()].filter((id) => earlier.crew.has(id));
  const states = (id: string): boolean => {
    const { totals = [], spans = [] } = later.history.get(id) ?? {};
    return totals.some((total) => total.date === date) || coversDay(spans, date, later.zone);
  };
  return both.length > 0 && both.every(states);
}

/** Whether spans leave no minute of a date out. */
function coversDay(spans: readonly HistorySpan[], date: string, zone: ZoneId): boolean {
  const end = startOnClock(dateOfDay(dayNumber(date) + 1), 0, zone);
  let known: number = startOnClock(date, 0, zone);
  for (const { from, to } of spans.toSorted((a, b) => a.from - b.from)) if (from <= known) known = Math.max(known, to);
  return known >= end;
}

/** The days between two that follow each other and of which nothing is stated, where there are any. */
function missingDays(earlier: Plan, later: Plan, name: string) {
  const begin = dayNumber(earlier.date) + earlier.untilDays + 1;
  const between = Array.from({ length: Math.max(0, dayNumber(later.date) - begin) }, (_, n) => dateOfDay(begin + n));
  const open = between.filter((date) => !isStated(earlier, later, date));
  const [first, last] = [open[0], open.at(-1)];
  return first === undefined || last === undefined ? [] : [{ name, days: open.length, first, last }];
}
