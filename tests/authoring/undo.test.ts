/** A round trip over all fixtures: what `log` writes and then takes back with `-` leaves the file byte for byte as it was. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { entryKindOf, recordable } from "../../src/authoring/record.ts";
import { readChain } from "../../src/plan/index.ts";
import { ran } from "../cli/fakeIo.ts";
import { runs } from "../fuzz.ts";

const ROOT = new URL("../../fixtures/", import.meta.url);
const folders = ["days", "edges"];
const files = Object.fromEntries(
  folders.flatMap((folder) =>
    readdirSync(new URL(`${folder}/`, ROOT)).map((name) => [
      `${folder}/${name}`,
      readFileSync(new URL(`${folder}/${name}`, ROOT), "utf8"),
    ]),
  ),
);
const PLANS = Object.keys(files).filter((name) => /^date\s*:/mu.test(files[name] ?? ""));

/** A word and a value that fit each kind of thing. */
const ENTRY: Readonly<Record<string, readonly [string, string]>> = {
  person: ["asleep", "6 h"],
  activity: ["done", "true"],
  pack: ["charge", "35%"],
  vehicle: ["fuel", "60%"],
  piece: ["in", ""],
  stop: ["left", "12:00 UTC"],
};

type Texts = Readonly<Record<string, string>>;
const VARIANTS: Readonly<Record<string, (text: string) => string>> = {
  "as they are": (text) => text,
  "with CRLF": (text) => text.replaceAll("\n", "\r\n"),
  "without a last line end": (text) => text.trimEnd(),
  "with a byte order mark": (text) => `\uFEFF${text}`,
  "with comments at every line": (text) => text.replace(/^(?=\S)(?!#)(.*)$/gmu, "$1 # kept"),
};

async function plan(name: string, texts: Texts) {
  const base = name.slice(0, name.indexOf("/"));
  const { plans } = await readChain(texts[name] ?? "", {
    file: name,
    files: { read: (path) => ({ kind: "text", text: texts[path.startsWith(base) ? path : `${base}/${path}`] ?? "" }) },
  });
  const last = plans?.at(-1);
  if (last === undefined) throw new Error(`${name} is no plan`);
  return last;
}

/** Everything that can be recorded of: every nth of many, all kinds among them. */
async function entries(name: string, texts: Texts): Promise<readonly (readonly string[])[]> {
  const read = await plan(name, texts);
  const seen = new Map<string, number>();
  return recordable(read).flatMap((id) => {
    const kind = entryKindOf(read, id) ?? "";
    const count = seen.get(kind) ?? 0;
    seen.set(kind, count + 1);
    const [word = "", value = ""] = ENTRY[kind] ?? [];
    if (count >= runs(1, 1000)) return [];
    return [[id, word, kind === "piece" ? ([...read.vehicles.keys()][0] ?? "") : value]];
  });
}

const logging = async (
  texts: Texts,
  name: string,
  words: readonly string[],
): Promise<{ readonly code: number; readonly texts: Texts }> => {
  const { code, files: left } = await ran(["log", name, ...words], { files: texts });
  return { code, texts: { ...texts, [name]: left.get(`/plans/${name}`) ?? "" } };
};

describe.each(Object.entries(VARIANTS))("log, then taking it back, over the fixtures %s", (_, variant) => {
  const texts: Texts = Object.fromEntries(Object.entries(files).map(([name, text]) => [name, variant(text)]));

  it.each(PLANS)("%s is byte for byte as it was", async (name) => {
    const all = await entries(name, texts);
    expect(all.length).toBeGreaterThan(0);
    let now = texts;
    let written = 0;
    for (const words of all) {
      const done = await logging(now, name, words);
      // A time that does not fit this day is refused; the file then stays as it was.
      if (done.code !== 0) expect(done.texts[name]).toBe(now[name]);
      else written += 1;
      now = done.texts;
    }
    expect(written).toBeGreaterThan(0);
    expect(now[name]).not.toBe(texts[name]);
    for (const [id = "", word = ""] of all.toReversed()) now = (await logging(now, name, [id, word, "-"])).texts;
    expect(now[name]).toBe(texts[name]);
  });
});
