/** The day on a map as GPX 1.1: a waypoint for each place, a track for each known road, a route of two points elsewhere. */
import type { Coordinates } from "../../plan/plan.ts";
import type { DayMap, MapDrive, MapPlace } from "../../reports/drives/map.ts";
import { partsOf } from "../dateLine.ts";
import type { DeclaredForm } from "../form.ts";

/** What XML 1.0 cannot hold even escaped, and what turns text around (bidirectional controls). */
const FORBIDDEN =
  /[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]|[\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/gu;

const ENTITIES: ReadonlyMap<string, string> = new Map([
  ["&", "&amp;"],
  ["<", "&lt;"],
  [">", "&gt;"],
  ['"', "&quot;"],
  ["'", "&apos;"],
]);

/** Makes untrusted text inert in XML text and attributes; what XML cannot hold becomes U+FFFD. */
export const xmlText = (text: string): string =>
  text.replace(FORBIDDEN, "\ufffd").replace(/[&<>"']/gu, (sign) => ENTITIES.get(sign) ?? sign);

const at = ({ latitude, longitude }: Coordinates): string =>
  `lat="${latitude.toFixed(6)}" lon="${longitude.toFixed(6)}"`;

const element = (name: string, text: string): string => `<${name}>${xmlText(text)}</${name}>`;

const waypoint = ({ name, at: where, activities }: MapPlace): string => {
  const notes = activities.length === 0 ? "" : element("desc", activities.join(", "));
  return `  <wpt ${at(where)}>${element("name", name)}${notes}</wpt>`;
};

/** A route over the date line is two. */
const route = ({ name, line, note }: MapDrive): string =>
  partsOf(line)
    .flatMap((part) => [
      `  <rte>${element("name", name)}${element("desc", note ?? "")}`,
      ...part.map((point) => `    <rtept ${at(point)}/>`),
      "  </rte>",
    ])
    .join("\n");

const track = ({ name, line }: MapDrive): string =>
  [
    `  <trk>${element("name", name)}<trkseg>`,
    partsOf(line)
      .map((part) => part.map((point) => `    <trkpt ${at(point)}/>`).join("\n"))
      .join("\n  </trkseg><trkseg>\n"),
    "  </trkseg></trk>",
  ].join("\n");

/** The whole document, ending in a newline. */
export function toGpx({ title, places, drives }: DayMap): string {
  return `${[
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<gpx version="1.1" creator="daywright" xmlns="http://www.topografix.com/GPX/1/1">',
    `  <metadata>${element("name", title)}</metadata>`,
    ...places.map(waypoint),
    ...drives.filter(({ isStraight }) => isStraight).map(route),
    ...drives.filter(({ isStraight }) => !isStraight).map(track),
    "</gpx>",
  ].join("\n")}\n`;
}

/** The map for navigation devices. */
export const gpxForm: DeclaredForm<"map"> = {
  name: "gpx",
  suffixes: [".gpx"],
  commands: ["drives"],
  coordinates: true,
  place: 110,
  takes: "map",
  print: toGpx,
};
