/** `new`: by flags and by answers, one plan that `check` accepts; what is missing or unclear is said and nothing written. */
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";

const FLAGS = [
  ...["--date", "2027-01-20", "--desk", "America/New_York", "--zone", "America/Chicago", "--bed", "lodge"],
  ...[
    "--released",
    "18:00 -1d",
    "--title",
    "Ore freighter in the ice",
    "--vehicle",
    "truck 16000 lb us-property",
    "--vehicle",
    "wagon",
  ],
  ...["--person", "tomas engineer drives truck", "--person", "bea producer in truck"],
  ...["--person", "wren camera drives wagon", "--person", "ilse reporter in wagon"],
  ...["--drive", "lodge pier 35 min 50 min", "--drive", "pier dock 15 min", "--drive", "dock lodge 40 min 1 h"],
  ...["--hit", "dawn 07:00 pier 3 min", "--hit", "dawn2 07:30 pier 3 min", "--hit", "noon 11:30 CT dock 4 min"],
];

const ANSWERS = [
  ...["Ore freighter in the ice", "America/New_York", "America/Chicago", "2027-01-20"],
  ...["truck 16000 lb us-property", "wagon", ""],
  ...["tomas engineer drives truck", "bea producer in truck", "wren camera drives wagon", "ilse reporter in wagon", ""],
  ...["lodge", "18:00 -1d", "dawn 07:00 pier 3 min", "dawn2 07:30 pier 3 min", "noon 11:30 CT dock 4 min", ""],
  ...["lodge pier 35 min 50 min", "pier dock 15 min", "dock lodge 40 min 1 h", ""],
];

const withoutLabels = (words: readonly string[]): readonly string[] =>
  words.map((word) => word.replace(" CT ", " local "));
const written = (files: ReadonlyMap<string, string>): string => files.get("/plans/2027-01-20.yaml") ?? "";
const checked = async (text: string) => ran(["check", "day.yaml", "--json"], { files: { "day.yaml": text } });

describe("new", () => {
  it("by flags writes a commented plan that check accepts", async () => {
    const made = await ran(["new", ...withoutLabels(FLAGS)]);
    expect([made.code, made.out, made.err]).toEqual([0, "", "wrote 2027-01-20.yaml\n"]);
    const text = written(made.files);
    expect(text).toMatch(
      /^# yaml-language-server: .*\ndaywright: 1\nid: ore-freighter-in-the-ice-2027-01-20 .*\ntitle: "Ore freighter in the ice"\n/u,
    );
    expect(text.match(/^#/gmu)?.length).toBeGreaterThan(6);
    const { code, out } = await checked(text);
    expect([code, JSON.parse(out).data.errors]).toEqual([0, 0]);
  });

  it("by answers at a terminal writes the same bytes", async () => {
    const asked = await ran(["new"], { stdinIsTty: true, answers: withoutLabels(ANSWERS) });
    expect(asked.code).toBe(0);
    expect(written(asked.files)).toBe(written((await ran(["new", ...withoutLabels(FLAGS)])).files));
  });

  it("asks again where an answer is not clear, and says what was not", async () => {
    const answers = withoutLabels(ANSWERS).flatMap((one) => (one === "wagon" ? ["wagon of 3 tons", one] : [one]));
    const asked = await ran(["new"], { stdinIsTty: true, answers });
    expect(asked.code).toBe(0);
    expect(asked.err).toContain(
      "`wagon of 3 tons` does not say a vehicle (one word of letters and digits), its weight and its rules",
    );
    expect(written(asked.files)).toBe(written((await ran(["new", ...withoutLabels(FLAGS)])).files));
  });

  describe("asks again only what was wrong, with what was meant, and keeps all other answers", () => {
    const right = withoutLabels(ANSWERS);
    /** The answers with a wrong one put before each that equals `before`, at its first. */
    const withWrong = (before: string, ...wrong: readonly string[]): readonly string[] => {
      const at = right.indexOf(before);
      return [...right.slice(0, at), ...wrong, ...right.slice(at)];
    };
    const asked = (answers: readonly string[], files: Record<string, string> = {}) =>
      ran(["new"], { stdinIsTty: true, answers, files });

    it.each([
      ["the date", "2027-01-20", "20.1.2027", "`20.1.2027` is not a date"],
      ["the date, left out", "2027-01-20", "", "`date` has no value"],
      ["the desk's zone", "America/New_York", "America/New_Yrok", "try: America/New_York"],
      ["the zone of the places", "America/Chicago", "America/Chicgo", "try: America/Chicago\n"],
      ["a truck without rules", "truck 16000 lb us-property", "truck 16000 lb", "commercial vehicle"],
      [
        "a rule that does not exist",
        "truck 16000 lb us-property",
        "truck 16000 lb us-propety",
        "try: `us-property`; also taken:",
      ],
      ["who drives what nobody has", "wren camera drives wagon", "wren camera drives wagn", "try: `wagon`\n"],
      ["one person twice", "ilse reporter in wagon", "bea reporter in wagon", "`bea`"],
      ["a bed that is a vehicle", "lodge", "truck", "`truck`"],
      ["the last release", "18:00 -1d", "25:00 -1d", "`25:00 -1d` is not a time"],
      [
        "a hit on an unknown clock",
        "noon 11:30 local dock 4 min",
        "noon 11:30 XT dock 4 min",
        "`XT` is not a known time zone",
      ],
      ["a road twice", "pier dock 15 min", "pier lodge 35 min", "stated a second time"],
    ])("%s", async (_, before, wrong, told) => {
      const { code, err, files } = await asked(withWrong(before, wrong));
      expect([code, written(files)]).toEqual([0, written((await asked(right)).files)]);
      expect(err).toContain(told);
      // Of a file that is not there yet no line is named.
      expect(err).not.toMatch(/\.yaml:\d/u);
    });

    it("`back` asks the question before again, as often as one goes back", async () => {
      const at = right.indexOf("lodge");
      // The bed, then the end of the people, then the last of them: what was answered in between is asked for again.
      const answers = [
        ...right.slice(0, at - 2),
        "ilse camera",
        "",
        "inn",
        "back",
        "back",
        "back",
        ...right.slice(at - 2),
      ];
      const { code, err, files } = await asked(answers);
      expect([code, written(files)]).toEqual([0, written((await asked(right)).files)]);
      expect(err.match(/^taken back: .*$/gmu)).toEqual(["taken back: inn", "taken back: ilse camera"]);
    });

    it("each question has a line with an example above it, and what an empty answer means; `--quiet` leaves them out", async () => {
      const { err } = await asked(right);
      // Title, two zones, day, vehicles, people, bed, release, hits, drives.
      expect(err.match(/^ {2}such as: .+ {3}\(empty: .+\)$/gmu)).toHaveLength(10);
      const quiet = await ran(["new", "--quiet"], { stdinIsTty: true, answers: right });
      expect([quiet.code, quiet.err]).toEqual([0, ""]);
    });

    it("`back` at the first question says that there is none before", async () => {
      const { code, err, files } = await asked(["back", ...right]);
      expect([code, written(files)]).toEqual([0, written((await asked(right)).files)]);
      expect(err).toContain("error: there is no question before this one\n");
    });

    it("return takes the suggestion", async () => {
      const at = right.indexOf("America/New_York");
      const answers: (string | null)[] = [...right];
      answers.splice(at, 1, "America/New_Yrok", null);
      const { code, files } = await ran(["new"], { stdinIsTty: true, answers });
      expect([code, written(files)]).toEqual([0, written((await asked(right)).files)]);
    });

    it("a road that is missing at the end is asked for", async () => {
      const { code, err, files } = await asked(
        right.flatMap((one) => (one === "pier dock 15 min" ? [] : [one])).concat("pier dock 15 min", ""),
      );
      expect([code, written(files).includes("link: [pier, dock], drive: 15 min")]).toEqual([0, true]);
      expect(err).toContain("no road from pier to dock is stated");
    });

    it("and where it is not told either, hits and stops are written as comments, in a plan that check reads", async () => {
      const { code, err, files } = await asked(right.filter((one) => one !== "pier dock 15 min"));
      expect([code, files.size]).toEqual([0, 1]);
      const text = written(files);
      expect(text).toContain("hits: {}\n#   dawn: { at");
      expect(text).toContain("runs: {}\n#   truck:\n#     driver: tomas\n#     aboard: [tomas, bea]\n#     stops:\n");
      expect(err).toContain("written as comments until that is settled\n");
      expect((await checked(text)).code).toBe(0);
    });

    it("a plan without people is asked for one", async () => {
      const people = right.slice(right.indexOf("tomas engineer drives truck"));
      const { code, err } = await asked([...right.slice(0, -people.length), "", ...people]);
      expect([code, err.includes("error: a plan needs at least one person\n")]).toEqual([0, true]);
    });

    it("the day is tomorrow on the control room's clock where nothing is answered", async () => {
      // 2027-01-20T03:30Z is the 19th in New York, 22:30.
      const now = Date.UTC(2027, 0, 20, 3, 30);
      const answers = right.map((one) => (one === "2027-01-20" ? null : one));
      const { code, files } = await ran(["new"], { stdinIsTty: true, answers, now });
      expect([code, written(files)]).toEqual([0, written((await asked(right)).files)]);
    });

    it("a day whose file is there is told before anything else is asked", async () => {
      const { code, err, files } = await asked(withWrong("2027-01-20", "2027-01-19"), { "2027-01-19.yaml": "mine\n" });
      expect([code, files.get("/plans/2027-01-19.yaml"), written(files).includes("date: 2027-01-20")]).toEqual([
        0,
        "mine\n",
        true,
      ]);
      expect(err).toContain("there is already a file `2027-01-19.yaml`");
    });
  });

  it("puts each in the vehicle they drive or are said to ride, by way of all hits", async () => {
    const text = written((await ran(["new", ...withoutLabels(FLAGS)])).files);
    const stops = "    stops:\n      - lodge\n      - pier\n      - dock\n      - lodge\n";
    expect(text).toContain(`  truck:\n    driver: tomas\n    aboard: [tomas, bea]\n${stops}`);
    expect(text).toContain(`  wagon:\n    driver: wren\n    aboard: [wren, ilse]\n${stops}`);
  });

  it("needs no hits: a day without any is a plan", async () => {
    const made = await ran([
      "new",
      "--date",
      "2027-01-20",
      "--desk",
      "America/Chicago",
      "--bed",
      "lodge",
      "--person",
      "wren",
    ]);
    expect(made.code).toBe(0);
    expect(JSON.parse((await checked(written(made.files))).out)).toMatchObject({ ok: true, data: { errors: 0 } });
  });

  it("prints with -o -, and checks in the same breath", async () => {
    const { out, files } = await ran(["new", ...withoutLabels(FLAGS), "-o", "-"]);
    expect([out.startsWith("# yaml-language-server"), files.size]).toEqual([true, 0]);
  });
});

describe("new refuses", () => {
  it.each([
    ["--date", "a new plan needs --date"],
    ["--desk", "a new plan needs --desk"],
    ["--bed", "a new plan needs --bed"],
  ])("without %s", async (flag, message) => {
    const words = FLAGS.filter((_, index) => FLAGS[index] !== flag && FLAGS[index - 1] !== flag);
    const { code, err, files } = await ran(["new", ...words]);
    expect([code, files.size]).toEqual([2, 0]);
    expect(err).toContain(message);
  });

  it("an unclear flag, with an example", async () => {
    const { code, err, files } = await ran(["new", ...withoutLabels(FLAGS), "--hit", "evening at five"]);
    expect([code, files.size]).toEqual([2, 0]);
    expect(err).toBe(
      "error: `evening at five` does not say when, where and how long in whole minutes\ntry: dawn 07:00 pier 3 min\n",
    );
  });

  it("what the plan's own reader refuses: a zone, a date, a hit's label, a truck without rules", async () => {
    for (const [from, to] of [
      ["America/Chicago", "America/Nowhere"],
      ["2027-01-20", "2027-02-30"],
      ["noon 11:30 local dock 4 min", "noon 11:30 XT dock 4 min"],
      ["truck 16000 lb us-property", "truck 16000 lb"],
    ]) {
      const { code, err, files } = await ran([
        "new",
        ...withoutLabels(FLAGS).map((word) => (word === from ? (to ?? "") : word)),
      ]);
      expect([to, code, files.size, err.includes("error")]).toEqual([to, 3, 0, true]);
    }
  });

  it("to take the place of a file, unless --force", async () => {
    const files = { "2027-01-20.yaml": "mine\n" };
    const kept = await ran(["new", ...withoutLabels(FLAGS)], { files });
    expect([kept.code, written(kept.files)]).toEqual([2, "mine\n"]);
    expect(kept.err).toContain("there is already a file");
    const forced = await ran(["new", ...withoutLabels(FLAGS), "--force"], { files });
    expect([forced.code, written(forced.files) === "mine\n"]).toEqual([0, false]);
  });

  it("to ask where there is no terminal", async () => {
    const { code, files } = await ran(["new"]);
    expect([code, files.size]).toEqual([2, 0]);
  });
});
