/** `power --fly`: which packs may go in a cabin, and which need the airline. */
import { names } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import { type Carriage, flyers, flyingPacks, POWER_BANKS } from "../../power/air.ts";
import { line } from "../shared/blocks.ts";
import { DASH, statedCell } from "../shared/cells.ts";
import { column, columns, kept, object, shown } from "../shared/columns.ts";
import type { ReportInput } from "../shared/dayView.ts";
import { keyKind, listKind, type Named, numberKind, orNull, textKind, wholeKind } from "../shared/kinds.ts";
import type { ReportParts } from "../shared/view.ts";

type Group = ReturnType<typeof flyingPacks>[number];

/** A group of packs, or the power banks that people carry. */
interface Row {
  readonly group: Group | null;
  readonly carriage: Carriage;
}

const ruleText = ({ source, since }: Carriage): string =>
  `${source.title}${source.clause === null ? "" : ` ${source.clause}`}${since === null ? "" : `, since ${since}`}`;

const PACKS = columns<Row, Named>()({
  id: kept(keyKind, ({ group }) => group?.group ?? ""),
  packs: shown("Packs", ({ group }) =>
    group === null ? { text: "power banks" } : { text: `${group.count} × ${group.group}`, raw: group.group },
  ),
  count: kept(wholeKind, ({ group }) => group?.count ?? 0),
  wh: column("Rated", numberKind, ({ group }) => group?.wh ?? 0, {
    cell: ({ group }) => (group === null ? DASH : statedCell(group.wh, " Wh")),
  }),
  how: column("How", textKind, ({ carriage }) => carriage.how),
  where: shown("Where", ({ carriage }) => ({ text: carriage.where }), { spare: 2 }),
  allowed: column("Of these", wholeKind, ({ group }) => group?.allowed ?? 0, {
    cell: ({ group }) =>
      group === null
        ? DASH
        : {
            text: `${group.allowed} of ${group.count}`,
            tone: group.allowed < group.count ? "bad" : "plain",
            raw: group.allowed,
          },
  }),
  perPerson: kept(orNull(wholeKind), ({ carriage }) => carriage.perPerson),
  rule: column("Rule", textKind, ({ carriage }) => ruleText(carriage), { spare: 1 }),
});

const banks = object<Carriage, unknown>()({
  perPerson: orNull(wholeKind),
  since: orNull(textKind),
  rule: kept(textKind, ruleText),
});

/** `data` of `power --fly`. */
export const FLY_DATA = object<{ readonly people: readonly Id[]; readonly packs: readonly Row[] }, Named>()({
  people: listKind(keyKind),
  packs: listKind(PACKS),
  powerBanks: kept(banks, () => POWER_BANKS),
});

/** The air-carriage table of a day's packs; `findings` come with it. */
export function flyReport({ day, say }: ReportInput): ReportParts {
  const people = flyers(day.plan);
  const packs = flyingPacks(day.plan, Math.max(1, people.length)).map((group) => ({ group, carriage: group.carriage }));
  const who = people.length === 0 ? "No one in this plan flies: shown for one person" : `Flying: ${names(people, say)}`;
  const table = PACKS.table({ say }, [...packs, { group: null, carriage: POWER_BANKS }], {
    title: "Packs by air",
    empty: "No packs in this plan.",
  });
  const note =
    "Spare packs never go in checked baggage; terminals covered. Airlines may be stricter: ask before the day.";
  return {
    blocks: [line(who), table, line(note, "muted")],
    data: FLY_DATA.json({ people, packs }, { say }),
  };
}
