/** `log`: each kind of thing that something can happen to, and words that say nothing clear. */
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";
import { SMALLEST } from "../cli/plans.ts";

const DAY = `${SMALLEST.replace("ilse: { role: reporter }", "ilse: { role: reporter } # on camera")}tasks:
  notes: { place: pier, for: 10 min, who: [ilse] }
kit:
  camera: { in: wagon }
packs:
  brick: { count: 2, wh: 98, mount: wedge, charge: 100%, in: wagon }
  slab: { wh: 200, mount: post, charge: 80%, in: wagon }
`;

const logged = async (
  words: string,
): Promise<{ readonly code: number; readonly err: string; readonly text: string }> => {
  const { code, err, files } = await ran(["log", "day.yaml", ...words.split(" ")], { files: { "day.yaml": DAY } });
  return { code, err, text: files.get("/plans/day.yaml") ?? "" };
};

describe("log writes", () => {
  it.each([
    ["wren released 21:10", 'wren: { released: "21:10" }', "Wed 20 Jan, 21:10 New York (20:10 Chicago)"],
    ["wren released 00:40 +1d", 'wren: { released: "00:40 +1d" }', "21 Jan, Thu 00:40 New York (23:40 Chicago)"],
    ["wren call 05:10", 'wren: { call: "05:10" }', "Wed 20 Jan, 05:10 New York (04:10 Chicago)"],
    ["wren called 05:10", 'wren: { call: "05:10" }', "Wed 20 Jan, 05:10 New York (04:10 Chicago)"],
    ["ilse asleep 6 h", "ilse: { asleep: 6 h }"],
    ["ilse slept 6h30", "ilse: { asleep: 6h30 }"],
    ["dawn at 07:04", 'dawn: { at: "07:04" }', "Wed 20 Jan, 07:04 New York (06:04 Chicago)"],
    ["dawn ended 07:08", 'dawn: { end: "07:08" }', "Wed 20 Jan, 07:08 New York (06:08 Chicago)"],
    ["dawn done false", "dawn: { done: false }"],
    ["notes began 08:40", 'notes: { at: "08:40" }', "Wed 20 Jan, 08:40 New York (07:40 Chicago)"],
    [
      "wagon.2 arrived 05:02 local",
      'wagon.2: { arrived: "05:02 local" }',
      "Wed 20 Jan, 06:02 New York (05:02 Chicago)",
    ],
    [
      "all released 21:10",
      'wren: { released: "21:10" }\n  ilse: { released: "21:10" }',
      "Wed 20 Jan, 21:10 New York (20:10 Chicago)",
    ],
    ["wagon.2 left 0640", 'wagon.2: { left: "0640" }', "Wed 20 Jan, 06:40 New York (05:40 Chicago)"],
    ["wagon since 18:05", 'wagon: { since: "18:05" }', "Wed 20 Jan, 18:05 New York (17:05 Chicago)"],
    ["brick.1 35%", "brick.1: { charge: 35% }"],
    ["brick.2 charge 35 %", "brick.2: { charge: 35 % }"],
    ["slab 12%", "slab: { charge: 12% }"],
    ["brick 20%", "brick: { charge: 20% }"],
    ["wagon odometer 41200", "wagon: { odometer: 41200 }"],
    ["wagon at lodge", "wagon: { at: lodge }"],
    ["wagon odometer 41200 km", "wagon: { odometer: 41200 km }"],
    ["wagon fuel 60%", "wagon: { fuel: 60% }"],
    ["wagon engineHours 1203", "wagon: { engineHours: 1203 }"],
    ["camera in lodge", "camera: { in: lodge }"],
    ["wren up 03:10", 'wren: { up: "03:10" }', "Wed 20 Jan, 03:10 New York (02:10 Chicago)"],
    ["wren inBed 22:40 -1d", 'wren: { inBed: "22:40 -1d" }', "19 Jan, Tue 22:40 New York (Tue 21:40 Chicago)"],
    [
      "wren inBed 22:40 -1d to 03:00",
      'wren: { inBed: [["22:40 -1d", "03:00"]] }',
      "19 Jan, Tue 22:40 New York (Tue 21:40 Chicago)",
    ],
    ["ilse note slept badly: noise", 'ilse: { note: "slept badly: noise" }'],
    ["dawn note on", 'dawn: { note: "on" }'],
    ["wagon.2 driver wren", "wagon.2: { driver: wren }"],
    ["brick.1 in lodge", "brick.1: { in: lodge }"],
    ["brick.1 in wagon 10:25", 'brick.1: { in: wagon, at: "10:25" }', "Wed 20 Jan, 10:25 New York (09:25 Chicago)"],
    ["brick.1 35% 10:25", 'brick.1: { charge: 35%, at: "10:25" }', "Wed 20 Jan, 10:25 New York (09:25 Chicago)"],
    [
      "brick 35 % at 09:25 America/Chicago",
      'brick: { charge: 35 %, at: "09:25 America/Chicago" }',
      "Wed 20 Jan, 10:25 New York (09:25 Chicago)",
    ],
    ["wagon fuel 60% 10:25", 'wagon: { fuel: 60%, fuelAt: "10:25" }', "Wed 20 Jan, 10:25 New York (09:25 Chicago)"],
    [
      "wagon at lodge since 18:05",
      'wagon: { at: lodge, since: "18:05" }',
      "Wed 20 Jan, 18:05 New York (17:05 Chicago)",
    ],
    ["camera note lens fogged", 'camera: { note: "lens fogged" }'],
  ])("%s", async (words, line, read = "") => {
    const { code, err, text } = await logged(words);
    expect([code, err]).toEqual([0, `logged in day.yaml: ${words}${read === "" ? "" : ` = ${read}`}\n`]);
    expect(text).toBe(`${DAY}actual:\n  ${line}\n`);
  });

  it.each([
    // 2027-01-20 at 15:25 UTC is 10:25 in New York.
    ["brick.1 35%", 'brick.1: { charge: 35%, at: "2027-01-20T10:25-05:00" }'],
    ["wagon fuel 60%", 'wagon: { fuel: 60%, fuelAt: "2027-01-20T10:25-05:00" }'],
    ["brick.1 in wagon", 'brick.1: { in: wagon, at: "2027-01-20T10:25-05:00" }'],
    ["wagon at lodge", "wagon: { at: lodge }"],
  ])("%s with the moment of logging", async (words, line) => {
    const now = Date.UTC(2027, 0, 20, 15, 25, 59);
    const { files } = await ran(["log", "day.yaml", ...words.split(" ")], { files: { "day.yaml": DAY }, now });
    expect(files.get("/plans/day.yaml")).toBe(`${DAY}actual:\n  ${line}\n`);
  });

  it("a charge beside what else is stated of the pack, and takes both back", async () => {
    const had = `${DAY}actual:\n  brick.1: { in: lodge }\n`;
    const first = await ran(["log", "day.yaml", "brick.1", "35%", "10:25"], { files: { "day.yaml": had } });
    const text = first.files.get("/plans/day.yaml") ?? "";
    expect(text).toBe(`${DAY}actual:\n  brick.1: { in: lodge, charge: 35%, at: "10:25" }\n`);
    const back = await ran(["log", "day.yaml", "brick.1", "charge", "-"], { files: { "day.yaml": text } });
    expect(back.files.get("/plans/day.yaml")).toBe(had);
  });

  it("a charge where the plan has it bare", async () => {
    const had = `${DAY}actual:\n  brick.1: 80%\n`;
    const { files } = await ran(["log", "day.yaml", "brick.1", "35%", "10:25"], { files: { "day.yaml": had } });
    expect(files.get("/plans/day.yaml")).toBe(`${DAY}actual:\n  brick.1: { charge: 35%, at: "10:25" }\n`);
  });

  it("where a pack was seen, beside its charge, whose moment it keeps", async () => {
    const log = async (had: string, ...words: readonly string[]) =>
      (await ran(["log", "day.yaml", ...words], { files: { "day.yaml": `${DAY}actual:\n  ${had}\n` } })).files
        .get("/plans/day.yaml")
        ?.slice(`${DAY}actual:\n  `.length);
    expect(await log("brick.1: 80%", "brick.1", "in", "wagon", "10:30")).toBe(
      'brick.1: { charge: 80%, in: wagon, at: "10:30" }\n',
    );
    expect(await log('brick.1: { charge: 35%, at: "10:25" }', "brick.1", "in", "wagon")).toBe(
      'brick.1: { charge: 35%, at: "10:25", in: wagon }\n',
    );
  });

  it("several, one below the other, and what is said again in its place", async () => {
    let files: Record<string, string> = { "day.yaml": DAY };
    for (const words of ["wren released 21:10", "dawn at 07:04", "wren call 05:10", "wren released 21:20"]) {
      const done = await ran(["log", "day.yaml", ...words.split(" ")], { files });
      files = { "day.yaml": done.files.get("/plans/day.yaml") ?? "" };
    }
    expect(files["day.yaml"]).toBe(
      `${DAY}actual:\n  wren: { released: "21:20", call: "05:10" }\n  dawn: { at: "07:04" }\n`,
    );
  });

  it("one by one where it asks, and goes on after an answer that is not clear", async () => {
    const answers = ["wren released 21:10", "wren asleep well", "brick.1 35%"];
    const { code, err, files } = await ran(["log", "day.yaml"], {
      files: { "day.yaml": DAY },
      stdinIsTty: true,
      answers,
    });
    expect(code).toBe(0);
    expect(err).toContain("asleep");
    expect(files.get("/plans/day.yaml")).toBe(
      `${DAY}actual:\n  wren: { released: "21:10" }\n  brick.1: { charge: 35% }\n`,
    );
  });

  it("and takes the last entry back for `back`, one after the other", async () => {
    const answers = [
      "wren released 21:10",
      "brick.1 35%",
      "dawn at 07:04",
      "back",
      "back",
      "back",
      "back",
      "dawn at 07:05",
    ];
    const { code, err, files } = await ran(["log", "day.yaml"], {
      files: { "day.yaml": DAY },
      stdinIsTty: true,
      answers,
    });
    expect([code, files.get("/plans/day.yaml")]).toEqual([0, `${DAY}actual:\n  dawn: { at: "07:05" }\n`]);
    expect(err).toContain("taken back: dawn at 07:04\ntaken back: brick.1 35%\ntaken back: wren released 21:10\n");
    expect(err).toContain("error: nothing was logged here yet\n");
  });

  it("a plan that cannot be read is refused before anything is asked", async () => {
    const files = { "day.yaml": "daywright: 1\n" };
    const { code, err } = await ran(["log", "day.yaml"], { files, stdinIsTty: true, answers: ["wren released 21:10"] });
    expect([code, err.includes("key-missing"), err.includes("such as")]).toEqual([3, true, false]);
  });

  it("nothing with --dry-run, which prints the changed plan", async () => {
    const { out, err, files } = await ran(["log", "day.yaml", "-n", "brick.1", "35%"], { files: { "day.yaml": DAY } });
    expect(err).toBe("not written: brick.1 35%\n");
    expect(out).toBe(`${DAY}actual:\n  brick.1: { charge: 35% }\n`);
    expect(files.get("/plans/day.yaml")).toBe(DAY);
  });
});

it("log refuses a time that contradicts one logged before, and says which", async () => {
  const files = { "day.yaml": `${DAY}actual:\n  wagon.2: { arrived: "06:30" }\n` };
  const { code, err, files: after } = await ran(["log", "day.yaml", "wagon.2", "left", "06:10"], { files });
  expect([code, after.get("/plans/day.yaml")]).toEqual([3, files["day.yaml"]]);
  expect(err).toContain(
    "`wagon.2 left` at 06:10 New York (05:10 Chicago) contradicts `wagon.2 arrived` at 06:30 New York",
  );
});

describe("log refuses, and leaves the file", () => {
  it.each([
    ["wrne released 21:10", 2, "`wrne` is no person, hit, task, stop, pack, vehicle or piece of this plan"],
    ["wren 21:10", 2, "write `wren` and one of: call, called, released"],
    ["wren released", 2, "write `wren` and one of"],
    ["dawn arrived 07:00", 2, "write `dawn` and one of: at, began, end, ended, done"],
    ["wagon.2 at lodge", 2, "write `wagon.2` and one of: arrived, left"],
    ["wagon.9 left 07:00", 2, "`wagon.9` is no person, hit"],
    ["lodge at 07:00", 2, "`lodge` is no person, hit"],
    ["pier arrived 07:00", 2, "try: wagon.2 arrived 07:00"],
    ["wagon arrived pier 07:00", 2, "try: wagon.2 arrived 07:00"],
    // The first of them that is not logged yet; nobody arrives where the day begins.
    ["wagon left", 2, "try: wagon.1 left 06:00"],
    ["wagon arrived 06:20", 2, "try: wagon.2 arrived 06:20"],
    // What was typed, with the word that it lacks.
    ["wren 21:40", 2, "try: wren released 21:40"],
    ["all relased 21:10", 2, "write `all` and one of: call, called, released"],
    ["all released late", 3, "late"],
    ["__proto__ released 21:10", 2, "is no person, hit"],
    ["wagon constructor 21:10", 2, "write `wagon` and one of"],
    ["wren constructor 21:10", 2, "write `wren` and one of"],
    ["wren released late", 3, "late"],
    ["wren released 25:10", 3, "25:10"],
    ["brick.1 135%", 3, "135%"],
    ["brick.1 35", 3, "35"],
    ["wagon at nowhere", 3, "nowhere"],
    ["wagon odometer 41200 ly", 3, "41200 ly"],
    ["wren released -", 2, "nothing of `wren released` is logged in day.yaml"],
    ["wren released #21:10", 3, "#21:10"],
    // The planned call is at 05:00 on the desk's clock; the hour after midnight is the next day's.
    [
      "wren released 00:40",
      3,
      "`wren released` at 00:40 New York (Tue 23:40 Chicago) contradicts `wren call`, as planned, at 05:00 New York (04:00 Chicago)",
    ],
    ["dawn ended 06:58", 3, "`dawn ended` at 06:58 New York (05:58 Chicago) contradicts `dawn`, as planned, at 07:00"],
    ["wrne released 21:10", 2, "try: wren released 21:10"],
    ["dwan at 07:04", 2, "try: dawn at 07:04"],
    ["dawn arrived 07:00", 2, "try: dawn at 07:00"],
    ["dawn arrived", 2, "try: dawn at 06:04"],
    ["wagon.2 at lodge", 2, "try: wagon.2 left 09:40"],
  ])("%s", async (words, status, message) => {
    const { code, err, text } = await logged(words);
    expect([code, text]).toEqual([status, DAY]);
    expect(err).toContain(message);
  });

  it("an id mistyped, and says which one is near", async () => {
    expect((await logged("dwan at 07:02")).err).toContain("try: dawn at 07:02");
    expect((await logged("brik.1 35%")).err).toContain("try: brick.1 35%");
  });

  it("words without a file, a file that is none, and standard input", async () => {
    expect((await ran(["log", "none.yaml", "wren", "released", "21:10"])).err).toContain("none.yaml: no such file");
    expect((await ran(["log", "-", "wren", "released", "21:10"])).code).toBe(2);
    expect((await ran(["log", "day.yaml"], { files: { "day.yaml": DAY } })).code).toBe(2);
  });
});
