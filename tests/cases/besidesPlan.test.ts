/** Who worked although the plan has nothing for them: what the log says of it counts, in the day and for the next one. */
import { expect, it } from "vitest";
import { clock } from "./clock.ts";
import { hoursOf } from "./hoursJson.ts";
import { judgedText } from "./judged.ts";

const FIRST = `
daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew:
  wren: { role: camera, drives: wagon, slept: lodge, sleeps: lodge }
  ada: { role: reporter, slept: lodge, sleeps: lodge }
history: { wren: { released: 2027-01-19T18:00-06:00 }, ada: { released: 2027-01-19T18:00-06:00 } }
vehicles: { wagon: {} }
places: { lodge: { kind: lodging, mains: true }, pier: { shelter: true } }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 30 min, km: 30 }]
hits: { noon: { at: "10:00", for: 3 min, place: pier, who: [wren] } }
runs: { wagon: { driver: wren, aboard: [wren], stops: [lodge, { place: pier, do: [noon] }, lodge] } }
`;
/** At the pier at 07:00 for ada as well: called at 05:20. */
const SECOND = FIRST.replace("01-20", "01-21")
  .replace(/history.*\n/, "follows: first.yaml\n")
  .replace('"10:00"', '"07:00"')
  .replaceAll("[wren]", "[wren, ada]");

const dayWith = (actual: string) => judgedText(`${FIRST}actual: { ${actual} }\n`);

it("a call and a release are a duty, in which they do what the plan does not say", async () => {
  const { day, said } = await dayWith('ada: { call: "12:00", released: "23:00" }');
  const ada = day.people.find(({ id }) => id === "ada");
  expect(ada?.duties.map(({ call, release }) => [clock(day, call), clock(day, release)])).toEqual([["12:00", "23:00"]]);
  expect(ada?.spans.map(({ is, place }) => [is, place])).toEqual([
    ["off", "lodge"],
    ["duty", "lodge"],
  ]);
  expect(said("nothing-to-do")).toEqual([]);
  expect(day.why("ada.call")?.fixedBy.by).toBe("log");
  expect((await dayWith("")).said("nothing-to-do")).toHaveLength(1);
});

it("the rest before the next call begins with that release", async () => {
  const rest = async (actual: string) => {
    const files = { "first.yaml": `${FIRST}${actual}`, "day.yaml": SECOND };
    return (await hoursOf("day.yaml", files)).person("ada").restBeforeMinutes;
  };
  // 23:00 to 05:20.
  expect(await rest('actual: { ada: { call: "12:00", released: "23:00" } }\n')).toBe(6 * 60 + 20);
  // From 18:00 on the 19th: 24 h and 11 h 20.
  expect(await rest("")).toBe(35 * 60 + 20);
});

it("one end alone is told of, since nothing says how long they worked", async () => {
  const told = async (actual: string) => (await dayWith(actual)).said("duty-half-logged");
  expect(await told('ada: { released: "23:00" }')).toEqual([
    "ada is logged as released, not as called: their hours and rest do not have that work",
  ]);
  expect(await told('ada: { call: "12:00" }')).toEqual([
    "ada is logged as called, not as released: their hours and rest do not have that work",
  ]);
  expect(await told('ada: { call: "12:00", released: "23:00" }')).toEqual([]);
  expect(await told('wren: { released: "13:00" }')).toEqual([]);
});
