/** `next`: what the days share stays as it is written, what was today's alone goes, and nothing is replaced unasked. */
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";

const TODAY = `# The first day at the pier.
# yaml-language-server: $schema=./plan.schema.json
daywright: 1
title: Ore freighter in the ice   # as the desk calls it
date: 2027-01-30
clock: America/New_York
zone: America/Chicago
revision: 3
history:
  wren: { released: 2027-01-29T18:00-06:00 }
rules: { turnaround: 11 h }   # agreed with the desk
crew:
  wren: { role: camera, drives: wagon, slept: lodge } # left-handed
  ilse: { role: 'reporter' }
vehicles:
  wagon: {}
places:
  lodge: { at: [46.60, -90.88] }
  pier:  { at: [46.81, -90.82] }   # two blanks on purpose
roads:
  - { link: [lodge, pier], drive: 35 min, bad: 50 min }
packs:
  brick: { count: 2, wh: 98, mount: wedge, charge: [100%, 60%], in: wagon }
hits:
  dawn: { at: "07:00", for: 3 min, place: pier }
tasks:
  notes: { place: pier, for: 10 min }
runs:
  wagon: [lodge, pier, lodge]
weather:
  - { temp: -9 C }
accept:
  - { code: night-driving, why: agreed }
actual:
  wren: { released: "10:00" }
`;

const NAME = "/plans/2027-01-31.yaml";
const next = async (words: readonly string[] = [], text = TODAY) => {
  const done = await ran(["next", "today.yaml", ...words], { files: { "today.yaml": text } });
  return { ...done, text: done.files.get(NAME) ?? "" };
};
const checked = async (text: string) => {
  const { out } = await ran(["check", "b.yaml", "--json"], { files: { "today.yaml": TODAY, "b.yaml": text } });
  return JSON.parse(out);
};

describe("tomorrow's file", () => {
  it("begins the day after the last one of a plan that runs on, and takes out when the packs were read", async () => {
    const days = TODAY.replace("revision: 3", "until: +2d").replace(
      "charge: [100%, 60%], in",
      'charge: [100%, 60%], chargeAt: "17:00 -1d", in',
    );
    // 30 and 31 January and 1 February are its days.
    const { err, files } = await next([], days);
    expect(err).toBe("wrote 2027-02-02.yaml\n");
    const text = files.get("/plans/2027-02-02.yaml") ?? "";
    expect(text).toContain("\ndate: 2027-02-02\n");
    expect(text).not.toMatch(/until|chargeAt/u);
  });

  it("is today's text with this day's own taken out, hits emptied, and `follows`", async () => {
    const { code, err, text } = await next();
    expect([code, err]).toEqual([0, "wrote 2027-01-31.yaml\n"]);
    expect(text).toBe(`# Tomorrow, after today.yaml: people, vehicles, packs and gear begin where they end there.
# yaml-language-server: $schema=./plan.schema.json
daywright: 1
id: ore-freighter-in-the-ice-2027-01-31
title: Ore freighter in the ice   # as the desk calls it
date: 2027-01-31
follows: today.yaml
clock: America/New_York
zone: America/Chicago
rules: { turnaround: 11 h }   # agreed with the desk
crew:
  wren: { role: camera, drives: wagon } # left-handed
  ilse: { role: 'reporter' }
vehicles:
  wagon: {}
places:
  lodge: { at: [46.60, -90.88] }
  pier:  { at: [46.81, -90.82] }   # two blanks on purpose
roads:
  - { link: [lodge, pier], drive: 35 min, bad: 50 min }
packs:
  brick: { count: 2, wh: 98, mount: wedge, in: wagon }
hits: {}
runs: {}
`);
    expect(await checked(text)).toMatchObject({ ok: true, data: { errors: 0 } });
  });

  it("puts gear, chargers and the pack on a piece where the day leaves them", async () => {
    // The camera draws 30 W with brick.2, the one pack that holds anything, and changes vehicles with it at the pier; the bench
    // goes along; the cones and the other two packs stay. What was read off a single pack last night is not tomorrow's.
    const text = `daywright: 1
date: 2027-03-13
clock: America/Chicago
zone: America/Chicago
crew: { wren: { drives: van, slept: lodge }, ilse: { drives: car, slept: lodge } }
vehicles: { van: {}, car: {} }
places: { lodge: {}, pier: {} }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 30 min }]
hits: { last: { at: "23:50", for: 3 min, place: pier, needs: [camera] } }
kit:
  camera: { in: van, watts: 30, mount: wedge, during: hits }
  cones: { in: { van: 2, car: 4 } }
packs:
  brick: { count: 3, wh: 95, mount: wedge, charge: 0%, in: van, own: { brick.2: { charge: 90%, in: van } } }
chargers:
  bench: { mount: wedge, watts: 20, in: van }
runs:
  van: { driver: wren, aboard: [wren], stops: [lodge, { place: pier, do: [last], moves: { camera: car, bench: car } }, lodge] }
  car: { driver: ilse, aboard: [ilse], stops: [lodge, { place: pier, do: [last] }, lodge] }
`;
    const { files } = await next([], text);
    const made = files.get("/plans/2027-03-14.yaml") ?? "";
    expect(made.slice(made.indexOf("kit:"))).toBe(`kit:
  camera: { in: car, watts: 30, mount: wedge, during: hits }
  cones: { in: { van: 2, car: 4 } }
packs:
  brick: { count: 3, wh: 95, mount: wedge, in: van, own: { brick.2: { in: car } } }
chargers:
  bench: { mount: wedge, watts: 20, in: car }
runs: {}
`);
  });

  it("carries on over the end of a month and a year, and keeps CRLF", async () => {
    const crlf = TODAY.replaceAll("\n", "\r\n").replace("2027-01-30", "2027-12-31").replace("2027-01-29", "2027-12-30");
    const { files } = await next([], crlf);
    const text = files.get("/plans/2028-01-01.yaml") ?? "";
    expect(text).toContain("date: 2028-01-01\r\n");
    expect(
      text
        .split("\n")
        .slice(1, -1)
        .filter((line) => !line.endsWith("\r")),
    ).toEqual([]);
  });

  it("takes hits, a new drive and another bed along", async () => {
    const words = [
      "--hit",
      "noon 12:00 dock 4 min",
      "--drive",
      "lodge dock 20 min",
      "--drive",
      "dock inn 30 min 45 min",
    ];
    const { code, text } = await next([...words, "--bed", "inn"]);
    expect(code).toBe(0);
    expect(text).toContain(`hits:
  noon: { at: "12:00", for: 4 min, place: dock }
runs:
  wagon:
    driver: wren
    aboard: [wren, ilse]
    stops:
      - lodge
      - dock
      - inn
`);
    expect(text).toContain(
      "  - { link: [lodge, pier], drive: 35 min, bad: 50 min }\n  - { link: [lodge, dock], drive: 20 min }\n  - { link: [dock, inn], drive: 30 min, bad: 45 min }\n",
    );
    expect(text).toContain("  dock: {}\n  inn: { kind: lodging, mains: true, shelter: true }\n");
    expect(await checked(text)).toMatchObject({ ok: true, data: { errors: 0 } });
  });

  it("names today's file from where it lies", async () => {
    const { files } = await ran(["next", "week/today.yaml"], { files: { "week/today.yaml": TODAY } });
    expect(files.get("/plans/week/2027-01-31.yaml")).toContain("\nfollows: today.yaml\n");
  });
});

describe("the level of a tank", () => {
  /** Today with a wagon that says this of its fuel. */
  const wagonOf = async (says: string): Promise<string> => {
    const today = TODAY.replace(/^( +)wagon: \{[^}]*\}/mu, `$1wagon: { ${says} }`);
    expect(today).toContain(`wagon: { ${says} }`);
    return (await next([], today)).files.get(NAME) ?? "";
  };

  it("goes where a range says how far it is used up, and stays where nothing does", async () => {
    expect(await wagonOf("seats: 5, range: 500 km, fuel: 90%")).toContain("wagon: { seats: 5, range: 500 km }");
    expect(await wagonOf("seats: 5, fuel: 90%")).toContain("wagon: { seats: 5, fuel: 90% }");
    expect(await wagonOf("seats: 5")).toContain("wagon: { seats: 5 }");
  });
});

describe("at a terminal", () => {
  const asked = async (answers: readonly string[], text = TODAY) => {
    const done = await ran(["next", "today.yaml"], { files: { "today.yaml": text }, stdinIsTty: true, answers });
    return { ...done, text: done.files.get(NAME) ?? "" };
  };

  it("asks for the bed and the hits, and for a road that they need", async () => {
    const words = ["--bed", "inn", "--hit", "noon 12:00 dock 4 min"];
    const flags = await next([...words, "--drive", "lodge dock 20 min", "--drive", "dock inn 30 min 45 min"]);
    // The second road is asked for as soon as the first is there.
    const answers = ["inn", "noon 12:00 dock 4 min", "", "lodge dock 20 min", "dock inn 30 min 45 min"];
    const { code, err, text } = await asked(answers);
    expect([code, text]).toEqual([0, flags.text]);
    expect(err).toContain("no road from lodge to dock is stated");
  });

  it("with nothing answered is what next writes without asking", async () => {
    expect((await asked([])).text).toBe((await next()).text);
  });

  it("tells a hit that is mistaken, and asks on", async () => {
    const { err, text } = await asked(["", "dawn 25:00 pier 3 min", "dawn at seven", "dawn 07:00 pier 3 min", ""]);
    expect(err).toContain("`25:00` is not a time");
    expect(err).toContain("`dawn at seven` does not say when, where and how long");
    expect(text).toContain('hits:\n  dawn: { at: "07:00", for: 3 min, place: pier }\n');
  });

  it("`back` takes the last answer back, and the one before", async () => {
    const wrong = ["pier", "noon 12:00 dock 4 min", "back", "BACK"];
    const right = [
      "inn",
      "noon 12:00 dock 4 min",
      "",
      "lodge dock 20 min",
      "back",
      "lodge dock 25 min",
      "dock inn 30 min",
    ];
    const { code, err, text } = await asked([...wrong, ...right]);
    const drives = ["--drive", "lodge dock 25 min", "--drive", "dock inn 30 min"];
    expect([code, text]).toEqual([0, (await next(["--bed", "inn", "--hit", "noon 12:00 dock 4 min", ...drives])).text]);
    expect(err.match(/^taken back: .*$/gmu)?.slice(0, 2)).toEqual([
      "taken back: noon 12:00 dock 4 min",
      "taken back: pier",
    ]);
  });

  it("a hit that is answered twice is asked for again, and no other is lost", async () => {
    const { code, err, text } = await asked(["", "dawn 07:00 pier 3 min", "dawn 08:00 pier 3 min", ""]);
    expect([code, text]).toEqual([0, (await next(["--hit", "dawn 07:00 pier 3 min"])).text]);
    expect(err).toContain("error: `dawn` stands here a second time\n");
    const flags = await next(["--hit", "dawn 07:00 pier 3 min", "--hit", "dawn 08:00 pier 3 min"]);
    expect([flags.code, flags.files.size, flags.err.includes("2027-01-31.yaml:")]).toEqual([3, 1, true]);
  });

  it("what cannot be written is printed, and no answer is lost", async () => {
    const files = { "today.yaml": TODAY };
    const answers = ["", "dawn 07:00 pier 3 min", ""];
    const done = await ran(["next", "today.yaml"], { files, stdinIsTty: true, answers, unwritable: "2027-01-31.yaml" });
    expect([done.code, done.out]).toEqual([3, (await asked(answers)).text]);
    expect(done.err).toContain("cannot write `2027-01-31.yaml`");
  });

  it("ends with a plan that check reads where a road stays missing", async () => {
    const { code, err, text } = await asked(["", "noon 12:00 dock 4 min", "", ""]);
    expect(code).toBe(0);
    expect(err).toContain("written as comments until that is settled");
    expect(text).toContain("# to plan: noon 12:00 dock 4 min\n");
    expect(await checked(text)).toMatchObject({ ok: true, data: { errors: 0 } });
  });
});

it("prints with -o - what it would write beside today's file, with the files that this names", async () => {
  const files = {
    "week/today.yaml": TODAY.replace("rules:", "uses: crew.yaml\nrules:"),
    "week/crew.yaml": "crew: {}\n",
  };
  const { code, out } = await ran(["next", "week/today.yaml", "--hit", "dawn 07:00 pier 3 min", "-o", "-"], { files });
  expect([code, out.includes("\nfollows: week/today.yaml\n") || out.includes("\nfollows: today.yaml\n")]).toEqual([
    0,
    true,
  ]);
});

describe("what is of one day", () => {
  it("goes, what is out of service for good stays with its moment, and beds of nights to come keep their dates", async () => {
    const today = TODAY.replace("slept: lodge }", 'slept: lodge, up: "03:00", away: "20:00" }')
      .replace("wagon: {}", 'wagon: { broken: "19:00" }\n  van: { broken: { from: "06:00", to: "07:00" } }')
      .replace("[46.60, -90.88] }", "[46.60, -90.88], rooms: [{ who: wren, nights: 2 }, { who: ilse }] }");
    const { text } = await next([], today);
    expect(text).toContain("wren: { role: camera, drives: wagon }");
    expect(text).toContain('wagon: { broken: "2027-01-30T19:00-05:00" }\n  van: {}');
    expect(text).toContain("rooms: [{ who: [wren], nights: [2027-01-31] }] }");
    expect(await checked(text)).toMatchObject({ ok: true });
  });

  it("is what gear was used for that day by name, but not what is used in every hit, nor in a hit that comes again", async () => {
    const today = TODAY.replace(
      "packs:",
      `kit:
  camera: { in: wagon, watts: 38, mount: wedge, during: [hits, notes] }   # the old one
  lamp: { in: wagon, watts: 20, mount: wedge, during: dawn }
packs:`,
    );
    const { text, code } = await next([], today);
    expect(code).toBe(0);
    expect(text).toContain("camera: { in: wagon, watts: 38, mount: wedge, during: [hits] }   # the old one\n");
    expect(text).toContain("lamp: { in: wagon, watts: 20, mount: wedge }\n");
    expect(await checked(text)).toMatchObject({ ok: true });
    const again = await next(["--hit", "dawn 06:00 pier 3 min"], today);
    expect(again.text).toContain("lamp: { in: wagon, watts: 20, mount: wedge, during: dawn }\n");
  });
});

it("leaves out what vehicles do in a file that the days share, where nothing yet says when", async () => {
  const both = { "shared.yaml": "daywright: 1\nruns: { wagon: [lodge, pier, lodge] }\n" };
  const today = TODAY.replace("daywright: 1\n", "daywright: 1\nuses: shared.yaml\n").replace(
    "runs:\n  wagon: [lodge, pier, lodge]\n",
    "",
  );
  const made = await ran(["next", "today.yaml"], { files: { ...both, "today.yaml": today } });
  expect([made.code, made.err]).toEqual([0, "wrote 2027-01-31.yaml\n"]);
  const text = made.files.get(NAME) ?? "";
  expect(text).toMatch(/^hits: \{\}$/mu);
  expect(text).toMatch(/^runs: \{ wagon: off \}$/mu);
  const hits = await ran(["next", "today.yaml", "--hit", "dawn 06:00 pier 3 min"], {
    files: { ...both, "today.yaml": today },
  });
  expect(hits.files.get(NAME)).not.toContain("off");
});

describe("next refuses", () => {
  it("to replace a file, unless --force", async () => {
    const files = { "today.yaml": TODAY, "2027-01-31.yaml": "mine\n" };
    const kept = await ran(["next", "today.yaml"], { files });
    expect([kept.code, kept.files.get(NAME)]).toEqual([2, "mine\n"]);
    expect(kept.err).toContain("error: there is already a file `2027-01-31.yaml`\ntry: --force replaces it\n");
    const forced = await ran(["next", "today.yaml", "--force"], { files });
    expect([forced.code, forced.files.get(NAME)?.startsWith("# Tomorrow")]).toEqual([0, true]);
  });

  it("a plan with errors of its own, a missing file, standard input, and an unclear hit", async () => {
    expect((await next([], TODAY.replace("crew:", "crwe:"))).code).toBe(3);
    expect((await ran(["next", "none.yaml"])).code).toBe(3);
    expect((await ran(["next", "-"], { stdin: TODAY })).code).toBe(2);
    const unclear = await next(["--hit", "noon at the dock"]);
    expect([unclear.code, unclear.files.size]).toEqual([2, 1]);
  });

  it("a hit where no road leads", async () => {
    const { code, err, files } = await next(["--hit", "noon 12:00 harbour 4 min"]);
    expect([code, files.size]).toEqual([3, 1]);
    expect(err).toContain("no road from lodge to harbour is stated");
  });
});
