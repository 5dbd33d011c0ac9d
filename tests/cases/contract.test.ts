/** The cases of `fixtures/cases/contract`, and others of their kind: how a mistaken or unusual text is read. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readOnePlan } from "../../src/plan/index.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import { ran } from "../cli/fakeIo.ts";
import { smallest } from "../plan/plans.ts";

const text = (path: string): string => readFileSync(new URL(`../../fixtures/cases/${path}`, import.meta.url), "utf8");

/** Line, code and hint of each finding of a plan's text. */
async function mistakes(plan: string): Promise<readonly (readonly [number | undefined, string, string | null])[]> {
  const { findings } = await readOnePlan(plan, { file: "day.yaml" });
  return findings.map((one) => [one.span?.line, one.code, one.hint(plainWording)]);
}

describe("a list mark without its space is one mistake, at the mark", () => {
  test("in the first item", async () => {
    expect(await mistakes(text("contract/first.yaml"))).toEqual([[19, "yaml-no-space-after-dash", "- lodge"]]);
  });

  test("before an item that is a map", async () => {
    expect(await mistakes(text("contract/cascade.yaml"))).toEqual([[19, "yaml-no-space-after-dash", "- lodge"]]);
  });

  test("in the middle, twice, and other mistakes are found beside it at their own places", async () => {
    const plan = text("contract/first.yaml")
      .replace("-lodge\n      - pier", "- lodge\n      -pier")
      .replace("- lodge\nweather", "-{ place: lodge }\nweather")
      .replace("role: camera", "roll: camera");
    expect(await mistakes(plan)).toEqual([
      [6, "key-unknown", "`role`"],
      [20, "yaml-no-space-after-dash", "- pier"],
      [21, "yaml-no-space-after-dash", "- { place: lodge }"],
    ]);
  });

  test("but a negative number is none, nor a dash in text", async () => {
    const plan = smallest.replace("[46.81, -90.82]", "\n    - 46.81\n    - -90.82").replace("{ at: \n", "\n    at:\n");
    expect(await mistakes(smallest.replace("title:", "title:"))).toEqual([]);
    expect(plan).toContain("- -90.82");
    expect(await mistakes(`${smallest}title: "a\n  -b\n  - c"\n`)).toEqual([]);
  });
});

describe("another sign in place of a list's hyphen is one mistake, at the sign", () => {
  // Line 16 is `    stops:`, 17 to 19 are its items.
  const list = (items: readonly string[]): string =>
    smallest.replace(/runs:\n.*\n/, `runs:\n  wagon:\n    stops:\n${items.map((item) => `      ${item}\n`).join("")}`);
  const at = smallest.split("\n").findIndex((line) => line.startsWith("runs:")) + 4;

  test.each(["*", "+", "•", "·", "–", "—", "1.", "2)"])("%s", async (mark) => {
    const odd = [at + 1, "yaml-odd-sign", "type the hyphen of a list"];
    expect(await mistakes(list(["- lodge", `${mark} pier`, "- lodge"]))).toEqual([odd]);
    expect(await mistakes(list(["- lodge", `${mark} { place: pier }`, "- lodge"]))).toEqual([odd]);
    // Before every item it is one habit, reported once.
    const all = ["lodge", "pier", "lodge"].map((item) => `${mark} ${item}`);
    if (!/\d/.test(mark))
      expect(await mistakes(list(all))).toEqual([[at, "yaml-odd-sign", "type the hyphen of a list; 2 more like it"]]);
  });

  test("numbers before all items are three marks", async () => {
    const found = await mistakes(list(["1. lodge", "2. pier", "3. lodge"]));
    expect(found.map(([line, code]) => [line, code])).toEqual(
      [at, at + 1, at + 2].map((line) => [line, "yaml-odd-sign"]),
    );
  });

  test("but what stands in somebody's notes is theirs", async () => {
    const notes = "title: |\n  * rope\n  1. boots\n  -tape\n";
    expect(await mistakes(`${smallest}${notes}`)).toEqual([]);
    expect(
      (await mistakes(`${smallest}${notes}`.replace("lodge, pier, lodge]", "lodge, pier, lodge"))).map(
        ([, code]) => code,
      ),
    ).not.toContain("yaml-odd-sign");
  });
});

describe("a merge conflict", () => {
  test("is told by its name at its first mark, and nothing else", async () => {
    expect((await mistakes(text("contract/conflict.yaml"))).map(([line, code]) => [line, code])).toEqual([
      [16, "yaml-conflict"],
    ]);
  });

  test("each, where there are two, and with the base between", async () => {
    const block = '<<<<<<< HEAD\ntitle: "a"\n||||||| base\n=======\ntitle: "b"\n>>>>>>> desk\n';
    const plan = `${block}${smallest}${block.replaceAll("title", "revision")}`;
    const lines = smallest.split("\n").length - 1;
    expect((await mistakes(plan)).map(([line, code]) => [line, code])).toEqual([
      [1, "yaml-conflict"],
      [7 + lines, "yaml-conflict"],
    ]);
  });

  test("with Windows line ends, and a mark alone", async () => {
    expect((await mistakes(text("contract/conflict.yaml").replaceAll("\n", "\r\n"))).map(([line]) => line)).toEqual([
      16,
    ]);
    expect((await mistakes(`${smallest}=======\n`)).map(([, code]) => code)).toEqual(["yaml-conflict"]);
    expect(await mistakes(`${smallest}title: "======="\n`)).toEqual([]);
  });
});

describe("a file whose lines end in a carriage return alone", () => {
  const hint = "save the file with the line ends of Unix or Windows";

  test("is told once, at its first line, whatever its lines hold", async () => {
    const told = [[1, "control-character", hint]];
    expect(await mistakes(smallest.replaceAll("\n", "\r"))).toEqual(told);
    expect(await mistakes(text("contract/tokyo.yaml").replaceAll("\n", "\r"))).toEqual(told);
    // A comment in the first line would take all the others as its own.
    expect(await mistakes(`# wren's day\r${smallest.replaceAll("\n", "\r")}`)).toEqual(told);
  });

  test("or one of whose lines does, at that line", async () => {
    const mixed = smallest.replace("  ilse: { role: reporter }\n", "  ilse: { role: reporter }\r");
    expect(await mistakes(mixed)).toEqual([[7, "control-character", hint]]);
  });

  test("but not one with the line ends of Windows", async () => {
    expect(await mistakes(smallest.replaceAll("\n", "\r\n"))).toEqual([]);
  });
});

describe("a mistake of the history", () => {
  test("hours of sleep in one text are offered as a list of pairs", async () => {
    const plan = smallest.replace("{ role: reporter }", "{ role: reporter, inBed: 01:00-08:30 }");
    expect((await mistakes(plan)).map(([, code, hint]) => [code, hint])).toEqual([
      ["value-kind", '`[["01:00", "08:30"]]`'],
    ]);
  });

  test("all people at once", async () => {
    const plan = `${smallest}history: { all: { released: "19:00 -1d" } }\n`;
    expect((await mistakes(plan)).map(([, code, hint]) => [code, hint])).toEqual([
      ["id-unknown", "one entry for each person"],
    ]);
  });
});

describe("coordinates", () => {
  test("with a comma for the point are offered with the point", async () => {
    const plan = smallest.replace("[46.81, -90.82]", '["46,81", "-90,82"]');
    expect((await mistakes(plan)).map(([, code, hint]) => [code, hint])).toEqual([
      ["value-bad", "46.81"],
      ["value-bad", "-90.82"],
    ]);
  });

  test.each(['"46,81; -90,82"', '"46,81 -90,82"', "46,81; -90,82", '"46,81 / -90,82"'])(
    "as %s are offered as a list",
    async (written) => {
      const plan = smallest.replace("[46.81, -90.82]", written);
      expect((await mistakes(plan)).map(([, , hint]) => hint)).toEqual(["`[46.81, -90.82]`"]);
    },
  );

  const at = async (written: string): Promise<unknown> => {
    const { plan, findings } = await readOnePlan(smallest.replace("[46.81, -90.82]", written), { file: null });
    return plan?.places.get("pier")?.at ?? findings.map((one) => [one.code, one.hint(plainWording)]);
  };

  test("with as many decimals as a spreadsheet gives", async () => {
    const { plan } = await readOnePlan(text("world/coords.yaml"), { file: null });
    expect(plan?.places.get("b")?.at).toEqual({ latitude: 46.81000000000001, longitude: -90.81999999999999 });
  });

  // 26/60 + 46/3600 = 0.446111…; 58/60 + 56/3600 = 0.982222…; 48.6/60 = 0.81; 49.2/60 = 0.82
  test.each([
    [`[40°26'46"N, 79°58'56"W]`, 40.446111111, -79.982222222],
    ["[40° 26′ 46″ N, 79° 58′ 56″ W]", 40.446111111, -79.982222222],
    [`["40 26 46 N", "79 58 56 W"]`, 40.446111111, -79.982222222],
    [`["N40°26'46", "W79°58'56"]`, 40.446111111, -79.982222222],
    ["[40d26m46sS, 79d58m56sE]", -40.446111111, 79.982222222],
    [`["46°48.6'N", "90°49.2'W"]`, 46.81, -90.82],
    [`["46 48.6", "-90 49.2"]`, 46.81, -90.82],
    [`["-0°30'", "0°30'W"]`, -0.5, -0.5],
  ])("%s", async (written, latitude, longitude) => {
    expect(await at(written)).toEqual({ latitude, longitude });
  });

  test("of the case are read", async () => {
    const { plan } = await readOnePlan(text("contract/dms.yaml"), { file: null });
    expect(plan?.places.get("lodge")?.at).toEqual({ latitude: 40.446111111, longitude: -79.982222222 });
  });

  test.each([
    [`[79°58'56"W, 40°26'46"N]`, [["coordinates-swapped", `[40°26'46"N, 79°58'56"W]`]]],
    // Of 46°75' the minutes are wrong, or the sign: 46.75 is another place, so nothing is offered.
    [`[46°75'N, 90°49'W]`, [["range-wrong", "check the digits and the unit"]]],
    [`[46°48'N, -90°49'W]`, [["value-bad", null]]],
    [`[96°48'N, 90°49'W]`, [["range-wrong", "check the digits and the unit"]]],
    [
      "[north, west]",
      [
        ["value-bad", null],
        ["value-bad", null],
      ],
    ],
    [
      "[46.81N, 90.82W]",
      [
        ["value-bad", "46.81"],
        ["value-bad", "-90.82"],
      ],
    ],
  ])("%s is told, with a cure that is made of what was typed or with none", async (written, told) => {
    expect(await at(written)).toEqual(told);
  });
});

describe("a pair of coordinates in one text", () => {
  // The same figures as above; 46°48.6' and 46°48'36" are 46.81, 90°49.2' and 90°49'12" are 90.82.
  test.each([
    [`40°26'46"N 79°58'56"W`, "[40.44611, -79.98222]"],
    [`N 40° 26' 46" W 79° 58' 56"`, "[40.44611, -79.98222]"],
    ["40 26 46 -79 58 56", "[40.44611, -79.98222]"],
    ["40 26 46 N 79 58 56 W", "[40.44611, -79.98222]"],
    [`46°48.6'N, 90°49.2'W`, "[46.81, -90.82]"],
    [`46°48'36"N90°49'12"W`, "[46.81, -90.82]"],
    [`90°49'12"W 46°48'36"N`, "[46.81, -90.82]"],
    ["geo:46.81,-90.82", "[46.81, -90.82]"],
    ["(46.81/-90.82)", "[46.81, -90.82]"],
    ["N46.81 W90.82", "[46.81, -90.82]"],
    [`46°75'N, 90°49'W`, null],
    ["46.81", null],
    ["lodge", null],
  ])("%s is refused, with the pair as it is written in a plan, or with no cure", async (written, near) => {
    const quoted = `'${written.replaceAll("'", "''")}'`;
    const told = await mistakes(smallest.replace("[46.81, -90.82]", quoted));
    expect(told.map(([, code, hint]) => [code, hint])).toEqual([["value-kind", near === null ? null : `\`${near}\``]]);
  });
});

describe("what is offered instead", () => {
  test("keys of an entry on one line get braces, text gets quotes", async () => {
    expect(await mistakes(text("contract/nobr.yaml"))).toEqual([[7, "yaml-colon-in-text", "ilse: { role: reporter }"]]);
    expect((await mistakes(`${smallest}title: ore freighter: day 2\n`))[0]?.[2]).toBe('title: "ore freighter: day 2"');
  });

  test("a spoken clock is its zone, never the label of another", async () => {
    expect(await mistakes(text("contract/pt.yaml"))).toEqual([[16, "zone-unknown", "07:00 America/Los_Angeles"]]);
    const labels = "labels: { ET: America/New_York, CT: America/Chicago }\n";
    const hint = async (said: string): Promise<string | null | undefined> =>
      (await mistakes(labels + smallest.replace('"07:00"', `"07:00 ${said}"`)))[0]?.[2];
    expect(await Promise.all(["PT", "MT", "PST", "EST", "ct"].map(hint))).toEqual([
      "07:00 America/Los_Angeles",
      "07:00 America/Denver",
      "07:00 America/Los_Angeles",
      "07:00 ET",
      "07:00 CT",
    ]);
  });

  test("tomorrow is a day, not a city", async () => {
    expect(await mistakes(text("contract/tom.yaml"))).toEqual([[16, "time-bad", '"12:00 +1d"']]);
    const hint = async (said: string): Promise<string | null | undefined> =>
      (await mistakes(smallest.replace('"07:00"', `"${said}"`)))[0]?.[2];
    expect(await Promise.all(["07:00 yesterday", "noon tomorrow", "07:00 Today", "7 am tomorrow"].map(hint))).toEqual([
      '"07:00 -1d"',
      '"12:00 +1d"',
      '"07:00"',
      '"07:00 +1d"',
    ]);
  });
});

describe("a wrong zone", () => {
  const doubts = async (plan: string): Promise<unknown> => (await mistakes(plan)).map(([line, code]) => [line, code]);

  test("of the plan is told once, at the zone", async () => {
    expect(await doubts(text("contract/tokyo.yaml"))).toEqual([[4, "zone-doubtful"]]);
  });

  // CET is UTC+1 in January, so noon stands over 15° east; Wisconsin's 90.9° west is 106° away.
  test("is told for names without a city as well, and UTC is none", async () => {
    for (const zone of ["CET", "EET", "Japan"])
      expect(await doubts(smallest.replace("zone: America/Chicago", `zone: ${zone}`))).toEqual([[4, "zone-doubtful"]]);
    for (const zone of ["UTC", "Etc/GMT-9", "GMT"])
      expect(await doubts(smallest.replace("zone: America/Chicago", `zone: ${zone}`))).toEqual([]);
  });

  test("is told once where each of two places states it, at the first, and apart from a sound zone", async () => {
    // Tokyo's noon stands over 135° east; Wisconsin is 134° away. The pier has Chicago's clock and is not doubted.
    const both = smallest
      .replace("-90.88]", "-90.88], zone: Asia/Tokyo")
      .replace("-90.82]", "-90.82], zone: Asia/Tokyo");
    const line = both.split("\n").findIndex((one) => one.includes("zone: Asia/Tokyo")) + 1;
    expect(await doubts(both)).toEqual([[line, "zone-doubtful"]]);
    const three = both.replace("places:", "places:\n  cove: { at: [46.70, -90.80], zone: Asia/Tokyo }");
    expect(await doubts(three)).toEqual([[line, "zone-doubtful"]]);
    const one = smallest.replace("-90.88]", "-90.88], zone: Asia/Tokyo");
    expect(await doubts(one)).toEqual([[line, "coordinates-doubtful"]]);
    const two = both.replace("places:", "places:\n  cove: { at: [46.70, -90.80] }");
    expect(await doubts(two)).toEqual([[line + 1, "zone-doubtful"]]);
  });

  test("that does not exist is reported once, however many places state it", async () => {
    // From memory of the tz database: EST and MST are zones without summer time there, CST is none.
    for (const [zone, near] of [
      ["EST", "America/New_York"],
      ["CST", "America/Chicago"],
      ["CEST", "Europe/Brussels"],
      ["AEST", "Australia/Sydney"],
      ["Amerika/Chicago", "America/Chicago"],
    ]) {
      const plan = smallest.replace("-90.88]", `-90.88], zone: ${zone}`).replace("-90.82]", `-90.82], zone: ${zone}`);
      expect((await mistakes(plan)).map(([, code, hint]) => [code, hint])).toEqual([
        ["zone-unknown", `${near}; 1 more like it`],
      ]);
    }
  });

  test("that three countries use is put down to none of them", async () => {
    const [[, code, hint] = []] = await mistakes(smallest.replace("-90.82]", "-90.82], zone: IST"));
    expect([code, hint]).toEqual(["zone-unknown", "a zone such as America/Chicago"]);
  });

  test("of one place is told at the place", async () => {
    const plan = smallest.replace("-90.82]", "-90.82], zone: Asia/Tokyo");
    expect((await mistakes(plan)).map(([, code]) => code)).toEqual(["coordinates-doubtful"]);
  });
});

describe("an offset", () => {
  // 20 July: New York is at UTC-04:00, Chicago at UTC-05:00; in January at -05:00 and -06:00.
  const told = async (date: string, at: string): Promise<unknown> =>
    (await mistakes(smallest.replace("2027-01-20", date).replace('"07:00"', at))).map(([, code, hint]) => [code, hint]);

  test("that no clock of the plan has then is told", async () => {
    expect(await told("2027-07-20", "2027-07-20T07:00-06:00")).toEqual([
      ["offset-doubtful", "use the offset of its clock: Chicago is at UTC-05:00"],
    ]);
    expect(await told("2027-01-20", '"07:00 UTC+01:00"')).toEqual([
      ["offset-doubtful", "use the offset of its clock: Chicago is at UTC-06:00"],
    ]);
  });

  test("is reported once, however many times have it; another one by itself", async () => {
    const history = (wren: string, ilse: string) =>
      `${smallest}history: { wren: { released: ${wren} }, ilse: { released: ${ilse} } }\n`;
    const two = await mistakes(history("2027-01-19T18:00-08:00", "2027-01-19T19:00-08:00"));
    expect(two.map(([, code, hint]) => [code, hint])).toEqual([
      ["offset-doubtful", "use the offset of its clock: Chicago is at UTC-06:00; 1 more like it"],
    ]);
    const both = await mistakes(history("2027-01-19T18:00-08:00", "2027-01-19T19:00-09:00"));
    expect(both.map(([, code]) => code)).toEqual(["offset-doubtful", "offset-doubtful"]);
  });

  test("of the desk, of a place, or UTC is as meant", async () => {
    for (const at of ["2027-07-20T07:00-05:00", "2027-07-20T07:00-04:00", "2027-07-20T11:00Z", '"11:00 UTC"'])
      expect(await told("2027-07-20", at)).toEqual([]);
  });
});

describe("a text that is no plan", () => {
  test.each([
    ["", "plan-empty"],
    ["# nothing yet\n", "plan-empty"],
    ["- a\n", "plan-not-map"],
    ["hits: [\n", "yaml-unclosed"],
  ])("%j ends with an edit as it ends without: exit 3", async (plan, code) => {
    for (const argv of [
      ["check", "-"],
      ["check", "-", "--set", "date=2027-01-21"],
      ["calls", "-", "--set", "a.b="],
    ]) {
      const { code: exit, err, out } = await ran(argv, { stdin: plan });
      expect([argv, exit]).toEqual([argv, 3]);
      expect(`${err}${out}`).toContain(`(${code})`);
    }
  });
});
