/**
 * `routing.keep` never loses anything: of 500 names for the kept answers, in a folder with plans, their shared files, notes,
 * links and folders, none changes a file that was there, and none makes one outside the plan's folder.
 */
import * as fs from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Io } from "../../src/cli/io/io.ts";
import { nodeIo } from "../../src/cli/io/nodeIo.ts";
import { runCommandLine } from "../../src/cli/run.ts";
import { random } from "../day/random.ts";
import { routes } from "../roads/engine.ts";

const PLAN = `daywright: 1
date: 2027-01-20
clock: America/New_York
zone: America/Chicago
uses: [crew.yaml, shared/vehicles.json]
follows: yesterday.yaml
routing: { url: "http://localhost:5000" }
hits: { dawn: { at: "07:00", for: 3 min, place: pier } }
`;
const CREW = "crew: { wren: { role: camera, drives: wagon } }\nruns: { wagon: [lodge, pier, lodge] }\n";
const VEHICLES = `{ "vehicles": { "wagon": {} }, "places": { "lodge": { "at": [46.60, -90.88] }, "pier": { "at": [46.81, -90.82] } } }\n`;

const root = fs.mkdtempSync(join(tmpdir(), "keep-"));
const folder = join(root, "plans");

/** What lies there: the plan and what it uses, other days, things that only look like kept answers, another's files. */
const FILES: Readonly<Record<string, string>> = {
  "plans/day.yaml": PLAN,
  "plans/yesterday.yaml": PLAN.replace("2027-01-20", "2027-01-19").replace("follows: yesterday.yaml\n", ""),
  "plans/crew.yaml": CREW,
  "plans/shared/vehicles.json": VEHICLES,
  "plans/other.json": PLAN.replace("2027-01-20", "2027-02-20"),
  "plans/empty.json": "",
  "plans/list.json": "[]",
  "plans/half.json": '{"routing":1,"answers":{',
  "plans/more.json": '{"routing":1,"answers":{},"note":"mine"}',
  "plans/entry.json": '{"routing":1,"answers":{"a":{"minutes":1,"km":null,"line":null}}}',
  "plans/extra.json":
    '{"routing":1,"answers":{"1.000000,2.000000;3.000000,4.000000":{"minutes":1,"km":null,"line":null,"by":"me"}}}',
  "plans/latin.json": '{"routing":1,"answers":{}}\u0000',
  "plans/notes.txt": "buy batteries\n",
  "plans/.git/HEAD": "ref: refs/heads/main\n",
  "plans/.hidden": "mine\n",
  "secret.json": '{"mine":true}\n',
  "beside/keys.json": '{"mine":true}\n',
};

function everyFile(): ReadonlyMap<string, string> {
  const found = fs.readdirSync(root, { recursive: true, withFileTypes: true });
  return new Map(
    found
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .map((path) => [relative(root, path), fs.readFileSync(path, "latin1")]),
  );
}

beforeAll(() => {
  for (const [name, text] of Object.entries(FILES)) {
    fs.mkdirSync(join(root, name, ".."), { recursive: true });
    fs.writeFileSync(join(root, name), text);
  }
  fs.mkdirSync(join(folder, "folder.json"));
  fs.symlinkSync("../secret.json", join(folder, "out.json"));
  fs.symlinkSync("../nowhere.json", join(folder, "dangling.json"));
  fs.symlinkSync("../beside", join(folder, "away"));
  fs.symlinkSync("crew.yaml", join(folder, "alias.json"));
  fs.symlinkSync("loop.json", join(folder, "loop.json"));
});
afterAll(() => fs.rmSync(root, { recursive: true, force: true }));

const KNOWN = [
  ...Object.keys(FILES).map((name) => relative("plans", name)),
  ...["out.json", "dangling.json", "away", "away/keys.json", "away/new.json", "away/deep/new.json", "alias.json"],
  ...["loop.json", "folder.json", "folder.json/", ".", "..", "", "/", "~", "-", "--force", "new.yaml", "new.yml"],
  ...["day.yaml.json/../day.yaml", "shared/../day.yaml", "./day.yaml", "day.yaml/.", "day.yaml/", "DAY.YAML"],
  ...["nowhere/new.json", "day.yaml/new.json", "..\\secret.json", "C:\\secret.json", "file:///etc/hosts", "/dev/null"],
  ...[
    "/dev/full",
    "/etc/passwd",
    "new.json\u0000.yaml",
    `${"a".repeat(300)}.json`,
    "con.json",
    "a\nb.json",
    "\u202e.json",
  ],
  ...[
    "день.json",
    "é.json",
    "e\u0301.json",
    "..json",
    "...json",
    ".json",
    " .json",
    "new.json ",
    "$HOME.json",
    "`id`.json",
  ],
];
const PIECES = [
  "..",
  ".",
  "day.yaml",
  "crew.yaml",
  "shared",
  "away",
  "new.json",
  "folder.json",
  "out.json",
  "/",
  "\\",
  "x",
  " ",
  ".json",
];

/** The known names and random paths of their pieces, 500 in all. */
function names(): readonly string[] {
  const below = random(13);
  const pick = () => PIECES[below(PIECES.length)] ?? "";
  const made = Array.from({ length: 500 - KNOWN.length }, () =>
    Array.from({ length: 1 + below(4) }, pick).join(below(5) < 4 ? "/" : ""),
  );
  return [...KNOWN, ...made];
}

/** One `check` with a name for the kept answers, in this process and on the real disk. */
async function checked(keep: string): Promise<{ readonly code: number; readonly out: string }> {
  let out = "";
  const write = (text: string): void => {
    out += text;
  };
  const silent = { write: () => undefined, isTty: false, columns: null };
  const io: Io = {
    ...nodeIo(),
    cwd: folder,
    env: {},
    fetch: (url) => routes(url),
    stdout: { ...silent, write },
    stderr: silent,
  };
  const code = await runCommandLine(
    ["check", "day.yaml", "--json", "--set", `routing.keep=${JSON.stringify(keep)}`],
    io,
  );
  return { code, out };
}

describe("routing.keep", () => {
  it("loses nothing under 500 hostile names", { timeout: 120_000 }, async () => {
    const before = everyFile();
    const made = new Set<string>();
    let slowest = 0;
    for (const name of names()) {
      const began = process.cpuUsage();
      const { code } = await checked(name);
      slowest = Math.max(slowest, process.cpuUsage(began).user / 1000);
      expect([0, 1, 2, 3], name).toContain(code);
      const after = everyFile();
      for (const [file, text] of before) expect(after.get(file), `${file} under ${JSON.stringify(name)}`).toBe(text);
      for (const file of after.keys()) {
        if (before.has(file)) continue;
        made.add(file);
        fs.rmSync(join(root, file));
      }
    }
    expect([...made].filter((file) => !/^plans\/.*\.json$/s.test(file))).toEqual([]);
    expect(made.size).toBeGreaterThan(5);
    // Milliseconds of one check, the first with all that is loaded; some 50 where nothing else runs.
    expect(slowest).toBeLessThan(5000);
    expect(fs.readdirSync(root).sort()).toEqual(["beside", "plans", "secret.json"]);
  });

  it("writes what it wrote before over again, and nothing when nothing is new", async () => {
    await checked("roads.json");
    const first = fs.readFileSync(join(folder, "roads.json"), "utf8");
    expect(first.startsWith('{\n "routing": 1,')).toBe(true);
    await checked("roads.json");
    expect(fs.readFileSync(join(folder, "roads.json"), "utf8")).toBe(first);
    fs.writeFileSync(join(folder, "roads.json"), '{"routing":1,"answers":{}}');
    await checked("roads.json");
    expect(fs.readFileSync(join(folder, "roads.json"), "utf8")).toBe(first);
  });

  it("says why a file is left as it is", async () => {
    const codes = async (name: string): Promise<readonly string[]> => {
      const { out } = await checked(name);
      const findings: readonly { readonly code: string; readonly message: string }[] = JSON.parse(out).findings;
      return findings.filter(({ code }) => code.startsWith("routing-keep")).map(({ message }) => message);
    };
    expect(await codes("day.yaml")).toEqual([
      "routing.keep names day.yaml: it is not a file of routing answers; it is left as it is",
    ]);
    expect(await codes("away/new.json")).toEqual([
      "the routing answers cannot be kept in away/new.json: it is outside the plan's folder; they are used in this run only",
    ]);
    expect(await codes("next.yaml")).toEqual([
      "the routing answers cannot be kept in next.yaml: a new file of answers ends in .json; they are used in this run only",
    ]);
  });
});
