/** The tutorial: a first plan and what comes of it. A test types every command in this order. */
import { commandBlock, type DeclaredPage, heading, type PageText, textBlock } from "../page.ts";

const page: PageText = {
  title: "The first night",
  blocks: [
    textBlock(
      "You have a list of hits and a place to sleep. Start in an empty folder. `daywright new` without flags asks for all of this at a terminal: an example stands above each question, an unclear answer is asked for again, and `back` goes to the question before.",
    ),
    commandBlock(
      'daywright new --date 2027-01-20 --desk America/New_York --zone America/Chicago --bed lodge --released "18:00 -1d" --person "wren camera drives wagon" --person "ilse reporter" --vehicle wagon --drive "lodge pier 35 min 50 min" --hit "dawn 07:00 pier 3 min"',
      0,
      ["wrote 2027-01-20.yaml"],
    ),
    textBlock(
      "Read the file: it is short, and its comments say what each part is. Then ask what is wrong with the day.",
    ),
    commandBlock("daywright check 2027-01-20.yaml", 0, []),
    textBlock(
      "A mistake in the file is found in one pass with all others, each with its line, and no day is computed on top of it. A number without its unit, tried without touching the file:",
    ),
    commandBlock("daywright check 2027-01-20.yaml --set hits.dawn.for=3", 3, [
      "No day is computed: 1 error",
      "try: 3 min or 3 h",
    ]),
    textBlock("Errors come first, each with its line and with what to do. Notes may stay. Who is called when?"),
    commandBlock("daywright calls 2027-01-20.yaml", 0, ["wren", "ilse"]),
    textBlock("And why then? Every time has a chain of reasons that adds up:"),
    commandBlock("daywright calls 2027-01-20.yaml --why wren.call", 0, ["loading at lodge"]),
    heading("The desk calls"),
    textBlock("It wants the hit two hours earlier. Try it without touching the file:"),
    commandBlock("daywright check 2027-01-20.yaml --set hits.dawn.at=05:00", 1, ["rest-too-short"]),
    textBlock("The crew would not get enough rest. What does that code mean?"),
    commandBlock("daywright explain rest-too-short", 0, ["rest-too-short (error)"]),
    textBlock("Half an hour earlier would do:"),
    commandBlock("daywright check 2027-01-20.yaml --set hits.dawn.at=06:30", 0, []),
    heading("Tell everyone"),
    commandBlock("daywright sheet 2027-01-20.yaml -o sheet.html", 0, ["wrote sheet.html"]),
    commandBlock("daywright sheet 2027-01-20.yaml -o day.ics", 0, ["wrote day.ics"]),
    commandBlock("daywright sheet 2027-01-20.yaml --for ilse", 0, ["ilse"]),
    textBlock("The page is for a phone and for paper, the calendar for whoever lives by theirs."),
    heading("The day after"),
    textBlock("Write down what really happened. A time without a clock is the control room's."),
    commandBlock("daywright log 2027-01-20.yaml wren released 08:30", 0, ["08:30 New York (07:30 Chicago)"]),
    textBlock("Tomorrow begins where today ended:"),
    commandBlock('daywright next 2027-01-20.yaml --hit "dawn 08:00 pier 3 min"', 0, ["wrote 2027-01-21.yaml"]),
    commandBlock("daywright check 2027-01-21.yaml", 0, []),
    commandBlock("daywright hours 2027-01-21.yaml --for wren", 0, ["turnaround 10 h"]),
    textBlock(
      "Where to go on: `daywright help plan` for all that a plan can say, `daywright help recipes` for hooks and chats.",
    ),
  ],
};

/** The page for the table. */
export const firstNightEntry: DeclaredPage = {
  name: "first-night",
  place: 10,
  about: "a first plan and what comes of it, command by command",
  page: () => page,
};
