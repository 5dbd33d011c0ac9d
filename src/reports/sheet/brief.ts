/** The lines of a sheet that matter, for a short message: what changed, the line, calls, hits, departures, what to watch. */
import { aboardOf } from "../../day/day.ts";
import { counted } from "../../findings/figures.ts";
import { groupBy } from "../../lists.ts";
import { offsetMinutes } from "../../time/index.ts";
import { changeText } from "../changes/words.ts";
import type { BriefLine } from "../shared/view.ts";
import { keyMoments } from "./head.ts";
import type { SheetInput } from "./input.ts";
import { tonight } from "./moves.ts";
import { openItems } from "./open.ts";
import { concerns, freeText, longDate, name } from "./words.ts";

/** Plain text, most important first; a line with nothing to say is left out. Only departures and what to watch can go. */
export const briefLines = (input: SheetInput): readonly BriefLine[] =>
  [changeLine(input), headLine(input), callsLine(input), hitsLine(input), movesLine(input), watchLine(input)].filter(
    (line) => line !== null,
  );

const lineOf = (lead: string, items: readonly string[], spare: BriefLine["spare"] = 0): BriefLine | null =>
  items.length === 0 ? null : { lead, items, spare };

/** `Changed: noon, start 12:30 → 12:45`; that nothing did. Null without an older plan. */
function changeLine(input: SheetInput): BriefLine | null {
  if (input.changes === null) return null;
  const mine = input.changes.changes.filter((one) => one.who.length === 0 || concerns(input, one.who));
  if (mine.length === 0) return { lead: "", items: ["Nothing changed"], spare: 0 };
  return { lead: "Changed: ", items: mine.map((one) => changeText(input, one)), spare: 0 };
}

function headLine(input: SheetInput): BriefLine {
  const { date, title, revision } = input.day.plan;
  const { firstCall, firstHit, lastRelease } = keyMoments(input);
  const many = input.person === null;
  const whose = input.person === null ? "" : ` for ${name(input, input.person)}`;
  const parts = [
    `${title === null ? "Call sheet" : freeText(input, title)}${whose}, ${longDate(date)}${revision === null ? "" : `, revision ${revision}`}`,
    firstCall && `${many ? "first call" : "call"} ${firstCall.text}`,
    firstHit && `first hit ${firstHit.text}`,
    lastRelease && `${many ? "last release" : "release"} ${lastRelease.text}`,
  ];
  return { lead: "", items: parts.filter((part) => part !== null), spare: 0 };
}

/** `Wren, Ilse 09:40 lodge`: those who are called at one moment to one place together. */
function callsLine(input: SheetInput): BriefLine | null {
  const calls = input.day.people
    .filter((one) => concerns(input, [one.id]))
    .flatMap((one) => one.duties.map((duty) => ({ id: one.id, ...duty })))
    .sort((a, b) => a.call - b.call)
    .map(({ id, call, callPlace }) => ({
      who: name(input, id),
      moment: `${call} ${callPlace}`,
      where: `${input.clocks.local(call, callPlace).text} ${name(input, callPlace)}`,
    }));
  const items = [...groupBy(calls, ({ moment }) => moment).values()].map(
    (group) => `${group.map(({ who }) => who).join(", ")} ${group[0]?.where}`,
  );
  return lineOf(`Calls (${input.clocks.name(input.clocks.main)}): `, items);
}

/** `ferry pier dawn.1 07:00, dawn.2 07:30 CT`: by place, in time order. */
function hitsLine(input: SheetInput): BriefLine | null {
  const hits = input.day.activities.filter(
    (one) => one.activity.kind === "hit" && one.start !== null && concerns(input, one.who),
  );
  const items = [...groupBy(hits, ({ place }) => place)].map(([place, group]) => {
    const times = group.flatMap(({ id, start }) =>
      start === null ? [] : [`${id} ${input.clocks.local(start, place).text}`],
    );
    return `${place === null ? "" : `${name(input, place)} `}${times.join(", ")}`;
  });
  return lineOf(`Hits (${clocksText(input)}): `, items);
}

/** `CT, ET 1 h ahead`. */
function clocksText(input: SheetInput): string {
  const { clocks, desk, say } = input;
  const at = input.day.span.from;
  const main = clocks.name(clocks.main);
  if (clocks.main === desk) return main;
  const ahead = offsetMinutes(desk, at) - offsetMinutes(clocks.main, at);
  return ahead === 0
    ? main
    : `${main}; ${clocks.name(desk)} is ${say.length(Math.abs(ahead))} ${ahead > 0 ? "ahead" : "behind"}`;
}

function movesLine(input: SheetInput): BriefLine | null {
  const items = input.day.moves
    .filter((move) => concerns(input, aboardOf(move)))
    .map((move) => {
      const by = move.leaveBy === null ? "" : ` (latest ${input.clocks.local(move.leaveBy, move.from).text})`;
      const how = move.leg.ferry === undefined ? `${name(input, move.driver)} drives` : "by ferry";
      return `${name(input, move.vehicle)} ${input.clocks.local(move.leave, move.from).text}${by} to ${name(input, move.to)}, ${how}`;
    });
  return lineOf(`On the road (${input.clocks.name(input.clocks.main)}): `, items, 1);
}

/** What is missed, wrong, to decide, to do tonight, changed; said to be nothing where there is nothing. */
function watchLine(input: SheetInput): BriefLine {
  const missed = input.day.activities
    .filter((one) => one.state === "missed" && concerns(input, one.who))
    .map((one) => one.id);
  const errors = input.findings.filter(
    (one) => one.level === "error" && one.accepted === null && (one.who === null || concerns(input, [one.who])),
  );
  const open = openItems(input);
  const decide = input.day.activities.flatMap((one) => {
    const by = one.activity.kind === "hit" ? one.activity.fallback?.decideBy : null;
    return by && concerns(input, one.who) ? [`${one.id} go or no-go ${input.clocks.local(by, one.place).text}`] : [];
  });
  const batteries = tonight(input).map((one) => input.clocks.local(one.from, one.place).text);
  const parts = [
    missed.length === 0 ? null : `cannot be met: ${missed.join(", ")}`,
    errors.length === 0 && open.length > 0 ? `${counted(open.length, "open point")}, none an error` : null,
    errors.length === 0
      ? null
      : `${errors.length} open, first: ${freeText(input, errors[0]?.sentence(input.say) ?? "")}`,
    decide.length === 0 ? null : decide.join(", "),
    batteries.length === 0 ? null : `packs before the call: ${batteries.join(", ")}`,
    input.facts.notJudged.length === 0 ? null : `not judged yet: ${input.facts.notJudged.join(", ")}`,
  ].filter((part) => part !== null);
  return { lead: "Watch: ", items: parts.length === 0 ? ["open points: none"] : parts, spare: 2 };
}
