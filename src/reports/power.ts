/** `power`: a line per pack, a line per hit, the hand moves as a to-do list, a chart of charge over the day, and the proof. */
import type { Day } from "../day/day.ts";
import type { Say } from "../findings/finding.ts";
import type { Id } from "../plan/plan.ts";
import type { PowerResult } from "../power/index.ts";
import type { ReplayStep } from "../power/replay.ts";
import { cureText, percentText, setText, whText } from "../power/words.ts";
import { column, DASH, figureColumn, named } from "./cells.ts";
import { clocksOf } from "./clocks.ts";
import type { DayView, TopicOptions } from "./day-view.ts";
import { headingLine } from "./heading.ts";
import { powerData } from "./power-data.ts";
import { handsBlocks } from "./power-hands.ts";
import type { Block, Cell, Chart, Lane, Report, Table } from "./view.ts";

export type PowerOptions = TopicOptions<PowerResult>;

interface View extends DayView {
  readonly result: PowerResult;
}

/** From here on a pack counts as full. */
const FULL_SHARE = 0.99;

/** The report of one day's batteries. */
export function powerReport(day: Day, say: Say, { result, clock, findings }: PowerOptions): Report {
  const places = result.built.touches.map((touch) => touch.where).filter((place) => day.plan.places.has(place));
  const clocks = clocksOf(day.plan, say, places, clock ?? undefined);
  const view: View = { day, say, clocks, result };
  const head = headingLine(day, clocks);
  const nothing = result.built.model.packs.length === 0 && result.built.model.demands.length === 0;
  const blocks: readonly Block[] = nothing
    ? [head, { kind: "line", cells: [{ text: "Nothing in this plan runs on packs." }] }]
    : [
        head,
        ...verdict(view),
        hitsTable(view),
        ...missingBlocks(view),
        ...handsBlocks(view),
        packsTable(view),
        chartOf(view),
      ];
  return { command: "power", blocks, data: powerData(result, say), findings, say };
}

/** One or two sentences: what is covered, what is left over, how far that is proved. */
function verdict({ result }: View): Block[] {
  const { proof, replay, moveCount, dropped } = result.solution;
  const covered =
    dropped.length === 0
      ? "Every hit is powered"
      : `${dropped.length} of ${result.built.model.demands.length} cannot be powered`;
  const least = replay.leastMarginWh;
  const bound = proof.marginBoundWh;
  const open = proof.margin === "exhausted" || bound === null ? "" : `; at most ${whText(bound)} is possible`;
  const margin = least === null ? "" : `; least left over the reserve ${whText(least)}${open}`;
  const fewest = proof.moves === "exhausted" ? ", and no fewer will do" : `; at least ${proof.movesBound} are needed`;
  const moves =
    moveCount === 0 ? "no pack changes place" : `${moveCount} hand ${moveCount === 1 ? "move" : "moves"}${fewest}`;
  const undecided = dropped.some((one) => !one.proved) ? " Where no rotation was found, none was excluded either." : "";
  const tone = dropped.length === 0 ? "good" : "bad";
  return [{ kind: "line", cells: [{ text: `${covered}${margin}; ${moves}.${undecided}`, tone }] }];
}

function hitsTable({ result, say, clocks, day }: View): Table {
  const { model, replay } = result.solution;
  const rows = model.demands.flatMap((demand) =>
    [...demand.watts].map(([load, watts]): readonly Cell[] => {
      const use = replay.uses.find((one) => one.demand === demand.id && one.load === load);
      const place = day.activities.find((one) => one.id === activityOf(result, demand.id))?.place ?? null;
      return [
        { text: demand.id, tone: "strong" },
        clocks.local(demand.from, place),
        clocks.local(demand.to, place),
        named(say, load),
        { text: `${Math.round(watts)} W`, raw: watts },
        use === undefined ? { text: "no pack", tone: "bad", raw: null } : { text: use.packs.join(", ") },
        use === undefined ? DASH : { text: whText(use.marginWh), raw: use.marginWh },
      ];
    }),
  );
  return {
    kind: "table",
    title: "Hits",
    columns: [
      column("Hit", "activity"),
      column("From", "from"),
      column("To", "to", 1),
      column("Load", "load"),
      figureColumn("Draws", "watts", 2),
      column("Pack", "packs"),
      figureColumn("Left over reserve", "marginWh"),
    ],
    rows,
    empty: "Nothing draws on packs this day.",
  };
}

const activityOf = (result: PowerResult, demand: Id): Id =>
  result.built.demands.find((one) => one.demand.id === demand)?.activity ?? demand;

function missingBlocks({ result, say }: View): Block[] {
  const { missing } = result;
  if (missing === null) return [];
  const short =
    missing.missingWh === null
      ? "no charge would help: it is hands, mounts or reach"
      : `${whText(missing.missingWh)} short`;
  const others = missing.blocking.filter((id) => id !== missing.first);
  const against = others.length === 0 ? "" : `; it cannot go together with ${others.join(", ")}`;
  const cures = missing.cures.map(
    (cure): Cell => ({ text: `${cureText(cure, say)}${cure.edits.length === 0 ? "" : `: ${setText(cure.edits)}`}` }),
  );
  return [
    { kind: "line", cells: [{ text: `First without power: ${missing.first}, ${short}${against}.`, tone: "bad" }] },
    ...(cures.length === 0
      ? [{ kind: "line", cells: [{ text: "No single cure was found." }] } as const]
      : [{ kind: "heading", text: "Any one of these would do" } as const, { kind: "list", items: cures } as const]),
  ];
}

function packsTable({ result, clocks }: View): Table {
  const { model, replay, rotation } = result.solution;
  const rows = model.packs.map((pack): readonly Cell[] => {
    const steps = replay.steps.get(pack.id) ?? [];
    const share = (wh: number): Cell => ({ text: shareText(wh / pack.wh), raw: wh / pack.wh });
    const lowest = steps.reduce<ReplayStep | null>(
      (low, step) => (low === null || step.whAfter < low.whAfter ? step : low),
      null,
    );
    const powers = replay.uses.filter((use) => use.packs.includes(pack.id)).map((use) => use.demand);
    return [
      { text: pack.id, tone: "strong" },
      share(pack.startWh),
      share(Math.min(pack.startWh, lowest?.whAfter ?? pack.startWh)),
      lowest === null || lowest.whAfter >= pack.startWh ? DASH : clocks.local(lowest.to, null),
      share(steps.at(-1)?.whAfter ?? pack.startWh),
      { text: String(rotation.moves.filter((move) => move.pack === pack.id).length) },
      { text: powers.length === 0 ? "spare" : [...new Set(powers)].join(", ") },
    ];
  });
  return {
    kind: "table",
    title: "Packs",
    columns: [
      column("Pack", "pack"),
      figureColumn("Starts", "startShare"),
      figureColumn("Lowest", "lowestShare"),
      column("At", "lowestAt", 2),
      figureColumn("Ends", "endShare", 1),
      figureColumn("Moves", "moves", 3),
      column("Powers", "powers"),
    ],
    rows,
    empty: "No packs in this plan.",
  };
}

const shareText = (share: number): string => (share >= FULL_SHARE ? "full" : percentText(share));

function chartOf({ result, day }: View): Chart {
  const { model, replay } = result.solution;
  const lanes = model.packs.map((pack): Lane => {
    const steps = replay.steps.get(pack.id) ?? [];
    const first = { at: model.from, share: pack.startWh / pack.wh };
    const bars = steps.flatMap(({ from, to, at, doing }): Lane["bars"] =>
      doing === "rest" ? [] : [{ from, to, text: at, style: doing === "charge" ? "charge" : "use" }],
    );
    return {
      label: pack.id,
      bars,
      curve: [first, ...steps.map((step) => ({ at: step.to, share: step.whAfter / pack.wh }))],
    };
  });
  return {
    kind: "chart",
    title: "Charge",
    description: "The charge of each pack over the day as a share of full; where it charges and where it is used.",
    from: model.from,
    to: model.to,
    zone: day.plan.zone,
    lanes,
  };
}
