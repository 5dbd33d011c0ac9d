/**
 * A night lived through by commands alone, as the page of recipes has them, in a real repository: at 02:10 the desk moves the
 * noon hit by 40 minutes, and the truck will be out of service from 10:00. Every old and new time and every moment to tell by
 * is worked out by hand, from the demo's plan:
 *
 * - calls: wren 04:40, ilse 04:50, bea 04:45, tomas 04:30 CT; up 45 min before it, ilse (on camera) 75 min: 03:55, 03:35, 04:00, 03:45;
 * - dawn.4 is on air 08:30–08:33, 30 min of wrap, breakfast 09:03–09:33; so truck.2 and wagon.2 leave the pier at 09:33;
 * - noon 12:30 + 40 min = 13:10, 5 min; the feed (15 min) follows at 13:15, lunch at 13:30 (before: 12:35 and 12:50);
 * - evening 16:00–16:04, 30 min of wrap: wagon.4 leaves at 16:34; 62 min to the inn, 10 min of unloading: released 17:46 CT. The
 *   truck is slower, 1.1 × 62 = 68.2, so 69 min: 17:43, bea 17:53; tomas parked it for 10 min more, 18:03.
 */
import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import ICAL from "ical.js";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { nodeIo } from "../../src/cli/io/nodeIo.ts";
import { runCommandLine } from "../../src/cli/run.ts";
import { NIGHT_ASK, NIGHT_TELL, NIGHT_WRITE } from "../../src/manual/pages/recipes.ts";
import { readEvents } from "../render/rfc5545.ts";

let folder = "";

/** The command lines of a script, as a shell splits them. */
const commandsOf = (script: string): readonly (readonly string[])[] =>
  script
    .replaceAll("\\\n", " ")
    .trim()
    .split("\n")
    .map((line) => [...line.matchAll(/"([^"]*)"|(\S+)/gu)].map(([, quoted, plain]) => quoted ?? plain ?? "").slice(1));

async function typed(words: readonly string[]) {
  const written = { out: "", err: "" };
  const stream = (key: "out" | "err") => ({
    isTty: false,
    columns: null,
    write(text: string) {
      written[key] += text;
    },
  });
  const io = { ...nodeIo(), cwd: folder, stdout: stream("out"), stderr: stream("err") };
  return { code: await runCommandLine(words, io), ...written };
}

const json = async (words: readonly string[]) => JSON.parse((await typed([...words, "--json"])).out).data;

const [ASK_CHANGES = [], ASK_COMPARE = []] = commandsOf(NIGHT_ASK);
const [BEFORE = [], REPAIR = []] = commandsOf(NIGHT_WRITE);
const [TELL = [], CHAT = [], AFTER = []] = commandsOf(NIGHT_TELL);
const PLAN = "plans/2027-01-20.yaml";
const ct = (clock: string): string => `2027-01-20T${clock}-06:00`;

interface PersonRow {
  readonly id: string;
  readonly tellBy: string | null;
  readonly sleepsUntil: string | null;
  readonly oldCall: string;
  readonly newCall: string;
  readonly oldRelease: string;
  readonly newRelease: string;
}

const peopleOf = (data: { readonly people: readonly PersonRow[] }) =>
  Object.fromEntries(
    data.people.map((one) => [
      one.id,
      [one.oldCall, one.newCall, one.tellBy, one.sleepsUntil, one.oldRelease, one.newRelease],
    ]),
  );

const startsOf = (data: {
  readonly changes: readonly { what: string; id: string; key: string; old: string; new: string }[];
}) =>
  data.changes
    .filter(({ what, key }) => ["hit", "task"].includes(what) && key === "start")
    .map((one) => [one.id, one.old, one.new]);

describe("a night at ten past two", { timeout: 900_000 }, () => {
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "daywright-night-"));
    cpSync(fileURLToPath(new URL("../../fixtures/days", import.meta.url)), join(folder, "plans"), { recursive: true });
    const git = (...words: readonly string[]) =>
      execFileSync("git", ["-c", "user.name=wren", "-c", "user.email=wren@example.org", ...words], {
        cwd: folder,
        stdio: "ignore",
      });
    git("init", "-q");
    git("add", ".");
    git("commit", "-q", "-m", "as it was sent in the evening");
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  it("is asked about, answered, written, told and put into calendars", async () => {
    const before = readFileSync(join(folder, PLAN), "utf8");

    // 1. What it changes. With the truck go the dish, and bea and tomas on the road to the dock: noon, lunch, evening are lost.
    const asked = await typed(ASK_CHANGES);
    expect(asked.code).toBe(1);
    expect(asked.out).toMatch(
      /^noon cannot be met; evening cannot be met; .*no call is earlier; no rest is short; 1 new error\.\n/u,
    );
    const loss = await json(ASK_CHANGES);
    expect(loss.findings.new.filter(({ level }: { level: string }) => level === "error")).toEqual([
      expect.objectContaining({
        code: "out-of-service",
        message: expect.stringContaining(
          "lost: noon, lunch, evening; Tomas Lind, Bea Okafor stranded on the road from ferry pier to ore dock, east lot",
        ),
      }),
    ]);
    // The cove at 09:50 by the bad time (17 min), now at 09:45 by the likely one (12), since no hit waits; 5 min to park.
    expect(startsOf(loss)).toEqual([
      ["noon", ct("12:30"), null],
      ["evening", ct("16:00"), null],
      ["pictures", ct("09:55"), ct("09:50")],
      ["feed", ct("12:35"), expect.stringMatching(/^2027-01-20T11:/u)],
      ["lunch", ct("12:50"), null],
    ]);

    // 2. The choice: the plan as it was loses nothing; moved alone, noon falls out of the booked window (14:00 ET is 13:00 CT).
    const choice = await json(ASK_COMPARE);
    expect(
      choice.variants.map(({ label, rank, hitsLost }: Record<string, unknown>) => [label, rank, hitsLost]),
    ).toEqual([
      ["plan", 1, []],
      ["moved", 2, ["noon"]],
      ["both", 3, ["noon", "evening"]],
      ["cut", 4, ["noon", "evening"]],
    ]);
    expect(choice.reason).toBe("plan comes first: it loses no hit; moved, the second, loses noon.");

    // 3. The calendar of the evening, and the way out: noon and evening by the cellular spare, bea and tomas in the wagon.
    expect((await typed(BEFORE)).code).toBe(0);
    const repaired = await typed(REPAIR);
    expect([repaired.code, repaired.err]).toEqual([0, `wrote --set and repair 1 into ${PLAN}\n`]);
    const after = readFileSync(join(folder, PLAN), "utf8");
    const kept = (text: string): readonly string[] => text.split("\n").filter((line) => line.startsWith("#"));
    expect(kept(after)).toEqual(kept(before));
    for (const line of [
      'noon: { at: "13:10 CT", for: 5 min, place: dockeast, path: cell,',
      "- { place: pier, do: [dawn, breakfast], aboard: [wren, ilse, tomas, bea] }",
      "truck: { broken: 10:00 CT }",
      "revision: 3",
    ])
      expect(after).toContain(line);
    expect((await typed(["check", PLAN])).code).toBe(0);

    // 4. Whom to tell by when.
    const told = await json(TELL);
    expect(told.headline).toBe(
      "noon 12:30 → 13:10 CT; evening path dish → cell; feed 40 min later; lunch 40 min later; no call is earlier; no rest is short.",
    );
    expect(startsOf(told)).toEqual([
      ["noon", ct("12:30"), ct("13:10")],
      ["feed", ct("12:35"), ct("13:15")],
      ["lunch", ct("12:50"), ct("13:30")],
    ]);
    expect(peopleOf(told)).toEqual({
      // The packs of the morning are swapped otherwise: in her hands from 04:42 on.
      wren: [ct("04:40"), ct("04:40"), ct("04:42"), ct("03:55"), ct("17:46"), ct("17:46")],
      // The truck does not leave the pier at 09:33.
      bea: [ct("04:45"), ct("04:45"), ct("09:33"), ct("04:00"), ct("17:53"), ct("17:46")],
      tomas: [ct("04:30"), ct("04:30"), ct("09:33"), ct("03:45"), ct("18:03"), ct("17:46")],
      // Noon at 12:30 with its line check 20 min before.
      ilse: [ct("04:50"), ct("04:50"), ct("12:10"), ct("03:35"), ct("17:46"), ct("17:46")],
    });
    const text = (await typed(TELL)).out;
    for (const line of [
      /^Wren Aalto +04:42 +04:40 +04:40 +17:46 +17:46 /mu,
      /^Bea Okafor +09:33 +04:45 +04:45 +17:53 +17:46 /mu,
      /^Tomas Lind +09:33 +04:30 +04:30 +18:03 +17:46 /mu,
      /^Ilse Brandt +12:10 +04:50 +04:50 +17:46 +17:46 /mu,
      /^- Ilse Brandt can sleep until 03:35: nothing changes before 12:10$/mu,
      /^- Tomas Lind can sleep until 03:45: nothing changes before 09:33$/mu,
      /^- Bea Okafor can sleep until 04:00: nothing changes before 09:33$/mu,
      /^- Wren Aalto can sleep until 03:55: nothing changes before 04:42$/mu,
    ])
      expect(text).toMatch(line);

    // 5. The chat: the change first, then every call and every hit.
    const chat = (await typed(CHAT)).out.split("\n");
    expect(chat[0]).toMatch(/^Changed: .*noon 12:30 → 13:10;.*feed 12:35 → 13:15; lunch 12:50 → 13:30/u);
    expect(chat[0]).toMatch(/Bea release 18:53 ET → 18:46 ET; Tomas release 19:03 ET → 18:46 ET/u);
    const all = chat.join("\n");
    for (const one of ["Tomas 04:30", "Wren 04:40", "Bea 04:45", "Ilse 04:50", "noon 13:10", "evening 16:00"])
      expect(all).toContain(one);
    for (const dawn of ["07:00", "07:30", "08:00", "08:30"]) expect(all).toContain(dawn);

    // 6. The calendars, read by two parsers that share no code.
    expect((await typed(AFTER)).code).toBe(0);
    const [old, now] = ["before.ics", "after.ics"].map((name) => readFileSync(join(folder, name), "utf8"));
    const [was, is] = [readEvents(old ?? ""), readEvents(now ?? "")];
    const byUid = new Map(is.map((event) => [event.uid, event]));
    const utc = (clock: string): string => `20270120T${clock.replace(":", "")}00Z`;
    // Every entry is there again; what starts at another time (CT + 6 h), and what is cancelled, is this and nothing else.
    const differing = was.flatMap((event) => {
      const own = byUid.get(event.uid);
      if (own === undefined) return [[event.summary, "gone without a word"]];
      expect(own.summary).toBe(event.summary);
      if (own.status === "CANCELLED") return [[event.summary, "cancelled"]];
      return own.start === event.start ? [] : [[event.summary, event.start, own.start]];
    });
    expect(differing.toSorted()).toEqual(
      [
        ["Drive: uplink truck, ferry pier to ore dock, east lot", "cancelled"],
        ["Drive: uplink truck, ore dock, east lot to Copper Bend Inn", "cancelled"],
        ["Hit: noon (midday)", utc("18:30"), utc("19:10")],
        ["Feed: pictures", utc("18:35"), utc("19:15")],
        ["Meal: lunch", utc("18:50"), utc("19:30")],
        ["Release: Bea Okafor", utc("23:53"), utc("23:46")],
        ["Release: Tomas Lind", "20270121T000300Z", utc("23:46")],
      ].toSorted(),
    );
    expect(is.filter(({ uid }) => !was.some((event) => event.uid === uid))).toEqual([]);
    expect([new Set(was.map(({ sequence }) => sequence)), new Set(is.map(({ sequence }) => sequence))]).toEqual([
      new Set([2]),
      new Set([3]),
    ]);
    // 02:10 CT is 08:10 UTC; ical.js sees the same entries.
    expect(is.every(({ stamp, modified }) => stamp === utc("08:10") && modified === stamp)).toBe(true);
    const second = new ICAL.Component(ICAL.parse(now ?? ""))
      .getAllSubcomponents("vevent")
      .map((one) => new ICAL.Event(one));
    expect(second.map(({ uid, summary, sequence }) => [uid, summary, sequence])).toEqual(
      is.map(({ uid, summary, sequence }) => [uid, summary, sequence]),
    );
    expect(second.map(({ startDate }) => startDate.toString().replace(/[-:]/gu, ""))).toEqual(
      is.map(({ start }) => start),
    );
  });
});
