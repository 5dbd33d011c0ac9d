/** Directive 2003/88/EC, for everyone who works; for press, radio and television states may depart from it (Art 17(3)). */
import { PLAIN, type RuleSetDeclaration } from "../declaration.ts";
import { EUROPEAN, OVER_3500_KG } from "../europe.ts";
import { hoursToMinutes } from "../options.ts";
import type { Since } from "../rule.ts";

const DEFER =
  "press, radio and television may depart from this with compensatory rest (Directive 2003/88/EC Art 17(3))";

const SHIFT: Since = { kind: "rest", minutes: hoursToMinutes(6) };

/** Working time in the European Union, for people who drive nothing. */
export const euWorkingTime: RuleSetDeclaration = {
  place: 60,
  ...PLAIN,
  title: "Directive 2003/88/EC",
  source: "Directive 2003/88/EC Art 3 to 6, 17(3)",
  threshold: OVER_3500_KG,
  forPeople: true,
  make: () => ({
    ...EUROPEAN,
    covers: () => true,
    lightDriving: "driving",
    shift: SHIFT,
    limits: [
      {
        kind: "rest",
        id: "eu-working-time.rest",
        clause: "Dir 2003/88/EC Art 3",
        title: "11 h daily rest",
        requires: hoursToMinutes(11),
        forbids: "work",
        parting: hoursToMinutes(6),
        breach: "short",
        defer: DEFER,
      },
      {
        kind: "max",
        id: "eu-working-time.day",
        clause: "Dir 2003/88/EC Art 3",
        title: "13 h from start to end, to leave 11 h of 24",
        counts: "elapsed",
        allows: hoursToMinutes(13),
        forbids: "work",
        since: [SHIFT],
        defer: DEFER,
      },
      {
        kind: "max",
        id: "eu-working-time.week",
        clause: "Dir 2003/88/EC Art 5",
        title: "35 h weekly rest in each 7 days",
        counts: "elapsed",
        allows: hoursToMinutes(7 * 24 - 35),
        forbids: "work",
        since: [{ kind: "rest", minutes: hoursToMinutes(35) }],
        defer: DEFER,
      },
    ],
    conditions: [],
    asks: {
      // Art 2(3), 2(4): night time holds midnight to 05:00; who works 3 h of it is a night worker. From memory.
      night: {
        fromMinute: 0,
        toMinute: hoursToMinutes(5),
        least: hoursToMinutes(3),
        question:
          "night work: 8 h on average in 24, and 8 h in any 24 if it has special hazards or is a heavy strain (Directive 2003/88/EC Art 8): is this shift within what national law or an agreement allows?",
      },
      always: [
        "a day of more than 6 h needs a break, whose length national law or an agreement sets (Directive 2003/88/EC Art 4): is it kept?",
        "48 h a week on average over up to 4 months (Directive 2003/88/EC Art 6, 16) cannot be judged from a few days",
      ],
    },
  }),
};
