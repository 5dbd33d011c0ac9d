/** What the packs start with where the plan leaves it to the day before. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";

it("says where charges come from that the plan does not state, and only then", async () => {
  const names = ["2027-01-19.yaml", "2027-01-20.yaml", "2027-01-21.yaml", "assignment.yaml"];
  const folder = new URL("../../fixtures/days/", import.meta.url);
  const files = Object.fromEntries(names.map((name) => [name, readFileSync(new URL(name, folder), "utf8")]));
  const said = async (name: string): Promise<boolean> =>
    (await ran(["power", name, "--width", "0"], { files })).out.includes("follows from the day before");
  // The second day states all five, the third none.
  expect(await said("2027-01-20.yaml")).toBe(false);
  expect(await said("2027-01-21.yaml")).toBe(true);
});
