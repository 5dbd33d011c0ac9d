/**
 * A day with two vehicles, and its edits as `path=value`.
 *
 * The wagon leaves at 05:30 and is at the pier at 06:05 (35 min, because a firm hit follows); dawn at 07:00 for 3 min; pictures
 * 07:03-07:43; a wait until 08:40, when the line check (10 min) and the position (10 min) for again begin; again 09:00-09:03,
 * 30 min to strike, 10 min on the road: at the dock 09:43. 5 min to park and 30 to set up: lunch 10:18-10:58; a wait until 11:40;
 * noon 12:00-12:03, 30 min to strike, home 13:03. The car leaves at 09:00 and is at the inn at 10:00.
 */
import type { Finding } from "../../src/findings/finding.ts";
import { readPlan, solveDay } from "../../src/index.ts";
import { dotted } from "../../src/plan/text/pathtext.ts";
import type { Candidate, RepairProblem } from "../../src/repair/outcome.ts";
import { resolveLocal } from "../../src/time/index.ts";
import type { Instant } from "../../src/time/units.ts";
import { CHICAGO } from "../day/parts.ts";
import { finding } from "./finding.ts";

export const TWO_RUNS = `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew:
  wren: { role: camera, drives: [wagon, car] }
  ilse: { role: reporter, drives: wagon }
  sam: { role: camera, drives: [wagon, car] }
  joe: { role: [reporter, sound] }
  kim: { role: camera }
vehicles: { wagon: { range: 400 km, fuel: 90% }, car: {} }
places:
  lodge: { kind: lodging }
  inn: { kind: lodging }
  pier: {}
  quay: {}
  dock: {}
roads:
  - { link: [lodge, pier], drive: 30 min, bad: 35 min, km: 40 }
  - { link: [pier, quay], drive: 3 min, bad: 3 min, km: 2 }
  - { link: [pier, dock], drive: 10 min, bad: 12 min, km: 3 }
  - { link: [dock, lodge], drive: 30 min, bad: 35 min, km: 40 }
  - { link: [dock, inn], drive: 30 min, bad: 35 min, km: 40 }
hits:
  dawn: { at: "07:00", for: 3 min, place: pier, path: cell, spare: dish, who: [wren, ilse] }
  again: { at: "09:00", for: 3 min, place: pier, path: dish, firm: false, who: [wren, ilse] }
  noon: { at: "12:00", for: 3 min, place: dock, path: cell, firm: false, who: [wren, ilse] }
tasks:
  pictures: { place: pier, for: 40 min, who: [wren, ilse] }
  lunch: { kind: meal, place: dock, for: 40 min, who: [wren, ilse] }
paths: { cell: { kind: cellular }, dish: { kind: cellular }, sat: { kind: cellular } }
kit: { camera: { in: wagon, during: hits, watts: 40, mount: wedge }, tripod: { in: wagon } }
packs: { brick: { count: 2, wh: 98, mount: wedge, in: wagon } }
chargers: { desk: { slots: 2, in: wagon, watts: 100, mount: wedge } }
runs:
  wagon: { driver: wren, aboard: [wren, ilse], stops: [{ place: lodge, leave: "05:30" }, { place: pier, do: [dawn, pictures, again] }, { place: dock, do: [lunch, noon], arriveBy: "11:00" }, lodge] }
  car: { driver: sam, aboard: [sam, joe], stops: [{ place: lodge, leave: "09:00" }, dock, inn] }
`;

/** A minute of that day on Chicago's clock. */
export function clock(text: string): Instant {
  const [hour = 0, minute = 0] = text.split(":").map(Number);
  const local = resolveLocal("2027-01-20", hour * 60 + minute, CHICAGO);
  if (local.kind !== "once") throw new Error(text);
  return local.at;
}

/** What is replaced in the day's text. */
export type Change = readonly [from: string, to: string];

/** The day with some of its text replaced, to be repaired against some findings. */
export async function posedWith(targets: readonly Finding[], ...changes: readonly Change[]): Promise<RepairProblem> {
  const text = changes.reduce((whole, [from, to]) => {
    if (!whole.includes(from)) throw new Error(`no ${from}`);
    return whole.replace(from, to);
  }, TWO_RUNS);
  const reading = await readPlan(text, { file: "day.yaml" });
  const solved = reading.ok ? await solveDay(reading) : reading;
  if (!solved.ok) throw new Error(solved.findings.map(({ code }) => code).join(" "));
  return { now: { day: solved.day, findings: [] }, text, targets };
}

export const editsOf = ({ edits }: Candidate): string =>
  edits.map(({ path, value }) => `${dotted(path)}=${value ?? ""}`).join("; ");

/** What makes the edits of a kind. */
export type Make = (problem: RepairProblem) => readonly Candidate[];

/** The edits that a kind makes on that day, each as text. */
export const made = async (
  make: Make,
  targets: readonly Partial<Finding>[] = [],
  ...changes: readonly Change[]
): Promise<readonly string[]> => make(await posedWith(targets.map(finding), ...changes)).map(editsOf);
