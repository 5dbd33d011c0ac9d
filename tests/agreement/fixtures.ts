/** The fixtures whose day is clean, and some that are not: what every agreement is tried on. */
import { readdirSync, readFileSync } from "node:fs";
import { type FileReading, readChain } from "../../src/plan/index.ts";
import type { Plan } from "../../src/plan/plan.ts";

const FOLDERS = ["fixtures/days", "fixtures/edges", "fixtures/cases/facts", "fixtures/cases/together"];

export const FILES: readonly string[] = [
  "fixtures/smallest.yaml",
  "fixtures/plans/smallest.yaml",
  "fixtures/examples/day.yaml",
  ...FOLDERS.flatMap((folder) =>
    readdirSync(folder)
      .filter((name) => name.endsWith(".yaml") && !["assignment.yaml", "spoiled.yaml", "bad-loop.yaml"].includes(name))
      .map((name) => `${folder}/${name}`),
  ),
];

/** Cases that are no plan of a day: mistakes to be read, and files that other days share. */
const NO_DAY = ["cascade", "pt", "conflict", "tom", "nobr", "first", "bad-loop"].map((name) => `${name}.yaml`);

/** Those and every other case that has a day. */
export const ALL: readonly string[] = [
  ...new Set([
    ...FILES,
    ...readdirSync("fixtures/cases", { recursive: true, encoding: "utf8" })
      .toSorted()
      .filter((name) => name.endsWith(".yaml") && !NO_DAY.some((one) => name.endsWith(`/${one}`)))
      .map((name) => `fixtures/cases/${name}`)
      .filter((file) => readFileSync(file, "utf8").startsWith("daywright:")),
  ]),
];

export const read = (path: string): FileReading => {
  try {
    return { kind: "text", text: readFileSync(path, "utf8") };
  } catch {
    return { kind: "missing", near: [] };
  }
};

/** The plans that `file` ends, oldest first, or `text` in its place; throws what is mistaken. */
export async function plansOf(file: string, text = readFileSync(file, "utf8")): Promise<readonly Plan[]> {
  const { plans, findings } = await readChain(text, { file, files: { read } });
  if (plans === null)
    throw new Error(`${file}: ${findings.map(({ code, span }) => `${code} ${span?.line}`).join("; ")}`);
  return plans;
}
