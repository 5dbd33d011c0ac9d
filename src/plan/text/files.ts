/** Files that a plan names: found relative to the file that names them, never outside the first plan's folder. */
import type { Finding, PlanPath, Span } from "../../findings/finding.ts";
import { fileMissing, fileOutside, fileUnreadable } from "../findings.ts";

/** How the caller reads files, so that nothing here touches a disk. */
export interface PlanFiles {
  /**
   * The text of `path`, which the plan names; `within` is the folder it must not leave, links followed. Both with `/`,
   * relative to where the first plan's own name is relative to.
   */
  read(path: string, within: string): FileReading;
}

/** The text of a file, or why it cannot be read. */
export type FileReading =
  | { readonly kind: "text"; readonly text: string }
  /** `near`: files that the name may stand for, as `path` is written. */
  | { readonly kind: "missing"; readonly near: readonly string[] }
  | { readonly kind: "outside" }
  | { readonly kind: "unreadable"; readonly reason: string };

/** No files: for plans that stand alone. */
export const noFiles: PlanFiles = { read: () => ({ kind: "missing", near: [] }) };

/** A name in a plan, and where it stands. */
export interface FileName {
  readonly name: string;
  readonly span: Span;
  readonly path: PlanPath;
}

/** A file that a plan names, with its text or a finding. */
export type FoundFile =
  | { readonly ok: true; readonly file: string; readonly text: string }
  | { readonly ok: false; readonly finding: Finding };

/** The folder part of a file's name, `""` where it has none. */
export const folderOf = (file: string): string => file.slice(0, Math.max(0, file.lastIndexOf("/") + 1));

/** Reads the file that `from` names. `within` is the first plan's folder, as `folderOf` gives it. */
export function findFile(files: PlanFiles, { name, span, path }: FileName, from: string, within: string): FoundFile {
  const at = { span, path };
  const file = pathBelow(name, folderOf(from), within);
  if (file === null) return { ok: false, finding: fileOutside.raise({ name }, at) };
  const found = files.read(file, within === "" ? "." : within);
  switch (found.kind) {
    case "text":
      return { ok: true, file, text: found.text };
    case "missing":
      return {
        ok: false,
        finding: fileMissing.raise({ name, near: found.near.map((one) => seenFrom(one, folderOf(from))) }, at),
      };
    case "outside":
      return { ok: false, finding: fileOutside.raise({ name }, at) };
    case "unreadable":
      return { ok: false, finding: fileUnreadable.raise({ name, reason: found.reason }, at) };
  }
}

/** A path as the file in `folder` would name it. */
const seenFrom = (path: string, folder: string): string => (path.startsWith(folder) ? path.slice(folder.length) : path);

/** The path of `name` seen from `folder`, or null where it is absolute or leaves `within`. */
export function pathBelow(name: string, folder: string, within: string): string | null {
  if (name === "" || /^[/\\]|^[A-Za-z]:|\\|\0|:\/\//.test(name) || !folder.startsWith(within)) return null;
  const steps: string[] = [];
  for (const step of `${folder.slice(within.length)}${name}`.split("/")) {
    if (step === "..") {
      if (steps.pop() === undefined) return null;
    } else if (step !== "" && step !== ".") steps.push(step);
  }
  return steps.length === 0 ? null : `${within}${steps.join("/")}`;
}
