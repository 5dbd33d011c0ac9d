/** Addresses and plates in free text, by the usual written forms of several countries (common practice, no source). */
import { expect, it } from "vitest";
import { withoutPrivateWords } from "../../src/reports/shared/privateWords.ts";

const left = (text: string): string => withoutPrivateWords(text, "#");

it.each([
  ["meet at 14 Shore Road", "meet at #"],
  ["meet at 14 shore road, left door", "meet at #, left door"],
  ["5 North Hill Dr", "#"],
  ["88 Hiddenaddress Quay and on", "# and on"],
  ["Bob, 99 Tasklane", "Bob, #"],
  ["Dorfstraße 5a", "#"],
  ["12 rue de la Gare", "#"],
  ["Calle Mayor 5", "#"],
  ["Ashland WI 54806", "Ashland #"],
  ["AB1 2CD", "#"],
  ["wagon ZZPLATE1", "wagon #"],
  ["van BND 4418", "van #"],
  ["van AB 1234", "van #"],
  ["4417 BND", "#"],
  ["AB12 CDE", "#"],
  ["B-MW 1234", "#"],
])("%s has one", (text, rest) => {
  expect(left(text)).toBe(rest);
});

it.each([
  "morning",
  "5 min drive to the pier",
  "3 trucks on the road",
  "road 13 north, US 131 and WI 137",
  "at 1200 UTC",
  "truck 2 at gate",
  "2 cameras, 1080 lines",
  "the 10:15 Main Street parade",
  "F-150",
])("%s has none", (text) => {
  expect(left(text)).toBe(text);
});
