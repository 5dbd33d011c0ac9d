/** `check`: order, accepted findings, folders and patterns, many plans, and the catalogue behind it. */
import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/findings/catalogue.ts";
import { ran } from "./fakeIo.ts";
import { MISSED, MISTAKEN, SLIPPING, SMALLEST } from "./plans.ts";

const check = (words: string, files: Readonly<Record<string, string>>) =>
  ran(["check", ...words.split(" ")], { files });
const answer = async (plan: string) => JSON.parse((await check("day.yaml --json", { "day.yaml": plan })).out);

describe("findings", () => {
  it("come worst first", async () => {
    const both = MISSED.replace("    dawn:", "    dawn:").replace("drive: 35 min, bad: 50 min", "km: 30");
    const { findings } = await answer(both);
    const ranks = findings.map((one: { level: string }) => ["error", "warning", "note"].indexOf(one.level));
    expect(ranks).toEqual([...ranks].sort());
    expect(new Set(ranks).size).toBeGreaterThan(1);
  });

  it("that the plan accepts are printed and count no more, also with --strict", async () => {
    const accepting = `${SLIPPING}accept:\n  - { code: slip-too-long, why: agreed with the desk }\n`;
    const { ok, findings, data } = await answer(accepting);
    const accepted = findings.filter((one: { code: string }) => one.code === "slip-too-long");
    expect([ok, data.accepted]).toEqual([true, 1]);
    expect(accepted).toMatchObject([{ accepted: "agreed with the desk" }]);
    const strict = async (plan: string) =>
      (await ran(["calls", "day.yaml", "--strict"], { files: { "day.yaml": plan } })).code;
    expect([await strict(SLIPPING), await strict(accepting)]).toEqual([1, 0]);
    expect((await check("day.yaml", { "day.yaml": accepting })).out).toContain("accepted: agreed with the desk");
  });

  it("that nothing raises are told of in the plan's list", async () => {
    const idle = `${SMALLEST}accept:\n  - { code: slip-too-long, why: agreed }\n`;
    const codes = (await answer(idle)).findings.map((one: { code: string }) => one.code);
    expect(codes).toContain("accept-idle");
  });

  it("of law stay errors, and the plan is told so", async () => {
    // 49 CFR 395.3(a)(1): ten hours off before driving; here under seven.
    const tired = SMALLEST.replaceAll("wagon", "truck")
      .replace("truck: {}", "truck: { gross: 16000 lb, rules: us-property }")
      .replace("crew:", "history: { wren: { released: 2027-01-19T21:00-06:00 } }\ncrew:");
    const law = (await answer(tired)).findings.find((one: { source: { clause: string } | null }) =>
      one.source?.clause?.includes("395.3(a)(1)"),
    );
    expect(law).toMatchObject({ level: "error", who: "wren" });
    const { ok, findings } = await answer(`${tired}accept:\n  - { code: ${law.code}, why: only once }\n`);
    expect(ok).toBe(false);
    expect(findings).toContainEqual({ ...law, where: expect.anything() });
    expect(findings.map((one: { code: string }) => one.code)).toContain("accept-of-law");
  });
});

describe("many plans", () => {
  const files = {
    "plans/a.yaml": SMALLEST,
    "plans/b/late.yml": MISSED,
    "plans/b/shared.yaml": "crew:\n  bea: {}\n",
    "plans/notes.txt": "not a plan",
    "plans/.hidden/x.yaml": MISTAKEN,
    "other.yaml": SMALLEST,
  };

  it("are found in folders, in order, without what is no day's plan", async () => {
    const { code, out, err } = await check("plans --json", files);
    expect(code).toBe(1);
    expect(JSON.parse(out).plans.map((one: { plan: { file: string } }) => one.plan.file)).toEqual([
      "plans/a.yaml",
      "plans/b/late.yml",
    ]);
    expect(err).toContain("passed over plans/b/shared.yaml");
  });

  it("are found by patterns that no shell has expanded", async () => {
    const found = async (pattern: string) =>
      JSON.parse((await check(`${pattern} --json`, files)).out).plans?.map(
        (one: { plan: { file: string } }) => one.plan.file,
      );
    expect(await found("plans/**/*.y*ml")).toEqual(["plans/a.yaml", "plans/b/late.yml"]);
    expect((await check("nothing/*.yaml", files)).code).toBe(2);
  });

  it("take the worst exit code and end with a count", async () => {
    const all = { ...files, "bad.yaml": MISTAKEN };
    const { code, out } = await check("other.yaml plans/b/late.yml bad.yaml", all);
    expect(code).toBe(3);
    expect(out).toMatch(/\n3 plans, 2 with errors\n$/u);
  });

  it("have one header in CSV and in the stream", async () => {
    const csv = (await check("plans/b/late.yml other.yaml -f csv", files)).out.split("\r\n");
    expect(csv.filter((line) => line.startsWith("plan,level"))).toHaveLength(1);
    const stream = (await check("plans/b/late.yml other.yaml -f ndjson", files)).out
      .trimEnd()
      .split("\n")
      .map((line) => JSON.parse(line));
    expect(stream.map((record) => record.record).filter((record) => record !== "finding")).toEqual([
      "header",
      "plan",
      "plan",
    ]);
  });
});

describe("the catalogue", () => {
  it("has a title, a reason and a cure for each code, in the form of codes", async () => {
    for (const [code, entry] of await catalogue()) {
      expect(code).toMatch(/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/u);
      expect([code, entry.title, entry.why, entry.cure].every((text) => text !== "")).toBe(true);
      expect([code, entry.title.endsWith(".")]).toEqual([code, false]);
    }
  });
});
