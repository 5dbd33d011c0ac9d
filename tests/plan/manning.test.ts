/** Who rides and drives, as the plan has it with its defaults: too many or not aboard is a mistake, one fewer or aboard is none. */
import { describe, expect, test } from "vitest";
import { readOnePlan } from "../../src/plan/index.ts";
import { smallest } from "./plans.ts";

const mistakes = async (text: string): Promise<readonly string[]> =>
  (await readOnePlan(text, { file: "day.yaml" })).findings.map(({ code, span }) => `${span?.line} ${code}`);
const seats = (count: number): string => smallest.replace("wagon: {}", `wagon: { seats: ${count} }`);
const run = (text: string, plan = smallest): string => plan.replace("wagon: [lodge, pier, lodge]", `wagon: ${text}`);

describe("seats", () => {
  test("are counted for everyone who comes with the only vehicle, where no list says who rides", async () => {
    expect(await mistakes(seats(1))).toEqual(["18 seats-too-few"]);
    expect(await mistakes(seats(2))).toEqual([]);
  });

  test("are counted from each stop on: someone gets in at the pier", async () => {
    const joined = (who: string): string =>
      run(`{ driver: wren, aboard: [wren], stops: [lodge, { place: pier, aboard: ${who} }, lodge] }`, seats(1));
    expect(await mistakes(joined("[wren, ilse]"))).toEqual(["18 seats-too-few"]);
    expect(await mistakes(joined("[wren]"))).toEqual([]);
  });

  test("are told once for a run, however many legs it has", async () => {
    expect(await mistakes(run("[lodge, pier, lodge, pier, lodge]", seats(1)))).toEqual(["18 seats-too-few"]);
  });
});

test("a relief driver who does not ride is a mistake where the list of riders is the default, too", async () => {
  const two = smallest
    .replace("ilse: { role: reporter }", "ilse: { drives: [wagon, van] }")
    .replace("wagon: {}", "wagon: {}\n  van: {}");
  const relieved = (aboard: string): string =>
    run(
      `{ driver: wren, ${aboard}stops: [{ place: lodge, relieve: [{ after: 20 min, driver: ilse }] }, pier, lodge] }`,
      two,
    ).replace(/$/, "  van: { driver: ilse, stops: [lodge, pier] }\n");
  expect(await mistakes(relieved(""))).toEqual(["19 driver-not-aboard"]);
  expect(await mistakes(relieved("aboard: [wren, ilse], "))).toEqual([]);
});
