/**
 * `--redact` as one step: what it takes out of a plan before anything is computed, and out of what is found. Each report
 * and each form is made from what is left. What a plan states stays stated, so that nothing else changes.
 */
import type { Fact, Finding, Span } from "../../findings/finding.ts";
import { once } from "../../lists.ts";
import type { Actual, Place, Plan } from "../../plan/plan.ts";
import { withoutPrivateWords } from "./privateWords.ts";

/** What stands in place of what is left out. */
const LEFT = "left out";
const MARK = `[${LEFT}]`;

/** A date or an instant, and a regulation by number and year: digits that are no telephone number. */
const KEPT =
  "(?<![\\p{N}])(?:19|20)\\d{2}-\\d{2}-\\d{2}(?:T\\d{2}:\\d{2}(?:Z|[+-]\\d{2}:\\d{2})?)?(?![\\p{N}])|(?<![\\p{N}/])\\d{1,4}/(?:19|20)\\d{2}(?![\\p{N}/])";
/** Seven digits of any script or more, with up to three signs between two of them. */
const NUMBER = "[+＋]?[(（]?\\p{N}(?:[\\s().,\\-/·‐-―−＋．－／（）]{0,3}\\p{N}){6,}";
const DEGREES = "[-+−]?\\d{1,3}[.,]\\d{2,}\\s*°?\\s*[NSEWO]?";
const POSITION = `${DEGREES}[\\s,;/]+${DEGREES}|\\d{1,3}\\s*°\\s*\\d{1,2}(?:[.,]\\d+)?\\s*['′’]\\s*(?:\\d{1,2}(?:[.,]\\d+)?\\s*["″”])?\\s*[NSEWO]?`;
/** The part before the sign has 64 letters at most: RFC 5321, 4.5.3.1.1. */
const MAIL = "[^\\s@<>]{1,64}[@＠][^\\s@<>]+";
/** Without the mark or bracket that ends it in a sentence of ours. */
const LINK = "(?:https?|geo|tel|sip|mailto|sms):\\S*[^\\s`.,;)]";

const contacts = once(() => new RegExp(`(${KEPT})|${LINK}|${MAIL}|${POSITION}|${NUMBER}`, "giu"));
/** What opens a door or names a booking or a vehicle. */
const KEY_WORDS =
  "(?<![\\p{L}\\p{N}])(?:pin|code|gate|door|passcode|password|lockbox|plates?|registration|booking|ref|reference)(?![\\p{L}\\p{N}])";
/** Such a word, to the end of its text. */
const secret = once(() => new RegExp(`${KEY_WORDS}.*$`, "isu"));
/** Such a word with a number behind it: a key of a plan in one of our sentences is none. */
const numberedSecret = once(() => new RegExp(`${KEY_WORDS}(?=.*\\p{N}).*$`, "isu"));

const withoutNumbers = (text: string): string => text.replace(contacts(), (_, kept?: string) => kept ?? MARK);

const withoutPlaces = (text: string): string => withoutPrivateWords(text, MARK);

/** A plan's own words or a key of ours: what a finding quotes, the name of a file or variant. */
export const withoutSecrets = (text: string): string =>
  withoutPlaces(withoutNumbers(text)).replace(numberedSecret(), MARK);

/** Keys whose values are private as a whole. */
const PRIVATE_NAMES = "phone|number|spare|booking|address|parking|note|hospital|keys";
const PRIVATE = new RegExp(`(?:^|\\.)(?:${PRIVATE_NAMES})(?:\\.[^=]*)?=`, "u");

/** An edit as it was typed, `hits.noon.at=12:45`. */
export const redactedEdit = (edit: string): string => {
  const [path] = PRIVATE.exec(edit) ?? [];
  return path === undefined ? withoutSecrets(edit) : `${edit.slice(0, edit.indexOf("=") + 1)}${MARK}`;
};

/**
 * A sentence of ours about a plan, without numbers, positions, links and mail addresses; what it quotes of the plan is
 * also without addresses, plates and codes of doors. The sentence itself is not searched for those: a clause of a regulation
 * looks like a plate.
 */
export const withoutContacts = (text: string): string =>
  withoutNumbers(text).replace(/`([^`]*)`/gu, (_, quoted: string) => `\`${withoutSecrets(quoted)}\``);

const contactless = (text: string | null): string | null => (text === null ? null : withoutContacts(text));

/** A plan's own words, without what opens a door, addresses and plates either. */
const free = (text: string): string => withoutPlaces(withoutNumbers(text)).replace(secret(), MARK);

const freeOrNull = (text: string | null): string | null => (text === null ? null : free(text));
/** A display name; null where nothing is left of it, so that the id stands for it. */
const called = (text: string | null): string | null => {
  const left = freeOrNull(text);
  return left === null || left.replaceAll(MARK, "").trim() === "" ? null : left;
};
const hidden = (text: string | null): string | null => (text === null ? null : LEFT);

const each = <K, V>(all: ReadonlyMap<K, V>, of: (one: V) => V): ReadonlyMap<K, V> =>
  new Map([...all].map(([key, value]) => [key, of(value)]));

const place = (own: Place): Place => ({
  ...own,
  name: called(own.name),
  kind: freeOrNull(own.kind),
  address: hidden(own.address),
  parking: hidden(own.parking),
  note: hidden(own.note),
  hospital:
    own.hospital === null
      ? null
      : { name: free(own.hospital.name), km: own.hospital.km, phone: hidden(own.hospital.phone), address: null },
  rooms: own.rooms.map((room) => ({ ...room, booking: hidden(room.booking) })),
});

const noted = <Of extends { readonly note: string | null }>(one: Of): Of => ({ ...one, note: freeOrNull(one.note) });

const happened = (actual: Actual): Actual => ({
  people: each(actual.people, noted),
  activities: each(actual.activities, noted),
  stops: each(actual.stops, noted),
  packs: each(actual.packs, noted),
  vehicles: each(actual.vehicles, noted),
  pieces: each(actual.pieces, noted),
});

/** The plan, without what a redacted report leaves out; positions stay for the sun and the roads, and no report prints them. */
export const redactedPlan = (plan: Plan): Plan => ({
  ...plan,
  file: contactless(plan.file),
  title: freeOrNull(plan.title),
  crew: each(plan.crew, (one) => ({
    ...one,
    name: called(one.name),
    phone: hidden(one.phone),
    roles: one.roles.map(free),
  })),
  vehicles: each(plan.vehicles, (one) => ({ ...one, name: called(one.name), keys: hidden(one.keys) })),
  places: each(plan.places, place),
  hits: each(plan.hits, (one) => ({
    ...one,
    show: freeOrNull(one.show),
    run: one.run === null ? null : { ...one.run, crosses: freeOrNull(one.run.crosses) },
  })),
  tasks: each(plan.tasks, (one) => ({ ...one, what: freeOrNull(one.what) })),
  rides: each(plan.rides, (one) => ({ ...one, by: freeOrNull(one.by) })),
  kit: each(plan.kit, (one) => ({ ...one, name: called(one.name), mount: freeOrNull(one.mount) })),
  packs: each(plan.packs, (one) => ({ ...one, mount: free(one.mount) })),
  chargers: each(plan.chargers, (one) => ({ ...one, mount: free(one.mount) })),
  actual: happened(plan.actual),
  paths: each(plan.paths, (one) => ({
    ...one,
    booking: hidden(one.booking),
    phone: hidden(one.phone),
    polarisation: freeOrNull(one.polarisation),
  })),
  lines: each(plan.lines, (one) => ({ ...one, number: hidden(one.number), spare: hidden(one.spare) })),
  permits: each(plan.permits, (one) => ({
    ...one,
    what: freeOrNull(one.what),
    holder: freeOrNull(one.holder),
    number: hidden(one.number),
  })),
  accept: plan.accept.map((one) => ({ ...one, why: free(one.why) })),
  source: {
    locate: (path) => spanless(plan.source.locate(path)),
  },
});

/** A spot whose file's name is no number. */
const spanless = <S extends Span | null>(span: S): S =>
  span === null ? span : { ...span, file: withoutContacts(span.file) };

/** Facts that are clauses or rules of ours, and no words of a plan. */
const OURS: ReadonlySet<string> = new Set(["clause", "source", "rule", "limit", "rules"]);

function redactedFact(key: string, fact: Fact): Fact {
  const clean = OURS.has(key) ? withoutContacts : withoutSecrets;
  if (typeof fact === "string") return clean(fact);
  return Array.isArray(fact) ? fact.map((word: string) => clean(word)) : fact;
}

const PRIVATE_KEY = new RegExp(`^(?:${PRIVATE_NAMES})$`, "u");
/** What stands before a private value in its line. */
const PRIVATE_BEFORE = new RegExp(`(?:^|[\\s{,])["']?(?:${PRIVATE_NAMES})["']?\\s*:\\s*["'[{]*$`, "u");
/** Findings about text that was not read as keys and values: which of its words are private is not known. */
const UNREAD = /^(?:yaml-|comma-in-value$)/u;

/** Whether a finding quotes a private value, or may. */
const quotesPrivate = ({ code, path, span }: Finding): boolean =>
  UNREAD.test(code) ||
  path?.some((key) => typeof key === "string" && PRIVATE_KEY.test(key)) === true ||
  (span !== null && PRIVATE_BEFORE.test(span.text.slice(0, span.column - 1)));

/** With nothing of the plan but the names of keys and ids, as `crew.wren.phone`. */
const withoutQuotes = (finding: Finding): Finding => {
  const own = finding.path?.join(".") ?? "";
  return {
    ...redactedFinding(finding),
    facts: Object.fromEntries(
      Object.entries(finding.facts).map(([key, fact]) => [key, typeof fact === "number" ? fact : MARK]),
    ),
    sentence: (say) =>
      withoutContacts(finding.sentence(say)).replace(/`([^`]*)`/gu, (whole, quoted: string) =>
        quoted !== "" && own.endsWith(quoted) && PRIVATE_KEY.test(quoted.split(".").at(-1) ?? "")
          ? whole
          : `\`${MARK}\``,
      ),
    label: () => null,
    hint: () => null,
    shared: null,
  };
};

/** A finding about what a plan's text says, without what stands under private keys. */
export const redactedReading = (finding: Finding): Finding =>
  quotesPrivate(finding) ? withoutQuotes(finding) : redactedFinding(finding);

/** A finding whose words, facts and file names are without numbers. */
export const redactedFinding = (finding: Finding): Finding => ({
  ...finding,
  span: spanless(finding.span),
  related: finding.related.map((one) => ({ span: spanless(one.span), label: withoutContacts(one.label) })),
  accepted: finding.accepted === null ? null : free(finding.accepted),
  facts: Object.fromEntries(Object.entries(finding.facts).map(([key, fact]) => [key, redactedFact(key, fact)])),
  path: finding.path === null ? null : finding.path.map((key) => (typeof key === "string" ? withoutSecrets(key) : key)),
  sentence: (say) => withoutContacts(finding.sentence(say)),
  label: (say) => contactless(finding.label(say)),
  hint: (say) => contactless(finding.hint(say)),
  shared:
    finding.shared === null
      ? null
      : (who, say) => {
          const { sentence, hint } = finding.shared?.(who, say) ?? { sentence: finding.sentence(say), hint: null };
          return { sentence: withoutContacts(sentence), hint: contactless(hint) };
        },
});
