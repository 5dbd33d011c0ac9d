/**
 * Runs the tests on every supported Node and holds that all of them print the same bytes (`npm run test:all`; `--bytes`
 * compares the bytes alone, other words are those of `npm test`). The Node at hand serves for its own version, the others
 * come through npx, which keeps them; one that cannot be had is a failure.
 */
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build, isStale } from "./build.mjs";

const VERSIONS = ["20", "22", "24"];
const COMMANDS = ["calls", "hours", "power", "drives", "light", "signal", "kit", "check", "sheet", "timecard"];
const FORMS = ["text", "json", "csv", "markdown"];
const root = fileURLToPath(new URL("..", import.meta.url));
const days = join(root, "fixtures", "days");

/** Where the Node of a version lies; null where it cannot be had. */
function nodeOf(version) {
  if (process.versions.node.startsWith(`${version}.`)) return process.execPath;
  const asked = ["-y", "-p", `node@${version}`, "node", "-p", "process.execPath"];
  const { status, stdout } = spawnSync("npx", asked, { encoding: "utf8", shell: process.platform === "win32" });
  return status === 0 ? stdout.trim() : null;
}

/** The hash of everything that each command prints of the demo days, by command line. */
function printedBy(node) {
  const plans = readdirSync(days).filter((name) => /^\d.*\.yaml$/.test(name));
  const lines = plans.flatMap((plan) =>
    COMMANDS.flatMap((command) => FORMS.map((form) => [command, plan, "-f", form])),
  );
  return new Map(
    lines.map((words) => {
      const program = join(root, "bin", "daywright.js");
      const { status, stdout, stderr } = spawnSync(node, [program, ...words], { cwd: days });
      return [words.join(" "), createHash("sha256").update(`${status}\n`).update(stdout).update(stderr).digest("hex")];
    }),
  );
}

if (isStale()) await build();
const found = VERSIONS.map((version) => ({ version, node: nodeOf(version) }));
const nodes = found.filter(({ node }) => node !== null);
let failed = nodes.length < found.length;
for (const { version, node } of found)
  if (node === null) process.stdout.write(`no Node ${version}: npx cannot fetch it\n`);

const words = process.argv.slice(2).filter((word) => word !== "--bytes");
if (!process.argv.includes("--bytes")) {
  for (const { version, node } of nodes) {
    process.stdout.write(`\nNode ${version}\n`);
    const { status } = spawnSync(node, [join(root, "bin", "test.mjs"), ...words], { cwd: root, stdio: "inherit" });
    failed ||= status !== 0;
  }
}

const [first, ...others] = nodes.map(({ version, node }) => ({ version, printed: printedBy(node) }));
for (const { version, printed } of others) {
  const different = [...printed].filter(([words, hash]) => first.printed.get(words) !== hash).map(([words]) => words);
  for (const words of different)
    process.stdout.write(`Node ${version} prints another answer than ${first.version}: ${words}\n`);
  failed ||= different.length > 0;
}
process.stdout.write(
  `${first.printed.size} answers compared on Node ${nodes.map(({ version }) => version).join(", ")}\n`,
);
process.exitCode = failed ? 1 : 0;
