/** `power --fly`: which packs may fly, where, how many a person, with the rule's clause and date. */
import type { Day } from "../../day/day.ts";
import type { Finding, Say } from "../../findings/finding.ts";
import { names } from "../../findings/words.ts";
import { type Carriage, flyers, flyingPacks, POWER_BANKS } from "../../power/air.ts";
import { column, DASH, figureColumn, statedCell } from "../shared/cells.ts";
import type { Cell, Report, Table } from "../shared/view.ts";

/** The air-carriage table of a day's packs; `findings` are told with it. */
export function flyReport(day: Day, say: Say, findings: readonly Finding[]): Report {
  const people = flyers(day.plan);
  const packs = flyingPacks(day.plan, Math.max(1, people.length));
  const who = people.length === 0 ? "Nobody in this plan flies: told for one person" : `Flying: ${names(people, say)}`;
  const table: Table = {
    kind: "table",
    title: "Packs by air",
    columns: [
      column("Packs", "packs"),
      figureColumn("Rated", "wh"),
      column("How", "how"),
      column("Where", "where", 2),
      figureColumn("Of these", "allowed"),
      column("Rule", "rule", 1),
    ],
    rows: [
      ...packs.map(({ group, count, wh, carriage, allowed }): readonly Cell[] => [
        { text: `${count} × ${group}`, raw: group },
        statedCell(wh, " Wh"),
        { text: carriage.how },
        { text: carriage.where },
        { text: `${allowed} of ${count}`, tone: allowed < count ? "bad" : "plain", raw: allowed },
        { text: ruleText(carriage) },
      ]),
      [
        { text: "power banks" },
        DASH,
        { text: POWER_BANKS.how },
        { text: POWER_BANKS.where },
        DASH,
        { text: ruleText(POWER_BANKS) },
      ],
    ],
    empty: "No packs in this plan.",
  };
  const data = {
    people,
    packs: packs.map(({ group, count, wh, carriage, allowed }) => ({
      id: group,
      count,
      wh,
      how: carriage.how,
      allowed,
      perPerson: carriage.perPerson,
      rule: ruleText(carriage),
    })),
    powerBanks: { perPerson: POWER_BANKS.perPerson, since: POWER_BANKS.since, rule: ruleText(POWER_BANKS) },
  };
  const note =
    "Spare packs never go in checked baggage; terminals covered. Airlines may be stricter: ask before the day.";
  return {
    command: "power",
    blocks: [{ kind: "line", cells: [{ text: who }] }, table, { kind: "line", cells: [{ text: note, tone: "muted" }] }],
    data,
    findings,
    say,
  };
}

const ruleText = ({ source, since }: Carriage): string =>
  `${source.title}${source.clause === null ? "" : ` ${source.clause}`}${since === null ? "" : `, since ${since}`}`;
