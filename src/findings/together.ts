/** Views tell once what is found of several people alike; JSON keeps one finding a person. */
import type { Finding } from "./finding.ts";

/** The same findings, in order; those that differ in the person alone are one, at the first of them. */
export function sharedByPeople(findings: readonly Finding[]): readonly Finding[] {
  const groups = new Map<string, Finding[]>();
  for (const [n, finding] of findings.entries()) {
    const key = finding.shared === null || finding.who === null ? String(n) : likeness(finding);
    groups.set(key, [...(groups.get(key) ?? []), finding]);
  }
  return [...groups.values()].flatMap(joined);
}

/** All that two findings must have in common. */
function likeness({ code, level, law, accepted, facts, source, chain, shortMinutes }: Finding): string {
  const others = Object.entries(facts).filter(([key]) => key !== "who");
  return JSON.stringify([code, level, law, accepted, others, source, chain, shortMinutes]);
}

function joined(alike: readonly Finding[]): readonly Finding[] {
  const [first] = alike;
  const shared = first?.shared ?? null;
  if (first === undefined || shared === null || alike.length === 1) return alike;
  const who = alike.flatMap((finding) => finding.who ?? []);
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
