/** What might end a shortage, as changes of the plan and of the model: packs more, slots, power shared, other hands. By hand. */
import { describe, expect, it } from "vitest";
import type { DayModel } from "../../src/power/day/build.ts";
import { assess } from "../../src/power/index.ts";
import { gearOffers, packGroups, packOffer } from "../../src/power/shortage/cures.ts";
import { daysOf } from "./plans.ts";
import { useOf } from "./small.ts";

const plan = (packs: string, chargers: string, kit = "", vehicles = "wagon: { inverter: 300 W }") => `
daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew: { wren: { drives: wagon }, ilse: {}, bo: {} }
vehicles: { ${vehicles} }
places: { lodge: { kind: lodging }, pier: {} }
roads: [{ link: [lodge, pier], drive: 35 min, bad: 50 min }]
hits: { dawn: { at: "07:00", for: 3 min, place: pier } }
kit: { camera: { in: wagon, watts: 40, mount: v, during: hits }${kit} }
packs: { ${packs} }
chargers: { ${chargers} }
runs: { wagon: { driver: wren, aboard: [wren, ilse], stops: [lodge, pier, lodge] } }
`;

async function builtOf(...words: Parameters<typeof plan>): Promise<DayModel> {
  return (await assess({ days: await daysOf(plan(...words)), patience: 1, now: null, brief: true }, null)).result.built;
}
const BRICK = "brick: { count: 2, wh: 100, mount: v, charge: [50%, 62.5%], in: wagon }";

describe("packs more", () => {
  it("are so many more of the group, each full to a share, in its bay; the list of charges grows with them", async () => {
    const built = await builtOf(`${BRICK}, slab: { wh: 150, mount: v, charge: 90%, in: lodge }`, "");
    expect(packGroups(built)).toEqual(["brick", "slab"]);
    const one = packOffer(built, "brick", 1, 0.4);
    expect(one?.cure).toMatchObject({ kind: "pack", id: "brick", count: 1, share: 0.4 });
    expect(one?.cure.edits).toEqual(["packs.brick.count=3", "packs.brick.charge=[50%, 62.5%, 40%]"]);
    expect(one?.model.packs.map(({ id, startWh, at }) => [id, startWh, at])).toEqual([
      ["brick.1", 50, "wagon"],
      ["brick.2", 62.5, "wagon"],
      ["slab.1", 135, "lodge"],
      ["brick.3", 40, "wagon"],
    ]);
    const two = packOffer(built, "brick", 2, 1);
    expect(two?.cure.edits).toEqual(["packs.brick.count=4", "packs.brick.charge=[50%, 62.5%, 100%, 100%]"]);
    expect(two?.model.packs.slice(-2).map(({ id }) => id)).toEqual(["brick.3", "brick.4"]);
    expect(packOffer(built, "slab", 1, 0.5)?.cure.edits).toEqual([
      "packs.slab.count=2",
      "packs.slab.charge=[90%, 50%]",
    ]);
    expect(packOffer(built, "plate", 1, 1)).toBeNull();
  });

  it("state their charge each by itself where those of the others are not all stated", async () => {
    const built = await builtOf("brick: { count: 2, wh: 100, mount: v, in: wagon }", "");
    expect(packOffer(built, "brick", 2, 0.5)?.cure.edits).toEqual([
      "packs.brick.count=4",
      'packs.brick.own."brick.3".charge=50%',
      'packs.brick.own."brick.4".charge=50%',
    ]);
  });
});

describe("other gear", () => {
  const offers = async (...words: Parameters<typeof plan>) =>
    gearOffers(await builtOf(...words), useOf(0, 60, 40)).map(({ cure, model }) => ({ ...cure, model }));
  const edits = async (...words: Parameters<typeof plan>) =>
    (await offers(...words)).flatMap((cure) => [[cure.kind, cure.id, ...cure.edits].join(" ")]);

  it("is one slot more for each charger, and one more person for each that only some may touch", async () => {
    const benches =
      "bench: { mount: v, slots: 2, watts: 50, in: wagon }, own: { mount: v, watts: 50, in: wagon, hands: [bo] }";
    expect(await edits(BRICK, benches)).toEqual([
      "hands own chargers.own.hands=[bo, wren]",
      "hands own chargers.own.hands=[bo, ilse]",
      "slot bench chargers.bench.slots=3",
      "slot own chargers.own.slots=2",
    ]);
    const [, , slot] = await offers(BRICK, benches);
    expect(slot?.model.chargers.map(({ id, slots }) => [id, slots])).toEqual([
      ["bench", 3],
      ["own", 1],
    ]);
  });

  it("is a charger that shares what its vehicle has where it asks for more: all of the inverter, less what hangs on it", async () => {
    // Two slots of 200 W ask for 400 of 300 W; with a heater of 120 W there are 180 W, less than one slot's; then none.
    const big = "bench: { mount: v, slots: 2, watts: 200, in: wagon }";
    expect((await edits(BRICK, big))[0]).toBe("total bench chargers.bench.total=300 W");
    const heater = (watts: number): string => `, heater: { in: wagon, watts: ${watts} }`;
    expect((await edits(BRICK, big, heater(120)))[0]).toBe(
      "total bench chargers.bench.watts=180 W chargers.bench.total=180 W",
    );
    expect((await edits(BRICK, big, heater(299)))[0]).toBe(
      "total bench chargers.bench.watts=1 W chargers.bench.total=1 W",
    );
    expect(await edits(BRICK, big, heater(300))).toEqual(["slot bench chargers.bench.slots=3"]);
  });

  it("is the first charger's like in each vehicle that has an inverter and none, and packs or gear in it", async () => {
    const two = "wagon: { inverter: 300 W }, truck: { inverter: 200 W }, cart: {}";
    const bench = "bench: { mount: v, slots: 2, watts: 50, in: wagon }";
    expect(await edits(BRICK, bench, ", lamp: { in: truck, watts: 9, mount: v }", two)).toEqual([
      "slot bench chargers.bench.slots=3",
      "charger truck",
    ]);
    expect(await edits(BRICK, bench, ", lamp: { in: cart, watts: 9, mount: v }", two)).toEqual([
      "slot bench chargers.bench.slots=3",
    ]);
    const [, more] = await offers(BRICK, bench, ", lamp: { in: truck, watts: 9, mount: v }", two);
    expect(more?.model.chargers.map(({ id, bay, slots }) => [id, bay, slots])).toEqual([
      ["bench", "wagon", 2],
      ["bench.truck", "truck", 2],
    ]);
  });
});
