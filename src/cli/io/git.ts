/** Files as they were at a Git revision; loaded only where one is asked for. */
import { execFileSync } from "node:child_process";
import { basename, dirname } from "node:path";
import { systemCodeOf } from "./errorCode.ts";
import { IoError } from "./io.ts";
import { nameFrom } from "./paths.ts";

/** No plan is as large; what is longer is refused by its reader anyway. */
const MOST_BYTES = 8 << 20;

/**
 * Reads files as they were at `revision`, beside `plan` and below. Throws an IoError with Git's own reason. Git is started
 * without a shell, and reads the stored bytes: no filter or viewer that the repository names is run.
 */
export function filesAt(revision: string, plan: string): (path: string) => Uint8Array {
  const cwd = dirname(plan);
  return (path) => {
    const name = `./${nameFrom(cwd, path)}`;
    try {
      return execFileSync("git", ["cat-file", "blob", `${revision}:${name}`], {
        cwd,
        maxBuffer: MOST_BYTES,
        stdio: ["ignore", "pipe", "pipe"],
        env: { ...process.env, LC_ALL: "C" },
      });
    } catch (error) {
      throw new IoError(path, reasonOf(error, basename(path)));
    }
  };
}

/** Git's first line of complaint, or why it could not be started. */
function reasonOf(error: unknown, name: string): string {
  if (systemCodeOf(error) === "ENOENT") return "Git is not installed";
  if (systemCodeOf(error) === "ENOBUFS") return `${name} is too large there`;
  const said = typeof error === "object" && error !== null && "stderr" in error ? String(error.stderr) : "";
  const [first = ""] = said.split("\n");
  return first.replace(/^fatal: /u, "") || "Git could not read it";
}
