/** The one JSON envelope of every command. Keys are stated in their documented order and are always there. */
import type { Fact, Finding, PlanPath, ReasonTerm, Span, Wording } from "../../findings/finding.ts";
import { dotted } from "../../plan/text/pathtext.ts";
import { type Instant, isoLocal, isoUtc, type ZoneId } from "../../time/index.ts";
import { kept, object } from "./columns.ts";
import {
  anyKind,
  flagKind,
  isoKind,
  type Kind,
  keyKind,
  listKind,
  mapKind,
  orNull,
  type Shape,
  said,
  textKind,
  wholeKind,
  wordKind,
} from "./kinds.ts";
import type { Json } from "./view.ts";
import { textSpotOf, where } from "./where.ts";

/** What the envelope says of the plan; all but `file` is null where the plan could not be read. */
export interface PlanHead {
  readonly file: string | null;
  readonly title: string | null;
  readonly date: string | null;
  readonly clock: string | null;
}

/** How a finding's instants are written: the zone of where they happen. */
export interface FindingForm {
  readonly say: Wording;
  /** Null where no plan gives a zone: UTC then. */
  zoneAt(at: Instant, finding: Finding): ZoneId | null;
  /** The text behind a plan path; null where there is none. */
  locate(path: PlanPath): Span | null;
  /** Whether the plan has a file name; positions then name it. */
  readonly file: string | null;
}

/** What the JSON envelope holds. */
export interface Answer {
  readonly command: string;
  readonly plan: PlanHead;
  /** True where the exit status is 0. */
  readonly ok: boolean;
  readonly findings: readonly Finding[];
  readonly data: Json;
  readonly form: FindingForm;
}

interface Located<T> {
  readonly one: T;
  readonly finding: Finding;
}

/** An instant where it happens; in UTC where no plan gives a zone. */
function stamp(at: Instant, finding: Finding, form: FindingForm): string {
  const zone = form.zoneAt(at, finding);
  return zone === null ? isoUtc(at) : isoLocal(at, zone);
}

const isList = (fact: readonly string[] | { readonly at: Instant }): fact is readonly string[] => Array.isArray(fact);

const factJson = (fact: Fact, finding: Finding, form: FindingForm): Json => {
  if (typeof fact !== "object" || fact === null) return fact;
  return isList(fact) ? fact : stamp(fact.at, finding, form);
};

const source = object<NonNullable<Finding["source"]>, unknown>()({ title: textKind, clause: orNull(textKind) });

const link = object<Located<ReasonTerm>, FindingForm>()({
  from: kept(isoKind, ({ one, finding }, form) => stamp(one.from, finding, form)),
  to: kept(isoKind, ({ one, finding }, form) => stamp(one.to, finding, form)),
  minutes: kept(wholeKind, ({ one }) => one.minutes),
  name: kept(textKind, ({ one }) => one.name),
  where: kept(where, ({ one }, form) =>
    one.where === null ? null : textSpotOf(one.where, form.locate(one.where), form.file),
  ),
});

/** A finding as every JSON form prints it. */
const finding = object<Finding, FindingForm>()({
  code: textKind,
  level: wordKind("error", "warning", "note"),
  message: kept(textKind, (own, { say }) => own.sentence(say)),
  who: orNull(keyKind),
  at: kept(orNull(isoKind), (own, form) => (own.at === null ? null : stamp(own.at, own, form))),
  where: kept(where, (own, { file }) => textSpotOf(own.path, own.span, file)),
  source: orNull(source),
  hint: kept(orNull(textKind), (own, { say }) => own.hint(say)),
  facts: kept(
    mapKind(anyKind),
    (own, form) => new Map(Object.entries(own.facts).map(([name, fact]) => [name, factJson(fact, own, form)])),
  ),
  chain: kept(listKind(link), (own) => own.chain.map((one) => ({ one, finding: own }))),
  shortMinutes: orNull(wholeKind),
  accepted: said(orNull(textKind), "why the plan takes it knowingly"),
});

/** A finding as JSON. */
export const findingJson = (own: Finding, form: FindingForm): Json => finding.json(own, form);

const constant = (value: string | number): Kind<string | number, unknown> => ({
  ...anyKind,
  schema: { const: value },
});

const head = object<PlanHead, unknown>()({
  file: orNull(textKind),
  title: orNull(textKind),
  date: orNull(textKind),
  clock: orNull(textKind),
});

/** The answer of one command to one plan; `data` is null where the plan could not be read (exit 3). */
const answer = (command: string, data: Shape): Kind<Answer, unknown> =>
  object<Answer, unknown>()({
    daywright: kept(constant(CONTRACT), () => CONTRACT),
    command: constant(command),
    plan: head,
    ok: said(flagKind, "true where the exit status is 0"),
    findings: kept(listKind(inForm), (own) => own.findings.map((one) => ({ one, form: own.form }))),
    data: orNull<Json, unknown>({ ...anyKind, schema: data }),
  });

const inForm: Kind<{ readonly one: Finding; readonly form: FindingForm }, unknown> = {
  get schema() {
    return finding.schema;
  },
  json: ({ one, form }) => finding.json(one, form),
  cell: ({ one, form }) => finding.cell(one, form),
  figure: false,
};

/** The JSON envelope of one plan. */
export const envelope = (own: Answer): Json => answer(own.command, anyKind.schema).json(own, null);

interface Answers {
  readonly command: string;
  readonly ok: boolean;
  readonly plans: readonly Json[];
}

const nothing: Kind<null, unknown> = { ...anyKind, schema: { type: "null" } };

/** Several plans in one answer; `findings` here are those of no single plan. */
const answers = (command: string): Kind<Answers, unknown> =>
  object<Answers, unknown>()({
    daywright: kept(constant(CONTRACT), () => CONTRACT),
    command: constant(command),
    plan: kept(nothing, () => null),
    ok: flagKind,
    findings: kept(listKind(inForm), () => []),
    data: kept(nothing, () => null),
    plans: listKind<Json, unknown>({ ...anyKind, schema: { $ref: "#/definitions/one" } }),
  });

/** The JSON envelope of several plans. */
export const envelopes = (command: string, ok: boolean, plans: readonly Json[]): Json =>
  answers(command).json({ command, ok, plans }, null);

/** The whole schema of a command's JSON: one answer, or one around several. */
export const answerSchema = (command: string, data: Shape): Shape => ({
  $schema: "http://json-schema.org/draft-07/schema#",
  title: `daywright ${command} --json`,
  anyOf: [{ $ref: "#/definitions/one" }, answers(command).schema],
  definitions: { one: answer(command, data).schema },
});

/** The version of what the JSON forms promise. Raised by one for a change that is not only additive. */
export const CONTRACT = 1;

interface View {
  readonly say: Wording;
  /** Takes numbers and addresses out of a plan's own words. */
  readonly clean: (text: string) => string;
}

/** A finding in three keys, for reports that only point at it. */
export const SHORT_FINDING = object<Finding, View>()({
  code: textKind,
  level: wordKind("error", "warning", "note"),
  message: kept(textKind, (finding, { say, clean }) => clean(finding.sentence(say))),
  who: orNull(keyKind),
  path: kept(orNull(textKind), ({ path }) => (path === null ? null : dotted(path))),
});
