/** `compare PLAN`: the plan beside its variants: other edits, other files, the fallbacks that its hits state. */
import { dirname, relative, resolve } from "node:path";
import type { Hit, VariantInput } from "../../index.ts";
import { type Invocation, ownFlag } from "../command.ts";
import { Failure, usage } from "../exit.ts";
import { readSource } from "../io/source.ts";
import { collect } from "../options.ts";
import { type LoadedPlan, loadPlan, loadSource } from "../plan/load.ts";
import { judgeLoaded, partsOption, planCommand } from "../plan/planCommand.ts";

interface Wish {
  readonly label: string;
  readonly edits: readonly string[];
  /** A plan of its own; null where the variant is edits of the plan. */
  readonly file: string | null;
}

/** The command `compare`. */
export const compareCommand = planCommand({
  name: "compare",
  place: 110,
  summary: "print the plan and its variants side by side, ranked",
  more: [
    "A variant is another plan's file, or a label with an edit; the same label again adds an edit to it.",
    "`off` takes an entry out.",
    "",
    '  daywright compare day.yaml --with "hold: hits.noon.at=14:00" --with "cut: hits.noon=off" --with storm.yaml',
    "  daywright compare day.yaml --fallbacks       each fallback that a hit states",
  ].join("\n"),
  printsFindings: false,
  configure: (command) => {
    partsOption(command)
      .option("--with <variant>", "a file, or `label: path=value` (repeatable)", collect)
      .option("--fallbacks", "make a variant of each hit's `fallback`");
  },
  async options({ loaded, invocation }) {
    if (loaded.file === null) throw usage("compare needs a plan that is a file", "name the plan's file");
    const given = invocation.own["with"];
    const wishes = [
      ...wishesOf(invocation, Array.isArray(given) ? given.map(String) : []),
      ...(ownFlag(invocation, "fallbacks") ? fallbacks(loaded) : []),
    ];
    const variants: VariantInput[] = [];
    for (const wish of wishes) variants.push(await variantOf(loaded, invocation, wish));
    return { variants };
  },
});

/** Files as they are named, edits by their label. Throws a usage failure for what is neither. */
function wishesOf({ io }: Invocation, given: readonly string[]): readonly Wish[] {
  const wishes = new Map<string, Wish>();
  for (const text of given) {
    if (/\.ya?ml$/iu.test(text) || io.realpath(resolve(io.cwd, text)) !== null) {
      wishes.set(text, { label: relative(dirname(text), text), edits: [], file: text });
      continue;
    }
    const match = /^([^:=]+):([^=]+=[\s\S]*)$/u.exec(text);
    const [label = "", edit = ""] = (match ?? []).slice(1).map((part) => part.trim());
    if (label === "" || edit === "" || edit.startsWith("="))
      throw usage(`--with ${text}: neither a file nor \`label: path=value\``, '--with "hold: hits.noon.at=14:00"');
    wishes.set(label, { label, edits: [...(wishes.get(label)?.edits ?? []), edit], file: null });
  }
  return [...wishes.values()];
}

/** A variant for each hit that says where else, or by which other path, it could be made. */
function fallbacks({ plan }: LoadedPlan): readonly Wish[] {
  const seen = new Set<string>();
  return [...plan.hits.values()].flatMap((hit): readonly Wish[] => {
    const entry = String(hit.path[1]);
    if (hit.fallback === null || seen.has(entry)) return [];
    seen.add(entry);
    const edits = fallbackEdits(entry, hit);
    return edits.length === 0 ? [] : [{ label: `${entry} fallback`, edits, file: null }];
  });
}

const fallbackEdits = (entry: string, { fallback, spare }: Hit): readonly string[] => [
  ...(fallback?.place == null ? [] : [`hits.${entry}.place=${fallback.place}`]),
  ...(fallback?.path == null ? [] : [`hits.${entry}.path=${fallback.path}`]),
  ...(fallback?.path != null && fallback.path === spare ? [`hits.${entry}.spare=`] : []),
];

async function variantOf(plan: LoadedPlan, invocation: Invocation, wish: Wish): Promise<VariantInput> {
  const { label, edits, file } = wish;
  try {
    const { options } = invocation;
    const set = file === null ? [...options.set, ...edits] : options.set;
    const own = { ...invocation, options: { ...options, set } };
    const loaded =
      file === null
        ? await loadSource(own, await readSource(invocation.io, plan.file ?? "-", options.name))
        : await loadPlan(own, file);
    if (loaded.ok)
      return { label, edits, version: await judgeLoaded(loaded, invocation, { hints: false }), refused: null };
    return { label, edits, version: null, refused: loaded.findings[0]?.sentence(loaded.say) ?? "it cannot be read" };
  } catch (error) {
    // An edit that leads nowhere is that variant's alone.
    if (!(error instanceof Failure)) throw error;
    return { label, edits, version: null, refused: error.message };
  }
}
