/** The part of a sheet that is about where: places with the nearest hospital, ear and producer lines, paths with booking. */
import { hospitalText } from "../../plan/keys/places.ts";
import type { Id, Place, SignalPath } from "../../plan/plan.ts";
import { isoLocal } from "../../time/index.ts";
import { line } from "../shared/blocks.ts";
import { DASH, meant, privateCell, textCell, wordColumn } from "../shared/cells.ts";
import { inOrderOfCalls } from "../shared/people.ts";
import type { Block, Cell, Column } from "../shared/view.ts";
import type { SheetInput } from "./input.ts";
import type { Section } from "./view.ts";
import { concerns, folk, freeText, geoLink, marked, name, phoneCell } from "./words.ts";

/** The places on the way, in the order in which they are reached. */
export function placesSection(input: SheetInput): Section {
  const places = placesOf(input).flatMap((id) => input.day.plan.places.get(id) ?? []);
  const columns = PLACE_COLUMNS.filter((one) => !(input.redact && one.personal));
  const rows = places.map((place) => columns.map((one) => one.cell(input, place)));
  const table: Block = { kind: "table", title: null, columns, rows, empty: "No places." };
  const maps = places.flatMap((place) => mapItem(input, place));
  const list: Block = { kind: "list", items: maps };
  // Positions alone: the names stand beside them.
  const namesAlone = rows.every((row) => row.slice(1).every((cell) => cell.text === DASH.text));
  const blocks: Block[] =
    maps.length === 0
      ? [table]
      : namesAlone && maps.length === rows.length
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

interface PlaceColumn extends Column {
  /** Left out of a redacted sheet. */
  readonly personal: boolean;
  cell(input: SheetInput, place: Place): Cell;
}

const PLACE_COLUMNS: readonly PlaceColumn[] = [
  {
    ...wordColumn("Place", "place"),
    personal: false,
    cell: (input, place) => {
      const link = geoLink(input, place);
      return { text: name(input, place.id), raw: place.id, tone: "strong", ...(link === null ? {} : { link }) };
    },
  },
  {
    ...wordColumn("Address", "address"),
    personal: true,
    cell: (input, place) => marked(input, textCell(place.address), place.id, "address"),
  },
  {
    ...wordColumn("Parking", "parking"),
    personal: true,
    cell: (input, place) => marked(input, textCell(place.parking), place.id, "parking"),
  },
  {
    ...wordColumn("Nearest hospital", "hospital"),
    personal: true,
    cell: (input, place) => marked(input, textCell(hospitalText(place.hospital)), place.id, "hospital"),
  },
  {
    ...wordColumn("Note", "note", 1),
    personal: false,
    cell: (input, place) =>
      marked(input, textCell(place.note === null ? null : freeText(input, place.note)), place.id, "note"),
  },
];

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
  const blocks: Block[] = [];
  if (mine.length > 0) {
    blocks.push({
      kind: "table",
      title: null,
      columns: [
        wordColumn("Line", "line"),
        wordColumn("Number", "number"),
        wordColumn("Who", "who"),
        wordColumn("Spare", "spare"),
      ],
      rows: mine.map((line) => [
        { text: line.id, tone: "strong" },
        marked(input, numberCell(input, line.number), line.id, "number"),
        folk(input, meant(input.day.plan, line)),
        marked(input, numberCell(input, line.spare), line.id, "spare"),
      ]),
      empty: "No lines.",
    });
  }
  if (booked.length > 0) blocks.push(pathsTable(input, booked));
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
  const table: Block = {
    kind: "table",
    title: null,
    columns: [wordColumn("Who", "who"), wordColumn("Telephone", "phone")],
    rows: reached.map(({ id, phone }) => [
      { text: input.say.name(id), raw: id, tone: "strong" },
      marked(input, numberCell(input, phone), id, "phone"),
    ]),
    empty: "No telephones.",
  };
  return { id: "phones", title: "Telephones", blocks: [table] };
}

function numberCell(input: SheetInput, number: string | null): Cell {
  if (number === null || input.redact) return privateCell(number, input.redact);
  return phoneCell(number);
}

const pathsTable = (input: SheetInput, paths: readonly SignalPath[]): Block => ({
  kind: "table",
  title: "Paths",
  columns: [
    wordColumn("Path", "path"),
    wordColumn("Windows", "windows"),
    wordColumn("Booking", "booking"),
    wordColumn("Polarisation", "polarisation", 1),
    wordColumn("Telephone", "phone"),
  ],
  rows: paths.map((path) => [
    { text: path.id, tone: "strong" },
    windowsCell(input, path),
    privateCell(path.booking, input.redact),
    textCell(path.polarisation),
    numberCell(input, path.phone),
  ]),
  empty: "No paths.",
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
