/** Small plans for the command line: the smallest of the README, and copies with one thing wrong. */

/** The smallest useful plan. */
export const SMALLEST = `daywright: 1
date: 2027-01-20
clock: America/New_York
zone: America/Chicago
crew:
  wren: { role: camera, drives: wagon }
  ilse: { role: reporter }
vehicles:
  wagon: {}
places:
  lodge: { at: [46.60, -90.88] }
  pier:  { at: [46.81, -90.82] }
roads:
  - { link: [lodge, pier], drive: 35 min, bad: 50 min }
hits:
  dawn: { at: "07:00", for: 3 min, place: pier }
runs:
  wagon: [lodge, pier, lodge]
`;

/** A departure after which the hit cannot be made: an error of the day, not of the text. */
export const MISSED = SMALLEST.replace(
  "wagon: [lodge, pier, lodge]",
  'wagon: [{ place: lodge, leave: "06:30" }, pier, lodge]',
);

/** Hits 25 minutes apart, one of which may slip by more than is free before the next: a warning. */
export const SLIPPING = SMALLEST.replace(
  '  dawn: { at: "07:00", for: 3 min, place: pier }',
  '  dawn: { at: "07:00", for: 3 min, place: pier, late: 10 min }\n  later: { at: "07:15", for: 3 min, place: pier }',
);

/** An unknown key: not a valid plan. */
export const MISTAKEN = SMALLEST.replace("crew:", "crwe:");

export const BROKEN_YAML = `${SMALLEST}  - x: [`;

/** Names that drive a terminal, a browser, a chat and a spreadsheet. */
export const HOSTILE_NAMES = SMALLEST.replace(
  "ilse: { role: reporter }",
  'ilse: { role: reporter, name: "=1+1|<b>@everyone`*_[x](javascript:1)" }',
);
