/** Greenwich time on a day when the clocks of London are not on it: whoever writes `GMT` in June may mean either. */
import type { PlanPath } from "../../findings/finding.ts";
import { dayNumber } from "../../time/civil.ts";
import { instant } from "../../time/units.ts";
import { offsetMinutes, zone } from "../../time/zone.ts";
import { zoneWithoutSummer } from "../findings.ts";
import type { Body } from "../read/body.ts";
import type { Reading } from "../read/reading.ts";
import { nodeAt } from "../text/tree.ts";

const GREENWICH: ReadonlySet<string> = new Set(["GMT", "GMT0", "Etc/GMT", "Etc/GMT0", "Greenwich", "Etc/Greenwich"]);

/** Warns of each zone of the plan that is Greenwich time, if its day is in London's summer; noon decides. */
export function checkSummer(reading: Reading, { places }: Pick<Body, "places">): void {
  const [date, london] = [reading.clocks?.date ?? null, zone("Europe/London")];
  if (date === null || london === null) return;
  const ahead = offsetMinutes(london, instant(dayNumber(date) * 1440 + 720));
  if (ahead === 0) return;
  const paths: readonly PlanPath[] = [["clock"], ["zone"], ...[...places.keys()].map((id) => ["places", id, "zone"])];
  for (const path of paths) {
    const node = nodeAt(reading.root, path);
    if (node?.kind !== "scalar" || !GREENWICH.has(node.text.trim())) continue;
    const facts = { zone: node.text.trim(), date, hours: ahead === 60 ? "an hour" : `${ahead} min` };
    reading.mistake(path, (c) => zoneWithoutSummer.raise(facts, c));
  }
}
