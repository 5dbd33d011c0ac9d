/** Whether two findings of two versions of a plan are the same one, and what an edit clears and brings. */
import type { Fact, Finding } from "../findings/finding.ts";
import { dotted } from "../plan/text/pathtext.ts";

/** Facts that say what a finding is about, in the order in which the first one that is there names it. */
const SUBJECTS = [
  "what",
  "hit",
  "demand",
  "activity",
  "activities",
  "item",
  "vehicle",
  "path",
  "load",
  "task",
  "place",
];

/** Codes that say one thing of two subjects: which of the hits is named first changes with every edit. */
const ALIKE: ReadonlyMap<string, string> = new Map([
  ["hit-left-out", "hit-unpowered"],
  ["power-undecided", "hit-unpowered"],
]);

/** The same for one finding of the plan before and after an edit; figures and instants are left out. */
export function findingKey({ code, who, path, facts }: Finding): string {
  const subject = SUBJECTS.map((key) => (Object.hasOwn(facts, key) ? facts[key] : undefined)).find(isText);
  return [
    ALIKE.get(code) ?? code,
    who ?? "",
    path === null ? "" : dotted(path),
    facts["limit"] ?? "",
    String(subject ?? ""),
  ].join(" ");
}

/**
 * What of a finding a repair may clear by itself: each hit, task and person that is lost with what is out of service, else the
 * finding. None where nothing is lost.
 */
export function findingKeys(finding: Finding): readonly string[] {
  const { code, facts } = finding;
  if (code !== "out-of-service") return [findingKey(finding)];
  const ids = [facts["lost"], facts["stranded"]].flatMap((fact) => (Array.isArray(fact) ? fact.map(String) : []));
  return ids.map((id) => `${findingKey(finding)} ${id}`);
}

const isText = (fact: Fact | undefined): boolean =>
  (typeof fact === "string" && fact !== "") || (Array.isArray(fact) && fact.length > 0);

/** Whether nobody has accepted a finding. */
export const isOpen = ({ accepted }: Finding): boolean => accepted === null;

/** The keys of what stands in a judged plan. */
export const openKeys = ({ findings }: { readonly findings: readonly Finding[] }): ReadonlySet<string> =>
  new Set(findings.filter(isOpen).flatMap(findingKeys));

/** Whether a finding is an error that stands: one that makes `check` fail. */
export const isOpenError = (finding: Finding): boolean => finding.level === "error" && isOpen(finding);

/** What an edit may not bring: an error that stands, or a hit that no rotation of packs is found for. */
export const isHarm = (finding: Finding): boolean =>
  isOpenError(finding) || (finding.code === "power-undecided" && isOpen(finding));

const RANKS = { error: 2, warning: 1, note: 0 } as const;

const weight = (finding: Finding): number => (finding.accepted === null ? RANKS[finding.level] : 0);

/** The findings that an edit removes, and those that it brings. */
export interface Difference {
  /** Findings of before that are gone. */
  readonly gone: readonly Finding[];
  /** Findings of after that are new, or of a worse level than before. */
  readonly brought: readonly Finding[];
}

/** What differs between the findings of two versions of a plan. */
export function differenceOf(before: readonly Finding[], after: readonly Finding[]): Difference {
  const [was, is] = [weights(before), weights(after)];
  return {
    gone: before.filter((finding) => !is.has(findingKey(finding))),
    brought: after.filter((finding) => weight(finding) > (was.get(findingKey(finding)) ?? -1)),
  };
}

function weights(findings: readonly Finding[]): ReadonlyMap<string, number> {
  const all = new Map<string, number>();
  for (const finding of findings)
    all.set(findingKey(finding), Math.max(weight(finding), all.get(findingKey(finding)) ?? 0));
  return all;
}
