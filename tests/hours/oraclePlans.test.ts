/** Days with two vehicles of different rules: the exact engine against the minute-by-minute reading, whichever is listed first. */
import { expect, it } from "vitest";
import type { Breach } from "../../src/hours/index.ts";
import { assess } from "../../src/hours/index.ts";
import { readPlan, solveDay } from "../../src/index.ts";
import { runs } from "../fuzz.ts";
import { randomOf } from "./naive/logs.ts";
import type { Marks } from "./naive/minutes.ts";
import { randomPlan, readingsOf } from "./naive/plans.ts";

/** Days of one test; the fuzz has ten such tests, each with seeds of its own. */
const COUNT = 2000;
const PARTS = Array.from({ length: runs(1, 10) }, (_, part) => part * COUNT);

/** `us-property.window 780-835`, in minutes from the start of the record. */
function marked(marks: Marks): string {
  const found: string[] = [];
  for (const [limit, bits] of marks) {
    for (let i = 0; i < bits.length; i++) {
      if (bits[i] !== 1) continue;
      const from = i;
      while (bits[i] === 1) i++;
      found.push(`${limit} ${from}-${i}`);
    }
  }
  return found.sort().join(", ");
}

function marksOf(breaches: readonly Breach[], start: number, end: number): Marks {
  const marks: Marks = new Map();
  for (const { limit, from, to } of breaches) {
    const bits = marks.get(limit.id) ?? new Uint8Array(end - start);
    bits.fill(1, Math.max(0, from - start), Math.min(end - start, to - start));
    marks.set(limit.id, bits);
  }
  return marks;
}

const minutesIn = (marks: Marks): number =>
  [...marks.values()].reduce((sum, bits) => sum + bits.filter((bit) => bit === 1).length, 0);

async function judged(text: string) {
  const read = await readPlan(text, { file: "day.yaml" });
  if (!read.ok) throw new Error(`${read.findings.map(({ code }) => code).join()}\n${text}`);
  const solved = await solveDay(read);
  if (!solved.ok) throw new Error(`${solved.findings.map(({ code }) => code).join()}\n${text}`);
  const day = solved.days.at(-1);
  if (day === undefined) throw new Error("no day");
  return { day, ...assess({ days: solved.days, patience: 1, now: null }) };
}

it.each(PARTS)(
  `the engine and a minute-by-minute reading agree on ${COUNT} days with two vehicles, seeds after %i`,
  {
    timeout: 3_600_000,
  },
  async (after) => {
    let [broken, several] = [0, 0];
    for (let seed = after + 1; seed <= after + COUNT; seed++) {
      const text = randomPlan(randomOf(seed * 15_485_863), false);
      const { day, result, findings } = await judged(text);
      for (const person of day.people) {
        const hours = result.people.get(person.id)?.hours;
        const [start, end] = [person.spans[0]?.from, person.spans.at(-1)?.to];
        if (hours === undefined || start === undefined || end === undefined) throw new Error(person.id);
        const readings = readingsOf(day, person);
        if (readings.size > 1) several += 1;
        const law = hours.verdicts.filter(({ rules }) => rules.legallyBinding);
        expect(law.map(({ rules }) => rules.id).sort(), `seed ${seed} ${person.id}`).toEqual(
          [...readings.keys()].sort(),
        );
        for (const { rules, breaches } of law) {
          const got = marked(marksOf(breaches, start, end));
          const all = readings.get(rules.id) ?? [];
          const most = Math.max(...all.map(minutesIn));
          const strictest = all.filter((marks) => minutesIn(marks) === most).map(marked);
          if (got !== "") broken += 1;
          if (!strictest.includes(got))
            expect(got, `seed ${seed} ${person.id} ${rules.id}\n${text}`).toBe(strictest[0]);
        }
      }
      // The order of vehicles changes nothing.
      if (seed % 10 === 0) {
        const turned = await judged(randomPlan(randomOf(seed * 15_485_863), true));
        const figures = ({ result: { people }, findings }: typeof turned) => [
          [...people.values()].map(
            ({ hours: { verdicts, drivingMustStopAt, earliestNextCall, earliestNextDrive } }) => [
              verdicts.map(({ rules, breaches, limits }) => [
                rules.id,
                breaches.map(({ limit, from, to }) => [limit.id, from, to]),
                limits.map(({ limit, usedMinutes, leftMinutes }) => [limit.title, usedMinutes, leftMinutes]),
              ]),
              drivingMustStopAt,
              earliestNextCall,
              earliestNextDrive,
            ],
          ),
          findings.map(({ code, facts }) => JSON.stringify([code, facts])).sort(),
        ];
        expect(figures(turned), `seed ${seed}, vehicles turned`).toEqual(figures({ day, result, findings }));
      }
    }
    expect(broken).toBeGreaterThan(COUNT / 20);
    expect(several).toBeGreaterThan(COUNT / 10);
  },
);
