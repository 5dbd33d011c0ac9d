/** `schema WHAT`: the JSON Schema of a plan, of a log, or of a command's JSON. */
import { nearest } from "../../findings/nearest.ts";
import type { Json } from "../../reports/shared/view.ts";
import type { CommandFile, Invocation } from "../command.ts";
import { EXIT, type ExitCode, usage } from "../exit.ts";
import { deliver } from "../output.ts";

export const schema: CommandFile = {
  name: "schema",
  summary: "print the JSON Schema of a plan, of a log, or of the JSON of a command",
  more: [
    "For an editor: daywright schema plan -o plan.schema.json, and as the first line of a plan:",
    "  # yaml-language-server: $schema=./plan.schema.json",
  ].join("\n"),
  build: (command) => {
    command.argument("<what>", "plan, log, or the name of a command");
  },
  run,
};

async function run({ io, options, args: [what = ""] }: Invocation): Promise<ExitCode> {
  const [{ described, schemaOf }, { toJson }] = await Promise.all([
    import("../../reports/schema/index.ts"),
    import("../../render/json.ts"),
  ]);
  const found = what === "plan" || what === "log" ? await fileSchema(what) : await schemaOf(what);
  if (found === null) {
    const known = ["plan", "log", ...described()];
    const near = nearest(what, known);
    throw usage(`there is no schema of \`${what}\``, near === null ? known.join(", ") : `daywright schema ${near}`);
  }
  deliver(io, options, toJson(found));
  return EXIT.done;
}

/** The schema of a file that people write, through JSON, since what makes it promises no more than an object. */
async function fileSchema(what: "plan" | "log"): Promise<Json> {
  const made =
    what === "plan"
      ? await (await import("../../plan/index.ts")).planSchema()
      : await (await import("../../plan/log/schema.ts")).logSchema();
  return JSON.parse(JSON.stringify(made));
}
