/** The reference of the plan's keys: complete, and every example is a value that its key takes. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { sectionPage } from "../../src/manual/pages/plan.ts";
import { planForm } from "../../src/plan/read/sections.ts";
import { planReference } from "../../src/plan/reference.ts";
import type { Form } from "../../src/plan/shape/kind.ts";
import { sourceText } from "../../src/plan/text/source.ts";
import { readYaml } from "../../src/plan/text/yaml.ts";
import { pageText } from "../../src/render/page.ts";

const reference = planReference();
const keys = reference.flatMap(({ section, entries }) =>
  entries.flatMap((entry) => entry.keys.map((key) => [`${section}: ${key.key}`, key] as const)),
);

/** Whether `text` after a key is a value of the form. */
function takes(form: Form | undefined, text: string): boolean {
  const { tree } = readYaml(sourceText("", text.startsWith("- ") ? `a:\n  ${text}` : `a: ${text}`));
  const value = tree?.kind === "map" ? tree.entries.get("a")?.value : undefined;
  return form !== undefined && value !== undefined && form.fits(value);
}

/** The forms of all keys with a name, wherever they stand. */
const formsOf = (name: string): readonly Form[] => {
  const inside = (form: Form): readonly Form[] => {
    const fields = "fields" in form && form.fields instanceof Map ? [...form.fields] : [];
    return [
      ...fields.flatMap(([key, field]) => [...(key === name ? [field.form] : []), ...inside(field.form)]),
      ...(form.parts ?? []).flatMap(inside),
    ];
  };
  return inside(planForm);
};

describe("the reference", () => {
  test("has every section, with an example that it takes", () => {
    expect(reference.map(({ section }) => section)).toEqual([...planForm.keys]);
    for (const { section, example } of reference)
      expect([section, takes(planForm.fields.get(section)?.form, example ?? "")]).toEqual([section, true]);
  });

  test.each(keys)("%s has a sentence and an example that some key of that name takes", (_, { key, says, example }) => {
    expect(says).toMatch(/\S/);
    const name = key.split(".").at(-1) ?? "";
    expect(formsOf(name).some((form) => takes(form, example ?? ""))).toBe(true);
  });

  test("says defaults apart from sentences", () => {
    expect(keys.find(([name]) => name === "rules: park")?.[1]).toEqual({
      key: "park",
      takes: "a length of time such as 35 min",
      says: "at every stop where something is done",
      required: false,
      byDefault: "5 min",
      example: "35 min",
    });
  });
});

describe("house rules", () => {
  test("stand in the page of the manual, each with its default", () => {
    const page = sectionPage("rules");
    const shown = page === null ? "" : pageText(page, null);
    const missing = keys.flatMap(([name, { key, byDefault }]) =>
      name.startsWith("rules: ") && !new RegExp(`\n  ${key}\n.*Default: \`${byDefault}\``, "u").test(shown)
        ? [key]
        : [],
    );
    expect(missing).toEqual([]);
  });

  test("have a line for each section in the README", () => {
    const readme = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
    expect(
      planReference().flatMap(({ section }) =>
        new RegExp(`^\\| (?:\`\\w+\`, )*\`${section}\`(?:, \`\\w+\`)* \\|`, "mu").test(readme) ? [] : [section],
      ),
    ).toEqual([]);
  });
});
