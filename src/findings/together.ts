/** Views print once what many people, hits, things or places have in common; JSON keeps one finding for each. */
import type { Fact, Finding } from "./finding.ts";

/** Facts that say whose a finding is: findings that differ in one of these alone are the same. */
const PEOPLE = new Set(["who", "person"]);
const THINGS = new Set(["hit", "task", "activity", "feed", "demand", "load"]);
/** How long it lasts is each place's own. */
const PLACES = new Set(["place"]);
const OF_EACH_PLACE = new Set(["minutes", "later"]);
/** Where everybody's times are their own by some minutes, as their vehicles come and go: up to how many they are still the same. */
const NEARLY: ReadonlyMap<string, number> = new Map([["meal-late", 30]]);
const OF_EACH_PERSON = new Set(["overMinutes"]);

/** The same findings, in order; those that differ only in whose they are become one, at the first of them. */
export function joinAlike(findings: readonly Finding[]): readonly Finding[] {
  const groups = new Map<string, Finding[]>();
  for (const [n, finding] of findings.entries()) {
    const subject = subjectOf(finding);
    const alike = subject === null ? String(n) : likeness(finding);
    // The same place a second time is another finding.
    const again = (groups.get(alike) ?? []).some((one) => PLACES.has(subject?.key ?? "") && isOf(one, subject?.id));
    const key = again ? String(n) : nearGroup(groups, alike, finding);
    groups.set(key, [...(groups.get(key) ?? []), finding]);
  }
  return [...groups.values()].flatMap(joined);
}

/** The group of `alike` whose first has nearly the same times; a new one where there is none. */
function nearGroup(groups: ReadonlyMap<string, readonly Finding[]>, alike: string, finding: Finding): string {
  const most = NEARLY.get(finding.code);
  if (most === undefined) return alike;
  for (let n = 0; ; n++) {
    const [first] = groups.get(`${alike} ${n}`) ?? [];
    if (first === undefined || isNear(first, finding, most)) return `${alike} ${n}`;
  }
}

/** Whether every instant of both is as far apart at most, and neither has one that the other lacks. */
function isNear(a: Finding, b: Finding, most: number): boolean {
  return Object.keys(a.facts).every((key) => {
    const [one, other] = [instantOf(a.facts[key]), instantOf(b.facts[key])];
    return one === null || other === null ? one === other : Math.abs(one - other) <= most;
  });
}

const instantOf = (fact: Fact | undefined): number | null =>
  typeof fact === "object" && fact !== null && "at" in fact && typeof fact.at === "number" ? fact.at : null;

const isOf = (finding: Finding, id: string | undefined): boolean => subjectOf(finding)?.id === id;

/** Whose a finding is: the fact's name and its id; null where it is about nothing that there are several of. */
function subjectOf({ facts }: Finding): { readonly key: string; readonly id: string } | null {
  for (const kind of [PEOPLE, THINGS, PLACES]) {
    for (const [key, fact] of Object.entries(facts)) {
      if (kind.has(key) && typeof fact === "string") return { key, id: fact };
    }
  }
  return null;
}

const isInstant = (fact: Fact): boolean => typeof fact === "object" && fact !== null && !Array.isArray(fact);

/** All that two findings must have in common. Each hit has times of its own; people share theirs. */
function likeness(finding: Finding): string {
  const { code, level, law, accepted, facts, source, chain, shortMinutes, span } = finding;
  const subject = subjectOf(finding)?.key ?? "";
  const timed = THINGS.has(subject) || PLACES.has(subject);
  const nearly = NEARLY.has(code);
  const own = (key: string, fact: Fact): boolean =>
    key === subject ||
    ((timed || nearly) && isInstant(fact)) ||
    (nearly && fact === null) ||
    (PLACES.has(subject) && OF_EACH_PLACE.has(key)) ||
    (nearly && OF_EACH_PERSON.has(key));
  const others = Object.entries(facts).filter(([key, fact]) => !own(key, fact));
  const terms = nearly ? chain.length : timed ? chain.map(({ minutes }) => minutes) : chain;
  const short = nearly ? null : shortMinutes;
  return JSON.stringify([code, level, law, accepted, subject, others, source, terms, short, span?.file]);
}

function joined(alike: readonly Finding[]): readonly Finding[] {
  const [first, ...rest] = alike;
  if (first === undefined || rest.length === 0) return alike;
  const { shared } = first;
  const who = alike.flatMap((finding) => finding.who ?? []);
  if (shared === null || who.length < alike.length) {
    return [{ ...first, also: [...new Set(rest.flatMap((finding) => subjectOf(finding)?.id ?? []))] }];
  }
  return [
    {
      ...first,
      who: null,
      sentence: (say) => shared(who, say).sentence,
      label: () => null,
      hint: (say) => shared(who, say).hint,
    },
  ];
}
