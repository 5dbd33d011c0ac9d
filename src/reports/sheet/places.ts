/** The part of a sheet that is about where: places with the nearest hospital, ear and producer lines, paths with booking. */
import { hospitalText } from "../../plan/keys/places.ts";
import type { Id, Line, Place, SignalPath } from "../../plan/plan.ts";
import { isoLocal } from "../../time/index.ts";
import { filled, line } from "../shared/blocks.ts";
import { DASH, meant, privateCell, textCell } from "../shared/cells.ts";
import { columns, shown } from "../shared/columns.ts";
import { inOrderOfCalls } from "../shared/people.ts";
import type { Block, Cell } from "../shared/view.ts";
import type { SheetInput } from "./input.ts";
import type { Section } from "./view.ts";
import { concerns, folk, freeText, geoLink, markedColumns, name, phoneCell } from "./words.ts";

/** The places on the way, in the order in which they are reached. */
export function placesSection(input: SheetInput): Section {
  const places = placesOf(input).flatMap((id) => input.day.plan.places.get(id) ?? []);
  // A redacted sheet leaves out where exactly they are.
  const show = input.redact ? (["place", "note"] as const) : PLACES.shown;
  const table = PLACES.table(input, places, { title: null, show, empty: "No places." });
  const maps = places.flatMap((place) => mapItem(input, place));
  const list: Block = { kind: "list", items: maps };
  // Positions alone: the names stand beside them.
  const namesAlone = table.rows.every((row) => row.slice(1).every((cell) => cell.text === DASH.text));
  const blocks: Block[] =
    maps.length === 0
      ? [table]
      : namesAlone && maps.length === places.length
        ? [list]
        : [table, { kind: "heading", text: "Maps" }, list];
  if (input.redact) blocks.push(line("Addresses, positions and numbers are left out.", "muted"));
  return { id: "places", title: "Places", blocks };
}

/** Of the whole crew, or of the stops that one person is at. */
function placesOf(input: SheetInput): readonly Id[] {
  const mine = new Set(
    input.day.people
      .filter((one) => concerns(input, [one.id]))
      .flatMap((one) => [
        ...one.spans.flatMap((span) => (span.place === null ? [] : [span.place])),
        ...[one.slept, one.sleeps].flatMap((bed) => (bed === null ? [] : [bed])),
      ]),
  );
  // A stop where nothing is done holds no one's time, and is on the way all the same.
  for (const { driver, riders, from, to } of input.day.moves)
    if (concerns(input, [driver, ...riders])) mine.add(from).add(to);
  const reached = [
    ...input.day.stops.map((stop) => stop.place),
    ...input.day.rides.flatMap(({ ride }) => [ride.from, ride.to]),
    ...mine,
  ];
  return [...new Set(reached)].filter((id) => mine.has(id));
}

const onPlace = markedColumns<Place>(({ id }) => id);
const PLACES = columns<Place, SheetInput>()({
  place: shown("Place", (place, input) => {
    const link = geoLink(input, place);
    return { text: name(input, place.id), raw: place.id, tone: "strong", ...(link === null ? {} : { link }) };
  }),
  address: onPlace.column("Address", "address", ({ address }) => textCell(address)),
  parking: onPlace.column("Parking", "parking", ({ parking }) => textCell(parking)),
  hospital: onPlace.column("Nearest hospital", "hospital", ({ hospital }) => textCell(hospitalText(hospital))),
  note: onPlace.column("Note", "note", ({ note }, input) => textCell(note === null ? null : freeText(input, note)), {
    spare: 1,
  }),
});

/** The position as a link that a telephone's map opens; on paper it stands with its code. */
function mapItem(input: SheetInput, place: Place): readonly Cell[] {
  const link = geoLink(input, place);
  return link === null ? [] : [{ text: `${name(input, place.id)} ${link}`, link }];
}

/** Ear and producer lines with their numbers, then the satellite and other paths that have something to dial or to book. */
export function linesSection(input: SheetInput): Section | null {
  const { lines, paths } = input.day.plan;
  const mine = [...lines.values()].filter((line) => line.who.length === 0 || concerns(input, line.who));
  const used = new Set(
    input.day.activities
      .filter((one) => concerns(input, one.who))
      .flatMap((one) => [one.activity.signalPath, one.activity.kind === "hit" ? one.activity.spare : null]),
  );
  const booked = [...paths.values()].filter(
    (path) => used.has(path.id) && (path.windows.length > 0 || path.booking !== null || path.phone !== null),
  );
  const blocks = [
    ...filled(LINES.table(input, mine, { title: null, empty: "" })),
    ...filled(PATHS.table(input, booked, { title: "Paths", empty: "" })),
  ];
  return blocks.length === 0 ? null : { id: "lines", title: "Lines and paths", blocks };
}

/** Whoever is late or lost calls anyone, so that one person's sheet has them all; none on a redacted sheet. */
export function phonesSection(input: SheetInput): Section | null {
  const { crew } = input.day.plan;
  const reached = inOrderOfCalls(input.day.people).flatMap(({ id }) => {
    const phone = crew.get(id)?.phone ?? null;
    return phone === null ? [] : [{ id, phone }];
  });
  if (input.redact || reached.length === 0) return null;
  return { id: "phones", title: "Telephones", blocks: [PHONES.table(input, reached, { title: null, empty: "" })] };
}

const onLine = markedColumns<Line>(({ id }) => id);
const LINES = columns<Line, SheetInput>()({
  line: shown("Line", ({ id }) => ({ text: id, tone: "strong" })),
  number: onLine.column("Number", "number", ({ number }, input) => numberCell(input, number)),
  who: shown("Who", (line, input) => folk(input, meant(input.day.plan, line))),
  spare: onLine.column("Spare", "spare", ({ spare }, input) => numberCell(input, spare)),
});

/** Someone with a telephone. */
interface Reached {
  readonly id: Id;
  readonly phone: string;
}

const onPhone = markedColumns<Reached>(({ id }) => id);
const PHONES = columns<Reached, SheetInput>()({
  who: shown("Who", ({ id }, { say }) => ({ text: say.name(id), raw: id, tone: "strong" })),
  phone: onPhone.column("Telephone", "phone", ({ phone }, input) => numberCell(input, phone)),
});

function numberCell(input: SheetInput, number: string | null): Cell {
  if (number === null || input.redact) return privateCell(number, input.redact);
  return phoneCell(number);
}

const PATHS = columns<SignalPath, SheetInput>()({
  path: shown("Path", ({ id }) => ({ text: id, tone: "strong" })),
  windows: shown("Windows", (path, input) => windowsCell(input, path)),
  booking: shown("Booking", ({ booking }, { redact }) => privateCell(booking, redact)),
  polarisation: shown("Polarisation", ({ polarisation }) => textCell(polarisation), { spare: 1 }),
  phone: shown("Telephone", ({ phone }, input) => numberCell(input, phone)),
});

/** Booked windows on the desk's clock, by which they are booked. */
function windowsCell(input: SheetInput, path: SignalPath): Cell {
  if (path.windows.length === 0) return DASH;
  const windows = path.windows.map(
    (one) => `${input.clocks.text(one.from, input.desk)}–${input.clocks.text(one.to, input.desk)}`,
  );
  const iso = path.windows.map((one) => `${isoLocal(one.from, input.desk)}/${isoLocal(one.to, input.desk)}`);
  return { text: `${windows.join(", ")} ${input.clocks.name(input.desk)}`, raw: iso.join(" ") };
}
