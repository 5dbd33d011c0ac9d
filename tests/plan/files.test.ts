/** `uses` and `follows`: merging entry by entry and field by field, chains, rings, and files outside the folder. */
import { describe, expect, test } from "vitest";
import { type FileReading, type PlanFiles, readChain, readOnePlan } from "../../src/plan/index.ts";
import { smallest } from "./plans.ts";

const folder = (texts: Readonly<Record<string, string>>): PlanFiles & { readonly asked: string[] } => {
  const known = new Map(Object.entries(texts));
  const asked: string[] = [];
  return {
    asked,
    read(path): FileReading {
      asked.push(path);
      const text = known.get(path);
      return text === undefined ? { kind: "missing", near: [] } : { kind: "text", text };
    },
  };
};

const shared = `clock: America/New_York
zone: America/Chicago
crew:
  wren: { role: [camera, lead], drives: wagon, phone: 0042 }
  ilse: { role: reporter }
vehicles:
  wagon: { seats: 5, range: 400 km }
places:
  lodge: { at: [46.60, -90.88] }
  pier: { at: [46.81, -90.82] }
kit:
  odo: { in: wagon }
  tripod: { in: wagon }
`;

const day = `daywright: 1
date: 2027-01-20
uses: assignment.yaml
crew:
  wren: { role: camera }
  bea: { role: producer }
vehicles:
  wagon: { range: 300 km }
kit:
  odo: off
hits:
  dawn: { at: "07:00", for: 3 min, place: pier }
runs:
  wagon: [lodge, pier, lodge]
`;

const at = { file: "days/2027-01-20.yaml" };

describe("uses", () => {
  test("merges entry by entry and field by field, and replaces lists whole", async () => {
    const { plan, findings } = await readOnePlan(day, { ...at, files: folder({ "days/assignment.yaml": shared }) });
    expect(findings).toEqual([]);
    expect([...(plan?.crew.keys() ?? [])]).toEqual(["wren", "ilse", "bea"]);
    expect(plan?.crew.get("wren")).toMatchObject({ roles: ["camera"], drives: ["wagon"], phone: "0042" });
    expect(plan?.vehicles.get("wagon")).toMatchObject({ seats: 5, rangeKm: 300 });
  });

  test("drops an entry with off, and knows where each value stands", async () => {
    const { plan } = await readOnePlan(day, { ...at, files: folder({ "days/assignment.yaml": shared }) });
    expect([...(plan?.kit.keys() ?? [])]).toEqual(["tripod"]);
    expect(plan?.source.locate(["vehicles", "wagon", "seats"])?.file).toBe("days/assignment.yaml");
    expect(plan?.source.locate(["vehicles", "wagon", "range"])?.file).toBe("days/2027-01-20.yaml");
  });

  test("takes several files, the later over the earlier", async () => {
    const files = folder({
      "days/assignment.yaml": shared,
      "days/sub/more.yaml": "vehicles:\n  wagon: { seats: 7 }\n",
    });
    const text = day.replace("uses: assignment.yaml", "uses: [assignment.yaml, sub/more.yaml]");
    const { plan } = await readOnePlan(text, { ...at, files });
    expect(plan?.vehicles.get("wagon")).toMatchObject({ seats: 7, rangeKm: 300 });
  });

  test("tells mistakes in the shared file there, after the day's own", async () => {
    const files = folder({ "days/assignment.yaml": shared.replace("seats: 5", "seets: 5") });
    const { plan, findings } = await readOnePlan(day.replace("for: 3 min", "for: 3"), { ...at, files });
    expect(plan).toBeNull();
    expect(findings.map(({ code, span }) => `${span?.file}:${span?.line} ${code}`)).toEqual([
      "days/2027-01-20.yaml:12 unit-missing",
      "days/assignment.yaml:7 key-unknown",
    ]);
  });

  test("tells a ring", async () => {
    const files = folder({
      "days/assignment.yaml": `uses: again.yaml\n${shared}`,
      "days/again.yaml": "uses: assignment.yaml\n",
    });
    const { findings } = await readOnePlan(day, { ...at, files });
    expect(findings.map(({ code }) => code)).toEqual(["file-loop"]);
  });

  test.each(["../assignment.yaml", "/etc/passwd", "sub/../../x.yaml", "C:\\x.yaml", "a\\b.yaml", "http://x/y"])(
    "never asks for %s",
    async (name) => {
      const files = folder({});
      const { findings } = await readOnePlan(day.replace("assignment.yaml", `'${name}'`), { ...at, files });
      expect(findings.map(({ code }) => code)).toEqual(["file-outside"]);
      expect(files.asked).toEqual([]);
    },
  );
});

const dated = (date: string, before: string | null): string =>
  smallest.replace("date: 2027-01-20\n", `date: ${date}\n${before === null ? "" : `follows: ${before}\n`}`);

describe("follows", () => {
  test("gives the days oldest first", async () => {
    const files = folder({ "a.yaml": dated("2027-01-18", null), "b.yaml": dated("2027-01-19", "a.yaml") });
    const { plans, findings } = await readChain(dated("2027-01-20", "b.yaml"), { file: "c.yaml", files });
    expect(findings).toEqual([]);
    expect(plans?.map(({ date, file }) => `${date} ${file}`)).toEqual([
      "2027-01-18 a.yaml",
      "2027-01-19 b.yaml",
      "2027-01-20 c.yaml",
    ]);
  });

  test("tells what is wrong in an earlier day, and computes nothing on top", async () => {
    const files = folder({ "a.yaml": dated("2027-01-19", null).replace("for: 3 min", "for: 3") });
    const { plans, plan, findings } = await readChain(dated("2027-01-20", "a.yaml"), { file: "c.yaml", files });
    expect(plans).toBeNull();
    expect(plan).not.toBeNull();
    expect(findings.map(({ code, span }) => `${span?.file} ${code}`)).toEqual(["a.yaml unit-missing"]);
  });

  test("tells a ring", async () => {
    const files = folder({ "a.yaml": dated("2027-01-19", "c.yaml"), "c.yaml": "" });
    const { findings } = await readChain(dated("2027-01-20", "a.yaml"), { file: "c.yaml", files });
    expect(findings.map(({ code, span }) => `${span?.file} ${code}`)).toEqual(["a.yaml file-loop"]);
  });

  test("goes back forty files and no further", async () => {
    const chain = (count: number): PlanFiles =>
      folder(
        Object.fromEntries(
          Array.from({ length: count }, (_, index) => [
            `${index}.yaml`,
            dated("2027-01-01", index === 0 ? null : `${index - 1}.yaml`),
          ]),
        ),
      );
    const read = async (count: number) =>
      readChain(dated("2027-01-02", `${count - 1}.yaml`), { file: "last.yaml", files: chain(count) });
    expect((await read(39)).plans).toHaveLength(40);
    expect((await read(40)).findings.map(({ code }) => code)).toEqual(["chain-too-long"]);
  });
});
