/** Edits of a plan's text: only the value changes, everything else stays byte for byte, and it can be taken back. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { PlanPath } from "../../src/findings/finding.ts";
import { applyEdits, parseEdit } from "../../src/plan/edit/edit.ts";
import type { Edit } from "../../src/plan/edit/splice.ts";
import { dotted, parsePathText } from "../../src/plan/text/pathtext.ts";
import { sourceText } from "../../src/plan/text/source.ts";
import { nodeAt, type PlanNode, type Raw, raw } from "../../src/plan/text/tree.ts";
import { readYaml } from "../../src/plan/text/yaml.ts";
import { runs } from "../fuzz.ts";
import { everything, smallest } from "./plans.ts";

const DAYS = new URL("../../fixtures/days/", import.meta.url);
const days = readdirSync(DAYS)
  .filter((name) => name.endsWith(".yaml"))
  .map((name) => [name, readFileSync(new URL(name, DAYS), "utf8")] as const);
const texts: readonly (readonly [string, string])[] = [["smallest", smallest], ["everything", everything], ...days];

const set = (text: string, assignment: string): string | null => {
  const { edit } = parseEdit(assignment);
  return edit === null ? null : applyEdits(text, [edit], { file: null }).text;
};

function treeOf(text: string): PlanNode {
  const { tree, findings } = readYaml(sourceText("", text));
  expect(findings).toEqual([]);
  if (tree === null) throw new Error("not a tree");
  return tree;
}

function* paths(node: PlanNode, path: PlanPath = []): Generator<PlanPath> {
  if (path.length > 0) yield path;
  if (node.kind === "map") for (const [key, { value }] of node.entries) yield* paths(value, [...path, key]);
  if (node.kind === "list") for (const [index, item] of node.items.entries()) yield* paths(item, [...path, index]);
}

/** Some of the paths, spread evenly, and all of them under `npm run fuzz`: each costs several readings of the text. */
function sample(tree: PlanNode): readonly PlanPath[] {
  const all = [...paths(tree)];
  const count = Math.min(all.length, runs(12, all.length));
  return Array.from({ length: count }, (_, index) => all[Math.floor((index * all.length) / count)] ?? []);
}

const plain = (node: PlanNode): Raw => JSON.parse(JSON.stringify(raw(node)));

/** `tree` with another value at `path`, or without it: what an edit must come to, made without any text. */
function changed(tree: Raw, [step, ...rest]: PlanPath, value: Raw | undefined): Raw {
  if (step === undefined) return value ?? null;
  if (Array.isArray(tree)) {
    const items = tree.map((item, index) => (index === step && rest.length > 0 ? changed(item, rest, value) : item));
    if (rest.length > 0) return items;
    return items.flatMap((item, index) => (index !== step ? [item] : value === undefined ? [] : [value]));
  }
  const map: [string, Raw][] = typeof tree === "object" && tree !== null ? Object.entries(tree) : [];
  return Object.fromEntries(
    map.flatMap(([key, inner]): [string, Raw][] => {
      if (key !== String(step)) return [[key, inner]];
      if (rest.length > 0) return [[key, changed(inner, rest, value)]];
      return value === undefined ? [] : [[key, value]];
    }),
  );
}

describe("an edit", () => {
  test("changes the value and nothing else", () => {
    expect(set(smallest, "hits.dawn.at=07:30")).toBe(smallest.replace('"07:00"', '"07:30"'));
    expect(set(smallest, "roads[0].drive=40 min")).toBe(smallest.replace("35 min", "40 min"));
    expect(set(smallest, "runs.wagon=[lodge, pier]")).toBe(smallest.replace("[lodge, pier, lodge]", "[lodge, pier]"));
  });

  test("may leave the section out where the id says it", () => {
    expect(set(smallest, "dawn.for=5 min")).toBe(smallest.replace("for: 3 min", "for: 5 min"));
  });

  test("adds a key that the entry may have", () => {
    expect(set(smallest, "hits.dawn.firm=false")).toBe(smallest.replace("place: pier }", "place: pier, firm: false }"));
    expect(set(smallest, "vehicles.wagon.seats=5")).toBe(smallest.replace("wagon: {}", "wagon: { seats: 5 }"));
  });

  test("adds a section at the end", () => {
    expect(set(smallest, "rules.turnaround=11 h")).toBe(`${smallest}rules:\n  turnaround: 11 h\n`);
    const log: Edit = { path: ["actual", "brick.1", "charge"], value: "35%" };
    expect(applyEdits(smallest, [log], { file: null, create: true }).text).toBe(
      `${smallest}actual:\n  brick.1: { charge: 35% }\n`,
    );
  });

  test("adds a line to a block, with its indentation and line ends", () => {
    const block = "crew:\r\n    wren:\r\n        role: camera   # the lead\r\n    ilse: {}\r\n";
    expect(set(block, "crew.wren.drives=wagon")).toBe(
      "crew:\r\n    wren:\r\n        role: camera   # the lead\r\n        drives: wagon\r\n    ilse: {}\r\n",
    );
  });

  test("removes an entry with its comma or its line", () => {
    expect(set(smallest, "hits.dawn.for=")).toBe(smallest.replace("for: 3 min, ", ""));
    expect(set(smallest, "crew.ilse=")).toBe(smallest.replace("  ilse: { role: reporter }\n", ""));
  });

  test("makes an entry that is written whole, as `repair` prints it, in a section that is there or not; not one key of it", () => {
    expect(set(smallest, "hits.noon={ at: 12:00 }")).toContain("\n  noon: { at: 12:00 }\n");
    expect(set(smallest, "tasks.eat={ kind: meal }")).toBe(`${smallest}tasks:\n  eat: { kind: meal }\n`);
    for (const part of ["hits.noon.at=12:00", "hits.noon=12:00", "tasks.eat.for=30 min", "task.eat={ kind: meal }"])
      expect(set(smallest, part), part).toBe(null);
  });

  test("names what it cannot find, and the nearest", () => {
    const wrong = (assignment: string): string => {
      const { edit, findings } = parseEdit(assignment);
      const told = edit === null ? findings : applyEdits(smallest, [edit], { file: null }).findings;
      return told.map(({ code, facts }) => `${code} ${String(facts["near"] ?? "")}`).join();
    };
    expect(wrong("hits.down.at=07:30")).toBe("edit-nowhere hits.dawn.at");
    expect(wrong("hits.dawn.att=07:30")).toBe("edit-nowhere hits.dawn.at");
    expect(wrong("hit.dawn.at=07:30")).toBe("edit-nowhere hits.dawn.at");
    expect(wrong("task.eat={ kind: meal }")).toBe("edit-nowhere tasks.eat");
    expect(wrong("tasks.eat={ kind: meal")).toBe("edit-value-bad ");
    expect(wrong("hits.dawn.at.x=07:30")).toBe("edit-nowhere ");
    expect(wrong("roads[3].drive=1 h")).toBe("edit-nowhere roads[0].drive");
    expect(wrong("hits..at=1")).toBe("edit-path-bad ");
    expect(wrong("07:30")).toBe("edit-path-bad ");
    expect(wrong("title=a, b: c")).toBe("edit-value-bad ");
    expect(wrong("title=x }")).toBe("edit-value-bad ");
    expect(wrong("title=x # y")).toBe("edit-value-bad ");
  });
});

describe.each(texts)("every value of %s", (_, original) => {
  for (const [kind, text] of [
    ["LF", original],
    ["CRLF", original.replaceAll("\n", "\r\n")],
  ] as const) {
    test(`can be changed and taken back (${kind})`, () => {
      const tree = treeOf(text);
      for (const path of sample(tree)) {
        const made = applyEdits(text, [{ path, value: "zz" }], { file: null });
        expect(made.findings, dotted(path)).toEqual([]);
        const after = made.text ?? "";
        expect(plain(treeOf(after)), dotted(path)).toEqual(changed(plain(tree), path, "zz"));
        expect(applyEdits(after, made.undo, { file: null, create: true }).text, dotted(path)).toBe(text);
      }
    });

    test(`can be removed (${kind})`, () => {
      const tree = treeOf(text);
      for (const path of sample(tree)) {
        const after = applyEdits(text, [{ path, value: null }], { file: null }).text ?? "";
        expect(plain(treeOf(after)), dotted(path)).toEqual(changed(plain(tree), path, undefined));
      }
    });

    test(`can get company, which can be taken back (${kind})`, () => {
      const tree = treeOf(text);
      for (const path of sample(tree)) {
        const node = nodeAt(tree, path);
        if (node?.kind === "scalar" || node === null || (node.kind === "map" && path.length !== 1)) continue;
        const step = node.kind === "list" ? node.items.length : "zz";
        const made = applyEdits(text, [{ path: [...path, step], value: "{ a: 1 }" }], { file: null, create: true });
        if (made.text === null) continue;
        expect(plain(nodeAt(treeOf(made.text), [...path, step]) ?? tree)).toEqual({ a: 1 });
        expect(applyEdits(made.text, made.undo, { file: null, create: true }).text, dotted(path)).toBe(text);
      }
    });
  }
});

test("a path as text is read back", () => {
  for (const [, text] of texts) {
    for (const path of paths(treeOf(text))) expect(parsePathText(dotted(path))).toEqual(path);
  }
});

describe("an edit that removes what is not there", () => {
  test.each(["hits.dawn.late", "actual.wren.released", "crew.bea"])("%s is refused and changes nothing", (path) => {
    const text = "daywright: 1\ncrew:\n  wren: {}\nhits:\n  dawn: { at: 07:00 }\n";
    const { edit } = parseEdit(`${path}=`);
    if (edit === null) throw new Error("unread");
    const made = applyEdits(text, [edit], { file: null, create: true });
    expect([made.text, made.findings.map(({ code }) => code)]).toEqual([null, ["edit-nowhere"]]);
  });
});
