/** Who has nothing to do, who only stands down, and who is where a hit has no one who visits it. By hand. */
import { describe, expect, it } from "vitest";
import { daysOf } from "../power/plans.ts";

/** Wren works from about 05:00 to 09:00 in Chicago; odo is in no vehicle. */
const plan = (odo: string, more = "") => `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew: { wren: { drives: wagon, slept: lodge, sleeps: lodge }, odo: { slept: lodge, sleeps: lodge } }
history: { odo: { released: ${odo} } }
vehicles: { wagon: {} }
places: { lodge: { kind: lodging }, pier: {} }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 40 min }]
hits: { dawn: { at: "07:00", for: 3 min, place: pier } }
runs: { wagon: { driver: wren, aboard: [wren], stops: [lodge, pier, lodge] } }
${more}`;

describe("someone with nothing to do", () => {
  const odoOf = async (released: string) => {
    const [day] = await daysOf(plan(released));
    const [wren, odo] = day?.people ?? [];
    return {
      release: wren?.release ?? 0,
      call: odo?.call,
      spans: odo?.spans.map(({ is, from, to }) => [is, from, to]),
    };
  };
  const at = (text: string): number => Date.parse(text) / 60_000;

  it("is off from the last release to the last one of the day", async () => {
    const { release, call, spans } = await odoOf("2027-01-19T20:00-06:00");
    expect([call, spans]).toEqual([null, [["off", at("2027-01-19T20:00-06:00"), release]]]);
  });

  it("has no time off where that release is the later one, or the same", async () => {
    expect((await odoOf("2027-01-20T23:00-06:00")).spans).toEqual([]);
    const { release } = await odoOf("2027-01-19T20:00-06:00");
    const same = new Date(release * 60_000).toISOString().replace(":00.000Z", "Z");
    expect((await odoOf(same)).spans).toEqual([]);
    const before = new Date((release - 1) * 60_000).toISOString().replace(":00.000Z", "Z");
    expect((await odoOf(before)).spans).toEqual([["off", release - 1, release]]);
  });
});
