/** The test words that mutants need: tests are kept in a list to be run one after the other, with the usual `expect`. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";

const fromVitest = createRequire(createRequire(import.meta.url).resolve("vitest/package.json"));
const load = (name) => import(pathToFileURL(fromVitest.resolve(name)).href);
const own = await load("@vitest/expect");
const chai = await import(
  pathToFileURL(createRequire(fromVitest.resolve("@vitest/expect/package.json")).resolve("chai")).href
);

chai.use(own.JestExtend);
chai.use(own.JestChaiExpect);
chai.use(own.JestAsymmetricMatchers);

/** What the file that is being loaded declares. */
export const declared = { file: "", tests: [], before: [], after: [], each: [], eachAfter: [] };

export function expect(value, message) {
  return chai.expect(value, message);
}
Object.assign(expect, chai.expect);
const global = { assertionCalls: 0, isExpectingAssertions: false, currentTestName: "" };
own.setState({ ...global, expectedAssertionsNumber: null, expectedAssertionsNumberErrorGen: null }, expect);
expect.getState = () => own.getState(expect);
for (const name of [
  "any",
  "anything",
  "arrayContaining",
  "objectContaining",
  "stringContaining",
  "stringMatching",
  "not",
  "closeTo",
])
  Object.defineProperty(expect, name, { get: () => globalThis[own.GLOBAL_EXPECT]?.[name] ?? chai.expect[name] });
expect.fail = (message) => {
  throw new Error(message);
};
globalThis[own.GLOBAL_EXPECT] ??= chai.expect;
expect.extend = () => undefined;
chai.use((_, utils) => {
  utils.addMethod(chai.Assertion.prototype, "toMatchFileSnapshot", function toMatchFileSnapshot(path) {
    const kept = readFileSync(join(dirname(join("tests", declared.file)), path), "utf8");
    const text = utils.flag(this, "object");
    if (kept.replaceAll("\r\n", "\n") !== String(text).replaceAll("\r\n", "\n")) throw new Error(`not ${path}`);
  });
});

/** `it(name, run)` and `it(name, options, run)`. */
const bodyOf = (words) => words.findLast((word) => typeof word === "function");

function test(name, ...words) {
  const run = bodyOf(words);
  if (run !== undefined) declared.tests.push({ name: String(name), run });
}

function describe(_, ...words) {
  bodyOf(words)?.();
}

/** A word with what hangs on it: `each`, `skipIf`, `only` and the like. */
function withForms(word) {
  const each =
    (cases) =>
    (name, ...words) => {
      const run = bodyOf(words);
      for (const one of cases) word(name, () => (Array.isArray(one) ? run(...one) : run(one)));
    };
  const skipIf = (skipped) => (skipped ? Object.assign(() => undefined, { each: () => () => undefined }) : word);
  return Object.assign(word, { each, skipIf, runIf: (kept) => skipIf(!kept), sequential: word, concurrent: word });
}

withForms(test);
withForms(describe);

export { describe, test, test as it };
export const beforeAll = (run) => declared.before.push(run);
export const afterAll = (run) => declared.after.push(run);
export const beforeEach = (run) => declared.each.push(run);
export const afterEach = (run) => declared.eachAfter.push(run);
