/** Log files through the command: mistakes at their lines, `fill`, `before`, `--at`, and what a limit to the minute does. */
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";

const log = (people: string, head = "") =>
  `log: 1\nzone: America/Chicago\nrules: us-property\n${head}people:\n  tomas:\n${people}`;
const REST = "    - { from: 2027-01-19T20:00, to: 2027-01-20T06:00, is: off }\n";

async function hours(text: string, ...more: string[]) {
  const { code, out } = await ran(["hours", "hours.yaml", "--json", ...more], { files: { "hours.yaml": text } });
  const answer = JSON.parse(out);
  return { code, answer, person: answer.data?.people[0], found: answer.findings };
}

describe("a moment that the log does not reach", () => {
  const spans = `${REST}    - { from: 2027-01-20T06:00, to: 2027-01-20T14:01, is: driving }\n`;
  const outside = async (at: string) => {
    const { code, person, found } = await hours(log(spans), "--at", at);
    const told = found.filter((one: { code: string }) => one.code === "moment-outside-log");
    return { code, person, message: told[0]?.message ?? null, count: told.length };
  };

  it("behind its end: it is judged there, and that is said", async () => {
    const { code, person, message, count } = await outside("2027-01-20T14:02");
    expect(count).toBe(1);
    expect(message).toMatch(/ends at .*14:01 and is judged there, not at .*14:02/);
    expect(person.drivingMinutes).toBe(481);
    expect(code).toBe(1);
    expect((await outside("2027-01-20T14:01")).count).toBe(0);
  });

  it("at or before its start: nothing can be judged, which is wrong usage that names its first instant", async () => {
    const { code, out, err } = await ran(["hours", "hours.yaml", "--at", "2027-01-19T20:00"], {
      files: { "hours.yaml": log(spans) },
    });
    expect([code, out]).toEqual([2, ""]);
    expect(err).toBe(
      "error: --at: the log begins at Tue 19 Jan 20:00, so nothing can be judged at Tue 19 Jan 20:00\n" +
        "try: --at with a time after 2027-01-19T20:00-06:00\n",
    );
    expect((await outside("2027-01-19T20:01")).message).toBeNull();
  });

  it("before the start of one person, inside another's: that one is not judged, and it is said", async () => {
    const late = `${log(spans)}  bea:\n    - { from: 2027-01-20T05:00, to: 2027-01-20T09:00, is: duty }\n`;
    const { code, answer, found } = await hours(late, "--at", "2027-01-20T05:00");
    const told = found.filter((one: { code: string }) => one.code === "moment-outside-log");
    expect(told.map((one: { who: string; message: string }) => [one.who, one.message])).toEqual([
      ["bea", expect.stringMatching(/begins at .*05:00, so nothing is judged/)],
    ]);
    expect(answer.data.people[1]).toMatchObject({ restBeforeMinutes: null, breaches: [], earliestNextCall: null });
    expect(code).toBe(0);
    // Asked for alone, nothing is left to judge.
    expect(
      (
        await ran(["hours", "hours.yaml", "--at", "2027-01-20T05:00", "--for", "bea"], {
          files: { "hours.yaml": late },
        })
      ).code,
    ).toBe(2);
  });
});

describe("a log that is sound", () => {
  it("has every documented key, in order", async () => {
    const { code, person } = await hours(
      log(`${REST}    - { from: 2027-01-20T06:00, to: 2027-01-20T13:00, is: driving }\n`),
    );
    expect(code).toBe(0);
    expect(Object.keys(person)).toEqual([
      "id",
      "rules",
      "restBeforeMinutes",
      "restAtLeast",
      "restSoFarMinutes",
      "restNeededMinutes",
      "dutyMinutes",
      "drivingMinutes",
      "limits",
      "breaches",
      "drivingMustStopAt",
      "houseDrivingStopsAt",
      "earliestNextCall",
      "earliestNextDrive",
      "earliestDriveFromBerth",
    ]);
    expect(Object.keys(person.limits[0])).toEqual([
      "id",
      "clause",
      "allowedMinutes",
      "usedMinutes",
      "leftMinutes",
      "runsOutAt",
      "atLeast",
      "short",
      "extensionsLeft",
    ]);
    expect(person).toMatchObject({ restBeforeMinutes: 600, dutyMinutes: 420, drivingMinutes: 420, breaches: [] });
    expect(person.drivingMustStopAt).toBe("2027-01-20T14:00-06:00");
    expect(person.earliestNextCall).toBe("2027-01-20T23:00-06:00");
    expect(person.earliestNextDrive).toBe("2027-01-20T13:00-06:00");
  });

  it("eight hours at the wheel are lawful, a minute more is not", async () => {
    const driven = (to: string) =>
      hours(log(`${REST}    - { from: 2027-01-20T06:00, to: 2027-01-20T${to}, is: driving }\n`));
    expect((await driven("14:00")).code).toBe(0);
    const { code, person, found } = await driven("14:01");
    expect(code).toBe(1);
    expect(person.breaches).toEqual([
      {
        limit: "us-property.break",
        clause: "49 CFR 395.3(a)(3)(ii)",
        from: "2027-01-20T14:00-06:00",
        to: "2027-01-20T14:01-06:00",
        minutes: 1,
      },
    ]);
    expect(found[0]).toMatchObject({ code: "break-missed", who: "tomas", where: { line: 7 } });
  });

  it("takes what lies before it, in either form", async () => {
    const before = "{ dutyMinutes: 4140, releasedAt: 2027-01-19T20:00 }";
    const spans = "      - { from: 2027-01-20T06:00, to: 2027-01-20T08:00, is: driving }\n";
    const map = await hours(log(`    before: ${before}\n    spans:\n${spans}`));
    const list = await hours(log(`    - { before: ${before} }\n${spans.slice(2)}`));
    for (const { person } of [map, list]) {
      expect(person.restBeforeMinutes).toBe(600);
      expect(person.breaches).toMatchObject([{ limit: "us-property.week", from: "2027-01-20T07:00-06:00" }]);
    }
  });

  it("judges up to a moment", async () => {
    const text = log(`${REST}    - { from: 2027-01-20T06:00, to: 2027-01-20T15:00, is: driving }\n`);
    expect((await hours(text, "--at", "2027-01-20T14:00")).code).toBe(0);
    expect((await hours(text)).code).toBe(1);
  });
});

describe("a log that is not", () => {
  const cases: readonly (readonly [code: string, text: string, line: number])[] = [
    ["log-gap", log(`${REST}    - { from: 2027-01-20T06:01, to: 2027-01-20T08:00, is: duty }\n`), 7],
    ["log-overlap", log(`${REST}    - { from: 2027-01-20T05:59, to: 2027-01-20T08:00, is: duty }\n`), 7],
    ["log-backwards", log("    - { from: 2027-01-20T08:00, to: 2027-01-20T08:00, is: duty }\n"), 6],
    ["log-no-date", log("    - { from: 08:00, to: 2027-01-20T08:00, is: duty }\n"), 6],
    ["log-nobody", log("    []\n"), 5],
    ["word-unknown", log("    - { from: 2027-01-20T06:00, to: 2027-01-20T08:00, is: dutty }\n"), 6],
    ["key-unknown", log(REST, "fil: off\n"), 4],
    ["zone-unknown", log(REST).replace("America/Chicago", "America/Chicgo"), 2],
    ["time-skipped", log("    - { from: 2027-03-14T02:30, to: 2027-03-14T08:00, is: duty }\n"), 6],
    ["version-unknown", log(REST).replace("log: 1", "log: 2"), 1],
  ];
  for (const [code, text, line] of cases) {
    it(code, async () => {
      const { code: exit, answer, found } = await hours(text);
      expect(exit).toBe(3);
      expect(answer.data).toBeNull();
      expect(found.map((one: { code: string }) => one.code)).toContain(code);
      expect(found.find((one: { code: string }) => one.code === code).where.line).toBe(line);
    });
  }

  it("`fill: off` says what a gap was", async () => {
    const text = log(`${REST}    - { from: 2027-01-20T06:30, to: 2027-01-20T08:00, is: duty }\n`, "fill: off\n");
    expect((await hours(text)).person.restBeforeMinutes).toBe(630);
  });
});

describe("flags on a log", () => {
  const spans = `${REST}    - { from: 2027-01-20T06:00, to: 2027-01-20T13:00, is: driving }\n`;
  const text = async (...more: string[]) =>
    ran(["hours", "hours.yaml", ...more], { files: { "hours.yaml": log(spans) } });

  it("--clock shows another zone, and leaves the JSON on the log's own clock", async () => {
    // 11 h at the wheel end at 17:00 in Chicago, the 8 h before a break at 14:00: midnight less 3 in Paris.
    expect((await text()).out).toMatch(/times on Chicago .*[\s\S]*Wed 20 14:00/);
    expect((await text("--clock", "Europe/Paris")).out).toMatch(/times on Paris .*[\s\S]*Wed 20 21:00/);
    expect((await text("--clock", "12")).out).toMatch(/Wed 20 2:00 pm/);
    expect((await hours(log(spans), "--clock", "Europe/Paris")).person.drivingMustStopAt).toBe(
      "2027-01-20T14:00-06:00",
    );
  });

  it("those that need a plan are refused, and so is somebody who is not in it", async () => {
    for (const [flags, said] of [
      [["--set", "rules=eu"], "--set is for a plan"],
      [["--now", "2027-01-20T10:00"], "--at TIME` judges a log"],
      [["--for", "thomas"], "--for tomas"],
    ] as const) {
      const { code, out, err } = await text(...flags);
      expect([code, out]).toEqual([2, ""]);
      expect(err).toContain(said);
    }
  });
});
