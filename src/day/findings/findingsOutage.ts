/** What the Day can say of what is out of service and of who is away. */
import { define, names } from "../../findings/finding.ts";
import type { Instant } from "../../time/units.ts";

export const vehicleOutOfService = define<{
  what: string;
  kind: "vehicle" | "path" | "person";
  at: { readonly at: Instant };
  place: string | null;
  lost: readonly string[];
  stranded: readonly string[];
  where: readonly string[];
  gear: readonly string[];
  /** From where to where, if it is on the road; else empty. */
  road: readonly string[];
}>({
  code: "out-of-service",
  level: "note",
  otherwise: { level: "error", when: "where a hit or task is lost or somebody is stranded" },
  title: "something is out of service, or somebody is away",
  why: "From then on the plan does without it: drives, hits and tasks that need it are dropped, and people who would have gone on with it stay where they are.",
  cure: "Fetch them with another vehicle, use another path or another driver: `daywright repair` looks for what helps.",
  example: `
    vehicles:     # bea and tomas are at the pier then
      truck: { broken: "07:20" }
  `,
  sentence(f, say) {
    const head = `${say.name(f.what)} is ${f.kind === "person" ? "away" : "out of service"} from ${say.time(f.at.at, f.place)}`;
    const lost = f.lost.length === 0 ? "" : `; lost: ${f.lost.join(", ")}`;
    const [from, to] = f.road;
    const places =
      from === undefined || to === undefined
        ? `at ${names([...new Set(f.where)], say)}`
        : `on the road from ${say.name(from)} to ${say.name(to)}`;
    const people = f.stranded.length === 0 ? "" : `; ${names(f.stranded, say)} stranded ${places}`;
    const gear = f.gear.length === 0 ? "" : `, with ${names(f.gear, say)}`;
    return `${head}${lost}${people}${gear}`;
  },
  hint: (f) =>
    f.lost.length === 0 && f.stranded.length === 0
      ? null
      : "look for another way: `daywright repair`, or edit the plan",
});
