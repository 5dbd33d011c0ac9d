/** What `drives --relief` says: who drives which stretch, who sleeps, and how sure it is that nothing is better. */

import type { Move } from "../../day/day.ts";
import { counted } from "../../findings/figures.ts";
import { dotted } from "../../plan/text/pathtext.ts";
import type { ReliefProposal } from "../../roads/relief/propose.ts";
import type { Instant } from "../../time/index.ts";
import { line, list } from "../shared/blocks.ts";
import { lengthCell } from "../shared/cells.ts";
import { clockColumn, column, columns, kept, object, shown } from "../shared/columns.ts";
import type { DayView } from "../shared/dayView.ts";
import {
  anyKind,
  flagKind,
  idKind,
  idsKind,
  instantKind,
  keyKind,
  listKind,
  type Moment,
  orNull,
  textKind,
  wholeKind,
  wordKind,
} from "../shared/kinds.ts";
import type { Block, Cell } from "../shared/view.ts";

type ReliefLeg = ReliefProposal["legs"][number];

/** The turns at the wheel of a leg, each with whether it is the first. */
const turnsOf = (leg: ReliefLeg) => leg.wheel.map((stretch, index) => ({ leg, stretch, first: index === 0 }));

/** An instant of a leg, on the clock of its origin until one is there. */
const onLeg = (move: Move, at: Instant): Moment => ({ at, place: at < move.arrive ? move.from : move.to });

const TURNS = columns<ReturnType<typeof turnsOf>[number]>()({
  vehicle: shown("Vehicle", ({ leg }, view) => ({ ...idKind.cell(leg.move.vehicle, view), tone: "strong" })),
  from: clockColumn("From", ({ stretch, leg }) => ({ at: stretch.from, place: leg.move.from }), { kind: instantKind }),
  to: column("To", instantKind, ({ stretch, leg }) => onLeg(leg.move, stretch.to)),
  at: shown(
    "Takes over at",
    ({ leg, first }, view) => (first ? idKind.cell(leg.move.from, view) : { text: "on the road", raw: null }),
    { spare: 1 },
  ),
  towards: shown("Towards", ({ leg }, view) => idKind.cell(leg.move.to, view), { spare: 2 }),
  driver: column("Driver", idKind, ({ stretch }) => stretch.driver, { tone: "strong" }),
  minutes: shown("At the wheel", ({ stretch }) => lengthCell(stretch.to - stretch.from), { figure: true, spare: 1 }),
  asleep: shown(
    "May sleep",
    ({ leg, stretch }, view) =>
      idsKind.cell(
        leg.asleep.filter((who) => who !== stretch.driver),
        view,
      ),
    { spare: 3 },
  ),
});

const leg = object<ReliefLeg>()({
  id: kept(keyKind, ({ move }) => move.id),
  vehicle: kept(keyKind, ({ move }) => move.vehicle),
  from: kept(keyKind, ({ move }) => move.from),
  to: kept(keyKind, ({ move }) => move.to),
  driver: kept(keyKind, ({ move }) => move.driver),
  wheel: kept(listKind(TURNS), turnsOf),
  asleep: idsKind,
});

const breach = object<ReliefProposal["breaches"][number], unknown>()({
  who: keyKind,
  limit: textKind,
  clause: orNull(textKind),
  minutes: wholeKind,
  law: flagKind,
});

const edit = object<ReliefProposal["edits"][number], unknown>()({
  path: kept(textKind, ({ path }) => dotted(path)),
  value: kept(anyKind, ({ value }) =>
    typeof value === "string"
      ? value
      : value.map((one) => (typeof one === "string" ? one : { after: one.after, driver: one.driver })),
  ),
});

/** What JSON states of a proposal, also where there is nothing to choose. */
interface Answer extends Omit<ReliefProposal, "status" | "day"> {
  readonly status: ReliefProposal["status"] | "no-choice";
}

const NO_CHOICE: Answer = {
  status: "no-choice",
  legs: [],
  changes: 0,
  leftMinutes: null,
  boundMinutes: null,
  breachMinutes: 0,
  breaches: [],
  edits: [],
  lawMinutes: 0,
  houseMinutes: 0,
  sleepMinutes: null,
  unavoidable: [],
};

/** The proposal; one with nothing in it where no one can relieve anybody. */
export const answerOf = (relief: ReliefProposal | "no-choice" | null): Answer | null =>
  relief === "no-choice" ? NO_CHOICE : relief;

/** A proposal as JSON. */
export const RELIEF = object<Answer>()({
  status: wordKind("exact", "best-found", "impossible", "no-choice"),
  legs: listKind(leg),
  changes: wholeKind,
  leftMinutes: orNull(wholeKind),
  boundMinutes: orNull(wholeKind),
  breachMinutes: wholeKind,
  breaches: listKind(breach),
  edits: listKind(edit),
  lawMinutes: wholeKind,
  houseMinutes: wholeKind,
  sleepMinutes: orNull(wholeKind),
  unavoidable: listKind(breach),
});

/** The proposal as a table of stretches under one sentence; nothing where it was not asked for. */
export function reliefBlocks(view: DayView, relief: ReliefProposal | "no-choice" | null): readonly Block[] {
  if (relief === null) return [];
  if (relief === "no-choice") return [line("Relief: no one else aboard can drive any leg.")];
  const table = TURNS.table(view, relief.legs.flatMap(turnsOf), { title: "Relief: who drives", empty: "No drives." });
  return [
    table,
    verdict(view, relief),
    ...breachList(view, relief.breaches),
    ...(relief.unavoidable.length === 0
      ? []
      : [line("Broken whoever drives, and not counted:"), ...breachList(view, relief.unavoidable)]),
  ];
}

const changes = (count: number): string => counted(count, "change of driver", "changes of driver");

function verdict({ say }: DayView, relief: ReliefProposal): Block {
  const { status, lawMinutes, houseMinutes, sleepMinutes, leftMinutes } = relief;
  const facts = [
    ...(sleepMinutes === null ? [] : [`everyone sleeps aboard for at least ${say.length(sleepMinutes)} at a stretch`]),
    leftMinutes === null ? "no limit binds" : `the closest limit has ${say.length(Math.max(0, leftMinutes))} to spare`,
    changes(relief.changes),
  ].join(", ");
  const house = houseMinutes === 0 ? "Lawful" : `Lawful, but ${say.length(houseMinutes)} beyond house rules`;
  const law = `${say.length(lawMinutes)} of law broken`;
  const budget = "Best found within the budget; --patience searches longer.";
  const texts = {
    exact: `${house}; no better assignment exists: ${facts}.`,
    "best-found": `${lawMinutes > 0 ? law : house}: ${facts}. ${budget}`,
    impossible: `Impossible without breaking a law: the least is ${say.length(lawMinutes)}, with ${changes(relief.changes)}.`,
  } as const;
  return line(texts[status], lawMinutes > 0 ? "bad" : houseMinutes > 0 ? "warn" : "plain");
}

function breachList({ say }: DayView, breaches: ReliefProposal["breaches"]): readonly Block[] {
  const items = breaches.map(
    ({ who, limit, clause, minutes, law }): Cell => ({
      text: `${say.name(who)}: ${limit}${clause === null ? "" : ` (${clause})`}, ${say.length(minutes)} over`,
      tone: law ? "bad" : "warn",
    }),
  );
  return list(items);
}
