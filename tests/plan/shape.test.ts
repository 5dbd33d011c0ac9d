/** The forms of values: the quick test and the schema say the same, and the JSON Schema takes what the reader takes. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as z from "zod";
import { planForm } from "../../src/plan/read/sections.ts";
import { planSchema } from "../../src/plan/schema.ts";
import { sourceText } from "../../src/plan/text/source.ts";
import { type PlanNode, raw } from "../../src/plan/text/tree.ts";
import { readYaml } from "../../src/plan/text/yaml.ts";
import { runs } from "../fuzz.ts";
import { everything, smallest } from "./plans.ts";

const schemas = new Map([...planForm.fields].map(([key, { form }]) => [key, form.schema(z, false)]));

function sectionsOf(text: string): readonly (readonly [string, PlanNode])[] {
  const { tree } = readYaml(sourceText("", text));
  return tree?.kind === "map" ? [...tree.entries].map(([key, { value }]) => [key, value] as const) : [];
}

/** Both answers for every section of a text that has a form. */
const answers = (text: string): readonly (readonly [string, boolean, boolean])[] =>
  sectionsOf(text).flatMap(([key, node]) => {
    const form = planForm.fields.get(key)?.form;
    const schema = schemas.get(key);
    return form && schema ? [[key, form.fits(node), schema.safeParse(raw(node)).success] as const] : [];
  });

/** Values of every kind, put where others stood. */
const VALUES = [
  "1",
  "1.10",
  "0500",
  "true",
  "null",
  "",
  "text",
  "[]",
  "[a]",
  "[a, b]",
  "{}",
  "{ a: 1 }",
  "[[a, b]]",
  "off",
  "good",
];

describe("a form", () => {
  test("fits all that the smallest plan and the plan of every key hold", () => {
    for (const text of [smallest, everything]) {
      for (const [key, fits, parses] of answers(text)) expect([key, fits, parses]).toEqual([key, true, true]);
    }
  });

  test("fits what its schema takes, and nothing else", () => {
    const spots = [...everything.matchAll(/(?<=[:,[{] )[\w%"'.]+/g)];
    const change = fc.record({ spot: fc.constantFrom(...spots), value: fc.constantFrom(...VALUES) });
    const renamed = fc.record({
      spot: fc.constantFrom(...everything.matchAll(/\w+(?=:)/g)),
      value: fc.constantFrom("x", "at", "for"),
    });
    fc.assert(
      fc.property(fc.array(fc.oneof(change, renamed), { minLength: 1, maxLength: 3 }), (changes) => {
        const text = changes
          .toSorted((a, b) => b.spot.index - a.spot.index)
          .reduce(
            (now, { spot, value }) => now.slice(0, spot.index) + value + now.slice(spot.index + spot[0].length),
            everything,
          );
        for (const [key, fits, parses] of answers(text)) expect([key, fits]).toEqual([key, parses]);
      }),
      { seed: 20270120, numRuns: runs(150, 5000) },
    );
  });
});

describe("the JSON Schema", () => {
  test("is draft 7, closed to unknown keys, and words every key", async () => {
    const schema = await planSchema();
    expect(schema["$schema"]).toBe("http://json-schema.org/draft-07/schema#");
    expect(schema["additionalProperties"]).toBe(false);
    expect(Object.keys(schema["properties"] ?? {})).toEqual([...planForm.fields.keys()]);
    for (const [key, value] of Object.entries(schema["properties"] ?? {}))
      expect([key, value]).toEqual([key, expect.objectContaining({ description: expect.any(String) })]);
  });

  test("asks for what must be there, but not of a file that uses others", async () => {
    const schema = await planSchema();
    expect(schema["required"]).toBeUndefined();
    expect(schema["if"]).toMatchObject({ required: ["uses"] });
    expect(schema["else"]).toMatchObject({
      required: ["daywright", "date", "clock"],
      properties: { hits: { additionalProperties: { required: ["at", "for"] } } },
    });
  });

  test("is the same for editors until it is changed on purpose", async () => {
    await expect(`${JSON.stringify(await planSchema(), null, 2)}\n`).toMatchFileSnapshot("../golden/plan.schema.json");
  });
});
