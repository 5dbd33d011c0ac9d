/** The five lines of a sheet that matter, for a short message: the line, the calls, the hits, the departures, what to watch. */
import { keyMoments } from "./head.ts";
import type { SheetInput } from "./input.ts";
import { tonight } from "./moves.ts";
import { concerns, freeText, longDate, name, people } from "./words.ts";

/** At most five lines of plain text, most important first; a line with nothing to say is left out. */
export function briefLines(input: SheetInput): readonly string[] {
  return [headLine(input), callsLine(input), hitsLine(input), movesLine(input), watchLine(input)].filter(
    (line) => line !== null,
  );
}

function headLine(input: SheetInput): string {
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
  return parts.filter((part) => part !== null).join("; ");
}

function callsLine(input: SheetInput): string | null {
  const calls = input.day.people
    .filter((one) => concerns(input, [one.id]))
    .flatMap((one) => one.duties.map((duty) => ({ id: one.id, ...duty })))
    .sort((a, b) => a.call - b.call)
    .map(
      ({ id, call, callPlace }) =>
        `${name(input, id)} ${input.clocks.local(call, callPlace).text} ${name(input, callPlace)}`,
    );
  return calls.length === 0 ? null : `Calls (${input.clocks.name(input.clocks.main)}): ${calls.join("; ")}`;
}

function hitsLine(input: SheetInput): string | null {
  const hits = input.day.activities
    .filter((one) => one.activity.kind === "hit" && one.start !== null && concerns(input, one.who))
    .flatMap((one) =>
      one.start === null
        ? []
        : [
            `${one.id} ${input.say.time(one.start, one.place)}${one.place === null ? "" : ` ${name(input, one.place)}`}`,
          ],
    );
  return hits.length === 0 ? null : `Hits: ${hits.join("; ")}`;
}

function movesLine(input: SheetInput): string | null {
  const moves = input.day.moves
    .filter((move) => concerns(input, [move.driver, ...move.riders]))
    .map((move) => {
      const by = move.leaveBy === null ? "" : ` (latest ${input.clocks.local(move.leaveBy, move.from).text})`;
      return `${name(input, move.vehicle)} ${input.clocks.local(move.leave, move.from).text}${by} to ${name(input, move.to)}, ${name(input, move.driver)} drives`;
    });
  return moves.length === 0 ? null : `On the road (${input.clocks.name(input.clocks.main)}): ${moves.join("; ")}`;
}

/** What is missed, wrong, to decide, to do tonight, changed; said to be nothing where there is nothing. */
function watchLine(input: SheetInput): string {
  const missed = input.day.activities
    .filter((one) => one.state === "missed" && concerns(input, one.who))
    .map((one) => one.id);
  const errors = input.findings.filter(
    (one) => one.level === "error" && one.accepted === null && (one.who === null || concerns(input, [one.who])),
  );
  const decide = input.day.activities.flatMap((one) => {
    const by = one.activity.kind === "hit" ? one.activity.fallback?.decideBy : null;
    return by && concerns(input, one.who) ? [`${one.id} go or no-go ${input.clocks.local(by, one.place).text}`] : [];
  });
  const changed = input.changes?.changes.filter((one) => one.who.length === 0 || concerns(input, one.who)) ?? [];
  const affected = [...new Set(changed.flatMap((one) => one.who))];
  const batteries = tonight(input).map((one) => input.clocks.local(one.from, one.place).text);
  const parts = [
    missed.length === 0 ? null : `cannot be met: ${missed.join(", ")}`,
    errors.length === 0
      ? null
      : `${errors.length} not solved, first: ${freeText(input, errors[0]?.sentence(input.say) ?? "")}`,
    decide.length === 0 ? null : decide.join(", "),
    batteries.length === 0 ? null : `batteries tonight: ${batteries.join(", ")}`,
    changed.length > 0 ? `changed for ${affected.length === 0 ? "all" : people(input, affected)}` : null,
    input.changes !== null && changed.length === 0 ? "nothing changed" : null,
    input.facts.notJudged.length === 0 ? null : `not judged yet: ${input.facts.notJudged.join(", ")}`,
  ].filter((part) => part !== null);
  return `Watch: ${parts.length === 0 ? "nothing known to be wrong" : parts.join("; ")}`;
}
