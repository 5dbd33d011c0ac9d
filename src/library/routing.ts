/** What a routing server is asked, and how its answers and the kept ones are read and doubted; asking is the caller's. */

export type { Kept } from "../legs/kept.ts";
export { keptKey, keptText, readKept } from "../legs/kept.ts";
export { legKey } from "../legs/leg.ts";
export type { RoutedAnswer, RoutedAnswers } from "../legs/legs.ts";
export type { Implausible } from "../legs/plausible.ts";
export { implausibleAnswer } from "../legs/plausible.ts";
export type { Read, RouteQuery } from "../legs/routing.ts";
export { asksOf, readRoute, readTable, routeUrl, tableUrl } from "../legs/routing.ts";
export { greatCircleKm } from "../plan/sense/coordinates.ts";
export { folderOf, pathBelow } from "../plan/text/files.ts";
export {
  answerImplausible,
  keepUnreadable,
  keepUnwritten,
  routingRefused,
  routingUnreachable,
  routingUnreadable,
} from "../roads/findings.ts";
