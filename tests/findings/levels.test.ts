/** How much a code counts, as `explain` tells it and as findings have it. */
import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/findings/catalogue.ts";
import { define } from "../../src/findings/finding.ts";
import { ran } from "../cli/fakeIo.ts";

const entry = { code: "too-dry", title: "", why: "", cure: "", example: "", sentence: () => "it is dry" } as const;

describe("the level of a finding", () => {
  it("is its entry's, and the other one only where the entry has one and its case is given", () => {
    const two = define({ ...entry, level: "warning", otherwise: { level: "error", when: "where nothing is left" } });
    expect([two.raise({}), two.raise({}, { otherwise: true })].map(({ level }) => level)).toEqual(["warning", "error"]);
    const one = define({ ...entry, level: "note" });
    expect(one.raise({}, { otherwise: true }).level).toBe("note");
  });

  it("is that of a breach of law as its entry says: never, always, or under legal rules", () => {
    const lawOf = (law: { readonly law?: "always" | "by rules" }, legalRules: boolean) =>
      define({ ...entry, level: "error", ...law }).raise({}, { legalRules }).law;
    const both = (law: { readonly law?: "always" | "by rules" }) => [lawOf(law, false), lawOf(law, true)];
    expect(both({})).toEqual([false, false]);
    expect(both({ law: "by rules" })).toEqual([false, true]);
    expect(both({ law: "always" })).toEqual([true, true]);
  });

  it("has a second one that is another, with its case in words", async () => {
    const seconds = [...(await catalogue()).values()].flatMap(({ code, level, otherwise }) =>
      otherwise === undefined ? [] : [{ code, differs: otherwise.level !== level, when: otherwise.when }],
    );
    expect(seconds.length).toBeGreaterThan(0);
    for (const { code, differs, when } of seconds) {
      expect([code, differs]).toEqual([code, true]);
      expect(when, code).toMatch(/^(if|where|from) .*[^.]$/);
    }
  });
});

describe("explain", () => {
  const head = async (code: string) => (await ran(["explain", code])).out.split("\n\nWhy it matters")[0];

  it("says both levels, and when it is which", async () => {
    expect(
      await head("fuel-short"),
    ).toBe(`fuel-short (warning or error): a vehicle eats into its fuel reserve before it is filled up

How much it counts
It is a warning, and an error if the tank runs dry.`);
  });

  it("says where it is a breach of law", async () => {
    expect(await head("rest-too-short")).toContain("(error)");
    expect(await head("rest-too-short")).toContain("Under a legal rule set it is a breach of law");
    expect(await head("packs-not-for-cabin")).toContain("It is a breach of law");
    expect(await head("meal-late")).toBe("meal-late (warning): no meal in time");
  });

  it("has one word for a level in the list of all codes", async () => {
    const { out } = await ran(["explain"]);
    expect(out).toMatch(/^kit-missing +error or warning +a piece is not where it is needed$/m);
    expect(out).toMatch(/^break-missed +error or warning, law +driving or working on/m);
  });
});
