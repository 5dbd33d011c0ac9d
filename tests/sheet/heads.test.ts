/** The head of a sheet where little is stated, and names of which the first word is no name. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";

const TEXT = readFileSync("fixtures/smallest.yaml", "utf8");
const sheet = async (text: string): Promise<string> =>
  (await ran(["sheet", "day.yaml", "--width", "0"], { files: { "day.yaml": text } })).out;
const hospitals = (out: string): readonly string[] => out.split("\n").filter((one) => one.startsWith("Hospital, "));

describe("the nearest hospital", () => {
  const LODGE = "-90.88], hospital: { name: St Ann, km: 12, phone: 555 0900 } }";
  const PIER = "-90.82], hospital: { name: County, km: 41 } }";

  it("is that of another stop where no place of a hit states one, else that of the hit alone", async () => {
    const lodge = TEXT.replace("-90.88] }", LODGE);
    expect(hospitals(await sheet(lodge))).toEqual(["Hospital, 12 km from lodge: St Ann 555 0900"]);
    expect(hospitals(await sheet(lodge.replace("-90.82] }", PIER)))).toEqual(["Hospital, 41 km from pier: County"]);
    expect(hospitals(await sheet(TEXT))).toEqual([]);
  });
});

describe("a short name", () => {
  it("is the first word, or the whole name where that word has no letter", async () => {
    const named = (name: string) =>
      TEXT.replace("{ role: reporter }", `{ name: ${JSON.stringify(name)}, role: reporter }`);
    expect(await sheet(named("Ilse Brandt"))).toMatch(/wagon, at the wheel, with Ilse\s/);
    expect(await sheet(named("3 Ilse Brandt"))).toMatch(/wagon, at the wheel, with 3 Ilse Brandt\s/);
    expect(await sheet(named("伊尔莎 B"))).toMatch(/wagon, at the wheel, with 伊尔莎\s/);
  });
});
