/** What the Day can say of what was logged and of what is past. */
import { define, names } from "../../findings/finding.ts";

export const loggedOtherwise = define<{ what: string; rule: string; other: string | null }>({
  code: "logged-otherwise",
  level: "note",
  title: "what was logged differs from what the plan states",
  why: "What happened stands: it is never moved, shortened or refused. The plan's window, length, fixed departure or order gives way to it.",
  cure: "Nothing has to be done. Correct the log if the time is wrong.",
  example: `
    actual:     # breakfast is planned to last 30 minutes
      breakfast: { at: "07:33", end: "07:53" }
  `,
  sentence: (f) =>
    f.other === null
      ? `${f.what} went otherwise than its \`${f.rule}\` says; the log stands`
      : `${f.what} went otherwise than \`${f.rule}\` and ${f.other} say; the log stands`,
  hint: () => null,
});

export const factAhead = define<{ what: string; key: string }>({
  code: "fact-ahead",
  level: "note",
  title: "something is logged for a time after now",
  why: "What is logged has happened. A time after `--now` cannot have, so it is left aside.",
  cure: "Correct the time, or leave out `--now`.",
  example: "daywright check day.yaml --now 08:00 --set actual.noon.at=12:01",
  sentence: (f) => `\`${f.what} ${f.key}\` is after now and is left aside`,
  hint: () => "correct the time, or leave out `--now`",
});

export const editOfPast = define<{ what: string }>({
  code: "edit-of-past",
  level: "warning",
  title: "an edit changes what is past",
  why: "What has begun before `--now` stands as it was planned before the edit, to its end; an edit changes only what has not begun.",
  cure: "Log what happened instead: an entry of `actual` is a fact and moves what follows.",
  example: "daywright calls day.yaml --now 10:00 --set hits.dawn.at=07:30",
  sentence: (f) => `${f.what} has begun before now, so the edit of it changes nothing`,
  hint: (f) => `log what happened to ${f.what} instead`,
});

export const allReleased = define<{ what: string; who: readonly string[] }>({
  code: "all-released",
  level: "error",
  otherwise: { level: "warning", when: "if it is a task" },
  title: "everyone who was to make a hit is logged as released before it",
  why: "Who was released is at nothing that begins later. A hit with no one there is lost.",
  cure: "Give the hit to someone who is still there, drop it, or correct the log. If it went out all the same, log it.",
  example: `
    actual:     # noon is on air at 12:00, for these two
      wren: { released: "11:55" }
      ilse: { released: "11:55" }
  `,
  sentence: (f, say) =>
    `no one is there for ${f.what}: ${names(f.who, say)} ${f.who.length === 1 ? "is" : "are"} logged as released before it`,
  hint: (f) => `give ${f.what} to someone who is still there, drop it, or log that it went out`,
});

export const dutyHalfLogged = define<{ who: string; logged: string; missing: string }>({
  code: "duty-half-logged",
  level: "warning",
  title: "work that the plan does not have is logged with one end alone",
  why: "The plan has nothing for them, so that nothing says when their work began or ended. Their hours and their rest do not have it.",
  cure: "Log both the call and the release, or take the one out that is logged.",
  example: `
    crew:     # the plan has nothing for her
      gast: { role: reporter, slept: lodge, sleeps: lodge }
    actual:
      gast: { released: "18:00" }
  `,
  sentence: (f) => `${f.who} is logged as ${f.logged}, not as ${f.missing}: their hours and rest do not have that work`,
  hint: (f) => `log when ${f.who} was ${f.missing} as well`,
});
