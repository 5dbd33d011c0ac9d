/**
 * Files and network behind a plan's routing server: what it kept is read beside the plan, and written there again.
 *
 * A file is written over only where it holds routing answers and nothing else, and only as it was read.
 */
import { dirname, resolve } from "node:path";
import type { Finding, Plan } from "../../index.ts";
import { folderOf, keepUnreadable, keepUnwritten, pathBelow } from "../../library/routing.ts";
import { type Io, IoError } from "./io.ts";
import { isBelow } from "./paths.ts";
import { askRouting, type RoutingAnswer, TIMEOUT } from "./routing.ts";
import { sessionOf } from "./routingSession.ts";
import { planFiles } from "./source.ts";

/** Where answers are kept: nowhere, a new file, the file as it was read, or a name that is not used, and why. */
type Keep =
  | { readonly kind: "none" }
  | { readonly kind: "new"; readonly path: string }
  | { readonly kind: "old"; readonly path: string; readonly text: string }
  | { readonly kind: "refused"; readonly why: string; readonly holds: boolean };

const refused = (why: string, holds = false): Keep => ({ kind: "refused", why, holds });

/** Whether a path that is not there yet would be made below `folder`, links of the folders on the way followed. */
function isMadeBelow(io: Io, path: string, folder: string): boolean {
  const root = io.realpath(folder);
  let above = dirname(path);
  let real = io.realpath(above);
  while (real === null && dirname(above) !== above) {
    above = dirname(above);
    real = io.realpath(above);
  }
  return root !== null && real !== null && isBelow(root, real);
}

function keepOf(io: Io, { file, routing }: Plan): Keep {
  if (routing === null || routing.keep === null) return { kind: "none" };
  const folder = folderOf(file ?? "");
  const path = pathBelow(routing.keep, folder, folder);
  if (path === null) return refused("it is outside the plan's folder");
  const read = planFiles(io).read(path, folder === "" ? "." : folder);
  switch (read.kind) {
    case "text":
      return { kind: "old", path, text: read.text };
    case "outside":
      return refused("it is outside the plan's folder");
    case "unreadable":
      return refused(read.reason, true);
    case "missing":
      if (!path.endsWith(".json")) return refused("a new file of answers ends in .json");
      return isMadeBelow(io, resolve(io.cwd, path), resolve(io.cwd, folder))
        ? { kind: "new", path }
        : refused("it is outside the plan's folder");
  }
}

function write(io: Io, keep: Keep, text: string): void {
  if (keep.kind === "new") io.writeFile(resolve(io.cwd, keep.path), text, { replace: false });
  if (keep.kind !== "old") return;
  const over = new TextEncoder().encode(keep.text);
  io.writeFile(resolve(io.cwd, keep.path), text, { replace: true, over });
}

/** Writes what is to be kept; what stands against it, null where nothing does. */
function kept(io: Io, plan: Plan, keep: Keep, text: string | null): Finding | null {
  const file = plan.routing?.keep ?? "";
  const where = { path: [...(plan.routing?.path ?? []), "keep"] };
  if (keep.kind === "refused")
    return (keep.holds ? keepUnreadable : keepUnwritten).raise({ file, why: keep.why }, where);
  if (text === null) return null;
  try {
    write(io, keep, text);
    return null;
  } catch (error) {
    if (!(error instanceof IoError)) throw error;
    return keepUnwritten.raise({ file, why: error.reason }, where);
  }
}

/** The answers for one plan. Where they cannot be kept a finding says so, and they are used all the same. */
export async function routesForPlan(io: Io, plan: Plan): Promise<RoutingAnswer> {
  const keep = keepOf(io, plan);
  const answer = await askRouting(plan, {
    fetch: io.fetch,
    session: sessionOf(io.fetch),
    now: () => io.now(),
    kept: keep.kind === "old" ? keep.text : null,
    timeout: TIMEOUT,
    gaps: true,
  });
  const finding = kept(io, plan, keep, answer.keep);
  return finding === null ? answer : { ...answer, findings: [...answer.findings, finding] };
}
