/** The day on a map as GeoJSON (RFC 7946): longitude before latitude, a straight line said to be one. */
import type { Coordinates } from "../../plan/plan.ts";
import type { DayMap, MapDrive, MapPlace } from "../../reports/drives/map.ts";
import type { Json } from "../../reports/shared/view.ts";
import { partsOf } from "../dateLine.ts";
import type { DeclaredForm } from "../form.ts";
import { toJson } from "./json.ts";

/** Ten centimetres. */
const degrees = (value: number): number => Math.round(value * 1e6) / 1e6;

const position = ({ latitude, longitude }: Coordinates): Json => [degrees(longitude), degrees(latitude)];

const placeFeature = ({ id, name, at, activities }: MapPlace): Json => ({
  type: "Feature",
  geometry: { type: "Point", coordinates: position(at) },
  properties: { kind: "place", id, name, activities },
});

/** A line over the date line in several. */
function geometryOf(line: readonly Coordinates[]): Json {
  const parts = partsOf(line);
  const [only = []] = parts;
  return parts.length === 1
    ? { type: "LineString", coordinates: only.map(position) }
    : { type: "MultiLineString", coordinates: parts.map((part) => part.map(position)) };
}

const driveFeature = ({ move, name, line, isStraight, note, leave, arrive }: MapDrive): Json => ({
  type: "Feature",
  geometry: geometryOf(line),
  properties: {
    kind: "drive",
    id: move.id,
    name,
    vehicle: move.vehicle,
    from: move.from,
    to: move.to,
    leave,
    arrive,
    plannedMinutes: move.plannedMinutes,
    likelyMinutes: move.likelyMinutes,
    km: move.leg.km === null ? null : Math.round(move.leg.km * 10) / 10,
    basis: move.leg.basis,
    straight: isStraight,
    note,
  },
});

/** One feature for each place, then one for each drive. */
export const featureCollection = (map: DayMap): Json => ({
  type: "FeatureCollection",
  features: [...map.places.map(placeFeature), ...map.drives.map(driveFeature)],
});

/** The features as text, ending in a newline. */
export const toGeojson = (map: DayMap): string => toJson(featureCollection(map));

/** The map for other programs. */
export const geojsonForm: DeclaredForm<"map"> = {
  name: "geojson",
  suffixes: [".geojson"],
  commands: ["drives"],
  coordinates: true,
  place: 100,
  takes: "map",
  print: toGeojson,
};
