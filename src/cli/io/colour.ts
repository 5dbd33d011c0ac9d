/** Colour and width of a stream, decided by us: a package that looks at the process itself cannot know flags and files. */
import type { When } from "../options.ts";
import type { Output } from "./io.ts";

type Env = Readonly<Record<string, string | undefined>>;

const given = (value: string | undefined): boolean => value !== undefined && value !== "";
const forces = (value: string | undefined): boolean => given(value) && value !== "0" && value !== "false";

/** Flag, then NO_COLOR (no-color.org), then FORCE_COLOR or CLICOLOR_FORCE, then a terminal that is not dumb. */
export function wantsColour(when: When, stream: Output, env: Env): boolean {
  if (when !== "auto") return when === "always";
  if (given(env["NO_COLOR"])) return false;
  if (given(env["FORCE_COLOR"])) return forces(env["FORCE_COLOR"]);
  if (forces(env["CLICOLOR_FORCE"])) return true;
  return stream.isTty && env["TERM"] !== "dumb";
}

/** `--width`, then the terminal's columns, then COLUMNS; no limit (null) in a file or a pipe. A width of 0 is no limit. */
export function widthFor(flag: number | null, stream: Output, env: Env): number | null {
  if (flag !== null) return flag === 0 ? null : flag;
  if (!stream.isTty) return null;
  if (stream.columns !== null && stream.columns > 0) return stream.columns;
  const columns = /^\d{1,4}$/u.test(env["COLUMNS"] ?? "") ? Number(env["COLUMNS"]) : 0;
  return columns > 0 ? columns : null;
}
