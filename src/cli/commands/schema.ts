/** `schema WHAT`: the JSON Schema of a plan, of a log, or of a command's JSON. */
import { nearest, schema as schemaNamed, schemaNames } from "../../index.ts";
import type { CommandFile, Invocation } from "../command.ts";
import { EXIT, type ExitCode, usage } from "../exit.ts";
import { deliver } from "../output.ts";

/** The command `schema`. */
export const schemaCommand: CommandFile = {
  name: "schema",
  place: 230,
  summary: "print the JSON Schema of a plan, of what plans share, of a log, or of the JSON of a command",
  more: [
    "For an editor: daywright schema plan -o plan.schema.json, and as the first line of a plan:",
    "  # yaml-language-server: $schema=./plan.schema.json",
    "`schema shared` is for the files that plans name under `uses`.",
  ].join("\n"),
  build: (command) => {
    command.argument("<schema>", "plan, shared, log, or the name of a command");
  },
  prints: "json",
  run,
};

async function run({ io, options, args: [what = ""] }: Invocation): Promise<ExitCode> {
  const found = await schemaNamed(what);
  if (found === null) {
    const known = await schemaNames();
    const near = nearest(what, known);
    throw usage(`there is no schema of \`${what}\``, near === null ? known.join(", ") : `daywright schema ${near}`);
  }
  deliver(io, options, (await import("../../render/forms/json.ts")).toJson(found));
  return EXIT.done;
}
