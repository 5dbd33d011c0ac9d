/** The sheets of small and plain plans: one page of paper, no table of bare names, every stop among the places. */
import { expect, it } from "vitest";
import { renderHtml } from "../../src/render/forms/html.ts";
import { toText } from "../../src/render/forms/text.ts";
import { handsText } from "../../src/reports/power/hands.ts";
import { sheetOf, sheetReport } from "../../src/reports/sheet/index.ts";
import { instant } from "../../src/time/index.ts";
import { plainStyle } from "../render/plainStyle.ts";
import { dayOf, realDay } from "./realDay.ts";

const SMALLEST = "fixtures/smallest.yaml";
const textOf = async (file: string): Promise<string> => toText(sheetReport(sheetOf(await dayOf(file))), plainStyle);

// Two people and one hit fill a third of a page: a break before the lists would leave two pages nearly empty.
it("stays on one page where all of it fits, and begins the lists on a second where it does not", async () => {
  expect(renderHtml(sheetOf(await dayOf(SMALLEST)))).not.toContain('<div class="page">');
  expect(renderHtml(sheetOf(await realDay("2027-01-20")))).toContain('<div class="page">');
});

it("lists places that have a position and nothing else without a table", async () => {
  expect(await textOf(SMALLEST)).toContain("\nPlaces\n- lodge geo:46.6,-90.88\n- pier geo:46.81,-90.82\n");
});

it("keeps a blank line below a title that nothing follows", async () => {
  expect(await textOf(SMALLEST)).toMatch(/\n\nPacks: no moves\n\nOpen points/u);
});

it("says in words, and not in a figure's size, what is not stated", async () => {
  const sheet = sheetOf(await dayOf(SMALLEST));
  expect(await toText(sheetReport(sheet), plainStyle)).toContain("Feels like: not stated");
  expect(renderHtml(sheet)).toContain('<b class="word">');
  expect(renderHtml(sheet)).not.toContain("<b>not stated");
});

it("names every stop of a vehicle among the places, also one where nothing is done", async () => {
  const day = await dayOf("fixtures/sheet/passing.yaml", { focus: { kind: "vehicle", id: "truck" } });
  const places = sheetOf(day).sections.find(({ id }) => id === "places");
  expect(JSON.stringify(places?.blocks)).toContain("pier geo:");
});

it("counts who else may move a pack where they are many", () => {
  const chore = { who: ["ada"], from: instant(0), to: instant(8), workMinutes: 8 };
  const name = (id: string): string => id;
  expect(handsText({ ...chore, others: ["ben", "cy", "dot"] }, name)).toBe("ada, else ben, cy or dot");
  expect(handsText({ ...chore, others: ["ben", "cy", "dot", "eli"] }, name)).toBe("ada, else any of 4 others");
});
