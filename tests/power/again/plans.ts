/** Random days with packs: one to three vehicles, chargers on all that can feed them, frost and heat, gear out of service. */
import type { Day } from "../../../src/day/day.ts";
import { solved } from "../../agreement/days.ts";
import { clock, type Entries, randomPlan } from "../../agreement/randomPlan.ts";
import { random } from "../../day/random.ts";

type Dice = (below: number) => number;

/** A plan's day with kit, packs and chargers; null where the plan has mistakes. */
export async function powerDay(seed: number): Promise<Day | null> {
  return (await solved(withPower(randomPlan(seed), random(seed ^ 0xba77))))?.day ?? null;
}

function withPower(plan: Entries, dice: Dice): Entries {
  const vehicles = new Map(Object.entries(Object(plan["vehicles"])));
  const places = new Map(Object.entries(Object(plan["places"])));
  const fleet = [...vehicles.keys()];
  const sites = [...places.keys()];
  const one = (all: readonly string[]): string => all[dice(all.length)] ?? "";
  const crew = Object.keys(Object(plan["crew"]));
  const activities = [...Object.keys(Object(plan["hits"])), ...Object.keys(Object(plan["tasks"]))];
  const during = () =>
    [["hits"], ["tasks"], ["hits", "tasks"], ["dark"], [activities.length === 0 ? "hits" : one(activities)]][
      dice(5)
    ] ?? ["hits"];
  const maybe = (key: string, value: () => string | number) => (dice(2) === 0 ? { [key]: value() } : {});
  const span = () => {
    const from = 300 + dice(700);
    return { from: clock(from), to: clock(from + 20 + dice(400)) };
  };
  return {
    ...plan,
    vehicles: Object.fromEntries(
      fleet.map((id) => [
        id,
        {
          ...Object(vehicles.get(id)),
          ...maybe("inverter", () => `${100 + dice(500)} W`),
          ...maybe("shore", () => `${100 + dice(400)} W`),
          ...maybe("inside", () => `${dice(50) - 3} C`),
        },
      ]),
    ),
    places: Object.fromEntries(
      sites.map((id) => [id, { ...Object(places.get(id)), ...(dice(3) === 0 ? { mains: true } : {}) }]),
    ),
    weather: Array.from({ length: 1 + dice(4) }, () => ({
      ...(dice(3) === 0 ? {} : { from: span().from }),
      temp: `${dice(4) === 0 ? 40 + dice(12) : dice(30) - 15} C`,
      ...(dice(2) === 0 ? { places: [one(sites)] } : {}),
    })),
    kit: {
      cam: {
        in: one(fleet),
        watts: 30 + dice(40),
        mount: "m0",
        during: during(),
        ...maybe("standby", () => `${dice(20)} W`),
      },
      lamp: { in: one(fleet), watts: 10 + dice(40), mount: "m0", count: 2, during: during() },
      radio: { in: one([...fleet, ...sites]), watts: 5 + dice(20), mount: "m1", during: during(), broken: span() },
      heater: { in: one(fleet), watts: 20 + dice(150) },
    },
    packs: {
      k0: { count: 2 + dice(3), wh: 98, mount: "m0", in: one(fleet), charge: `${20 + dice(80)}%` },
      k1: { count: 1 + dice(2), wh: 150, mount: "m1", in: one([...fleet, ...sites]), charge: "90%" },
    },
    chargers: {
      rack: {
        in: one(fleet),
        mount: "m0",
        slots: 1 + dice(3),
        watts: 60,
        ...maybe("total", () => `${60 + dice(60)} W`),
      },
      bench: { in: "s0", mount: "m0", slots: 2, watts: 40, hands: [one(crew)] },
      case: { in: one(fleet), mount: "m1", slots: 1, watts: 30 + dice(60) },
      post: { in: one(sites), mount: "m1", slots: 1, watts: 30 },
    },
  };
}
