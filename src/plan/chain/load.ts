/** A plan's text, and the files it uses and follows, to typed plans. Files are read by whoever calls. */
import type { Finding } from "../../findings/finding.ts";
import { fileLoop, mistakesMore } from "../findings.ts";
import type { Plan } from "../plan.ts";
import { readTree } from "../read/read.ts";
import { noMap } from "../shape/issues.ts";
import { rightlyNamed } from "../text/correctTopLevelKeys.ts";
import { withoutEchoes } from "../text/dropCascades.ts";
import { findFile, folderOf, noFiles, type PlanFiles } from "../text/files.ts";
import { itemsOf, textOf } from "../text/items.ts";
import { type SourceText, sourceText } from "../text/source.ts";
import { type MapNode, type PlanNode, spanOf, type YamlReading } from "../text/tree.ts";
import { readYaml } from "../text/yaml.ts";
import { merged, withoutDropped } from "./merge.ts";

/** Where a plan's text is from, and how the files that it names are read. */
export interface PlanOrigin {
  /** As the user named it, `/` as separator; null for standard input without a name. */
  readonly file: string | null;
  readonly files?: PlanFiles;
  /** What the file holds, where that is not the text to be read; null where there is no such file. */
  readonly disk?: string | null;
}

/** A plan without what it follows, or the findings that say why there is none. */
export interface OnePlanReading {
  /** Null where anything is mistaken; then nothing is to be computed. */
  readonly plan: Plan | null;
  /** By file, then position; beyond twenty, how many more there are. */
  readonly findings: readonly Finding[];
}

/** How standard input is called in findings. */
export const STDIN = "<stdin>";

/** Reads one plan with all it uses; what it follows is left to `readChain`. */
export async function readOnePlan(text: string, { file, files }: PlanOrigin): Promise<OnePlanReading> {
  return new Loader(files ?? noFiles, folderOf(file ?? "")).load(text, file);
}

/** The plan's own file first, then others in the order of their first mistake; within a file by position. */
function inOrder(findings: readonly Finding[], first: SourceText): readonly Finding[] {
  const files = [...new Set([first.file, ...findings.map(({ span }) => span?.file ?? first.file)])];
  const rank = ({ span }: Finding): readonly number[] =>
    span === null ? [0, 0, 0] : [files.indexOf(span.file), span.line, span.column];
  return findings.toSorted((a, b) => {
    const [left, right] = [rank(a), rank(b)];
    return left.map((value, index) => value - (right[index] ?? 0)).find((difference) => difference !== 0) ?? 0;
  });
}

const MOST_FINDINGS = 20;

function capped(findings: readonly Finding[]): readonly Finding[] {
  const more = findings.length - MOST_FINDINGS;
  return more <= 0 ? findings : [...findings.slice(0, MOST_FINDINGS), mistakesMore.raise({ more })];
}

/** Reads plans of one folder; a file that several of them use is read once. */
export class Loader {
  readonly files: PlanFiles;
  readonly within: string;
  private findings: Finding[] = [];
  private readonly parsed = new Map<string, YamlReading>();

  constructor(files: PlanFiles, within: string) {
    this.files = files;
    this.within = within;
  }

  async load(text: string, file: string | null, disk: string | null = text): Promise<OnePlanReading> {
    this.findings = [];
    const source = sourceText(file ?? STDIN, text, disk);
    const whole = await this.wholeTree(source, file ?? "", []);
    const read = whole === null ? null : await readTree(whole, file);
    const findings = capped(withoutEchoes(inOrder([...this.findings, ...(read?.findings ?? [])], source)));
    return { plan: findings.some(({ level }) => level === "error") ? null : (read?.plan ?? null), findings };
  }

  /** The tree of a text over all that it uses; null where it cannot be read. */
  private async wholeTree(source: SourceText, file: string, users: readonly string[]): Promise<MapNode | null> {
    const own = this.ownTree(source);
    if (own === null) return null;
    const shared = await this.sharedTree(own, file, [...users, file]);
    if (shared === "broken") return null;
    const { tree, findings } = withoutDropped(shared === null ? own : merged(shared, own), shared);
    this.findings.push(...findings);
    return tree;
  }

  private ownTree(source: SourceText): MapNode | null {
    const { tree, findings } = this.parsed.get(source.file) ?? readYaml(source);
    this.findings.push(...findings);
    if (tree === null) return null;
    if (tree.kind === "map") {
      const named = rightlyNamed(tree);
      this.findings.push(...named.findings);
      return named.tree;
    }
    return this.refused(noMap(tree, source));
  }

  private refused(finding: Finding): null {
    this.findings.push(finding);
    return null;
  }

  /** What the files of `uses` say together, later ones over earlier; null where there are none. */
  private async sharedTree(tree: MapNode, file: string, users: readonly string[]): Promise<MapNode | null | "broken"> {
    let shared: MapNode | null = null;
    const uses = tree.entries.get("uses")?.value;
    for (const item of itemsOf(uses === undefined ? null : { node: uses, path: ["uses"] })) {
      const name = textOf(item);
      if (name === null) continue;
      const base = await this.used(item.node, name, file, users);
      if (base === null) return "broken";
      shared = shared === null ? base : merged(shared, base);
    }
    return shared;
  }

  private async used(node: PlanNode, name: string, file: string, users: readonly string[]): Promise<MapNode | null> {
    const at = { path: ["uses"], span: spanOf(node) };
    const found = findFile(this.files, { name, ...at }, file, this.within);
    if (!found.ok) return this.refused(found.finding);
    if (users.includes(found.file)) return this.refused(fileLoop.raise({ name, chain: [...users, found.file] }, at));
    const shared = sourceText(found.file, found.text);
    if (!this.parsed.has(found.file)) this.parsed.set(found.file, readYaml(shared));
    const tree = await this.wholeTree(shared, found.file, users);
    if (tree === null) return null;
    // What a shared file says of itself is its own affair.
    const entries = new Map([...tree.entries].filter(([key]) => key !== "uses" && key !== "follows"));
    return { ...tree, entries };
  }
}
