/** `power`: a line per pack, a line per hit, the hand moves as a to-do list, a chart of charge over the day, and the proof. */
import type { Day } from "../../day/day.ts";
import type { Say } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import { type HandTask, todoOf } from "../../power/fast/todo.ts";
import type { PowerResult } from "../../power/index.ts";
import type { Demand, ModelPack } from "../../power/model.ts";
import type { ReplayStep } from "../../power/replay.ts";
import { cureText, percentText, setText, shortageText, shortWh, spareWh } from "../../power/words.ts";
import { column, DASH, figureColumn, named, namesCell, numberCell } from "../shared/cells.ts";
import { type DayView, dayView, type PersonOptions, type TopicOptions } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import { ridesOf } from "../shared/rides.ts";
import type { Block, Cell, Chart, Lane, Report, Table } from "../shared/view.ts";
import { powerData } from "./data.ts";
import { handsBlocks } from "./hands.ts";

export type PowerOptions = TopicOptions<PowerResult> & PersonOptions;

interface View extends DayView {
  readonly result: PowerResult;
  /** What is shown: all, or what concerns one person. */
  readonly demands: readonly Demand[];
  readonly packs: readonly ModelPack[];
}

/** From here on a pack counts as full. */
const FULL_SHARE = 0.99;

/** The report of one day's batteries; of one person the chores, and the packs and hits of these. */
export function powerReport(day: Day, say: Say, { result, clock, findings, person }: PowerOptions): Report {
  const places = result.built.touches.map((touch) => touch.where).filter((place) => day.plan.places.has(place));
  const own = dayView(day, say, places, clock);
  const tasks = todoOf(result.built, result.solution).filter(
    ({ who, others }) => person === null || [...who, ...others].includes(person),
  );
  const view: View = { ...own, result, ...shownTo(day, result, tasks, person) };
  const head = headingLine(day, own.clocks);
  const nothing = result.built.model.packs.length === 0 && result.built.model.demands.length === 0;
  const blocks: readonly Block[] = nothing
    ? [head, { kind: "line", cells: [{ text: "Nothing in this plan runs on packs." }] }]
    : [
        head,
        ...verdict(view),
        hitsTable(view),
        ...missingBlocks(view),
        ...handsBlocks(view, tasks, person),
        ...(person !== null && view.packs.length === 0 ? [] : [packsTable(view)]),
        ...(person === null ? [sparesLine(view), ...carriedLine(view)] : []),
        ...(view.packs.length === 0 ? [] : [chartOf(view)]),
      ];
  return { command: "power", blocks, data: powerData(result, tasks, say), findings, say };
}

/** What concerns one person: the hits they take part in, the packs they handle and those that ride with them. */
function shownTo(
  day: Day,
  { built }: PowerResult,
  tasks: readonly HandTask[],
  person: Id | null,
): Pick<View, "demands" | "packs"> {
  const { demands, packs } = built.model;
  if (person === null) return { demands, packs };
  const activities = new Set(day.activities.filter(({ who }) => who.includes(person)).map(({ id }) => id));
  const mine = new Set(built.demands.filter((one) => activities.has(one.activity)).map(({ demand }) => demand.id));
  const handled = new Set(tasks.flatMap(({ steps }) => steps.map(({ pack }) => pack)));
  const rides = ridesOf(day, person);
  return {
    demands: demands.filter(({ id }) => mine.has(id)),
    packs: packs.filter(({ id }) => handled.has(id) || rides.has(day.plan.packs.get(id)?.in ?? "")),
  };
}

/** What is covered, what is left over, how often a pack is moved, and how far that is proved. */
function verdict({ result }: View): Block[] {
  const { proof, replay, moveCount, dropped } = result.solution;
  const { demands } = result.built.model;
  const left = dropped.map(({ demand }) => useName(result, demand));
  const line = (text: string, tone: Cell["tone"] = "plain"): Block => ({ kind: "line", cells: [{ text, tone }] });
  const covered =
    dropped.length === 0
      ? line("Every hit is powered.", "good")
      : line(`Without power: ${dropped.length} of ${demands.length}: ${left.join(", ")}.`, "bad");
  const least = replay.leastMarginWh;
  const bound = proof.margin === "exhausted" ? null : proof.marginBoundWh;
  const better = bound === null || !Number.isFinite(bound) ? "" : `, where at most ${shortWh(bound)} is possible`;
  const margin = least === null ? [] : [line(`The tightest pack keeps ${spareWh(least)} above its reserve${better}.`)];
  const times = `Packs change place ${moveCount === 1 ? "once" : `${moveCount} times`}`;
  const fewest = proof.moves === "exhausted" ? "fewer will not do" : `at least ${proof.movesBound} are needed`;
  const moves = line(moveCount === 0 ? "No pack changes place." : `${times}; ${fewest}.`);
  const open = dropped.filter((one) => !one.proved).map(({ demand }) => useName(result, demand));
  const undecided =
    open.length === 0 ? [] : [line(`Not decided: ${open.join(", ")}. No way was found and none ruled out.`, "warn")];
  return [covered, ...margin, moves, ...undecided];
}

/** `dawn.1`; `after dawn.1` for what a load draws between two hits. */
function useName(result: PowerResult, { id, kind }: Demand): string {
  const activity = activityOf(result, id);
  return kind === "standby" && result.built.around.day.plan.hits.has(activity) ? `after ${activity}` : activity;
}

function hitsTable({ result, say, clocks, day, demands }: View): Table {
  const { replay } = result.solution;
  const rows = demands.flatMap((demand) =>
    [...demand.watts].map(([load, watts]): readonly Cell[] => {
      const use = replay.uses.find((one) => one.demand === demand.id && one.load === load);
      const place = day.activities.find((one) => one.id === activityOf(result, demand.id))?.place ?? null;
      return [
        { text: useName(result, demand), tone: "strong", raw: demand.id },
        clocks.local(demand.from, place),
        clocks.local(demand.to, place),
        named(say, load),
        numberCell(watts, 0, " W"),
        use === undefined ? { text: "no pack", tone: "bad", raw: null } : namesCell(say, use.packs),
        use === undefined ? DASH : { text: spareWh(use.marginWh), raw: Math.floor(use.marginWh * 10 + 1e-9) / 10 },
      ];
    }),
  );
  return {
    kind: "table",
    title: "Hits",
    columns: [
      column("Hit", "hit"),
      column("From", "from"),
      column("To", "to", 1),
      column("Runs", "load"),
      figureColumn("Draws", "watts", 2),
      column("On pack", "packs"),
      figureColumn("Above reserve", "marginWh"),
    ],
    rows,
    empty: "Nothing draws on packs.",
  };
}

const activityOf = (result: PowerResult, demand: Id): Id =>
  result.built.demands.find((one) => one.demand.id === demand)?.activity ?? demand;

function useNamed(result: PowerResult, id: Id): string {
  const demand = result.built.model.demands.find((one) => one.id === id);
  return demand === undefined ? id : useName(result, demand);
}

function missingBlocks({ result, say }: View): Block[] {
  const { missing } = result;
  if (missing === null) return [];
  const name = (id: Id): string => useNamed(result, id);
  const others = missing.blocking.filter((id) => id !== missing.first);
  const against = others.length === 0 ? "" : ` It cannot go together with ${others.map(name).join(", ")}.`;
  const cures = missing.cures.map(
    (cure): Cell => ({
      text: `${cureText(cure, say)}${cure.edits.length === 0 ? "" : `: ${setText(cure.edits)}`}`,
    }),
  );
  const short = `First without power: ${name(missing.first)}. ${shortageText(missing.short, say)}.${against}`;
  return [
    { kind: "line", cells: [{ text: short, tone: "bad" }] },
    ...(cures.length === 0
      ? [{ kind: "line", cells: [{ text: "No single change was found that would do." }] } as const]
      : [
          { kind: "heading", text: `Any one of these powers ${name(missing.first)}` } as const,
          { kind: "list", items: cures } as const,
        ]),
  ];
}

function packsTable({ result, say, clocks, packs }: View): Table {
  const { replay, rotation } = result.solution;
  const rows = packs.map((pack): readonly Cell[] => {
    const steps = replay.steps.get(pack.id) ?? [];
    const share = (wh: number): Cell => ({
      text: shareText(wh / pack.wh),
      raw: Math.round((wh / pack.wh) * 1e3) / 1e3,
    });
    const lowest = steps.reduce<ReplayStep | null>(
      (low, step) => (low === null || step.whAfter < low.whAfter ? step : low),
      null,
    );
    const powers = replay.uses.filter((use) => use.packs.includes(pack.id)).map((use) => useNamed(result, use.demand));
    return [
      { text: pack.id, tone: "strong" },
      share(pack.startWh),
      share(Math.min(pack.startWh, lowest?.whAfter ?? pack.startWh)),
      lowest === null || lowest.whAfter >= pack.startWh
        ? { text: "at first", raw: null }
        : clocks.local(lowest.to, null),
      share(steps.at(-1)?.whAfter ?? pack.startWh),
      numberCell(rotation.moves.filter((move) => move.pack === pack.id).length, 0),
      powers.length === 0 ? { text: "nothing", raw: null } : namesCell(say, [...new Set(powers)]),
    ];
  });
  return {
    kind: "table",
    title: "Packs",
    columns: [
      column("Pack", "pack"),
      figureColumn("Starts", "startShare"),
      figureColumn("Lowest", "lowestShare"),
      column("When", "lowestAt", 2),
      figureColumn("Ends", "endShare", 1),
      figureColumn("Moved", "moves", 3),
      column("Powers", "powers"),
    ],
    rows,
    empty: "No packs.",
  };
}

/** Charges that the plan does not state come from the day before, whose own `power` may have found a better rotation. */
function carriedLine({ result, day }: View): readonly Block[] {
  const unknown = new Set(result.built.unstated);
  const carried = [...day.plan.packs.values()].some(({ id, charge }) => charge === null && !unknown.has(id));
  const text =
    "What the packs start with follows from the day before, by the first rotation of it that works; `log` what they really hold.";
  return carried ? [{ kind: "line", cells: [{ text, tone: "muted" }] }] : [];
}

/** `Spare packs: brick.2.`, those that power nothing (not spare where something stays without); and what reserve is kept. */
function sparesLine({ result, packs }: View): Block {
  const used = new Set(result.solution.replay.uses.flatMap((use) => use.packs));
  const spare = packs.filter(({ id }) => !used.has(id)).map(({ id }) => id);
  const reserves = [...new Set(packs.map(({ reserveWh, wh }) => percentText(reserveWh / wh)))];
  const reserve = reserves.length === 0 ? "" : ` ${reserves.join(" or ")} of each pack is kept in reserve.`;
  return {
    kind: "line",
    cells: [
      {
        text: `${result.solution.dropped.length === 0 ? "Spare" : "Unused"} packs: ${spare.length === 0 ? "none" : spare.join(", ")}.${reserve}`,
      },
    ],
  };
}

const shareText = (share: number): string => (share >= FULL_SHARE ? "full" : percentText(share));

function chartOf({ result, day, packs }: View): Chart {
  const { model, replay } = result.solution;
  const lanes = packs.map((pack): Lane => {
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
