/** The tutorial: a first plan and what comes of it. A test types every command in this order. */
import { heading, type Page, run, text } from "./page.ts";

export const page: Page = {
  name: "first-night",
  title: "The first night",
  blocks: [
    text(
      "You have a list of hits and a place to sleep. Start in an empty folder. `new` without flags asks for all of this at a terminal.",
    ),
    run(
      'daywright new --date 2027-01-20 --desk America/New_York --zone America/Chicago --bed lodge --released "18:00 -1d" --person "wren camera drives wagon" --person "ilse reporter" --vehicle wagon --drive "lodge pier 35 min 50 min" --hit "dawn 07:00 pier 3 min"',
      0,
      ["wrote 2027-01-20.yaml"],
    ),
    text("Read the file: it is short, and its comments say what each part is. Then ask what is wrong with the day."),
    run("daywright check 2027-01-20.yaml", 0, []),
    text("Errors come first, each with its line and with what to do. Notes may stay. Who is called when?"),
    run("daywright calls 2027-01-20.yaml", 0, ["wren", "ilse"]),
    text("And why then? Every time has a chain of reasons that adds up:"),
    run("daywright calls 2027-01-20.yaml --why wren.call", 0, ["loading at lodge"]),
    heading("The desk calls"),
    text("It wants the hit two hours earlier. Try it without touching the file:"),
    run("daywright check 2027-01-20.yaml --set hits.dawn.at=05:00", 1, ["rest-too-short"]),
    text("The crew would not get enough rest. What does that code mean?"),
    run("daywright explain rest-too-short", 0, ["rest-too-short (error)"]),
    text("Half an hour earlier would do:"),
    run("daywright check 2027-01-20.yaml --set hits.dawn.at=06:30", 0, []),
    heading("Tell everyone"),
    run("daywright sheet 2027-01-20.yaml -o sheet.html", 0, ["wrote sheet.html"]),
    run("daywright sheet 2027-01-20.yaml -o day.ics", 0, ["wrote day.ics"]),
    run("daywright sheet 2027-01-20.yaml --for ilse", 0, ["ilse"]),
    text("The page is for a phone and for paper, the calendar for whoever lives by theirs."),
    heading("The day after"),
    text("Write down what really happened. A time without a clock is the control room's."),
    run("daywright log 2027-01-20.yaml wren released 08:30", 0, ["08:30 New York (07:30 Chicago)"]),
    text("Tomorrow begins where today ended:"),
    run('daywright next 2027-01-20.yaml --hit "dawn 08:00 pier 3 min"', 0, ["wrote 2027-01-21.yaml"]),
    run("daywright check 2027-01-21.yaml", 0, []),
    run("daywright hours 2027-01-21.yaml --for wren", 0, ["turnaround 10 h"]),
    text(
      "Where to go on: `daywright help plan` for all that a plan can say, `daywright help recipes` for hooks and chats.",
    ),
  ],
};
