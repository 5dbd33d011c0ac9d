/** The hand-written day with a hostile word in every free text of its plan, for the tests of each form. */
import type { Entity, Id } from "../../src/plan/plan.ts";
import { wordingOf } from "../../src/reports/shared/wording.ts";
import type { SheetRequest } from "../../src/reports/sheet/input.ts";
import { demoDay } from "./demoDay.ts";
import { demoInput } from "./demoInput.ts";

/** Markup, quotes, right-to-left marks, escape codes, a formula, mentions, entities, line ends, property names. */
export const HOSTILE =
  "=cmd|'/c x'!A0 <script>alert(1)</script> \"><img src=x onerror=alert(1)> \u202Egnp.exe \u001b]52;c;aGk=\u0007 " +
  "@everyone <@1234> <!channel> &#64;here\r\nATTENDEE:mailto:a@b\nBEGIN:VALARM\n# head\n```\n[x](javascript:alert(1)) https://x.example";

/** Values that start a spreadsheet formula when a cell begins with them. */
export const FORMULAS: readonly string[] = ["=1+1", "+1", "-1", "@SUM(1)", "\t=1", "\r=1"];

const renamed = <T extends Entity>(things: ReadonlyMap<Id, T>, more: Partial<T>): ReadonlyMap<Id, T> =>
  new Map([...things].map(([id, thing]) => [id, { ...thing, ...more }]));

export function hostileInput(word: string = HOSTILE): SheetRequest {
  const { plan } = demoDay;
  const day = {
    ...demoDay,
    plan: {
      ...plan,
      title: word,
      crew: renamed(plan.crew, { name: word, roles: [word] }),
      vehicles: renamed(plan.vehicles, { name: word }),
      places: renamed(plan.places, {
        name: word,
        address: word,
        parking: word,
        hospital: { name: word, km: null, phone: word, address: word },
        note: word,
      }),
      paths: renamed(plan.paths, { booking: word, polarisation: word, phone: word }),
      lines: renamed(plan.lines, { number: word, spare: word }),
    },
    activities: demoDay.activities.map((one) => ({
      ...one,
      activity: one.activity.kind === "hit" ? { ...one.activity, show: word } : { ...one.activity, what: word },
    })),
  };
  const request = demoInput();
  return {
    ...request,
    day,
    say: wordingOf(day.plan),
    facts: {
      ...request.facts,
      batteries: (request.facts.batteries ?? []).map((one) => ({ ...one, text: word })),
      gear: [{ vehicle: "truck", items: [word] }],
    },
    findings: request.findings.map((one) => ({
      ...one,
      sentence: () => word,
      hint: () => word,
      accepted: one.accepted && word,
    })),
  };
}
