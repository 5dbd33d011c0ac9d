/**
 * `changes` and `compare` on the smallest plan and on the demo's second day. Times were worked out by
 * hand: call 04:00 CT, up 45 min before it, in position 06:00 CT, hit 07:00 ET = 06:00 CT; expected values by hand.
 */
import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";
import { SMALLEST } from "../cli/plans.ts";

const DAYS = new URL("../../fixtures/days/", import.meta.url);
const demo = Object.fromEntries(readdirSync(DAYS).map((name) => [name, readFileSync(new URL(name, DAYS), "utf8")]));
const files = { ...demo, "day.yaml": SMALLEST };

interface Data {
  readonly headline: string;
  readonly changes: readonly {
    what: string;
    id: string;
    key: string;
    old: string;
    new: string;
    who: string[];
    tellBy: string;
  }[];
  readonly people: readonly {
    id: string;
    oldCall: string;
    newCall: string;
    tellBy: string | null;
    sleepsUntil: string | null;
  }[];
  readonly findings: { new: readonly { code: string }[]; gone: readonly { code: string }[] };
}

async function dataOf(words: readonly string[]): Promise<Data> {
  const { out } = await ran(["changes", ...words, "--json"], { files });
  return JSON.parse(out).data as Data;
}

describe("changes", () => {
  it("asks for the other version where only one is named", async () => {
    const { out } = await ran(["changes", "day.yaml"], { files });
    expect(out.trim()).toBe("Nothing to compare with: --since names an older version, --set an edit.");
  });

  it("says in one line that nothing changed, and exits 0", async () => {
    const { code, out, err } = await ran(["changes", "day.yaml", "--set", "hits.dawn.at=07:00"], { files });
    expect([code, out.trim(), err]).toEqual([0, "Nothing changed.", ""]);
  });

  it("a hit half an hour earlier: both are called 30 min earlier and told before they would get up", async () => {
    const data = await dataOf(["day.yaml", "--set", "hits.dawn.at=06:30"]);
    // call 04:00 → 03:30. Up: wren (camera) 45 min before, ilse (reporter, on camera) 75 min: 02:45 and 02:15.
    expect(
      data.people.map(({ id, oldCall, newCall, tellBy, sleepsUntil }) => [id, oldCall, newCall, tellBy, sleepsUntil]),
    ).toEqual([
      ["ilse", "2027-01-20T04:00-06:00", "2027-01-20T03:30-06:00", "2027-01-20T02:15-06:00", "2027-01-20T02:15-06:00"],
      ["wren", "2027-01-20T04:00-06:00", "2027-01-20T03:30-06:00", "2027-01-20T02:45-06:00", "2027-01-20T02:45-06:00"],
    ]);
    expect(data.headline).toMatch(
      /^dawn 06:00 → 05:30 \w+; ilse is called 30 min earlier; wren is called 30 min earlier;/,
    );
  });

  it("a hit half an hour later: told before they would have got up by the old plan", async () => {
    const data = await dataOf(["day.yaml", "--set", "hits.dawn.at=07:30"]);
    // By the old plan ilse is up at 02:45, wren at 03:15; by the new one half an hour later.
    expect(data.people.map(({ id, tellBy, sleepsUntil }) => [id, tellBy, sleepsUntil])).toEqual([
      ["ilse", "2027-01-20T02:45-06:00", null],
      ["wren", "2027-01-20T03:15-06:00", null],
    ]);
    expect(data.headline).toContain("no call is earlier");
  });

  it("the demo's noon hit 15 min later: nobody is woken up, the first moment that differs is its line check", async () => {
    const data = await dataOf(["2027-01-20.yaml", "--set", "hits.noon.at=12:45 CT"]);
    // noon 12:30 → 12:45 CT; lunch and feed follow it by their lengths.
    expect(data.headline).toBe(
      "noon 12:30 → 12:45 CT; feed 15 min later; lunch 15 min later; no call is earlier; no rest is short.",
    );
    expect(data.changes.filter(({ what, key }) => what === "hit" && key === "start")).toEqual([
      expect.objectContaining({ id: "noon", old: "2027-01-20T12:30-06:00", new: "2027-01-20T12:45-06:00" }),
    ]);
    for (const person of data.people) {
      expect(person.oldCall).toBe(person.newCall);
      // 12:30 less 10 min in position and 10 min of line check. Wren swaps the packs, and may hear of other swaps before that.
      if (person.id !== "wren") expect([person.id, person.tellBy]).toEqual([person.id, "2027-01-20T12:10-06:00"]);
    }
    // Ilse appears on camera: call 04:50 less 75 min; Tomas drives: 04:30 less 45; Wren has packs in hand from 04:42, called at 04:40.
    const sleeps = Object.fromEntries(data.people.map(({ id, sleepsUntil }) => [id, sleepsUntil?.slice(11, 16)]));
    expect(sleeps).toMatchObject({ ilse: "03:35", tomas: "03:45", bea: "04:00", wren: "03:55" });
  });

  it("what is past when it comes is told now", async () => {
    const { out } = await ran(
      ["changes", "2027-01-20.yaml", "--set", "hits.evening.at=17:20", "--now", "12:00 CT", "--width", "0"],
      { files },
    );
    expect(out).not.toContain("04:05");
    const late = await ran(["changes", "day.yaml", "--set", "hits.dawn.at=07:20", "--now", "04:30"], { files });
    // 04:30 ET is 03:30 CT: ilse would be up at 02:45.
    expect(late.out).toMatch(/ilse\s+now/);
  });

  it("new findings and findings gone are told apart, and the exit status is that of check", async () => {
    const words = ["2027-01-20.yaml", "--set", "packs.brick.count=2", "--set", "packs.brick.charge=[9%, 8%]"];
    const data = await dataOf(words);
    expect(data.findings.new.map(({ code }) => code)).toContain("hit-unpowered");
    expect(data.findings.gone).toEqual([]);
    expect((await ran(["changes", ...words], { files })).code).toBe(1);
    const back = await dataOf(["2027-01-20.yaml", "--since", "spoiled.yaml"]);
    expect(back.findings.gone.map(({ code }) => code)).toContain("skyline-blocks");
  });

  it("a new finding of several people is printed once, with all of them", async () => {
    // Two duties of the same length beyond 14 h: one is printed, and the other named with it.
    const late = `${SMALLEST}tasks: { stay: { place: pier, for: 13 h, after: dawn } }\n`;
    const words = ["changes", "late.yaml", "--since", "day.yaml", "--width", "0"];
    const { out } = await ran(words, { files: { ...files, "late.yaml": late } });
    const [one, ...others] = out.split("\n").filter((line) => line.includes("duty day of"));
    expect(one).toMatch(/^- error: .*; also: ilse \(duty-too-long\)$/u);
    expect(others).toEqual([]);
  });

  it("calls --since carries the same changes, packs and gear among them", async () => {
    const [changes, calls] = await Promise.all([
      dataOf(["2027-01-20.yaml", "--since", "spoiled.yaml"]),
      ran(["calls", "2027-01-20.yaml", "--since", "spoiled.yaml", "--json"], { files }),
    ]);
    const listed = JSON.parse(calls.out).data.changes as Data["changes"];
    expect(listed).toEqual(changes.changes);
    expect(new Set(listed.map(({ what }) => what))).toEqual(new Set(changes.changes.map(({ what }) => what)));
    expect(listed.some(({ what }) => what === "packs")).toBe(true);
    expect(listed.length).toBeGreaterThan(3);
  });

  it("a chat message begins with the change and is harmless", async () => {
    const { out } = await ran(["changes", "day.yaml", "--set", "hits.dawn.at=06:30", "--format", "chat"], { files });
    expect(out.split("\n")[0]).toMatch(/^dawn 06:00 → 05:30/);
    expect(out.split("\n")[1]).toMatch(/^Tell: ilse by 02:15: call 04:00 → 03:30; wren by 02:45/);
  });

  it("--staged reads the index and the last commit, whatever lies in the folder", () => {
    const folder = mkdtempSync(join(tmpdir(), "daywright-"));
    const git = (...words: readonly string[]): void =>
      void execFileSync("git", words, { cwd: folder, stdio: "ignore" });
    const bin = resolve("bin/daywright.js");
    const run = (): string =>
      execFileSync(process.execPath, [bin, "changes", "day.yaml", "--staged"], { cwd: folder, encoding: "utf8" });
    try {
      git("init", "-q");
      git("config", "user.email", "crew@example.org");
      git("config", "user.name", "crew");
      writeFileSync(join(folder, "day.yaml"), SMALLEST);
      git("add", ".");
      git("commit", "-qm", "first");
      writeFileSync(join(folder, "day.yaml"), "broken: [");
      expect(run().trim()).toBe("Nothing changed.");
      writeFileSync(join(folder, "day.yaml"), SMALLEST.replace('"07:00"', '"06:30"'));
      git("add", ".");
      writeFileSync(join(folder, "day.yaml"), "broken: [");
      expect(run()).toMatch(/^dawn 06:00 → 05:30/);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

describe("compare", () => {
  const compare = async (words: readonly string[]) => {
    const { out, code } = await ran(["compare", ...words, "--json"], { files });
    return { code, data: JSON.parse(out).data };
  };

  it("a plan with itself shows no difference", async () => {
    const { data } = await compare(["day.yaml", "--with", "day.yaml"]);
    expect(data.reason).toBe("No difference.");
  });

  it("ranks a hit that moves before one that is lost, and says why", async () => {
    const later = ["--with", "later: hits.evening.at=17:10"];
    const { data } = await compare(["2027-01-20.yaml", "--with", "cut: hits.evening=off", ...later]);
    expect(data.variants.map(({ label, rank }: { label: string; rank: number }) => [label, rank])).toEqual([
      ["plan", 1],
      ["cut", 3],
      ["later", 2],
    ]);
    expect(data.variants[1]).toMatchObject({ hitsLost: ["evening"], firmHitsLost: ["evening"] });
    // 10 min later for one hit: that is what the plan moves less.
    expect(data.variants[2].movedMinutes).toBe(10);
    expect(data.reason).toBe("plan comes first: it moves nothing; later, the second, moves work by 10 min.");
  });

  it("off takes out an entry of the day's own file with all that names it, one after another", async () => {
    const { data } = await compare(["2027-01-20.yaml", "--with", "cut: hits.noon=off", "--with", "cut: lunch=off"]);
    expect(data.variants[1]).toMatchObject({ label: "cut", edits: ["hits.noon=off", "lunch=off"], refused: null });
    expect(data.variants[1].hitsLost).toEqual(["noon"]);
  });

  it("a variant that is no plan is told as one, and the others are compared", async () => {
    const { data } = await compare([
      "day.yaml",
      "--with",
      "bad: hits.nothing.at=07:00",
      "--with",
      "later: hits.dawn.at=07:10",
    ]);
    expect(data.variants[1]).toMatchObject({ label: "bad", rank: null, errors: null });
    expect(data.variants[1].refused).toContain("hits.nothing");
    expect(data.variants[2].rank).toBe(2);
  });

  it("--fallbacks makes a variant of each hit's fallback", async () => {
    const edit = 'hits.evening.fallback={ place: pier, path: cell, decideBy: "14:00" }';
    const { data } = await compare(["2027-01-20.yaml", "--set", edit, "--fallbacks"]);
    expect(data.variants[1]).toMatchObject({
      label: "evening fallback",
      edits: ["hits.evening.place=pier", "hits.evening.path=cell", "hits.evening.spare="],
    });
  });
});
