/** A routing engine for which every road takes 35 minutes and has 41 km. */
export async function routes(asked: string): Promise<Response> {
  const points = new URL(asked).pathname.split("/").at(-1)?.split(";") ?? [];
  const coordinates = points.map((point) => point.split(",").map(Number));
  const table = (value: number) => points.map((_, row) => points.map((_each, column) => (row === column ? 0 : value)));
  const geometry = { type: "LineString", coordinates };
  return Response.json({
    code: "Ok",
    ...(asked.includes("/route/")
      ? { routes: [{ duration: 2100, distance: 41000, geometry, legs: [] }], waypoints: [] }
      : { durations: table(2100), distances: table(41000), sources: [], destinations: [] }),
  });
}
