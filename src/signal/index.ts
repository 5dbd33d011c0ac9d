/**
 * Does every hit and feed get its signal out? Look angles, skyline, booked windows, sun outages, cable reach, cellular
 * signal, one user a path, a spare that does not fail with the main path, feeds against rates, telephone lines, and who is at the camera and in front of it.
 */
import type { Day } from "../day/day.ts";
import { type Presence, presenceOf } from "../day/people/presence.ts";
import type { Finding } from "../findings/finding.ts";
import type { JudgeInput, Judgement } from "../findings/judgement.ts";
import type { Id } from "../plan/plan.ts";
import { loadEphemeris } from "../sky/ephemeris.ts";
import { type CableRun, cableFindings, cableRun } from "./cable/cable.ts";
import { cellularFindings, isCellular } from "./cellular.ts";
import { crewFindings } from "./crew.ts";
import {
  lookFindings,
  looksOf,
  outageFindings,
  type PlaceLook,
  unknownLooks,
  vehicleFindings,
} from "./dish/satellite.ts";
import { unbookedFindings, windowFindings } from "./dish/windows.ts";
import { feedFindings } from "./feeds.ts";
import { lineFindings } from "./lines.ts";
import { sharingFindings, spareFindings } from "./sharing.ts";
import { type PathUse, type PathUses, sharedUses, usesOf } from "./use.ts";

export type { PlaceLook } from "./dish/satellite.ts";
export type { PathUse } from "./use.ts";

/** How a hit gets out: path, spare and what is wrong with each. */
export interface HitSignal {
  readonly id: Id;
  readonly path: Id | null;
  readonly spare: Id | null;
  /** True where the main path is stated and nothing stands against it; null where no one knows, as the angle or the cellular signal is not stated. */
  readonly ok: boolean | null;
  /** The same of the spare; null where there is none as well. */
  readonly spareOk: boolean | null;
  readonly cable: CableRun | null;
}

/** The signal of a day. */
export interface SignalResult {
  readonly looks: readonly PlaceLook[];
  /** Every hit, in the Day's order. */
  readonly hits: readonly HitSignal[];
}

interface Judged {
  readonly uses: readonly PathUse[];
  readonly findings: readonly Finding[];
}

/** What stands against a path at one place for all who use it there. */
function findingsThere(day: Day, uses: PathUses, looks: readonly PlaceLook[]): readonly Finding[] {
  const [{ path, place }] = uses;
  if (isCellular(path.kind)) return cellularFindings(day, uses);
  const seen = looks.find((look) => look.path === path.id && look.place === place?.id);
  return seen === undefined ? [] : lookFindings(uses, seen);
}

/** What stands against one hit or feed on a path. */
function findingsThen(day: Day, use: PathUse, looks: readonly PlaceLook[], presence: Presence): readonly Finding[] {
  const { kind, id } = use.path;
  const seen = looks.find((look) => look.path === id && look.place === use.place?.id);
  return [
    ...vehicleFindings(use, presence),
    ...(seen === undefined ? [] : outageFindings(use, seen)),
    ...(kind === "satellite" ? windowFindings(day, use) : []),
    ...(kind === "cable" ? cableFindings(day, use) : []),
  ];
}

function judge(day: Day, uses: readonly PathUse[], looks: readonly PlaceLook[]): readonly Judged[] {
  const presence = presenceOf(day);
  return [
    ...sharedUses(uses).map((group) => ({ uses: group, findings: findingsThere(day, group, looks) })),
    ...uses.map((use) => ({ uses: [use], findings: findingsThen(day, use, looks, presence) })),
  ];
}

/** A use works where nothing an engineer would call a failure stands against it, whatever its level as a spare. */
const FAILURES: ReadonlySet<string> = new Set([
  "slot-below-horizon",
  "slot-too-low",
  "skyline-blocks",
  "window-missing",
  "window-too-short",
  "dish-elsewhere",
  "cellular-signal-none",
  "cable-too-short",
  "cable-beyond-reach",
  "cable-across-road",
]);

function hitSignals(
  day: Day,
  uses: readonly PathUse[],
  judged: readonly Judged[],
  doubles: readonly Finding[],
  looks: readonly PlaceLook[],
): readonly HitSignal[] {
  const useOf = (hit: Id, as: PathUse["as"]): PathUse | undefined =>
    uses.find((use) => use.activity.id === hit && use.as === as);
  const works = (use: PathUse): boolean =>
    !judged.some((own) => own.uses.includes(use) && own.findings.some((finding) => FAILURES.has(finding.code)));
  // A cellular signal that no one noted is not known to work, nor is a dish without its look angle.
  const isKnown = (use: PathUse): boolean =>
    !looks.some(({ look, path, place }) => look === null && path === use.path.id && place === use.place?.id) &&
    !judged.some(
      (own) => own.uses.includes(use) && own.findings.some(({ code }) => code === "cellular-signal-unknown"),
    );
  const verdict = (use: PathUse): boolean | null => (works(use) && !isKnown(use) ? null : works(use));
  return day.activities.flatMap(({ activity, id }) => {
    if (activity.kind !== "hit") return [];
    const [main, spare] = [useOf(id, "main"), useOf(id, "spare")];
    const doubled = doubles.some((finding) => finding.facts["first"] === id || finding.facts["second"] === id);
    const cable = [main, spare].find((use) => use?.path.kind === "cable");
    return [
      {
        id,
        path: activity.signalPath,
        spare: activity.spare,
        ok: main === undefined || doubled ? false : verdict(main),
        spareOk: spare === undefined ? null : verdict(spare),
        cable: cable === undefined ? null : cableRun(day, cable),
      },
    ];
  });
}

/** Judges the signal of the last day of the chain. */
export async function assess({ days }: JudgeInput): Promise<Judgement<SignalResult>> {
  const day = days.at(-1);
  if (day === undefined) return { result: { looks: [], hits: [] }, findings: [] };
  const uses = usesOf(day);
  const sees = [...day.plan.paths.values()].some((path) => path.kind === "satellite" && path.slotEast !== null);
  const placed = [...day.plan.places.values()].some((place) => place.at !== null);
  const looks = looksOf(day, uses, sees && placed ? await loadEphemeris() : null);
  const judged = judge(day, uses, looks);
  const doubles = sharingFindings(uses);
  return {
    result: { looks, hits: hitSignals(day, uses, judged, doubles, looks) },
    findings: [
      ...judged.flatMap(({ findings }) => findings),
      ...unknownLooks(uses, looks),
      ...unbookedFindings(uses),
      ...doubles,
      ...spareFindings(day),
      ...feedFindings(day),
      ...lineFindings(day),
      ...crewFindings(day),
    ],
  };
}
