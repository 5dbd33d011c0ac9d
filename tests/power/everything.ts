/** Random small days with all that a model can have: time for hands, warm moments, packs found, packs out of service, burdens. */
import type { Model, ModelPack, Touch } from "../../src/power/model.ts";
import { type Interval, instant } from "../../src/time/units.ts";
import { dice, randomModel, type Shape } from "./days.ts";

/** A random day of this shape with all features now and then; touches lie at whole tens of minutes, what is added between them. */
export function richModel(seed: number, shape: Shape): Model {
  const plain = randomModel(seed, shape);
  const roll = dice(seed + 77_777);
  const minute = (n: number) => instant(plain.from + n);
  const swapMinutes = [0, 2, 7][roll(0, 2)] ?? 0;
  const packs = plain.packs.map((pack): ModelPack => {
    const found = roll(0, 4) === 0 ? [{ at: minute(10 * roll(1, 30) + 3), wh: roll(10, 50) }] : [];
    const from = 10 * roll(1, 30) + 6;
    const broken: Interval[] = roll(0, 4) === 0 ? [{ from: minute(from), to: minute(from + 10 * roll(1, 5) + 1) }] : [];
    return { ...pack, found, broken };
  });
  const given = packs.flatMap(({ found = [], broken = [] }) => [
    ...found.map(({ at }) => at),
    ...broken.flatMap(({ from, to }) => [from, to]),
  ]);
  const touches = plain.touches.map((touch): Touch => {
    const more = roll(0, 3) === 0 ? { warm: instant(touch.at + roll(5, 60)) } : {};
    const free =
      roll(0, 2) === 0 ? { free: { from: instant(touch.at - roll(0, 5)), to: instant(touch.at + roll(0, 9)) } } : {};
    return { ...touch, ...more, ...free, moves: roll(1, 2), burden: roll(0, 2) };
  });
  const idle = [...new Set(given)]
    .filter((at) => at < plain.to)
    .map((at): Touch => ({ id: `given${at}`, at, reach: [] }));
  return { ...plain, swapMinutes, packs, touches: [...touches, ...idle].toSorted((a, b) => a.at - b.at) };
}
