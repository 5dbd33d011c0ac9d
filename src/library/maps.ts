/** The day's places and drives on a map. */
export { geojson } from "../reports/drives/geojson.ts";
export { gpx } from "../reports/drives/gpx.ts";
export { dayMap } from "../reports/drives/map.ts";
