/** 500 replies of a hostile routing server: none stops a plan, none is believed, none is slow. */
import { describe, expect, it } from "vitest";
import type { Fetch } from "../../src/cli/io/request.ts";
import { askRouting } from "../../src/cli/io/routing.ts";
import { newSession } from "../../src/cli/io/routingSession.ts";
import { MOST_KEPT, readKept } from "../../src/legs/kept.ts";
import { legsOf } from "../../src/legs/legs.ts";
import { byId, place, plan, run } from "../day/parts.ts";
import { random } from "../day/random.ts";

const made = plan({
  places: byId(
    place("lodge", { at: { latitude: 46.6, longitude: -90.88 } }),
    place("pier", { at: { latitude: 46.81, longitude: -90.82 } }),
  ),
  runs: byId(run("wagon", ["lodge", "pier", "lodge"])),
  routing: { url: "http://localhost:5000", keep: "roads.json", path: ["routing"] },
});

/** The road is some 24 km straight: below 22 it is too short, and faster than 137 km/h or an hour beyond 10 km/h it is none. */
const VALUES = [
  "0",
  "-1",
  "1e308",
  "1e999",
  "null",
  '"2004"',
  "[]",
  "{}",
  "2004",
  "41000",
  "1",
  "99999999",
  "0.0000001",
  "true",
];
const LINES = [
  "null",
  "[]",
  "[[0,0]]",
  "[[1e999,0],[0,0]]",
  "[[200,100],[0,0]]",
  '"x"',
  "[[-90.88,46.6],[-90.82,46.81]]",
  `[${"[0,0],".repeat(20_000)}[0,0]]`,
];
const HEADS = ['"Ok"', '"Ok"', '"Ok"', '"NoRoute"', '"InvalidUrl"', "1", "null", '"__proto__"', '"\\u202e<script>"'];
const WHOLE = [
  "",
  "{",
  "[".repeat(200_000),
  "null",
  "\u0000",
  "<html>",
  '{"__proto__":{"code":"Ok"}}',
  " ".repeat((1 << 20) + 1),
  '{"code":"Ok"}',
];

function reply(below: (most: number) => number): string {
  const pick = (from: readonly string[]): string => from[below(from.length)] ?? "";
  if (below(4) === 0) return pick(WHOLE);
  const route = `{"duration":${pick(VALUES)},"distance":${pick(VALUES)},"geometry":{"coordinates":${pick(LINES)}}}`;
  const table = `[[0,${pick(VALUES)}],[${pick(VALUES)},0]]`;
  return `{"code":${pick(HEADS)},"message":${pick(['"no"', "1", `"${"x".repeat(5000)}"`])},"routes":[${route}],"durations":${table},"distances":${table}}`;
}

describe("a hostile routing server", () => {
  it("stops no plan with 500 replies, and is believed only where a road may be so", { timeout: 60_000 }, async () => {
    const below = random(500);
    const encoder = new TextEncoder();
    let [replies, believed, slowest] = [0, 0, 0];
    for (let n = 0; replies < 500; n++) {
      const fetch: Fetch = async () => {
        replies++;
        const bytes = encoder.encode(reply(below));
        const status = [200, 200, 200, 400, 500, 302, 204][below(7)] ?? 200;
        return {
          status,
          body: (async function* () {
            for (let at = 0; at < bytes.length; at += 65_536) yield bytes.subarray(at, at + 65_536);
          })(),
        };
      };
      const edge = { fetch, session: newSession(), now: () => 0, kept: null, timeout: 1000, gaps: n % 2 === 0 };
      const before = process.cpuUsage();
      const { routed, keep, findings } = await askRouting(made, edge);
      const { user } = process.cpuUsage(before);
      slowest = Math.max(slowest, user / 1000);
      for (const { minutes, km } of routed.values()) {
        believed++;
        expect(minutes).toBeGreaterThan(8); // 22 km at 137 km/h, less a minute of rounding
        expect(minutes).toBeLessThanOrEqual(7 * 1440);
        if (km !== null) expect(km).toBeGreaterThan(19);
      }
      expect((await legsOf(made, routed)).size).toBe(2);
      for (const { facts } of findings) expect(JSON.stringify(facts).length).toBeLessThan(600);
      if (keep !== null) {
        expect(keep.length).toBeLessThan(MOST_KEPT * 1.2);
        expect(readKept(keep)).not.toBeNull();
      }
    }
    expect(believed).toBeGreaterThan(0);
    // Milliseconds of one question with all its replies; some 10 where nothing else runs.
    expect(slowest).toBeLessThan(2000);
  });
});
