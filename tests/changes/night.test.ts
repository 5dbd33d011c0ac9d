/**
 * A night lived through by commands alone: at 02:10 the desk moves the noon hit by 40 minutes, and the truck will be out of
 * service from 10:00. Every old and new time and every moment to tell by is worked out by hand.
 */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";

const DAYS = new URL("../../fixtures/days/", import.meta.url);
const demo = Object.fromEntries(readdirSync(DAYS).map((name) => [name, readFileSync(new URL(name, DAYS), "utf8")]));
const NOW = ["--now", "02:10 CT"];
const MOVED = "hits.noon.at=13:10 CT";
const BROKEN = "vehicles.truck.broken=10:00 CT";

const json = async (words: readonly string[], files = demo) =>
  JSON.parse((await ran([...words, "--json"], { files })).out).data;

describe("at ten past two", () => {
  it("`changes` says what the moved hit does and who can sleep on", { timeout: 600_000 }, async () => {
    const data = await json(["changes", "2027-01-20.yaml", "--set", MOVED, ...NOW]);
    // 12:30 + 40 min; the feed follows the hit (12:35 → 13:15), lunch the feed (12:50 → 13:30).
    expect(data.headline).toBe(
      "noon 12:30 → 13:10 CT; feed 40 min later; lunch 40 min later; no call is earlier; no rest is short; 1 new error.",
    );
    const people = Object.fromEntries(data.people.map((one: { id: string }) => [one.id, one]));
    // Ilse is on camera: up 75 min before her call at 04:50. The first thing of hers that differs is the hit at 12:30.
    expect(people["ilse"]).toMatchObject({
      oldCall: "2027-01-20T04:50-06:00",
      newCall: "2027-01-20T04:50-06:00",
      sleepsUntil: "2027-01-20T03:35-06:00",
      tellBy: "2027-01-20T12:30-06:00",
    });
    // Tomas drives: up 45 min before his call at 04:30.
    expect(people["tomas"]).toMatchObject({ sleepsUntil: "2027-01-20T03:45-06:00", tellBy: "2027-01-20T12:30-06:00" });
    // The window ends at 14:00 ET; noon on air 14:10 to 14:15 and 5 min of slip: 20 min too early.
    expect(data.findings.new).toEqual([expect.objectContaining({ code: "window-too-short", level: "error" })]);
  });

  it("`changes` says what is lost with the truck", { timeout: 600_000 }, async () => {
    const data = await json(["changes", "2027-01-20.yaml", "--set", BROKEN, ...NOW]);
    expect(data.findings.new.some(({ level }: { level: string }) => level === "error")).toBe(true);
    expect(data.headline).toMatch(/^noon cannot be met; evening cannot be met/);
  });

  it("`compare` puts the choices side by side, and the worst last", { timeout: 600_000 }, async () => {
    const words = ["compare", "2027-01-20.yaml", "--with", `moved: ${MOVED}`, "--with", `broken: ${BROKEN}`];
    const data = await json([...words, "--with", "cut: hits.noon=off"]);
    const byLabel = Object.fromEntries(data.variants.map((one: { label: string }) => [one.label, one]));
    expect(byLabel["plan"].rank).toBe(1);
    expect(byLabel["broken"].rank).toBe(4);
    expect(byLabel["cut"].firmHitsLost).toEqual(["noon"]);
    expect(byLabel["broken"].firmHitsLost).toEqual(expect.arrayContaining(["noon", "evening"]));
  });

  it("`repair --write` makes room for the moved hit, comments kept; chat and calendar are of the new day", {
    timeout: 600_000,
  }, async () => {
    const text = (demo["2027-01-20.yaml"] ?? "").replace('noon: { at: "12:30 CT"', 'noon: { at: "13:10 CT"');
    const files = { ...demo, "2027-01-20.yaml": text };
    expect((await ran(["check", "2027-01-20.yaml"], { files })).code).toBe(1);
    const repaired = await ran(["repair", "2027-01-20.yaml", "--write", "1"], { files });
    expect([repaired.code, repaired.err]).toEqual([0, "wrote repair 1 into 2027-01-20.yaml\n"]);
    const after = Object.fromEntries(
      Object.keys(demo).map((name) => [name, repaired.files.get(`/plans/${name}`) ?? ""]),
    );
    expect((await ran(["check", "2027-01-20.yaml"], { files: after })).code).toBe(0);
    expect(after["2027-01-20.yaml"]?.split("\n").filter((line) => line.startsWith("#"))).toEqual(
      text.split("\n").filter((line) => line.startsWith("#")),
    );
    const old = { ...after, "old.yaml": demo["2027-01-20.yaml"] ?? "" };
    const chat = await ran(["changes", "2027-01-20.yaml", "--since", "old.yaml", "-f", "chat", ...NOW], { files: old });
    expect(chat.out.split("\n")[0]).toMatch(/^noon 12:30 → 13:10 CT/);
    const calendar = async (name: string) => (await ran(["sheet", name, "-f", "ics"], { files: old })).out;
    // 13:10 CT is 19:10 UTC, 12:30 CT is 18:30.
    expect(await calendar("2027-01-20.yaml")).toMatch(/T191000Z|T131000|T141000/);
    expect(await calendar("old.yaml")).toMatch(/T183000Z|T123000|T133000/);
  });
});
