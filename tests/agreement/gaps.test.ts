/** Every stay that a gap promises fits when it is planned to the minute, and a minute more does not. */
import { expect, it } from "vitest";
import { gapsOf } from "../../src/roads/gaps.ts";
import { judgedText } from "../cases/judged.ts";
import { runs } from "../fuzz.ts";
import { missed, randomShape, textOf } from "./gapShapes.ts";

it("on random days every stay fits to the minute, and a minute more does not", { timeout: 3_600_000 }, async () => {
  let [tried, gaps] = [0, 0];
  for (let seed = 1; seed <= runs(40, 1000); seed++) {
    const shape = randomShape(seed);
    const plain = await judgedText(textOf(shape));
    if (missed(plain).length > 0) continue;
    for (const gap of await gapsOf(plain.day)) {
      if (gap.stayMinutes === null || gap.stayMinutes < 1) continue;
      const { from: after, place, stayMinutes } = gap;
      // A stay where one of the hits is made would be one visit with it.
      const [before, next] = [gap.from, gap.to].map((id) => shape.hits.find((hit) => hit.id === id)?.place);
      if (place === before || place === next) continue;
      gaps++;
      const fits = await judgedText(textOf(shape, { after, place, minutes: stayMinutes }));
      expect([seed, place, missed(fits)]).toEqual([seed, place, []]);
      const over = await judgedText(textOf(shape, { after, place, minutes: stayMinutes + 1 }));
      expect([seed, place, missed(over).length > 0]).toEqual([seed, place, true]);
    }
    tried++;
  }
  expect(tried).toBeGreaterThan(20);
  expect(gaps).toBeGreaterThan(40);
});
