/** Plans that the tests of `src/plan` share. */
import { readFileSync } from "node:fs";

const fixture = (name: string): string =>
  readFileSync(new URL(`../../fixtures/plans/${name}`, import.meta.url), "utf8");

/** Few lines, most defaults. */
export const smallest = fixture("smallest.yaml");

/** Every section and every form of a value. */
export const everything = fixture("everything.yaml");
