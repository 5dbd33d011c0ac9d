/** What a plan can say, section by section and key by key, from the declarations that its reader works with: for the manual. */
import { planForm } from "./read/sections.ts";
import { declared, type Field, type KeyDeclaration } from "./shape/entry.ts";
import type { Form } from "./shape/kind.ts";

/** One key. Texts are plain English and YAML, in one line each. */
export interface KeyReference {
  /** Inside its entry, with the keys around it where it is nested: `fallback.decideBy`. */
  readonly key: string;
  /** What it takes: `a length of time such as 35 min`. */
  readonly takes: string;
  readonly says: string;
  readonly required: boolean;
  /** What holds where it is left out, as a plan writes it; null where nothing does or `says` tells it. */
  readonly byDefault: string | null;
  readonly example: string | null;
}

/** What one entry of a section may be; most sections have one kind of entry, `actual` has one for each kind of thing. */
export interface EntryReference {
  /** `a person: a map such as { role: camera, drives: wagon }`. */
  readonly takes: string;
  readonly keys: readonly KeyReference[];
}

/** A section for the manual. */
export interface SectionReference {
  /** `crew`, `hits`, or a key of the head such as `date`. */
  readonly section: string;
  readonly takes: string;
  readonly says: string;
  readonly required: boolean;
  readonly example: string | null;
  /** Empty where the section is one value. */
  readonly entries: readonly EntryReference[];
}

/** All sections in the order in which the format lists them. */
export const planReference = (): readonly SectionReference[] =>
  [...planForm.fields].map(([section, field]) => ({
    section,
    takes: field.form.wanted,
    says: field.says,
    required: planForm.required.some((key) => key === section),
    example: exampleOf(field),
    entries: entriesOf(field.form),
  }));

/** A key that more sections have says nothing of where it was meant to stand. */
const MOST_HOMES = 2;

/** The sections whose entries have this key, if they are few; empty otherwise. */
export function sectionsWith(key: string): readonly string[] {
  const homes = planReference().filter(({ entries }) =>
    entries.some(({ keys }) => keys.some((own) => own.key === key)),
  );
  return homes.length > MOST_HOMES ? [] : homes.map(({ section }) => section);
}

function entriesOf(section: Form): readonly EntryReference[] {
  const forms = entriesIn(section);
  return forms.map((form) => ({ takes: form.wanted, keys: keysIn(form, "", forms) }));
}

interface WithFields extends Form {
  readonly fields: ReadonlyMap<string, KeyDeclaration>;
  readonly required: readonly string[];
}

const hasFields = (form: Form): form is WithFields => "fields" in form;

/** The entries with known keys that a form holds, those inside them left out. */
function entriesIn(form: Form): readonly WithFields[] {
  return hasFields(form) ? [form] : [...new Set((form.parts ?? []).flatMap(entriesIn))];
}

/** Each key once; `listed` are entries of the section, whose keys are not repeated inside one another. */
function keysIn(form: WithFields, prefix: string, listed: readonly WithFields[]): readonly KeyReference[] {
  const all = [...form.fields].flatMap(([key, field]) => {
    const whole = `${prefix}${key}`;
    const own: KeyReference = {
      key: whole,
      takes: field.form.wanted,
      says: field.says,
      required: form.required.includes(key),
      byDefault: field.byDefault ?? null,
      example: exampleOf(field),
    };
    const inner = entriesIn(field.form).filter((entry) => !listed.includes(entry));
    return [own, ...inner.flatMap((entry) => keysIn(entry, `${whole}.`, listed))];
  });
  return [...new Map(all.toReversed().map((own) => [own.key, own])).values()].toReversed();
}

/** Of the declaration, else of the form or the first part of it that has one, else the default. */
function exampleOf(field: Field): string | null {
  const { form, example, byDefault } = declared(field);
  return example ?? exampleIn(form) ?? byDefault ?? null;
}

function exampleIn(form: Form): string | null {
  if (form.example !== undefined) return form.example;
  const [, behind] = /(?:such as|as in|: ) ?(?=\S)(-? ?[[{].*[\]}]|"[^"]*"|[^,]+)/.exec(form.wanted) ?? [];
  if (behind !== undefined) return behind;
  for (const part of form.parts ?? []) {
    const found = exampleIn(part);
    if (found !== null) return form.list === true ? `[${found}]` : found;
  }
  return null;
}
