/** What all answers share: the envelope, findings, positions and terms. */
import { CONTRACT } from "../shared/contract.ts";
import {
  anything,
  flag,
  id,
  instant,
  list,
  mapOf,
  object,
  orNull,
  type Shape,
  said,
  text,
  whole,
  word,
} from "./shape.ts";

/** A position in a plan's text. */
export const where: Shape = orNull(
  object({
    file: orNull(text),
    line: orNull(whole),
    column: orNull(whole),
    path: said(orNull(text), "as --set takes it"),
  }),
);

export const finding: Shape = object({
  code: text,
  level: word("error", "warning", "note"),
  message: text,
  who: orNull(id),
  at: orNull(instant),
  where,
  source: orNull(object({ title: text, clause: orNull(text) })),
  hint: orNull(text),
  facts: mapOf(anything),
  chain: list(object({ from: instant, to: instant, minutes: whole, name: text, where })),
  shortMinutes: orNull(whole),
  accepted: said(orNull(text), "why the plan takes it knowingly"),
});

/** The answer of one command to one plan; `data` is null where the plan could not be read (exit 3). */
export const envelopeShape = (command: string, data: Shape): Shape =>
  object({
    daywright: { const: CONTRACT },
    command: { const: command },
    plan: object({ file: orNull(text), title: orNull(text), date: orNull(text), clock: orNull(text) }),
    ok: said(flag, "true where the exit status is 0"),
    findings: list(finding),
    data: orNull(data),
  });

/** The answer to several plans. */
const severalShape = (command: string): Shape =>
  object({
    daywright: { const: CONTRACT },
    command: { const: command },
    plan: { type: "null" },
    ok: flag,
    findings: list(finding),
    data: { type: "null" },
    plans: list({ $ref: "#/definitions/one" }),
  });

/** The whole schema of a command's JSON: one answer, or one around several. */
export const answerSchema = (command: string, data: Shape): Shape => ({
  $schema: "http://json-schema.org/draft-07/schema#",
  title: `daywright ${command} --json`,
  anyOf: [{ $ref: "#/definitions/one" }, severalShape(command)],
  definitions: { one: envelopeShape(command, data) },
});
