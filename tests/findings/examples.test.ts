/**
 * Every code's example is true: `check` on it, laid on a day that has nothing wrong, raises exactly that code. What it
 * needs beside itself is in `BESIDE`, what cannot but come along with it in `ALONG`.
 */
import { describe, expect, it } from "vitest";
import { readHit } from "../../src/authoring/start.ts";
import { catalogue } from "../../src/findings/catalogue.ts";
import type { AnyEntry, Finding } from "../../src/findings/finding.ts";
import { applyEdits, parseEdit } from "../../src/plan/edit/edit.ts";
import * as files from "../../src/plan/findings/files.ts";
import * as text from "../../src/plan/findings/text.ts";
import { assess } from "../../src/power/index.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import { type FakeOptions, ran } from "../cli/fakeIo.ts";
import { daysOf } from "../power/plans.ts";
import { routes } from "../roads/engine.ts";
import { appended, DAY, laid, SMALLEST } from "./lay.ts";

const entries = [...(await catalogue()).values()];
const OF_TEXT: ReadonlySet<string> = new Set(Object.values({ ...text, ...files }).map(({ entry }) => entry.code));

/** What an example cannot but raise besides its own code. */
const ALONG: ReadonlyMap<string, readonly string[]> = new Map<string, readonly string[]>([
  ["accept-of-law", ["law-open-review", "rest-too-short"]],
  // They are not in the wagon that drives on.
  ["all-released", ["logged-otherwise"]],
  ["break-missed", ["law-open-review"]],
  // Ilse stays at the lodge.
  ["caution-alone", ["hit-uncrewed", "nothing-to-do"]],
  ["caution-lines", ["caution-mast"]],
  ["caution-wind-dish", ["caution-wind", "caution-wind-driving"]],
  ["caution-wind-mast", ["caution-mast"]],
  ["cellular-signal-none", ["satellite-phone-missing"]],
  ["charger-in-frost", ["caution-exhaust", "caution-wind-chill"]],
  ["charger-in-heat", ["caution-exhaust", "caution-heat"]],
  ["charger-over-inverter", ["caution-exhaust"]],
  ["driving-too-long", ["law-open-review"]],
  ["duty-half-logged", ["nothing-to-do"]],
  ["exception-claimed", ["law-open-review"]],
  ["fuel-stop-place", ["caution-roadside"]],
  // Of a command line all that `check` says is read.
  ["fact-ahead", ["caution-radiation", "night-driving"]],
  ["booked-twice", ["caution-radiation", "night-driving"]],
  ["date-twice", ["caution-radiation", "night-driving"]],
  ["hit-left-out", ["hit-unpowered"]],
  ["look-unknown", ["light-unknown"]],
  ["mistakes-more", ["id-unknown"]],
  ["routing-implausible", ["road-estimated"]],
  ["packs-beyond-table", ["caution-wind-chill"]],
  ["satellite-phone-missing", ["cellular-signal-none"]],
  ["second-driver-missing", ["exception-claimed", "law-open-review"]],
  // The hit leaves the dock, and with it the reason to stop there.
  ["sun-outage-on-air", ["stop-idle"]],
  // Both days state the levels in their own files.
  ["vehicle-elsewhere", ["fuel-restated", "pack-charge-restated"]],
  ["week-too-long", ["law-open-review"]],
  ["window-over", ["law-open-review"]],
]);

/** The day as it is on another date, with what is told of it key by key. */
const dayOf = (date: string, more = ""): string => laid(DAY, `date: ${date}\n${more}`, "keys");
/** The wagon stays at the inn, and its people come back by taxi. */
const WAGON_AWAY = dayOf(
  "2027-01-19",
  `crew: { wren: { slept: lodge }, ilse: { slept: lodge } }
runs: { wagon: { stops: [lodge, { place: pier, do: [dawn, breakfast] }, dock, inn] } }
rides: { taxi: { from: inn, to: lodge, leave: "15:00", arrive: "16:30", who: [wren, ilse] } }`,
);
const BEA_AWAY = dayOf(
  "2027-01-19",
  'rides: { taxi: { from: lodge, to: inn, leave: "15:00", arrive: "16:30", who: [bea] } }',
);
/** Days that follow each other back from 2027-01-19: more than are read. */
const CHAIN = Object.fromEntries(
  Array.from({ length: 45 }, (_, back) => {
    const date = (days: number) => new Date(Date.UTC(2027, 0, 19 - days)).toISOString().slice(0, 10);
    const day = dayOf(date(back), `follows: ${date(back + 1)}.yaml`).replaceAll("2027-01-19T", `${date(back + 1)}T`);
    return [`${date(back)}.yaml`, day];
  }),
);
const LOG = `log: 1
zone: America/Chicago
rules: us-property
people:
  tomas: [{ from: 2027-01-20T20:00, to: 2027-01-21T06:00, is: off }]
`;

interface Beside extends Pick<FakeOptions, "files" | "fetch" | "unwritable"> {
  /** What the plan holds below the example. */
  readonly below?: string;
}

/** What an example needs that its few lines do not say. */
const BESIDE: ReadonlyMap<string, Beside> = new Map<string, Beside>([
  ["booked-twice", { files: { "other.yaml": DAY } }],
  ["date-twice", { files: { "calm.yaml": `${DAY}\nid: the-day\n`, "storm.yaml": `${DAY}\nid: the-day\n` } }],
  ["vehicle-elsewhere", { files: { "2027-01-19.yaml": WAGON_AWAY } }],
  ["fuel-restated", { files: { "2027-01-19.yaml": dayOf("2027-01-19") } }],
  ["pack-charge-restated", { files: { "2027-01-19.yaml": dayOf("2027-01-19") } }],
  ["bed-elsewhere", { files: { "2027-01-19.yaml": BEA_AWAY } }],
  ["days-missing", { files: { "2027-01-17.yaml": dayOf("2027-01-17") } }],
  ["chain-too-long", { files: CHAIN }],
  ["command-failed", { unwritable: "no/calls.json" }],
  ["file-unreadable", { files: { "shared/crew.yaml": "crew: {}" } }],
  ["plan-too-large", { below: `# ${"ice ".repeat(70_000)}\n` }],
  ["moment-outside-log", { files: { "log.yaml": LOG } }],
  ["routing-refused", { fetch: async () => new Response('{"code":"NoSegment"}', { status: 400 }) }],
  [
    "routing-implausible",
    {
      fetch: async (asked) =>
        asked.includes("/route/")
          ? Response.json({ code: "Ok", routes: [{ duration: 2, distance: 19_000 }] })
          : routes(asked),
    },
  ],
  ["routing-unreadable", { fetch: async () => new Response("<html>It works!</html>") }],
  ["routing-keep-unwritten", { fetch: routes, unwritable: "kept/roads.json" }],
  ["routing-keep-unreadable", { files: { "notes.json": "buy batteries" } }],
]);

interface Told {
  readonly code: string;
  readonly message: string;
}

async function told(argv: readonly string[], files: Readonly<Record<string, string>>, beside: Beside) {
  const { out } = await ran([...argv, "--json"], { ...beside, files: { ...beside.files, ...files } });
  const findings: readonly Told[] = JSON.parse(out).findings;
  return findings;
}

/** What `check` says of a plan. */
const checked = (plan: string, beside: Beside) =>
  told(["check", "day.yaml"], { "day.yaml": `${plan}\n${beside.below ?? ""}` }, beside);

const different = (codes: readonly string[]): readonly string[] => [...new Set(codes)].sort();

/**
 * The codes of what a plan raises beyond the day that it was made from. A finding of the day that only reads otherwise
 * now, such as an hour of night driving, is none, unless it is the one asked about.
 */
async function beyond(day: string, plan: string, code: string, beside: Beside): Promise<readonly string[]> {
  const before = await checked(day, {});
  const messages = new Set(before.map(({ message }) => message));
  const known = new Set(before.map((one) => one.code));
  const after = (await checked(plan, beside)).filter(({ message }) => !messages.has(message));
  return different(after.map((one) => one.code).filter((one) => one === code || !known.has(one)));
}

/** What is wrong with an option of a command line: told with the finding's sentence and hint, and without its code. */
function ofOptions(words: readonly string[]): readonly Finding[] {
  const [set, hit] = [words.indexOf("--set"), words.indexOf("--hit")];
  if (set >= 0) {
    const { edit, findings } = parseEdit(words[set + 1] ?? "");
    return edit === null ? findings : applyEdits(DAY, [edit], { file: null }).findings;
  }
  const said = hit < 0 ? null : readHit(words[hit + 1] ?? "");
  return said === null || said.ok ? [] : [said.finding];
}

/** A command line: the codes of its findings. */
async function codesOfCommand(example: string, beside: Beside): Promise<readonly string[]> {
  const words = example.replace(/ +#.*/, "").split(" ").slice(1);
  const { out, err } = await ran(words, { ...beside, files: { ...beside.files, "day.yaml": DAY } });
  const printed = [...`${out}${err}`.matchAll(/(?:\(|"code": ")([a-z]+(?:-[a-z]+)+)(?:\)(?:$|; also: )|",$)/gm)].map(
    ([, code]) => code ?? "",
  );
  const refused = ofOptions(words).filter((finding) => err.includes(finding.sentence(plainWording)));
  return different([...printed, ...refused.map(({ code }) => code)]);
}

/** What the batteries raise where the search has no budget at all: no small day outlasts the usual one. */
async function searchedForNothing(example: string): Promise<readonly string[]> {
  const days = await daysOf(laid(DAY, example, "keys"));
  return different((await assess({ days, patience: 0, now: null }, null)).findings.map(({ code }) => code));
}

/** Each way to take the example, with the codes that it then raises. */
async function* raisings({ code, example }: AnyEntry): AsyncGenerator<readonly string[]> {
  const beside = BESIDE.get(code) ?? {};
  if (code === "power-undecided") return yield await searchedForNothing(example);
  if (/^daywright [a-z]/.test(example)) return yield await codesOfCommand(example, beside);
  if (example.startsWith("log:")) {
    const found = await told(["hours", "log.yaml"], { "log.yaml": example }, beside);
    return yield different(found.map((one) => one.code));
  }
  // Two days, since one of a single vehicle needs to say less of who rides it.
  for (const day of [DAY, SMALLEST]) {
    if (!OF_TEXT.has(code)) {
      yield await beyond(day, laid(day, example, "keys"), code, beside);
      yield await beyond(day, laid(day, example, "entries"), code, beside);
    }
    yield await beyond(day, appended(day, example), code, beside);
  }
  yield different((await checked(example, beside)).map((one) => one.code));
}

describe("the example of", () => {
  it.each(entries.map((entry) => [entry.code, entry] as const))("%s", async (code, entry) => {
    const wanted = different([code, ...(ALONG.get(code) ?? [])]).join(" ");
    const seen: string[] = [];
    for await (const raised of raisings(entry)) {
      seen.push(raised.join(" "));
      if (seen.at(-1) === wanted) return;
    }
    expect(seen).toContain(wanted);
  });
});

describe("examples", () => {
  it("are laid on days without errors and warnings", async () => {
    const { code, out } = await ran(["check", "day.yaml", "--strict"], { files: { "day.yaml": DAY } });
    expect([code, out]).toEqual([0, expect.not.stringContaining("warning:")]);
  });

  it("fit into 80 columns, two of them before each line", () => {
    const wide = entries.flatMap(({ code, example }) =>
      example.split("\n").flatMap((line) => (line.length > 78 ? [`${code}: ${line}`] : [])),
    );
    expect(wide).toEqual([]);
  });
});
