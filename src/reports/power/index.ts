/** `power`: a line per pack, a line per hit, the hand moves as a to-do list, a chart of charge over the day, and the proof. */

import type { Day } from "../../day/day.ts";
import { counted } from "../../findings/figures.ts";
import { leastOf, mostOf } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import { foundPacks } from "../../power/found.ts";
import type { PowerResult } from "../../power/index.ts";
import type { Demand, ModelPack } from "../../power/model.ts";
import type { ReplayStep } from "../../power/replay.ts";
import { type HandTask, todoOf } from "../../power/todo.ts";
import {
  beyondHint,
  cureText,
  percentText,
  setText,
  shareText,
  shortageText,
  shortWh,
  spareWh,
  unstatedHint,
} from "../../power/words.ts";
import { line, listUnder } from "../shared/blocks.ts";
import { DASH, named, namesCell, numberCell } from "../shared/cells.ts";
import { columns, shown } from "../shared/columns.ts";
import { dayView, type TopicInput } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import { had } from "../shared/judged.ts";
import { ridesOf } from "../shared/people.ts";
import type { ReportMaker } from "../shared/report.ts";
import type { Block, Cell, Chart, Lane, ReportParts, Table } from "../shared/view.ts";
import { type PowerView, ROTATION_DATA } from "./data.ts";
import { FLY_DATA, flyReport } from "./fly.ts";
import { handsBlocks } from "./hands.ts";

/** The report of one day's batteries; of one person the chores, and the packs and hits of these. */
export function powerReport(input: TopicInput<PowerResult>): ReportParts {
  const { day, result, person } = input;
  const places = result.built.touches.map((touch) => touch.where).filter((place) => day.plan.places.has(place));
  const own = dayView(input, places);
  const tasks = todoOf(result.built, result.solution).filter(
    ({ who, others }) => person === null || [...who, ...others].includes(person),
  );
  const view: PowerView = { ...own, result, ...shownTo(day, result, tasks, person) };
  const head = headingLine(day, own.clocks);
  const nothing = result.built.model.packs.length === 0 && result.built.model.demands.length === 0;
  const blocks: readonly Block[] = nothing
    ? [head, line("Nothing in this plan runs on packs.")]
    : [
        head,
        ...verdict(view),
        usesTable(view),
        ...missingBlocks(view),
        ...handsBlocks(view, tasks, person),
        ...(person !== null && view.packs.length === 0 ? [] : [packsTable(view)]),
        ...(person === null ? [sparesLine(view), ...carriedLine(view), ...foundLines(view), LEFT_OUT] : []),
        ...(view.packs.length === 0 ? [] : [chartOf(view)]),
      ];
  const headers = [usesTable(view), packsTable(view)];
  return { blocks, data: ROTATION_DATA.json(tasks, view), headers };
}

/** What concerns one person: the hits they take part in, the packs they handle and those that ride with them. */
function shownTo(day: Day, { built }: PowerResult, tasks: readonly HandTask[], person: Id | null) {
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
function verdict({ result }: PowerView): Block[] {
  const { proof, replay, dropped } = result.solution;
  const { demands } = result.built.model;
  const left = dropped.map(({ demand }) => useName(result, demand));
  const covered =
    dropped.length === 0
      ? line("Every hit is powered.", "good")
      : line(`Without power: ${dropped.length} of ${demands.length}: ${left.join(", ")}.`, "bad");
  const least = replay.leastMarginWh;
  const bound = proof.margin === "exhausted" ? null : proof.marginBoundWh;
  const better = bound === null || !Number.isFinite(bound) ? "" : `, where at most ${shortWh(bound)} is possible`;
  const margin = least === null ? [] : [line(`The tightest pack keeps ${spareWh(least)} above its reserve${better}.`)];
  const moves = line(movesText(result));
  const open = dropped.filter((one) => !one.proved).map(({ demand }) => useName(result, demand));
  const undecided =
    open.length === 0 ? [] : [line(`Not decided: ${open.join(", ")}. No way was found and none ruled out.`, "warn")];
  return [covered, ...margin, moves, ...undecided];
}

/** `29 pack moves in 8 chores, the fewest possible; 4 of them charge spares.` */
function movesText({ solution }: PowerResult): string {
  const { proof, moveCount, spareMoves, rotation } = solution;
  if (moveCount === 0) return "No pack moves.";
  const chores = `${counted(moveCount, "pack move")} in ${counted(rotation.chores.length, "chore")}`;
  const needed = moveCount - spareMoves;
  const least = proof.moves === "exhausted" ? ", the fewest moves possible" : leastText(proof.movesBound, needed);
  const spares =
    spareMoves === 0 ? "" : `; ${spareMoves} of them only ${spareMoves === 1 ? "charges" : "charge"} spare packs`;
  return `${chores}${least}${spares}.`;
}

/** A bound that says nothing is not printed; where the gap is wide, how to narrow it. */
function leastText(bound: number, needed: number): string {
  if (bound > 0) return `; at least ${bound} moves are needed`;
  return needed > MANY_MOVES ? "; `--patience 4` looks for fewer moves and says how few are needed" : "";
}

/** From so many moves on it is worth a longer search. */
const MANY_MOVES = 12;

/** `dawn.1`; `after dawn.1` for what a load draws between two hits. */
function useName(result: PowerResult, { id, kind }: Demand): string {
  const activity = activityOf(result, id);
  return kind === "standby" && result.built.around.day.plan.hits.has(activity) ? `after ${activity}` : activity;
}

type UseRow = ReturnType<typeof usesOf>[number];

/** Every load of every demand that is shown, with what powers it. */
const usesOf = ({ demands, result }: PowerView) =>
  demands.flatMap((demand) =>
    [...demand.watts].map(([load, watts]) => {
      const { uses } = result.solution.replay;
      return { demand, load, watts, use: uses.find((one) => one.demand === demand.id && one.load === load) };
    }),
  );

const placeOfUse = ({ demand }: UseRow, { day, result }: PowerView): Id | null =>
  day.activities.find((one) => one.id === activityOf(result, demand.id))?.place ?? null;

const USES = columns<UseRow, PowerView>()({
  hit: shown("Hit", ({ demand }, { result }) => ({ text: useName(result, demand), tone: "strong", raw: demand.id })),
  from: shown("From", (row, view) => view.clocks.local(row.demand.from, placeOfUse(row, view))),
  to: shown("To", (row, view) => view.clocks.local(row.demand.to, placeOfUse(row, view)), { spare: 1 }),
  load: shown("Runs", ({ load }, { say }) => named(say, load)),
  watts: shown("Draws", ({ watts }) => numberCell(watts, 0, " W"), { figure: true, spare: 2 }),
  packs: shown("On pack", ({ use }, { say }) =>
    use === undefined ? { text: "no pack", tone: "bad", raw: null } : namesCell(say, use.packs),
  ),
  marginWh: shown(
    "Above reserve",
    ({ use }) =>
      use === undefined ? DASH : { text: spareWh(use.marginWh), raw: Math.floor(use.marginWh * 10 + 1e-9) / 10 },
    { figure: true },
  ),
});

const usesTable = (view: PowerView): Table =>
  USES.table(view, usesOf(view), { title: "Hits", empty: "Nothing draws on packs." });

const activityOf = (result: PowerResult, demand: Id): Id =>
  result.built.demands.find((one) => one.demand.id === demand)?.activity ?? demand;

function useNamed(result: PowerResult, id: Id): string {
  const demand = result.built.model.demands.find((one) => one.id === id);
  return demand === undefined ? id : useName(result, demand);
}

function missingBlocks({ result, say }: PowerView): Block[] {
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
  const short = `First without power is ${name(missing.first)}: ${shortageText(missing.short, say)}.${against}`;
  const { unstated, beyond } = missing.short;
  const larger = beyond === null || cures.length > 0 ? null : beyondHint(beyond.packWh);
  const help = unstated.length > 0 ? unstatedHint(unstated) : larger;
  return [
    line(short, "bad"),
    ...(help === null ? [] : [line(`What helps: ${help}.`)]),
    ...(cures.length > 0 ? listUnder(`Any one of these powers ${name(missing.first)}`, cures) : []),
    ...(cures.length === 0 && help === null ? [line("No single change was found that is enough.")] : []),
  ];
}

const stepsOf = (pack: ModelPack, { result }: PowerView): readonly ReplayStep[] =>
  result.solution.replay.steps.get(pack.id) ?? [];

const lowestOf = (pack: ModelPack, view: PowerView): ReplayStep | null =>
  stepsOf(pack, view).reduce<ReplayStep | null>(
    (low, step) => (low === null || step.whAfter < low.whAfter ? step : low),
    null,
  );

const shareCell = (pack: ModelPack, wh: number): Cell => ({
  text: shareText(wh / pack.wh),
  raw: Math.round((wh / pack.wh) * 1e3) / 1e3,
});

const PACKS = columns<ModelPack, PowerView>()({
  pack: shown("Pack", (pack) => ({ text: pack.id, tone: "strong" })),
  startShare: shown("Starts", (pack) => shareCell(pack, pack.startWh), { figure: true }),
  lowestShare: shown(
    "Lowest",
    (pack, view) => shareCell(pack, Math.min(pack.startWh, lowestOf(pack, view)?.whAfter ?? pack.startWh)),
    { figure: true },
  ),
  lowestAt: shown(
    "When",
    (pack, view) => {
      const lowest = lowestOf(pack, view);
      return lowest === null || lowest.whAfter >= pack.startWh
        ? { text: "at first", raw: null }
        : view.clocks.local(lowest.to, null);
    },
    { spare: 2 },
  ),
  endShare: shown("Ends", (pack, view) => shareCell(pack, stepsOf(pack, view).at(-1)?.whAfter ?? pack.startWh), {
    figure: true,
    spare: 1,
  }),
  moves: shown(
    "Moved",
    (pack, { result }) => numberCell(result.solution.rotation.moves.filter((move) => move.pack === pack.id).length, 0),
    { figure: true, spare: 3 },
  ),
  powers: shown("Powers", (pack, { result, say }) => {
    const uses = result.solution.replay.uses.filter((use) => use.packs.includes(pack.id));
    const powers = new Set(uses.map((use) => useNamed(result, use.demand)));
    return powers.size === 0 ? { text: "nothing", raw: null } : namesCell(say, [...powers]);
  }),
});

const packsTable = (view: PowerView): Table => PACKS.table(view, view.packs, { title: "Packs", empty: "No packs." });

/** Charges that the plan does not state come from the day before, whose own `power` may have found a better rotation. */
function carriedLine({ result }: PowerView): readonly Block[] {
  const unknown = new Set(result.built.unstated);
  const carried = [...result.built.around.day.plan.packs.values()].some(
    ({ id, charge }) => charge === null && !unknown.has(id),
  );
  const text =
    "What the packs start with follows from the day before, by the rotation that is printed for it; `log` what they really hold.";
  return carried ? [line(text, "muted")] : [];
}

/** What the figures pass over. */
const LEFT_OUT: Block = line(
  "Not included: self-discharge, wear within the day, energy used while packs are swapped.",
  "muted",
);

/** `brick.1 was found at 5 %, 56 % less than computed.`: charges that are known, against what the rotation gave. */
function foundLines({ result, day }: PowerView): readonly Block[] {
  const { model } = result.solution;
  const inDay = foundPacks(result.solution).map(({ pack, wh, fullWh, shortPercent: off }) => {
    const against = off === 0 ? "as computed" : `${Math.abs(off)} % ${off > 0 ? "less" : "more"} than computed`;
    return line(`${pack} was found at ${percentText(wh / fullWh)}, ${against}.`);
  });
  const elsewhere = model.packs.flatMap((pack) =>
    (pack.seen ?? []).map(({ place }) =>
      line(`${pack.id} was seen in ${place}, other than computed; it counts from there.`),
    ),
  );
  const later = [...day.plan.actual.packs].flatMap(([id, { charge, at }]) =>
    charge === null || at !== null
      ? []
      : [line(`${id} was found at ${percentText(charge)}, no time given: counts from the last release on.`)],
  );
  return [...inDay, ...elsewhere, ...later];
}

/** `Spare packs: brick.2.`, those that power nothing (not spare where something stays without), what else lies there, and the reserve. */
function sparesLine({ result, packs }: PowerView): Block {
  const { model, replay, dropped } = result.solution;
  const used = new Set(replay.uses.flatMap((use) => use.packs));
  const unused = packs.filter(({ id }) => !used.has(id));
  const [firstUse, lastUse] = [
    leastOf(model.demands.map(({ from }) => from)) ?? model.from,
    mostOf(model.demands.map(({ to }) => to)) ?? model.to,
  ];
  const isBroken = ({ broken: spans = [] }: (typeof packs)[number]): boolean =>
    spans.some(({ from, to }) => from < lastUse && to > firstUse);
  const chargeOf = ({ id, startWh }: (typeof packs)[number]): number =>
    Math.max(startWh, ...(replay.steps.get(id) ?? []).map(({ whAfter }) => whAfter));
  const broken = unused.filter(isBroken);
  const empty = unused.filter((pack) => !isBroken(pack) && chargeOf(pack) <= pack.reserveWh + 1e-9);
  const spare = unused.filter((pack) => !broken.includes(pack) && !empty.includes(pack));
  const list = (of: typeof packs): string => of.map(({ id }) => id).join(", ");
  const reserves = [...new Set(packs.map(({ reserveWh, wh }) => percentText(reserveWh / wh)))];
  return line(
    [
      `${dropped.length === 0 ? "Spare" : "Unused"} packs: ${spare.length === 0 ? "none" : list(spare)}.`,
      empty.length > 0 && `At or below the reserve: ${list(empty)}.`,
      broken.length > 0 && `Out of service: ${list(broken)}.`,
      reserves.length > 0 && `${reserves.join(" or ")} of each pack is kept in reserve.`,
    ]
      .filter((part) => part !== false)
      .join(" "),
  );
}

function chartOf({ result, day, packs }: PowerView): Chart {
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

/** The report `power`. */
export const powerMaker: ReportMaker = {
  place: 30,
  topics: ["power"],
  make: (input, { results }, { fly = false }) =>
    fly ? flyReport(input) : powerReport({ ...input, result: had(results.power) }),
  schema: () => ({ anyOf: [ROTATION_DATA.schema, FLY_DATA.schema] }),
};
