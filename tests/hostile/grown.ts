/** Plans and logs grown from the JSON Schema: keys, ids and values that the format has, in combinations that nobody writes. */
import type { Json } from "../../src/reports/shared/view.ts";
import { type Dice, pick, VALUES } from "./mutants.ts";

type Node = Readonly<Record<string, unknown>>;

const isNode = (value: unknown): value is Node => typeof value === "object" && value !== null && !Array.isArray(value);
const nodes = (value: unknown): readonly Node[] => (Array.isArray(value) ? value.filter(isNode) : []);

/** Few, so that what is grown refers to itself. */
const IDS = ["a", "b", "wren", "wagon", "pier", "hit", "all", "none"];
const TIMES = ["07:00", "12:30", "23:59", "00:00 +1d", "2027-01-20T07:00-06:00", "02:30"];
const LENGTHS = ["0 min", "1 min", "35 min", "2 h", "36 h"];
/** Below this many levels nothing more is opened. */
const DEEPEST = 6;

/** Grows one value of a schema. */
export class Grower {
  private readonly root: Node;
  private readonly dice: Dice;

  constructor(schema: Json, dice: Dice) {
    this.root = isNode(schema) ? schema : {};
    this.dice = dice;
  }

  text(): string {
    return this.write(this.root, 0);
  }

  private resolved(node: Node): Node {
    const ref = node["$ref"];
    if (typeof ref !== "string") return node;
    let at: unknown = this.root;
    for (const part of ref.split("/").slice(1)) at = isNode(at) ? at[part] : undefined;
    return isNode(at) ? at : {};
  }

  /** A value in YAML's flow style, which JSON is too. */
  private write(given: Node, depth: number): string {
    const { dice } = this;
    const node = this.resolved(given);
    if (dice(60) === 0) return pick(dice, VALUES) || '""';
    const choices = [...nodes(node["anyOf"]), ...nodes(node["oneOf"])];
    if (choices.length > 0) return this.write(pick(dice, choices), depth);
    if ("const" in node) return JSON.stringify(node["const"]);
    if (Array.isArray(node["enum"])) return JSON.stringify(pick(dice, node["enum"]));
    const type = Array.isArray(node["type"]) ? pick(dice, node["type"]) : node["type"];
    const whole = nodes(node["allOf"]);
    if (type === undefined && whole.length > 0) return this.write(pick(dice, whole), depth);
    if (isNode(node["properties"]) || isNode(node["additionalProperties"])) return this.map(node, depth);
    if (type === "array") return this.list(node, depth);
    return this.scalar(node, type);
  }

  private map(node: Node, depth: number): string {
    const { dice } = this;
    const own = isNode(node["properties"]) ? Object.entries(node["properties"]) : [];
    const required = Array.isArray(node["required"]) ? node["required"] : [];
    const kept = own.filter(([key]) => required.includes(key) || (depth < DEEPEST && dice(depth === 0 ? 2 : 4) === 0));
    const parts = kept.flatMap(([key, value]) => (isNode(value) ? [`${key}: ${this.write(value, depth + 1)}`] : []));
    const rest = node["additionalProperties"];
    if (isNode(rest) && depth < DEEPEST)
      for (let left = dice(4); left > 0; left--) parts.push(`${pick(dice, IDS)}: ${this.write(rest, depth + 1)}`);
    return depth === 0 ? `${parts.join("\n")}\n` : `{ ${parts.join(", ")} }`;
  }

  private list(node: Node, depth: number): string {
    const item = node["items"];
    const count = depth < DEEPEST ? this.dice(4) : 0;
    const items = Array.from({ length: count }, () => this.write(isNode(item) ? item : {}, depth + 1));
    return `[${items.join(", ")}]`;
  }

  private scalar(node: Node, type: unknown): string {
    const { dice } = this;
    const examples = Array.isArray(node["examples"]) ? node["examples"] : [];
    if (examples.length > 0 && dice(3) > 0) return JSON.stringify(pick(dice, examples));
    if (type === "number" || type === "integer") return pick(dice, ["0", "1", "2", "7", "40", "1000", "-1", "0.5"]);
    if (type === "boolean") return pick(dice, ["true", "false"]);
    if (type === "null") return "null";
    return JSON.stringify(pick(dice, [...IDS, ...IDS, ...TIMES, ...LENGTHS, "50 W", "80 %", "46.8, -90.8", "UTC"]));
  }
}
