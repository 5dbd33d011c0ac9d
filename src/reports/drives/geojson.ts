/** The day on a map as GeoJSON (RFC 7946): longitude before latitude, a straight line said to be one. */
import type { Coordinates, Plan } from "../../plan/plan.ts";
import { isoAt } from "../shared/stamps.ts";
import type { Json } from "../shared/view.ts";
import { type DayMap, type MapDrive, type MapPlace, STRAIGHT } from "./map.ts";

/** Ten centimetres. */
const degrees = (value: number): number => Math.round(value * 1e6) / 1e6;

const position = ({ latitude, longitude }: Coordinates): Json => [degrees(longitude), degrees(latitude)];

const placeFeature = ({ id, name, at, activities }: MapPlace): Json => ({
  type: "Feature",
  geometry: { type: "Point", coordinates: position(at) },
  properties: { kind: "place", id, name, activities },
});

const driveFeature = (plan: Plan, { move, name, line, isStraight }: MapDrive): Json => ({
  type: "Feature",
  geometry: { type: "LineString", coordinates: line.map(position) },
  properties: {
    kind: "drive",
    id: move.id,
    name,
    vehicle: move.vehicle,
    from: move.from,
    to: move.to,
    leave: isoAt(plan, move.leave, move.from),
    arrive: isoAt(plan, move.arrive, move.to),
    plannedMinutes: move.plannedMinutes,
    likelyMinutes: move.likelyMinutes,
    km: move.leg.km === null ? null : Math.round(move.leg.km * 10) / 10,
    basis: move.leg.basis,
    straight: isStraight,
    note: isStraight ? STRAIGHT : null,
  },
});

/** One feature for each place, then one for each drive. */
export const geojson = (plan: Plan, map: DayMap): Json => ({
  type: "FeatureCollection",
  features: [...map.places.map(placeFeature), ...map.drives.map((drive) => driveFeature(plan, drive))],
});
