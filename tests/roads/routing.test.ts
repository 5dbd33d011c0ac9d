/** A real HTTP server on loopback that answers like an open routing engine: well, slowly, wrongly, with an error, not at all. */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import { afterEach, describe, expect, it } from "vitest";
import { askRouting, type RoutingEdge } from "../../src/cli/io/routing.ts";
import { newSession } from "../../src/cli/io/routingSession.ts";
import { readKept } from "../../src/legs/kept.ts";
import { legKey } from "../../src/legs/leg.ts";
import { legsOf } from "../../src/legs/legs.ts";
import type { Plan } from "../../src/plan/plan.ts";
import { byId, place, plan, road, run } from "../day/parts.ts";

const servers: Server[] = [];
afterEach(() => {
  for (const server of servers.splice(0)) {
    server.closeAllConnections();
    server.close();
  }
});

type Handler = (request: IncomingMessage, response: ServerResponse) => void;

/** Starts a server; gives its address and the paths it was asked for. */
async function serve(handler: Handler): Promise<{ readonly url: string; readonly asked: string[] }> {
  const asked: string[] = [];
  const server = createServer((request, response) => {
    asked.push(request.url ?? "");
    handler(request, response);
  });
  servers.push(server);
  await new Promise<void>((ready) => server.listen(0, "127.0.0.1", ready));
  const { port } = server.address() as AddressInfo;
  return { url: `http://127.0.0.1:${port}/`, asked };
}

const json = (response: ServerResponse, body: unknown, status = 200): void => {
  response.writeHead(status, { "content-type": "application/json" });
  response.end(JSON.stringify(body));
};

/** Answers like an engine: 2,004 s and 41,500 m for every road there is. */
const engine: Handler = (request, response) => {
  const points = (request.url ?? "").split("/driving/")[1]?.split("?")[0]?.split(";") ?? [];
  if (request.url?.startsWith("/route/v1/driving/")) {
    const coordinates = points.map((point) => point.split(",").map(Number));
    const geometry = { type: "LineString", coordinates };
    json(response, { code: "Ok", routes: [{ duration: 2004, distance: 41500, geometry, legs: [] }], waypoints: [] });
    return;
  }
  const table = (value: number) =>
    points.map((_, row) => points.map((_unused, column) => (row === column ? 0 : value)));
  json(response, { code: "Ok", durations: table(2004), distances: table(41500), sources: [], destinations: [] });
};

const places = byId(
  place("lodge", { at: { latitude: 46.6, longitude: -90.88 } }),
  place("pier", { at: { latitude: 46.81, longitude: -90.82 } }),
  place("inn", { at: { latitude: 46.7, longitude: -90.5 } }),
);
const planFor = (url: string, parts: Partial<Plan> = {}): Plan =>
  plan({
    places,
    runs: byId(run("wagon", ["lodge", "pier", "lodge"])),
    routing: { url, keep: "roads.json", path: ["routing"] },
    ...parts,
  });

const edge = (parts: Partial<RoutingEdge> = {}): RoutingEdge => ({
  fetch,
  session: newSession(),
  now: () => performance.now(),
  kept: null,
  timeout: 2000,
  gaps: false,
  ...parts,
});

const codes = (findings: readonly { code: string; facts: Readonly<Record<string, unknown>> }[]) =>
  findings.map(({ code, facts }) => `${code}: ${facts["why"]}`);

describe("a server that answers", () => {
  it("gives minutes, km and the shape of each leg, longitude first", async () => {
    const { url, asked } = await serve(engine);
    const { routed, findings } = await askRouting(planFor(url), edge());
    expect(findings).toEqual([]);
    expect(routed.get(legKey("lodge", "pier"))).toEqual({
      minutes: 33.4,
      km: 41.5,
      line: [
        [-90.88, 46.6],
        [-90.82, 46.81],
      ],
    });
    expect(asked[0]).toBe(
      "/route/v1/driving/-90.880000,46.600000;-90.820000,46.810000?overview=simplified&geometries=geojson&steps=false",
    );
    const legs = await legsOf(planFor(url), routed);
    expect(legs.get(legKey("pier", "lodge"))).toMatchObject({ basis: "routed", likelyMinutes: 33.4, km: 41.5 });
  });

  it("is not asked for what is stated, nor for what is kept", async () => {
    const { url, asked } = await serve(engine);
    const roads = [road("lodge", "pier", { driveMinutes: 35 })];
    expect((await askRouting(planFor(url, { roads }), edge())).keep).toBeNull();
    expect(asked).toEqual([]);
    const first = await askRouting(planFor(url), edge());
    expect(asked).toHaveLength(2);
    const second = await askRouting(planFor(url), edge({ kept: first.keep }));
    expect(asked).toHaveLength(2);
    expect(second.routed).toEqual(first.routed);
    expect(second.keep).toBeNull();
  });

  it("is asked for all pairs of places in one table, for the gaps", async () => {
    const { url, asked } = await serve(engine);
    const { routed } = await askRouting(planFor(url), edge({ gaps: true }));
    expect(asked.filter((path) => path.startsWith("/table/v1/driving/"))).toHaveLength(1);
    expect(routed.size).toBe(6);
    expect(routed.get(legKey("inn", "pier"))).toEqual({ minutes: 33.4, km: 41.5, line: null });
  });

  it("keeps its answers under the coordinates, so that a place that moves is asked anew", async () => {
    const { url } = await serve(engine);
    const { keep } = await askRouting(planFor(url), edge());
    expect([...(readKept(keep ?? "") ?? new Map()).keys()][0]).toBe("-90.820000,46.810000;-90.880000,46.600000");
    expect(keep?.endsWith("\n")).toBe(true);
  });
});

describe("a server that does not help is told once, and roads are estimated", () => {
  const fallsBack = async (url: string, expected: readonly string[], parts: Partial<RoutingEdge> = {}) => {
    const { routed, findings, keep } = await askRouting(planFor(url), edge(parts));
    expect(codes(findings)).toEqual(expected);
    expect(keep).toBeNull();
    const legs = await legsOf(planFor(url), routed);
    expect(legs.get(legKey("lodge", "pier"))?.basis).toBe("estimated");
  };

  it("too slow", async () => {
    const { url, asked } = await serve(() => undefined);
    await fallsBack(url, ["routing-unreachable: no answer within 0.4 s"], { timeout: 400 });
    expect(asked.length).toBeLessThan(2); // the second leg does not wait as well
  });

  it("too slow in the middle of its answer", async () => {
    const { url } = await serve((_, response) => void response.write('{"code":'));
    await fallsBack(url, ["routing-unreachable: no answer within 0.4 s"], { timeout: 400 });
  });

  it("not there", async () => {
    const { url } = await serve(engine);
    await new Promise((closed) => servers.pop()?.close(closed));
    await fallsBack(url, ["routing-unreachable: nothing listens there"]);
  });

  it("hanging up", async () => {
    const { url } = await serve((request) => void request.socket.destroy());
    const { findings } = await askRouting(planFor(url), edge());
    expect(findings.map(({ code }) => code)).toEqual(["routing-unreachable"]);
  });

  it("an error of its own", async () => {
    const { url, asked } = await serve((_, response) =>
      json(response, { code: "InternalError", message: "out of memory" }, 500),
    );
    await fallsBack(url, ["routing-refused: InternalError: out of memory"]);
    expect(asked).toHaveLength(1);
  });

  it("an answer without an end", async () => {
    let sent = 0;
    const { url } = await serve((_, response) => {
      const more = (): void => {
        while (!response.destroyed && response.write(" ".repeat(65_536))) sent += 65_536;
        if (!response.destroyed) response.once("drain", more);
      };
      more();
    });
    await fallsBack(url, ["routing-unreadable: its answer is longer than 1 MiB"], { timeout: 5000 });
    expect(sent).toBeLessThan(32 << 20);
  });

  it("a page instead of an answer", async () => {
    const { url } = await serve((_, response) => void response.writeHead(404).end("<h1>Not found</h1>"));
    await fallsBack(url, ["routing-refused: HTTP 404"]);
  });

  it("a redirect elsewhere is not followed", async () => {
    const { url, asked } = await serve((_, response) => void response.writeHead(302, { location: "/elsewhere" }).end());
    await fallsBack(url, ["routing-refused: HTTP 302"]);
    expect(asked).toHaveLength(1);
  });

  it.each([
    ["no JSON", "hello", "no JSON object with a code"],
    ["a list", "[]", "no JSON object with a code"],
    ["no routes", '{"code":"Ok"}', "no duration in routes[0]"],
    ["a duration in words", '{"code":"Ok","routes":[{"duration":"2004"}]}', "no duration in routes[0]"],
    ["a negative duration", '{"code":"Ok","routes":[{"duration":-1,"distance":1}]}', "no duration in routes[0]"],
  ])("a wrong answer: %s", async (_, body, why) => {
    const { url } = await serve((_request, response) => void response.end(body));
    await fallsBack(url, [`routing-unreadable: ${why}`]);
  });

  it("a table of the wrong size", async () => {
    const { url } = await serve((request, response) =>
      request.url?.startsWith("/table")
        ? json(response, { code: "Ok", durations: [[0, 1]] })
        : engine(request, response),
    );
    const { findings, routed } = await askRouting(planFor(url), edge({ gaps: true }));
    expect(codes(findings)).toEqual(["routing-unreadable: durations are not 3 rows of 3"]);
    expect(routed.size).toBe(2); // the legs themselves were answered
  });
});

it("no way between two places, there and back, is one refusal, and each way is asked once", async () => {
  const { url, asked } = await serve((_, response) => json(response, { code: "NoRoute", message: "no way" }, 400));
  const { findings } = await askRouting(planFor(url), edge());
  expect(codes(findings)).toEqual(["routing-refused: NoRoute: no way"]);
  expect(asked).toHaveLength(2);
});

it("no way between two places concerns these two only", async () => {
  const { url, asked } = await serve((request, response) =>
    request.url?.includes("driving/-90.88")
      ? json(response, { code: "NoRoute", message: "no way" }, 400)
      : engine(request, response),
  );
  const { findings, routed } = await askRouting(planFor(url), edge());
  expect(codes(findings)).toEqual(["routing-refused: NoRoute: no way"]);
  expect(asked).toHaveLength(2);
  expect([...routed.keys()]).toEqual([legKey("pier", "lodge")]);
});

it("a kept file of something else is reported, left as it is, and the server asked", async () => {
  const { url } = await serve(engine);
  const { findings, routed, keep } = await askRouting(planFor(url), edge({ kept: "{}" }));
  expect(findings.map(({ code }) => code)).toEqual(["routing-keep-unreadable"]);
  expect(routed.size).toBe(2);
  expect(keep).toBeNull();
});

it("without `routing` nothing is asked", async () => {
  const never: RoutingEdge["fetch"] = () => Promise.reject(new Error("asked"));
  expect(await askRouting(planFor("x", { routing: null }), edge({ fetch: never }))).toEqual({
    routed: new Map(),
    keep: null,
    findings: [],
  });
});
