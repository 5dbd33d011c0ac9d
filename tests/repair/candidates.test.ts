/** Every edit of each kind on a day of two vehicles, listed by hand: which are tried, what they write, and which are not. */
import { describe, expect, it } from "vitest";
import type { Finding } from "../../src/findings/finding.ts";
import { candidatesFor } from "../../src/repair/candidates.ts";
import { driverCandidates, fetchCandidates, handCandidates, standInCandidates } from "../../src/repair/kinds/people.ts";
import {
  dropTaskCandidates,
  fuelCandidates,
  giveUpCandidates,
  kitCandidates,
  lodgingCandidates,
  packCandidates,
  pathCandidates,
  placeCandidates,
  slotCandidates,
} from "../../src/repair/kinds/things.ts";
import {
  leaveCandidates,
  mealCandidates,
  orderCandidates,
  stayCandidates,
  taskTimeCandidates,
} from "../../src/repair/kinds/times.ts";
import { finding } from "./finding.ts";
import { type Change, editsOf, type Make, made, posedWith } from "./twoRuns.ts";

const who = (id: string): Partial<Finding> => ({ who: id, code: "duty-too-long" });
const about = (facts: Finding["facts"]): Partial<Finding> => ({ facts });

describe("another driver", () => {
  it("takes each leg of whoever is tired, who drives on from the next stop", async () => {
    // Of the wagon's four stops the last goes nowhere, so nobody is named there.
    const wagon = [
      "runs.wagon.stops[0].driver=ilse; runs.wagon.stops[1].driver=wren",
      "runs.wagon.stops[1].driver=ilse; runs.wagon.stops[2].driver=wren",
      "runs.wagon.stops[2].driver=ilse",
    ];
    expect(await made(driverCandidates, [who("wren")])).toEqual(wagon);
    // Nobody is named: every leg on which somebody else may drive. Joe, with sam, may not.
    expect(await made(driverCandidates)).toEqual(wagon);
    expect(await made(driverCandidates, [who("ilse")])).toEqual([]);
    expect(await made(driverCandidates, [who("ilse"), who("wren")])).toEqual(wagon);
  });

  it("is nobody where the next stop names its own, and is awake", async () => {
    const asleep = await made(
      driverCandidates,
      [who("wren")],
      ['{ place: lodge, leave: "05:30" }', '{ place: lodge, leave: "05:30", asleep: [ilse] }'],
      ["do: [dawn, pictures, again] }", "do: [dawn, pictures, again], driver: wren }"],
    );
    expect(asleep).toEqual([
      "runs.wagon.stops[0].driver=ilse; runs.wagon.stops[0].asleep=[]",
      "runs.wagon.stops[1].driver=ilse; runs.wagon.stops[2].driver=wren",
      "runs.wagon.stops[2].driver=ilse",
    ]);
  });
});

describe("somebody else of the same role", () => {
  it("stands in if they have nothing to do", async () => {
    expect(await made(standInCandidates, [who("wren"), who("wren")])).toEqual([
      [
        ...["runs.wagon.driver=kim", "runs.wagon.aboard=[kim, ilse]", "hits.dawn.who=[kim, ilse]"],
        ...["hits.again.who=[kim, ilse]", "hits.noon.who=[kim, ilse]", "tasks.pictures.who=[kim, ilse]"],
        "tasks.lunch.who=[kim, ilse]",
      ].join("; "),
    ]);
    // Kim is no reporter, and nobody stands in for themselves.
    expect(await made(standInCandidates, [who("ilse"), who("kim")])).toEqual([]);
    expect(await made(standInCandidates)).toEqual([]);
  });

  it("stands in for somebody who only rides", async () => {
    const pat: Change = ["  kim: { role: camera }\n", "  kim: { role: camera }\n  pat: { role: camera }\n"];
    const aboard: Change = ["aboard: [sam, joe]", "aboard: [sam, joe, pat]"];
    expect(await made(standInCandidates, [who("pat")], pat, aboard)).toEqual(["runs.car.aboard=[sam, joe, kim]"]);
  });

  it("stands in wherever a stop names them", async () => {
    const [edits] = await made(
      standInCandidates,
      [who("sam")],
      [
        '{ place: lodge, leave: "09:00" }, dock,',
        '{ place: lodge, leave: "09:00", driver: sam, aboard: [sam, joe], asleep: [joe] }, { place: dock, driver: joe, aboard: [joe, sam], asleep: [sam] },',
      ],
      ["joe: { role: [reporter, sound] }", "joe: { role: [reporter, sound], drives: car }"],
    );
    expect(edits?.split("; ")).toEqual([
      ...["runs.car.driver=kim", "runs.car.aboard=[kim, joe]"],
      ...["runs.car.stops[0].driver=kim", "runs.car.stops[0].aboard=[kim, joe]"],
      ...["runs.car.stops[1].aboard=[joe, kim]", "runs.car.stops[1].asleep=[kim]"],
    ]);
  });

  it("takes over a hit or task, one at a time", async () => {
    const all = ["hits.dawn", "tasks.pictures", "hits.again", "tasks.lunch", "hits.noon"];
    const wren = all.flatMap((one) => [`${one}.who=[sam, ilse]`, `${one}.who=[kim, ilse]`]).sort();
    const ilse = all.map((one) => `${one}.who=[wren, joe]`);
    expect((await made(handCandidates, [who("wren")])).toSorted()).toEqual(wren);
    expect((await made(handCandidates, [who("ilse")])).toSorted()).toEqual(ilse.toSorted());
    expect((await made(handCandidates)).toSorted()).toEqual([...wren, ...ilse].sort());
    expect(await made(handCandidates, [who("sam")])).toEqual([]);
  });

  it("is fetched by the other vehicle, unless they drive", async () => {
    expect(await made(fetchCandidates, [who("ilse")])).toEqual([
      "runs.wagon.aboard=[wren]; runs.car.aboard=[sam, joe, ilse]",
    ]);
    expect(await made(fetchCandidates, [who("joe"), who("wren"), who("joe")])).toEqual([
      "runs.car.aboard=[sam]; runs.wagon.aboard=[wren, ilse, joe]",
    ]);
    expect(await made(fetchCandidates, [who("kim")])).toEqual([]);
  });
});

describe("what is carried", () => {
  it("goes in each other vehicle from the start", async () => {
    expect(await made(kitCandidates, [about({ item: "tripod" }), about({ item: "tripod" })])).toEqual([
      "kit.tripod.in=car",
    ]);
    expect(await made(kitCandidates, [about({ item: "desk" })])).toEqual(["chargers.desk.in=car"]);
    expect(await made(kitCandidates, [about({ item: "nothing" }), about({}), about({ item: 3 })])).toEqual([]);
  });

  it("is one to four full packs more, or one or two slots", async () => {
    expect(await made(packCandidates)).toEqual([3, 4, 5, 6].map((count) => `packs.brick.count=${count}`));
    const charged = (charge: string) =>
      made(packCandidates, [], ["packs: { brick: { count: 2,", `packs: { brick: { count: 2, charge: ${charge},`]);
    expect((await charged("40%")).slice(0, 2)).toEqual([
      "packs.brick.count=3; packs.brick.charge=[40%, 40%, 100%]",
      "packs.brick.count=4; packs.brick.charge=[40%, 40%, 100%, 100%]",
    ]);
    expect((await charged("[12.5%, 100%]"))[0]).toBe("packs.brick.count=3; packs.brick.charge=[12.5%, 100%, 100%]");
    expect(await made(slotCandidates)).toEqual(["chargers.desk.slots=3", "chargers.desk.slots=4"]);
  });

  it("is fuel at each stop of a vehicle that runs short, put in by whoever drives on", async () => {
    const fill = (place: string, more = ", who: [wren]") =>
      `tasks.fuel-${place}={ kind: fuel, place: ${place}, for: 15 min${more} }`;
    expect(await made(fuelCandidates, [about({ vehicle: "wagon" }), about({ vehicle: 1 })])).toEqual([
      `${fill("lodge")}; runs.wagon.stops[0].do=[fuel-lodge]`,
      `${fill("pier")}; runs.wagon.stops[1].do=[dawn, pictures, again, fuel-pier]`,
      `${fill("dock")}; runs.wagon.stops[2].do=[lunch, noon, fuel-dock]`,
      `${fill("lodge", "")}; runs.wagon.stops[3]={ place: lodge, do: [fuel-lodge] }`,
    ]);
    expect((await made(fuelCandidates, [about({ vehicle: "car" })])).length).toBe(3);
    expect(await made(fuelCandidates, [about({ vehicle: "boat" })])).toEqual([]);
  });

  it("is named for the fuel and the place as long as an id may be: 5 letters and 32", async () => {
    const named = async (length: number) => {
      const name = "d".repeat(length);
      const [first] = await made(
        fuelCandidates,
        [about({ vehicle: "car" })],
        ["  dock: {}\n", `  dock: {}\n  ${name}: {}\n`],
        [
          "  - { link: [dock, inn]",
          `  - { link: [lodge, ${name}], drive: 9 min, bad: 9 min, km: 9 }\n  - { link: [dock, ${name}], drive: 9 min, bad: 9 min, km: 9 }\n  - { link: [dock, inn]`,
        ],
        ['{ place: lodge, leave: "09:00" }, dock,', `{ place: ${name}, leave: "09:00" }, dock,`],
      );
      return first?.split("=")[0];
    };
    expect(await named(32)).toBe(`tasks.fuel-${"d".repeat(32)}`);
    expect(await named(33)).toBe("tasks.fuel");
  });
});

describe("another path", () => {
  it("is the spare, which the first takes the place of, then each other one", async () => {
    const dawn = ["hits.dawn.path=dish; hits.dawn.spare=cell", "hits.dawn.path=sat"];
    expect(await made(pathCandidates, [{ path: ["hits", "dawn"] }])).toEqual(dawn);
    expect(await made(pathCandidates, [{ path: ["hits", "dawn"] }, about({ hit: "again", load: "camera" })])).toEqual([
      ...[...dawn, "hits.again.path=cell", "hits.again.path=sat"],
    ]);
    expect(await made(pathCandidates, [about({ minutes: 3 }), { path: ["crew", "wren"] }])).toEqual([]);
  });
});

describe("another place", () => {
  const move = (to: string) =>
    ["hits.dawn.place", "hits.again.place", "tasks.pictures.place", "runs.wagon.stops[1].place"]
      .map((key) => `${key}=${to}`)
      .join("; ");

  it("is within two kilometres by road, for all that is done there", async () => {
    expect(await made(placeCandidates, [about({ hit: "dawn" }), about({ hit: "again" })])).toEqual([move("quay")]);
    expect(await made(placeCandidates, [about({ hit: "noon" })])).toEqual([]);
    const far: Change = [
      "{ link: [pier, quay], drive: 3 min, bad: 3 min, km: 2 }",
      "{ link: [pier, quay], drive: 3 min, bad: 3 min, km: 2.1 }",
    ];
    expect(await made(placeCandidates, [about({ hit: "dawn" })], far)).toEqual([]);
  });

  it("is within two kilometres as the crow flies if no road is stated", async () => {
    // A degree is 111.2 km north, and 111.2 · cos 45° = 78.6 km east: 0.0179° and 0.0180° are 1.99 and 2.002 km; 0.0254° and
    // 0.0255° are 1.997 and 2.005 km.
    const near = async (north: number, east: number) => {
      const changes: Change[] = [
        ["  pier: {}", "  pier: { at: [45, -93] }"],
        ["  quay: {}", `  quay: { at: [${45 + north}, ${-93 + east}] }`],
        ["  - { link: [pier, quay], drive: 3 min, bad: 3 min, km: 2 }\n", ""],
      ];
      return (await made(placeCandidates, [about({ hit: "dawn" })], ...changes)).length;
    };
    expect([await near(0.0179, 0), await near(0.018, 0), await near(-0.0179, 0), await near(-0.018, 0)]).toEqual([
      1, 0, 1, 0,
    ]);
    expect([await near(0, 0.0254), await near(0, 0.0256), await near(0, -0.0254), await near(0, -0.0256)]).toEqual([
      1, 0, 1, 0,
    ]);
    // 1.557 km north with 1.179 or 1.337 km east: 1.95 and 2.05 km.
    expect([await near(0.014, 0.015), await near(0.014, 0.017)]).toEqual([1, 0]);
  });

  it("is another lodging for a run that ends at one", async () => {
    expect(await made(lodgingCandidates)).toEqual(["runs.wagon.stops[3]=inn", "runs.car.stops[2]=lodge"]);
    const mapped = await made(lodgingCandidates, [], ["dock, inn] }", "dock, { place: inn }] }"]);
    expect(mapped[1]).toBe("runs.car.stops[2].place=lodge");
    expect(await made(lodgingCandidates, [], ["  inn: { kind: lodging }", "  inn: {}"])).toEqual([]);
  });
});

describe("what is left out", () => {
  it("is each task, and each hit that the desk does not insist on, wherever it is named", async () => {
    expect(await made(dropTaskCandidates)).toEqual([
      "runs.wagon.stops[1].do=[dawn, again]; tasks.pictures=",
      "runs.wagon.stops[2].do=[noon]; tasks.lunch=",
    ]);
    const [again, noon] = await made(
      giveUpCandidates,
      [],
      ["pictures: { place: pier, for: 40 min,", "pictures: { place: pier, for: 40 min, before: again,"],
      ["during: hits", "during: [dawn, again]"],
    );
    expect(again).toBe(
      "runs.wagon.stops[1].do=[dawn, pictures]; tasks.pictures.before=[]; kit.camera.during=[dawn]; hits.again=",
    );
    expect(noon).toBe("runs.wagon.stops[2].do=[lunch]; hits.noon=");
  });
});

describe("what stands in another file", () => {
  const all = [
    finding({ who: "wren", facts: { hit: "dawn", vehicle: "wagon" } }),
    finding({ code: "meal-late", who: "wren", shortMinutes: 5 }),
    finding({ who: "ilse" }),
  ];
  const makers: readonly Make[] = [
    ...[driverCandidates, standInCandidates, handCandidates, fetchCandidates, fuelCandidates, pathCandidates],
    ...[placeCandidates, lodgingCandidates, dropTaskCandidates, giveUpCandidates, leaveCandidates, orderCandidates],
    ...[taskTimeCandidates, stayCandidates, mealCandidates],
  ];

  it("is not edited", async () => {
    const problem = await posedWith(all);
    const { now, text } = problem;
    expect(makers.map((make) => make(problem).length > 0)).toEqual(makers.map(() => true));
    // Nothing of the plan stands in the text of its own file.
    expect(makers.map((make) => make({ now, targets: all, text: "daywright: 1\n" }))).toEqual(makers.map(() => []));
    // One of several that would have to be edited stands elsewhere.
    const without = (part: string) => {
      expect(text).toContain(part);
      return { now, targets: all, text: text.replace(part, "") };
    };
    const lunch = "  lunch: { kind: meal, place: dock, for: 40 min, who: [wren, ilse] }\n";
    expect(standInCandidates(without(lunch))).toEqual([]);
    const pictures = "  pictures: { place: pier, for: 40 min, who: [wren, ilse] }\n";
    expect(placeCandidates(without(pictures))).toEqual([]);
    expect(dropTaskCandidates(without(pictures)).map(editsOf)[0]).toBe(
      "runs.wagon.stops[1].do=[dawn, again]; tasks.pictures=off",
    );
  });
});

describe("the edits against several findings", () => {
  it("are made once each, for every code that asks for them, in the order of the kinds", async () => {
    const targets = [
      finding({ code: "driving-too-long", who: "wren" }),
      finding({ code: "week-too-long", who: "wren" }),
      finding({ code: "hit-unpowered", facts: { hit: "noon" } }),
    ];
    const all = candidatesFor(await posedWith(targets));
    const codesOf = (text: string) => all.find((one) => editsOf(one) === text)?.codes;
    expect(codesOf("runs.wagon.stops[2].driver=ilse")).toEqual(["driving-too-long", "week-too-long"]);
    expect(codesOf("packs.brick.count=3")).toEqual(["hit-unpowered"]);
    // Both ask whether noon may be given up.
    expect(codesOf("runs.wagon.stops[2].do=[lunch]; hits.noon=")).toEqual([
      "driving-too-long",
      "week-too-long",
      "hit-unpowered",
    ]);
    const texts = all.map(editsOf);
    expect(new Set(texts).size).toBe(texts.length);
    const order = [
      "leave=",
      "driver=ilse",
      "driver=kim",
      "count=3",
      "slots=3",
      "stops[3]=inn",
      "tasks.lunch=",
      "hits.again=",
    ];
    const places = order.map((part) => texts.findIndex((text) => text.includes(part)));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(candidatesFor(await posedWith([finding({ code: "light-unknown" })]))).toEqual([]);
  });
});
