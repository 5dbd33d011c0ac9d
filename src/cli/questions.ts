/** Questions at a terminal in their order: an unclear answer is asked for again, and `back` goes to the question before. */
import type { Finding, Said } from "../index.ts";
import { printable } from "../render/text/printable.ts";
import type { Invocation } from "./command.ts";
import { note } from "./output.ts";
import { printUnclear } from "./plan/writePlan.ts";

/** One question, `S` being all answers so far. */
export interface Question<S> {
  readonly text: string;
  /** One answer, and what an empty one means: the line above the question. */
  readonly example: (state: S) => string;
  /** What return answers. */
  readonly preset: (state: S) => string | Promise<string>;
  /** Whether it is to be asked at all. */
  readonly isOpen?: (state: S) => Promise<boolean>;
  readonly read: (answer: string, state: S) => Promise<AnswerReading<S>>;
}

/** What an answer is: the last one to its question, one of several, or unclear, which has been printed. */
export type AnswerReading<S> =
  | { readonly is: "last" | "one"; readonly state: S }
  /** `near` is what was probably meant, offered in place of the preset; null if nothing was. */
  | { readonly is: "unclear"; readonly near: string | null };

/** How one goes back, as the first line above the questions says it. */
export const WAY_BACK = "answer `back` for the question before; Ctrl-C ends without a file";

/** An answer that was taken: its question, and the answers before it. */
interface Step<S> {
  readonly index: number;
  readonly state: S;
  readonly answer: string;
}

/** Asks one question after another and gives all answers. */
export async function askEach<S>(invocation: Invocation, questions: readonly Question<S>[], first: S): Promise<S> {
  const { io, options } = invocation;
  const taken: Step<S>[] = [];
  let state = first;
  let near: string | null = null;
  let shown = -1;
  for (let index = 0; index < questions.length; ) {
    const question = questions[index];
    if (question === undefined || (await question.isOpen?.(state)) === false) {
      index++;
      continue;
    }
    // Once where a question is met, and not for each of several answers to it.
    const example = question.example(state);
    if (index !== shown || question.isOpen !== undefined) note(io, options, example);
    shown = index;
    const answer = (await io.ask(question.text, near ?? (await question.preset(state)))).trim();
    near = null;
    if (answer.toLowerCase() === "back") {
      const last = taken.pop();
      if (last === undefined) io.stderr.write("error: there is no question before this one\n");
      else {
        index = last.index;
        state = last.state;
        if (last.answer !== "") note(io, options, `taken back: ${printable(last.answer)}`);
      }
      continue;
    }
    const reply = await question.read(answer, state);
    if (reply.is === "unclear") {
      near = reply.near;
      continue;
    }
    taken.push({ index, state, answer });
    state = reply.state;
    if (reply.is === "last") index++;
  }
  return state;
}

/** What makes the questions of one interview: where it stands, and what an answer would make wrong. */
export interface Asking<S> {
  readonly invocation: Invocation;
  /** The mistake that an answer brings in; null if there is none. */
  readonly mistakeOf: (before: S, after: S) => Promise<Finding | null>;
}

/** The words of a question, and the line above it. */
interface Words {
  readonly text: string;
  /** An answer as it can be typed. */
  readonly example: string;
  /** What an empty answer means. */
  readonly empty: string;
}

const exampleLine = ({ example, empty }: Words): string => `  such as: ${example}   (empty: ${empty})`;

/** A question for one value. */
interface OneValue<S> extends Words {
  /** What return answers; nothing where left out. */
  readonly preset?: Question<S>["preset"];
  readonly put: (state: S, answer: string) => S;
  /** Any text where left out. */
  readonly read?: (answer: string) => Said<string>;
}

/** One value; asked for again with what was probably meant as what return answers. */
export function oneValue<S>(asking: Asking<S>, { preset, put, read, ...words }: OneValue<S>): Question<S> {
  return {
    text: words.text,
    example: () => exampleLine(words),
    preset: preset ?? (() => ""),
    async read(answer, state) {
      const said = read?.(answer) ?? { ok: true, value: answer };
      return said.ok
        ? taken(asking, state, put(state, said.value), "last")
        : unclear(asking.invocation, said.finding, true);
    },
  };
}

/** A question that is asked until the answer is empty. */
interface SeveralValues<S, T> extends Words {
  readonly read: (answer: string) => Said<T>;
  readonly add: (state: S, value: T) => S;
  /** Why at least one is needed; null where there are enough. */
  readonly none?: (state: S) => string | null;
}

/** Values one by one until an empty answer. */
export function severalValues<S, T>(
  asking: Asking<S>,
  { read, add, none, ...words }: SeveralValues<S, T>,
): Question<S> {
  return {
    text: words.text,
    example: () => exampleLine(words),
    preset: () => "",
    async read(answer, state) {
      if (answer === "") {
        const lacks = none?.(state) ?? null;
        if (lacks === null) return { is: "last", state };
        asking.invocation.io.stderr.write(`error: ${lacks}\n`);
        return { is: "unclear", near: null };
      }
      const said = read(answer);
      return said.ok
        ? taken(asking, state, add(state, said.value), "one")
        : unclear(asking.invocation, said.finding, false);
    },
  };
}

/** The answers with a new one, or what is wrong with them. */
async function taken<S>(asking: Asking<S>, before: S, after: S, is: "last" | "one"): Promise<AnswerReading<S>> {
  const mistake = await asking.mistakeOf(before, after);
  return mistake === null ? { is, state: after } : unclear(asking.invocation, mistake, is === "last");
}

async function unclear<S>(invocation: Invocation, mistake: Finding, isOffered: boolean): Promise<AnswerReading<S>> {
  await printUnclear(invocation, mistake);
  return { is: "unclear", near: isOffered ? meantBy(mistake) : null };
}

/** The one value that a finding says is probably meant, ready to be typed; null where it names none or several. */
function meantBy({ facts }: Finding): string | null {
  const { near, like, fix, example } = facts;
  const only = Array.isArray(like) && like.length === 1 ? like[0] : null;
  return [near, only, fix, example].find((one): one is string => typeof one === "string" && one !== "") ?? null;
}

/** The words by which a hit is asked for. */
export const HIT = { text: "A hit, when, where, how long", example: "dawn 07:00 pier 3 min", empty: "no more" };

/** The words by which a drive is asked for. */
export const DRIVE = { text: "A drive, likely and bad time", example: "lodge pier 35 min 50 min", empty: "no more" };

/** Says that a drive is missing, in the words of its finding, and asks for it; an empty answer leaves it open. */
export function missingDrives<S, T>(
  asking: Asking<S>,
  missing: (state: S) => Promise<Finding | null>,
  { read, add }: Pick<SeveralValues<S, T>, "read" | "add">,
): Question<S> {
  let ends = "lodge pier";
  const empty = "the hits are written as comments";
  return {
    ...severalValues(asking, { ...DRIVE, read, add }),
    example: () => exampleLine({ ...DRIVE, example: `${ends} 35 min 50 min`, empty }),
    async isOpen(state) {
      const finding = await missing(state);
      if (finding === null) return false;
      await printUnclear(asking.invocation, { sentence: finding.sentence, hint: () => null });
      const { from, to } = finding.facts;
      ends = `${String(from)} ${String(to)}`;
      return true;
    },
  };
}
