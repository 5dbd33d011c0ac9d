/** The one JSON envelope of every command. Keys are stated in their documented order and are always there. */

import {
  type Fact,
  type Finding,
  inFile,
  type PlanPath,
  type Say,
  type Span,
  type Term,
} from "../../findings/finding.ts";
import { dotted } from "../../plan/text/pathtext.ts";
import { type Instant, isoLocal, isoUtc, type ZoneId } from "../../time/index.ts";
import { CONTRACT } from "./contract.ts";
import type { Json } from "./view.ts";

/** What the envelope says of the plan; all but `file` is null where the plan could not be read. */
export interface PlanHead {
  readonly file: string | null;
  readonly title: string | null;
  readonly date: string | null;
  readonly clock: string | null;
}

/** How a finding's instants are written: the zone of where they happen. */
export interface FindingForm {
  readonly say: Say;
  /** Null where no plan gives a zone: UTC then. */
  zoneAt(at: Instant, finding: Finding): ZoneId | null;
  /** The text behind a plan path; null where there is none. */
  locate(path: PlanPath): Span | null;
  /** Whether the plan has a file name; positions then name it. */
  readonly file: string | null;
}

export interface Answer {
  readonly command: string;
  readonly plan: PlanHead;
  /** True where the exit status is 0. */
  readonly ok: boolean;
  readonly findings: readonly Finding[];
  readonly data: Json;
  readonly form: FindingForm;
}

export function envelope({ command, plan, ok, findings, data, form }: Answer): Json {
  return {
    daywright: CONTRACT,
    command,
    plan: { file: plan.file, title: plan.title, date: plan.date, clock: plan.clock },
    ok,
    findings: findings.map((finding) => findingJson(finding, form)),
    data,
  };
}

/** Several plans in one answer; `findings` here are those of no single plan. */
export const envelopes = (command: string, ok: boolean, plans: readonly Json[]): Json => ({
  daywright: CONTRACT,
  command,
  plan: null,
  ok,
  findings: [],
  data: null,
  plans,
});

/** A finding as every JSON form prints it. */
export function findingJson(finding: Finding, form: FindingForm): Json {
  const iso = (at: Instant): string => {
    const zone = form.zoneAt(at, finding);
    return zone === null ? isoUtc(at) : isoLocal(at, zone);
  };
  return {
    code: finding.code,
    level: finding.level,
    message: finding.sentence(form.say),
    who: finding.who,
    at: finding.at === null ? null : iso(finding.at),
    where: whereJson(finding.path, finding.span, form.file),
    source: finding.source === null ? null : { title: finding.source.title, clause: finding.source.clause },
    hint: finding.hint(form.say),
    facts: Object.fromEntries(Object.entries(finding.facts).map(([key, fact]) => [key, factJson(fact, iso)])),
    chain: finding.chain.map((term) => termJson(term, iso, form)),
    shortMinutes: finding.shortMinutes,
    accepted: finding.accepted,
  };
}

const isList = (fact: readonly string[] | { readonly at: Instant }): fact is readonly string[] => Array.isArray(fact);

const factJson = (fact: Fact, iso: (at: Instant) => string): Json => {
  if (typeof fact !== "object" || fact === null) return fact;
  return isList(fact) ? fact : iso(fact.at);
};

const termJson = (term: Term, iso: (at: Instant) => string, form: FindingForm): Json => ({
  from: iso(term.from),
  to: iso(term.to),
  minutes: term.minutes,
  name: term.name,
  where: term.where === null ? null : whereJson(term.where, form.locate(term.where), form.file),
});

/** Where in which text; `path` as `--set` takes it. A plan from standard input has no file name. */
export function whereJson(path: PlanPath | null, span: Span | null, file: string | null): Json {
  if (path === null && span === null) return null;
  const written = inFile(span);
  return {
    // Positions in a text without a name are those of `<stdin>`.
    file: span === null || (file === null && span.file.startsWith("<")) ? file : span.file,
    line: written?.line ?? null,
    column: written?.column ?? null,
    path: path === null ? null : dotted(path),
  };
}
