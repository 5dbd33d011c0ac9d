/** The order in which findings are reported: worst first, then by time, then as the plan has them. */
import type { Finding, Level } from "../../findings/finding.ts";

const RANKS: Readonly<Record<Level, number>> = { error: 0, warning: 1, note: 2 };

/** Codes of what the plan states that cannot be so: the day, and what is found in it, is only as good as that. */
const DOUBTS: ReadonlySet<string> = new Set(["coordinates-doubtful", "zone-doubtful", "drive-implausible"]);

/** What is not accepted comes before what is, doubts of what is stated before what follows, law before custom among equals. */
const ranked = (finding: Finding): readonly number[] => [
  finding.accepted === null ? 0 : 1,
  DOUBTS.has(finding.code) ? 0 : 1,
  RANKS[finding.level],
  finding.law ? 0 : 1,
  finding.at ?? Number.MAX_SAFE_INTEGER,
  finding.span?.line ?? Number.MAX_SAFE_INTEGER,
  finding.span?.column ?? 0,
];

/** Stable: what is equal in all of these stays in the order in which it was judged. */
export const worstFirst = (findings: readonly Finding[]): readonly Finding[] =>
  findings
    .map((finding) => ({ finding, rank: ranked(finding) }))
    .sort((a, b) => a.rank.reduce((order, value, at) => order || value - (b.rank[at] ?? 0), 0))
    .map(({ finding }) => finding);

/** Whether a finding is of this level or worse; one that is accepted is a note. */
export const isShown = ({ level }: Finding, least: Level): boolean => RANKS[level] <= RANKS[least];

/** Whether a finding of this level makes the exit status 1. */
export const counts = (finding: Finding, strict: boolean): boolean =>
  finding.accepted === null && (finding.level === "error" || (strict && finding.level === "warning"));
