/** `repair PLAN`: the smallest ways out of what `check` finds, each applied and judged; `--write` puts one into the file. */
import { codes, edits, type Finding, nearest, type Repair, repairs, tryEdits } from "../../index.ts";
import { ownText } from "../command.ts";
import { EXIT, usage } from "../exit.ts";
import { planFiles, readSource } from "../io/source.ts";
import { notEmpty, wholeNumber } from "../options.ts";
import { note, putFile } from "../output.ts";
import { editedText } from "../plan/edits.ts";
import { planCommand, type ReportRequest } from "../plan/planCommand.ts";

/** Repairs that are shown. */
const SHOWN = 3;
/** Milliseconds between two lines of progress. */
const BETWEEN = 2_000;

/** The command `repair`. */
export const repairCommand = planCommand({
  name: "repair",
  place: 120,
  summary: "print the smallest edits that clear what check finds, each applied and judged",
  more: [
    "A repair is one to three steps. It brings no new error and breaks no more law than the plan does.",
    "Where there is none, what would help but breaks a house rule is named, for whoever may accept that.",
    "Order: law broken, firm hits lost, house rules broken, other hits lost, people called earlier, minutes moved.",
    "",
    "  daywright repair day.yaml --code rest-too-short",
    "  daywright repair day.yaml --write 1          the first repair into the file, comments kept",
    "  daywright repair day.yaml --set vehicles.truck.broken=10:00 --write 1     the edit and the repair",
  ].join("\n"),
  printsFindings: false,
  configure: (command) => {
    command
      .option("--code <code>", "repair findings with this code, warnings included", notEmpty)
      .option("--who <id>", "repair findings about this person, warnings included", notEmpty)
      .option("--write <n>", "write repair N into the plan's file", wholeNumber);
  },
  async options(asked) {
    const { loaded, judged, invocation } = asked;
    const { text, file } = loaded;
    const { io, options } = invocation;
    const search = await repairs();
    const files = planFiles(io);
    const found = await search.searchRepairs(judged, {
      targets: await targetsOf(asked),
      text,
      judge: (made, scope) =>
        tryEdits(loaded, made, { text, file, files, patience: options.patience, brief: false, ...scope }),
      most: SHOWN,
      patience: options.patience,
      progress: progressOf(asked, search),
    });
    return { repairs: { ...found.shown, written: await written(asked, found.repairs) } };
  },
  exit: ({ options }) =>
    options.repairs?.repairs.length === 0 && options.repairs.targets.length > 0 ? EXIT.findings : EXIT.done,
});

type Half = Omit<ReportRequest, "options">;

/** What is to be repaired: errors that stand, with `--strict` warnings, else what `--code` and `--who` name. */
async function targetsOf({ judged, invocation, loaded }: Half): Promise<readonly Finding[]> {
  const [code, who] = [ownText(invocation, "code"), ownText(invocation, "who")];
  if (code !== null) await knownCode(code);
  if (who !== null && !loaded.plan.crew.has(who))
    throw usage(`--who ${who}: this plan has no such person`, [...loaded.plan.crew.keys()].join(", "));
  const warnings = code !== null || who !== null || invocation.options.strict;
  return judged.findings.filter(
    (finding) =>
      finding.accepted === null &&
      (finding.level === "error" || (warnings && finding.level === "warning")) &&
      (code === null || finding.code === code) &&
      (who === null || finding.who === who),
  );
}

async function knownCode(code: string): Promise<void> {
  const { catalogue } = await codes();
  const known = await catalogue();
  if (known.has(code)) return;
  const near = nearest(code, known.keys());
  throw usage(`--code ${code}: there is no such code`, near === null ? "daywright explain" : `--code ${near}`);
}

/** On standard error at a terminal: the first repair as soon as there is one, and versions judged so far if it takes long. */
function progressOf(
  { loaded, invocation: { io, options } }: Half,
  searched: Awaited<ReturnType<typeof repairs>>,
): (judged: number, best: Repair | null) => void {
  const shown = !options.quiet && !options.redact && io.stderr.isTty;
  let last = shown ? io.now() : 0;
  let left = Number.POSITIVE_INFINITY;
  return (judged, best) => {
    if (!shown) return;
    if (best !== null && best.left < left) {
      left = best.left;
      note(io, options, searched.repairLine(best, loaded.say));
    } else if (io.now() - last >= BETWEEN) io.stderr.write(`judged ${judged} versions of the plan\n`);
    else return;
    last = io.now();
  };
}

/** Writes the repair that `--write` names, and says so; null without it. */
async function written(
  { loaded, invocation }: Half,
  found: Awaited<ReturnType<Awaited<ReturnType<typeof repairs>>["searchRepairs"]>>["repairs"],
): Promise<string | null> {
  const { io, options, own } = invocation;
  const number = own["write"];
  if (typeof number !== "number") return null;
  if (loaded.file === null)
    throw usage("--write needs a file, and the plan came from standard input", "name the plan's file");
  const chosen = found[number - 1];
  if (chosen === undefined)
    throw usage(`--write ${number}: there ${found.length === 1 ? "is 1 repair" : `are ${found.length} repairs`}`);
  const source = await readSource(io, loaded.file, null);
  const now = source.ok ? await editedText(io, loaded.file, source.text, options.set) : null;
  if (!source.ok || now !== loaded.text)
    throw usage(`${loaded.file} changed while the repair was searched`, "run repair again");
  const { applyEdits } = await edits();
  const { text } = applyEdits(now, chosen.edits, { file: loaded.file, create: true });
  if (text === null) throw new Error("a repair that was judged cannot be made");
  putFile(io, loaded.file, text, { replace: true, over: source.bytes });
  const what = options.set.length === 0 ? `repair ${number}` : `--set and repair ${number}`;
  note(io, options, `wrote ${what} into ${loaded.file}`);
  return `${what.replace(/^r/u, "R")} ${options.set.length === 0 ? "is" : "are"} in ${loaded.file} now.`;
}
