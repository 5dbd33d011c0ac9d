/** What follows from a log: the reasons that are given for instants, and vehicles whose only hit a fact makes impossible. */
import { describe, expect, it } from "vitest";
import { instant } from "../../src/time/units.ts";
import { lastDay, lastOf, linksOf } from "../agreement/days.ts";
import { plansOf } from "../agreement/fixtures.ts";
import { dayOfFile } from "../day/read.ts";
import { clock, clocks } from "./clock.ts";

const HEAD = `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
places: { lodge: { kind: lodging }, pier: {} }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 45 min }]
`;

/** Out for a hit at dawn, a stand-down at the lodge from 09:00 to 13:00, out again for a hit at 15:00. */
const TWICE = `${HEAD}crew: { wren: { drives: wagon, slept: lodge, sleeps: lodge } }
vehicles: { wagon: {} }
hits:
  dawn: { at: "07:00", for: 3 min, place: pier }
  noon: { at: "15:00", for: 3 min, place: pier }
tasks: { down: { kind: standdown, place: lodge, window: ["09:00", "13:00"] } }
runs:
  wagon:
    driver: wren
    aboard: [wren]
    stops: [lodge, { place: pier, do: [dawn] }, { place: lodge, do: [down] }, { place: pier, do: [noon] }, lodge]
`;

describe("the reason for", () => {
  const reason = async (actual: string, id: string) => {
    const why = (await dayOfFile("day.yaml", `${TWICE}${actual}`)).why(id);
    return [why?.fixedBy.by, why?.fixedBy.where, why?.terms.map(({ name, minutes }) => [name, minutes])];
  };

  it("a second call is the end of the stand-down: as planned from its start, as logged from the log", async () => {
    const planned = ["plan", ["tasks", "down", "window"], [["down", 240]]];
    expect(await reason("", "wren.call.2")).toEqual(planned);
    expect(await reason('actual: { down: { end: "12:30" } }', "wren.call.2")).toEqual([
      ...["log", ["actual", "down", "end"], []],
    ]);
    // One that began at 10:00 lasts to the end of its window all the same.
    expect(await reason('actual: { down: { at: "10:00" } }', "wren.call.2")).toEqual([
      ...["log", ["actual", "down", "at"], [["down", 180]]],
    ]);
  });

  it("the first release is the start of the stand-down", async () => {
    expect(await reason("", "wren.release.1")).toEqual(["plan", ["tasks", "down", "window"], []]);
    expect(await reason('actual: { down: { at: "10:00" } }', "wren.release.1")).toEqual([
      ...["log", ["actual", "down", "at"], []],
    ]);
  });

  it("what is logged is the log, for what follows from it the lengths between, for what was assumed the plan", async () => {
    const actual = 'actual: { dawn: { at: "07:02" }, wagon.2: { arrived: "06:00" } }';
    expect(await reason(actual, "dawn.start")).toEqual(["log", ["actual", "dawn", "at"], []]);
    expect(await reason(actual, "dawn.clear")).toEqual([
      ...["log", ["actual", "dawn", "at"]],
      [
        ["dawn", 3],
        ["clear", 10],
      ],
    ]);
    // Whoever arrived at 06:00 had left as planned: 07:00 - 10 - 10 - 30 - 5 - 45.
    expect(await reason(actual, "wagon.1.leave")).toEqual(["planned before", null, []]);
    expect(clocks(await dayOfFile("day.yaml", `${TWICE}${actual}`), "wagon.1.leave")).toEqual(["05:20"]);
  });
});

/** A car that leaves too late for the one hit that the wagon goes to. */
const TOO_LATE = (leave: string) => `${HEAD}crew:
  wren: { drives: wagon, slept: lodge, sleeps: lodge }
  ilse: { drives: car, slept: lodge, sleeps: lodge }
vehicles: { wagon: {}, car: {} }
hits: { dawn: { at: "07:00", for: 3 min, place: pier } }
runs:
  wagon: { driver: wren, aboard: [wren], stops: [lodge, { place: pier, do: [dawn] }, lodge] }
  car: { driver: ilse, aboard: [ilse], stops: [{ place: lodge, leave: "${leave}" }, { place: pier, do: [dawn] }, lodge] }
`;

describe("a vehicle whose only hit is missed because of another", () => {
  it("goes as if for that hit, and the plan is not refused", async () => {
    const day = await dayOfFile("day.yaml", TOO_LATE("06:30"));
    expect(day.activities.map(({ state }) => state)).toEqual(["missed"]);
    // 07:00 less 10 in position, 10 line check, 30 set-up, 5 to park is 06:05; no firm hit is left to hurry to: 30 of road.
    expect(clocks(day, "wagon.1.leave", "wagon.2.arrive", "car.1.leave")).toEqual(["05:35", "06:05", "06:30"]);
    // 06:30 + 45 + 5 + 30 + 10 + 10 is 08:10.
    expect(day.findings.map(({ code, shortMinutes }) => [code, shortMinutes])).toContainEqual(["hit-missed", 70]);
  });

  it("is as planned where the hit can be made", async () => {
    expect(clocks(await dayOfFile("day.yaml", TOO_LATE("05:20")), "wagon.1.leave", "dawn.start")).toEqual([
      "05:20",
      "07:00",
    ]);
  });
});

describe("a vehicle that left earlier than its work allows", () => {
  const dayOf = async (actual: string) => dayOfFile("day.yaml", `${TWICE}actual: ${actual}`);
  const notes = async (actual: string) =>
    (await dayOf(actual)).findings.flatMap(({ code, facts }) =>
      code === "logged-otherwise" ? [[facts["what"], facts["rule"]]] : [],
    );

  it("was packed faster: the hit before it stands as planned", async () => {
    // 07:03 + 10 clear + 20 strike is 07:33; it left at 07:20, and is at the lodge 30 minutes later.
    const day = await dayOf('{ wagon.2: { left: "07:20" } }');
    expect(clocks(day, "wagon.1.leave", "dawn.start", "dawn.end", "wagon.3.arrive")).toEqual([
      ...["05:20", "07:00", "07:03", "07:50"],
    ]);
    expect(day.activities.map(({ state }) => state)).not.toContain("missed");
  });

  it("cannot have been at a hit that it left before the end of", async () => {
    const day = await dayOf('{ wagon.2: { left: "07:02" } }');
    // 07:03 + 10 + 20 less 07:02 is 31.
    expect(day.findings.map(({ code, shortMinutes }) => [code, shortMinutes])).toContainEqual(["hit-missed", 31]);
  });

  it("was not there in time for a hit that is still to come: no length of that gives way", async () => {
    // 06:10 + 5 + 30 + 10 + 10 is 07:05.
    const day = await dayOf('{ wagon.2: { arrived: "06:10" } }');
    expect(day.findings.map(({ code, shortMinutes }) => [code, shortMinutes])).toContainEqual(["hit-missed", 5]);
  });

  it("was loaded faster after a stand-down, or the stand-down ended with it", async () => {
    const duties = async (actual: string) => {
      const day = await dayOf(actual);
      return day.people.flatMap((one) =>
        one.duties.map(({ call, release }) => [clock(day, call), clock(day, release)]),
      );
    };
    const [first, second] = [
      ["05:05", "09:00"],
      ["13:00", "16:13"],
    ];
    // Three minutes less to load than the 15 of the house.
    expect(await duties('{ wagon.3: { left: "13:12" } }')).toEqual([first, second]);
    expect(await duties('{ wagon.3: { left: "13:12" }, down: {} }')).toEqual([first, second]);
    expect(await duties('{ wagon.3: { left: "12:50" } }')).toEqual([first, ["12:50", "16:13"]]);
    expect(await notes('{ wagon.3: { left: "12:50" } }')).toEqual([["down", "window"]]);
    // Before the stand-down began it cannot have been.
    expect(await duties('{ wagon.3: { left: "08:50" } }')).toEqual([["05:05", "16:13"]]);
  });

  it("ended a hit whose end is not logged, and a note says so", async () => {
    const actual = '{ dawn: { at: "07:00" }, wagon.2: { left: "07:01" } }';
    expect(clocks(await dayOf(actual), "dawn.start", "dawn.end", "wagon.3.arrive")).toEqual([
      "07:00",
      "07:01",
      "07:31",
    ]);
    expect(await notes(actual)).toEqual([["dawn", "for"]]);
    await expect(dayOf('{ dawn: { at: "07:00" }, wagon.2: { left: "06:50" } }')).rejects.toThrow("went-backwards");
  });
});

describe("a call or a release that is logged on a day with a stand-down", () => {
  const duties = async (wren: string) => {
    const day = await dayOfFile("day.yaml", `${TWICE}actual: { wren: ${wren} }`);
    return day.people.flatMap((one) => one.duties.map(({ call, release }) => [clock(day, call), clock(day, release)]));
  };
  const planned = [
    ["05:05", "09:00"],
    ["13:00", "16:13"],
  ];

  it("changes nothing as planned, whichever of the two it is of", async () => {
    for (const wren of ['{ call: "05:05" }', '{ released: "09:00" }', '{ call: "13:00" }', '{ released: "16:13" }'])
      expect(await duties(wren), wren).toEqual(planned);
    expect(await duties('{ call: "13:00", released: "09:00" }')).toEqual(planned);
  });

  it("is that of the duty it lies at; the other is as planned", async () => {
    expect(await duties('{ released: "08:30" }')).toEqual([["05:05", "08:30"], planned[1]]);
    expect(await duties('{ released: "09:20" }')).toEqual([["05:05", "09:20"], planned[1]]);
    expect(await duties('{ call: "12:30" }')).toEqual([planned[0], ["12:30", "16:13"]]);
    expect(await duties('{ call: "13:10" }')).toEqual([planned[0], ["13:10", "16:13"]]);
    expect(await duties('{ released: "19:00" }')).toEqual([planned[0], ["13:00", "19:00"]]);
  });

  it("before the first call is a mistake", async () => {
    await expect(duties('{ released: "05:00" }')).rejects.toThrow("went-backwards");
  });
});

describe("somebody who was released before a ride of the plan", () => {
  const gone = async (released: string) => {
    const day = await dayOfFile("day.yaml", `${TWICE}actual: { wren: { released: "${released}" } }`);
    return day.findings.flatMap(({ code, facts }) =>
      code === "logged-otherwise" ? [[facts["what"], facts["other"]]] : [],
    );
  };

  it("is named, with the ride", async () => {
    // The wagon leaves the pier at 15:33.
    expect(await gone("15:20")).toEqual([["wren", "wagon.4"]]);
    expect(await gone("16:13")).toEqual([]);
  });
});

describe("an edit of a day under way", () => {
  /** The day of the edited plan, at a minute after midnight in Chicago. */
  const edited = async (text: string, minute: number) => {
    const [old, next] = await Promise.all([TWICE, text].map(async (one) => linksOf(await plansOf("day.yaml", one))));
    if (old === undefined || next === undefined) throw new Error("no plan");
    const now = instant(Date.parse("2027-01-20T06:00Z") / 60_000 + minute);
    const unedited = { plan: lastOf(old.plans), legs: lastOf(old.legs) };
    return lastDay(next, lastOf(next.plans), { now, unedited });
  };

  it("that takes the hit out changes nothing", async () => {
    const without = TWICE.replace(/ {2}dawn: .*\n/u, "").replace("do: [dawn]", "do: []");
    const day = await edited(without, 421);
    expect(clocks(day, "dawn.start", "wagon.2.leave", "noon.start")).toEqual(["07:00", "07:33", "15:00"]);
    expect(day.findings.map(({ code }) => code)).toContain("edit-of-past");
  });

  it("that moves a later hit too near says which instant stands", async () => {
    // At 13:20 the wagon is on the road: 14:00 + 5 + 30 + 10 + 10 is 14:55.
    const day = await edited(TWICE.replace("15:00", "14:40"), 800);
    const missed = day.findings.find(({ code }) => code === "hit-missed");
    expect([missed?.shortMinutes, missed?.facts["start"]]).toEqual([15, "wagon.4 arrive"]);
  });
});

/**
 * Both vehicles meet at the dock for noon at 11:29: in position 10, line check 10, set-up 30, park 5, so both arrive by 10:34. The
 * van's bad road is 104 min: it leaves at 08:50, loads for 15 min, wren is called at 08:35. The wagon leaves the pier 30 min
 * (clear, strike) after dawn's end, for 70 min: with dawn at 08:51 it comes at 10:37, and noon is missed.
 */
const MEETING = `daywright: 1
date: 2027-05-10
clock: America/Chicago
zone: America/Chicago
crew:
  wren: { drives: van, slept: lodge, sleeps: lodge }
  ilse: { drives: wagon, slept: lodge, sleeps: lodge }
vehicles: { van: {}, wagon: {} }
places: { lodge: { kind: lodging }, pier: {}, dock: {} }
roads:
  - { link: [lodge, pier], drive: 28 min, bad: 56 min }
  - { link: [lodge, dock], drive: 75 min, bad: 104 min }
  - { link: [pier, dock], drive: 41 min, bad: 70 min }
hits:
  dawn: { at: "08:47", for: 6 min, place: pier, who: [ilse] }
  noon: { at: "11:29", for: 2 min, place: dock }
tasks: { lunch: { kind: meal, place: dock, for: 38 min, who: [wren] } }
runs:
  van: { driver: wren, aboard: [wren], stops: [lodge, { place: dock, do: [noon, lunch] }, lodge] }
  wagon: { driver: ilse, aboard: [ilse], stops: [lodge, { place: pier, do: [dawn] }, { place: dock, do: [noon] }, lodge] }
`;

describe("a hit that went out late and makes another vehicle's hit impossible", () => {
  const vanOf = async (actual: string) => {
    const day = await dayOfFile("day.yaml", `${MEETING}${actual}`);
    const noon = day.activities.find(({ id }) => id === "noon");
    return [...clocks(day, "wren.call", "van.1.leave"), noon?.state];
  };

  it("leaves whoever loads by then called and gone as planned", async () => {
    expect(await vanOf("")).toEqual(["08:35", "08:50", "fixed"]);
    expect(await vanOf('actual: { dawn: { at: "08:51" } }')).toEqual(["08:35", "08:50", "missed"]);
  });
});

/** Dawn 07:00 to 07:03, cleared at 07:13; the wagon strikes for 20 minutes and leaves as planned at 07:33. */
const TWO_AT_DAWN = (stop: string, actual: string) => `${HEAD}crew:
  wren: { drives: wagon, slept: lodge, sleeps: lodge }
  ilse: { drives: car, slept: lodge, sleeps: lodge }
vehicles: { wagon: {}, car: {} }
hits: { dawn: { at: "07:00", for: 3 min, place: pier, who: [wren, ilse] } }
runs:
  wagon: { driver: wren, aboard: [wren], stops: [lodge, { place: pier, do: [dawn] }, lodge] }
  car: { driver: ilse, aboard: [ilse], stops: [lodge, ${stop}, lodge] }
actual: ${actual}
`;

describe("who is logged as leaving while a hit is being cleared", () => {
  it.each(["{ place: pier }", "{ place: pier, do: [dawn] }"])(
    "is gone, and the others clear and strike as planned: %s",
    async (stop) => {
      const day = await dayOfFile("day.yaml", TWO_AT_DAWN(stop, '{ car.2: { left: "07:05" } }'));
      expect(clocks(day, "dawn.clear", "wagon.2.leave", "car.2.leave", "car.3.arrive")).toEqual([
        ...["07:13", "07:33", "07:05", "07:35"],
      ]);
      const ilse = day.people.find(({ id }) => id === "ilse");
      const after = ilse?.spans
        .filter(({ from }) => clock(day, from) >= "07:03")
        .map(({ from, to, is }) => [clock(day, from), clock(day, to), is]);
      // Two minutes of clear, the drive of 30, ten of unloading.
      expect(after).toEqual([
        ["07:03", "07:05", "duty"],
        ["07:05", "07:35", "driving"],
        ["07:35", "07:45", "duty"],
      ]);
    },
  );

  it("cuts it short if nobody stays", async () => {
    const day = await dayOfFile(
      "day.yaml",
      TWICE.slice(0, TWICE.indexOf("tasks:")) +
        `runs:
  wagon: [lodge, { place: pier, do: [dawn, noon] }, lodge]
actual: { wagon.2: { left: "15:05" } }
`,
    );
    // 15:03 to 15:05 is all that is left of the clear; there was no time to strike.
    expect(clocks(day, "noon.clear", "wagon.2.leave")).toEqual(["15:05", "15:05"]);
  });
});

describe("an early arrival after a hit that nobody logged", () => {
  const state = async (arrived: string) => {
    const day = await dayOfFile("day.yaml", `${TWICE}actual: { wagon.3: { arrived: "${arrived}" } }\n`);
    return day.activities.find(({ id }) => id === "dawn")?.state;
  };

  it("leaves it as made as long as half of the drive of 30 minutes is left from its end at 07:03", async () => {
    expect([await state("07:40"), await state("07:25"), await state("07:18")]).toEqual(["fixed", "fixed", "fixed"]);
    expect(await state("07:17")).toBe("missed");
  });
});

describe("an early arrival between two hits", () => {
  const PLACES = HEAD.replace("pier: {} }", "pier: {}, cove: {} }").replace(
    "bad: 45 min }",
    "bad: 45 min }, { link: [pier, cove], drive: 16 min, bad: 23 min }, { link: [cove, lodge], drive: 27 min, bad: 40 min }",
  );
  const states = async (hits: string, more: string) => {
    const text = `${PLACES}crew: { wren: { drives: wagon, slept: lodge, sleeps: lodge } }
vehicles: { wagon: {} }
hits: { ${hits} }
runs:
  wagon:
    driver: wren
    aboard: [wren]
    stops: [lodge, { place: pier, do: [early] }, { place: cove, do: [late] }, lodge]
${more}
`;
    return (await dayOfFile("day.yaml", text)).activities.map(({ id, state }) => `${id} ${state}`);
  };
  const SNOW = 'weather: [{ from: "11:34", to: "12:11", road: snow, temp: -5 C }]';
  const arrived = (at: string): string => `actual: { wagon.3: { arrived: "${at}" } }`;

  it("costs none, though the drive to the next is in the snow now and its bad time would be too long", async () => {
    const hits =
      'early: { at: "11:38", for: 7 min, place: pier, firm: false }, late: { at: "13:35", for: 3 min, place: cove }';
    // 11:45, ten of clear, twenty of strike, 23 of drive after the snow, 55 to be in position: 13:33.
    expect(await states(hits, SNOW)).toEqual(["early fixed", "late fixed"]);
    // From 11:45 to 12:09 there are 24 of the 33 minutes in snow, at a likely 23; 12:09 and 55 are 13:04.
    expect(await states(hits, `${SNOW}\n${arrived("12:09")}`)).toEqual(["early fixed", "late fixed"]);
  });

  it("keeps the one before it, which the planned length of that drive would have cost", async () => {
    const hits = 'early: { at: "11:38", for: 7 min, place: pier }, late: { at: "13:10", for: 3 min, place: cove }';
    // Dry: 11:45, 30 of clear and strike, 23 of drive for a firm hit, 55: 13:33, 23 too late. As planned it arrives at 12:31.
    expect(await states(hits, "")).toEqual(["early fixed", "late missed"]);
    // What arrived as planned changes nothing.
    expect(await states(hits, arrived("12:31"))).toEqual(["early fixed", "late missed"]);
    // At 12:14 there are 56 minutes to 13:10; from 11:45 it took 29, of which the likely drive is 16.
    expect(await states(hits, arrived("12:14"))).toEqual(["early fixed", "late fixed"]);
    // A minute too late at 12:16.
    expect(await states(hits, arrived("12:16"))).toEqual(["early fixed", "late missed"]);
  });
});

describe("a meal logged earlier than planned, beside a hit that nobody logged", () => {
  // At 07:00 for 3 min; ten of clear and twenty of strike before the meal, which is planned at 07:33.
  const states = async (at: string) => {
    const text = TWICE.replace("tasks: {", "tasks: { food: { kind: meal, place: pier, for: 30 min, after: dawn },")
      .replace("do: [dawn]", "do: [dawn, food]")
      .replace('["09:00", "13:00"]', '["09:30", "13:00"]');
    const day = await dayOfFile("day.yaml", `${text}actual: { food: { at: "${at}" } }\n`);
    return day.activities.flatMap(({ id, state, start }) =>
      start === null ? [`${id} ${state}`] : id === "food" ? [`food ${clock(day, start)}`] : [],
    );
  };

  it("leaves the hit as made, which was cleared and struck faster", async () => {
    for (const at of ["07:33", "07:32", "07:15", "07:03"]) expect(await states(at)).toEqual([`food ${at}`]);
  });

  it("was before it where everybody comes earlier, in spite of both `do` and `after`", async () => {
    // Back at 06:40, when the line check begins.
    expect(await states("06:10")).toEqual(["food 06:10"]);
  });

  it("costs it where whoever makes it was at the meal", async () => {
    for (const at of ["07:02", "06:11"]) expect((await states(at)).toSorted()).toEqual(["dawn missed", `food ${at}`]);
  });
});
