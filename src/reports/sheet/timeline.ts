/** The day as one drawing: the sky along the top, then the hits, then a lane for each person. */
import type { PersonDay, PersonSpan } from "../../day/day.ts";
import { after, type Interval, instant, joined } from "../../time/units.ts";
import { hitsLane, skyLane } from "../light/chart.ts";
import type { Bar, Lane } from "../shared/view.ts";
import { inCallOrder } from "./calls.ts";
import type { SunFact } from "./facts.ts";
import type { SheetInput } from "./input.ts";
import type { Section } from "./view.ts";
import { concerns, name } from "./words.ts";

const MARGIN = 30;

/** The chart of a day; null where no one is called. */
export function timelineSection(input: SheetInput): Section | null {
  const people = inCallOrder(input);
  const frame = frameOf(people);
  if (frame === null) return null;
  const zone = input.clocks.main;
  const hits = hitsLane(input.day.activities.filter(({ who }) => concerns(input, who)));
  const lanes = [
    skyOver(input, frame),
    hits.bars.length === 0 ? null : hits,
    ...people.filter((one) => one.call !== null).map((one) => personLane(input, one, frame)),
  ];
  const clock = input.clocks.name(zone);
  return {
    id: "timeline",
    title: "The day",
    blocks: [
      {
        kind: "chart",
        title: `${clock} time`,
        description: describe(input, people),
        ...frame,
        zone,
        lanes: lanes.flatMap((lane) => (lane === null ? [] : [lane])),
      },
    ],
  };
}

/** From half an hour before the first call to half an hour after the last release. */
function frameOf(people: readonly PersonDay[]): Interval | null {
  const duties = people.flatMap((one) => one.duties);
  if (duties.length === 0) return null;
  const first = instant(Math.min(...duties.map((one) => one.call)));
  const last = instant(Math.max(...duties.map((one) => one.release)));
  return { from: after(first, -MARGIN), to: after(last, MARGIN) };
}

function describe(input: SheetInput, people: readonly PersonDay[]): string {
  const duty = people.flatMap((one) =>
    one.duties.map(
      (duty) =>
        `${name(input, one.id)} is on from ${input.clocks.local(duty.call, duty.callPlace).text} to ${input.clocks.local(duty.release, duty.releasePlace).text}`,
    ),
  );
  return `${duty.join("; ")}. The tables of this sheet hold every time.`;
}

/** The sky at the place of the first hit; null where it has not been judged. */
function skyOver(input: SheetInput, frame: Interval): Lane | null {
  const { sunAltitude } = input.facts;
  const place = firstSun(input)?.place;
  return sunAltitude === null || place === undefined ? null : skyLane((at) => sunAltitude(place, at), frame);
}

/** The sun where the day's first hit is, else at the first place told. */
export function firstSun(input: SheetInput): SunFact | null {
  const place = input.day.activities.find((one) => one.activity.kind === "hit")?.place;
  const suns = input.facts.sun ?? [];
  return suns.find((one) => one.place === place) ?? suns[0] ?? null;
}

function personLane(input: SheetInput, person: PersonDay, frame: Interval): Lane {
  const inside = person.spans.filter((span) => span.to > frame.from && span.from < frame.to);
  const bars = inside.map((span) => spanBar(input, span));
  return {
    label: name(input, person.id),
    bars: joinAlike(bars).filter((bar) => bar.style !== "rest"),
  };
}

function spanBar(input: SheetInput, span: PersonSpan): Bar {
  const { from, to } = span;
  const vehicle = span.vehicle === null ? "" : name(input, span.vehicle);
  if (span.is === "driving") return { from, to, style: "drive", text: vehicle };
  if (span.is === "ferry") return { from, to, style: "ferry", text: vehicle };
  if (span.is === "riding" || span.is === "berth") return { from, to, style: "ride", text: vehicle };
  if (span.is === "meal") return { from, to, style: "meal", text: "meal" };
  if (span.is === "off" || span.is === "personal") return { from, to, style: "rest", text: "" };
  return { from, to, style: span.doing === "wait" ? "wait" : "duty", text: "" };
}

/** One bar for neighbours that look and read the same. */
const joinAlike = (bars: readonly Bar[]): readonly Bar[] =>
  joined(bars, (a, b) => a.style === b.style && a.text === b.text);
