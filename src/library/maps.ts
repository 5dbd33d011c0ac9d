/** The day's places and drives on a map. */
export { dayMap } from "../reports/drives/map.ts";
