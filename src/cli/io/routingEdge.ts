/** Files and network behind a plan's routing server: what it kept is read beside the plan, and written there again. */
import { dirname, resolve } from "node:path";
import type { Plan } from "../../plan/plan.ts";
import { keepUnwritten } from "../../roads/findings.ts";
import { type Io, IoError } from "./io.ts";
import { askRouting, type RoutingAnswer, TIMEOUT } from "./routing.ts";
import { planFiles } from "./source.ts";

/** The answers for one plan. A kept file that cannot be written is told, and the answers are used all the same. */
export async function askForPlan(io: Io, plan: Plan): Promise<RoutingAnswer> {
  const folder = dirname(plan.file ?? "plan");
  const keep = plan.routing?.keep ?? null;
  const path = keep === null ? null : `${folder}/${keep}`;
  const read = path === null ? null : planFiles(io).read(path, folder);
  const kept = read?.kind === "text" ? read.text : null;
  const answer = await askRouting(plan, { fetch: io.fetch, kept, timeout: TIMEOUT, gaps: true });
  if (answer.keep === null || keep === null || path === null || read?.kind === "outside") return answer;
  try {
    io.writeFile(resolve(io.cwd, path), answer.keep, { replace: true });
    return answer;
  } catch (error) {
    if (!(error instanceof IoError)) throw error;
    const where = { path: [...(plan.routing?.path ?? []), "keep"] };
    const unwritten = keepUnwritten.raise({ file: keep, why: error.reason }, where);
    return { ...answer, findings: [...answer.findings, unwritten] };
  }
}
