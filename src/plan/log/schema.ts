/** The JSON Schema of a log file, for editors: draft 7, as one writes it. */
import { logForm } from "./form.ts";

/** Made from the same forms that read a log. */
export async function logSchema(): Promise<Readonly<Record<string, unknown>>> {
  const z = await import("zod");
  z.config({ jitless: true });
  const { $schema, ...schema } = z.toJSONSchema(logForm.schema(z, true), { target: "draft-7", io: "input" });
  return { $schema, title: "daywright log", description: "What people did when, for the hours alone.", ...schema };
}
