/**
 * Mistakes that people make while they write a plan at night, each laid on the plan `BASE` by one replacement: what is
 * replaced, by what, the code expected, the spot expected (behind `▸`, in context), and a piece of the advice expected.
 * Written by hand from what the writer meant, before the program was run on them.
 */
export const BASE = `daywright: 1
title: Flood on the river
date: 2027-03-03
clock: America/New_York
zone: America/Chicago
labels: { ET: America/New_York, CT: America/Chicago }
history:
  petra: { released: "17:00 -1d CT", asleep: 7 h }
  jonas: { released: "17:45 -1d CT" }
  kaia: { released: "18:00 -1d CT" }
crew:
  petra: { name: Petra Holm, role: engineer, drives: truck, phone: 555 0111 }
  jonas: { name: Jonas Berg, role: camera, drives: car }
  kaia: { role: reporter, drives: car }
vehicles:
  truck: { gross: 14500 lb, rules: us-property, week: 70/8, seats: 2, inverter: 1 kW, range: 500 km, fuel: 70% }
  car: { seats: 5, inverter: 300 W }
places:
  motel: { at: [38.56, -92.19], kind: lodging, mains: true }
  levee: { at: [38.68, -92.35], signal: good, shelter: true }
  bridge: { at: [38.59, -92.18], signal: weak }
roads:
  - { link: [motel, levee], drive: 30 min, bad: 45 min, km: 28 }
  - { link: [levee, bridge], drive: 28 min, bad: 40 min, km: 26 }
  - { link: [bridge, motel], drive: 8 min, bad: 15 min, km: 5 }
hits:
  early: { at: "07:00", for: 3 min, place: levee, path: dish, needs: [camera] }
  noon: { at: "12:00", for: 4 min, place: bridge, path: dish, needs: [camera] }
tasks:
  pictures: { for: 45 min, place: bridge, who: [jonas], after: noon }
  breakfast: { kind: meal, for: 30 min, place: levee, who: all, after: early }
runs:
  truck: { driver: petra, aboard: [petra], stops: [motel, levee, bridge, motel] }
  car: { driver: jonas, aboard: [jonas, kaia], stops: [motel, levee, bridge, motel] }
kit:
  camera: { in: car, watts: 35, mount: wedge, needs: [tripod] }
  tripod: { in: car }
packs:
  brick: { count: 4, wh: 98, mount: wedge, charge: 100%, in: car }
chargers:
  bench: { slots: 2, watts: 60, mount: wedge, in: car }
paths:
  dish: { kind: satellite, vehicle: truck, slot: 99 west, windows: [["06:15", "07:30"], ["11:15", "12:30"]], lineUp: 10 min }
weather:
  - { from: "05:00", to: "20:00", temp: 2 C, wind: 25 km/h }
rules: { turnaround: 10 h }
`;

export interface PlanMistake {
  readonly what: string;
  readonly from: string;
  readonly to: string;
  readonly code: string;
  readonly spot: string;
  readonly advice: string;
}

const m = (what: string, from: string, to: string, code: string, spot: string, advice: string): PlanMistake => ({
  what,
  from,
  to,
  code,
  spot,
  advice,
});

const HEAD: readonly PlanMistake[] = [
  m("version left out", "daywright: 1\n", "", "key-missing", "▸title: Flood", "daywright: 1"),
  m("version in words", "daywright: 1\n", "daywright: one\n", "version-unknown", "daywright: ▸one", "1"),
  m("a version to come", "daywright: 1\n", "daywright: 2\n", "version-unknown", "daywright: ▸2", "1"),
  m("date left out", "date: 2027-03-03\n", "", "key-missing", "▸daywright: 1", "date:"),
  m(
    "date in the American order",
    "date: 2027-03-03",
    "date: 03/03/2027",
    "date-bad",
    "date: ▸03/03/2027",
    "2027-03-03",
  ),
  m("date in the European order", "date: 2027-03-03", "date: 14.3.2027", "date-bad", "date: ▸14.3.2027", "2027-03-14"),
  m("a thirteenth month", "date: 2027-03-03", "date: 2027-13-03", "date-bad", "date: ▸2027-13-03", "2027-03-13"),
  m("30 February", "date: 2027-03-03", "date: 2027-02-30", "date-bad", "date: ▸2027-02-30", "2027-02-28"),
  m("one digit for the month", "date: 2027-03-03", "date: 2027-3-3", "date-bad", "date: ▸2027-3-3", "2027-03-03"),
  m("date in words", "date: 2027-03-03", "date: tomorrow", "date-bad", "date: ▸tomorrow", "2027-"),
  m("datte", "date: 2027-03-03", "datte: 2027-03-03", "key-unknown", "▸datte: 2027", "date"),
  m("Date with a capital", "date: 2027-03-03", "Date: 2027-03-03", "key-unknown", "▸Date: 2027", "date"),
  m(
    "zone by its short name",
    "clock: America/New_York",
    "clock: EST",
    "zone-unknown",
    "clock: ▸EST",
    "America/New_York",
  ),
  m("zone by its city", "zone: America/Chicago", "zone: Chicago", "zone-unknown", "zone: ▸Chicago", "America/Chicago"),
  m(
    "zone with a blank",
    "clock: America/New_York",
    "clock: America/New York",
    "zone-unknown",
    "clock: ▸America/New York",
    "America/New_York",
  ),
  m(
    "zone misspelt",
    "zone: America/Chicago",
    "zone: America/Chicgo",
    "zone-unknown",
    "zone: ▸America/Chicgo",
    "America/Chicago",
  ),
  m("zone as an offset", "zone: America/Chicago", "zone: UTC-6", "zone-unknown", "zone: ▸UTC-6", "America/"),
  m(
    "zone in lower case",
    "zone: America/Chicago",
    "zone: america/chicago",
    "zone-unknown",
    "zone: ▸america/chicago",
    "America/Chicago",
  ),
  m("clock left out", "clock: America/New_York\n", "", "key-missing", "▸daywright: 1", "clock:"),
  m("timezone for zone", "\nzone: America", "\ntimezone: America", "key-unknown", "▸timezone: America", "zone"),
  m("label to no zone", "CT: America/Chicago }", "CT: Central }", "zone-unknown", "CT: ▸Central", "America/Chicago"),
  m(
    "the same key twice",
    "title: Flood on the river\n",
    "title: Flood on the river\ntitle: Flood\n",
    "key-twice",
    "▸title: Flood\n",
    "remove one",
  ),
  m("a tab for a blank", "  jonas: { name", "\tjonas: { name", "yaml-tab", "▸\tjonas: { name", "spaces"),
  m(
    "no blank behind a colon",
    "title: Flood on the river",
    "title:Flood on the river",
    "yaml-no-space-after-colon",
    "▸title:Flood",
    "title: Flood",
  ),
  m(
    "a colon inside text",
    "title: Flood on the river",
    "title: Flood: day 2",
    "yaml-colon-in-text",
    "title: ▸Flood: day 2",
    '"Flood: day 2"',
  ),
  m("a quote left open", 'at: "12:00", for: 4 min', 'at: "12:00, for: 4 min', "yaml-unclosed", 'at: ▸"12:00, for', '"'),
  m(
    "a brace left open",
    "kaia: { role: reporter, drives: car }",
    "kaia: { role: reporter, drives: car",
    "yaml-unclosed",
    "kaia: ▸{ role: reporter",
    "}",
  ),
  m("a bracket left open", "who: [jonas], after", "who: [jonas, after", "yaml-unclosed", "who: ▸[jonas, after", "]"),
  m(
    "a comma left out",
    "{ role: reporter, drives: car }",
    "{ role: reporter drives: car }",
    "yaml-comma-missing",
    "role: ▸reporter drives",
    ",",
  ),
  m(
    "one blank too many before a key",
    "  levee: { at",
    "   levee: { at",
    "yaml-indent",
    "   ▸levee: { at",
    "same column",
  ),
  m("no indentation at all", "  truck: { driver", "truck: { driver", "yaml-indent", "▸truck: { driver", "same column"),
  m("section as a list", "crew:\n  petra: {", "crew:\n  - petra: {", "yaml-indent", "▸- petra", "dash"),
  m("Word's quotes", 'at: "12:00"', "at: “12:00”", "yaml-odd-sign", "at: ▸“12:00”", "straight quote"),
  m("hash in text", "title: Flood on the river", "title: Flood # 2\nrevision: two", "value-bad", "revision: ▸two", "2"),
];

const PEOPLE: readonly PlanMistake[] = [
  m(
    "drives a vehicle that is not there",
    "drives: car }\n  kaia",
    "drives: van }\n  kaia",
    "id-unknown",
    "drives: ▸van",
    "car",
  ),
  m(
    "drives mistyped",
    "kaia: { role: reporter, drives: car }",
    "kaia: { role: reporter, drive: car }",
    "key-unknown",
    "▸drive: car }",
    "drives",
  ),
  m("role mistyped", "kaia: { role: reporter", "kaia: { role: reportr", "word-near", "role: ▸reportr", "reporter"),
  m("rolle", "kaia: { role: reporter", "kaia: { rolle: reporter", "key-unknown", "▸rolle: reporter", "role"),
  m("a name as id", "  kaia: { role", "  Kaia Roos: { role", "id-bad", "▸Kaia Roos: {", "KaiaRoos"),
  m(
    "an id twice in one section",
    "  kaia: { role: reporter, drives: car }\n",
    "  kaia: { role: reporter, drives: car }\n  kaia: { role: producer }\n",
    "key-twice",
    "▸kaia: { role: producer",
    "remove one",
  ),
  m(
    "an id twice in two sections",
    "  tripod: { in: car }\n",
    "  tripod: { in: car }\n  levee: { in: car }\n",
    "id-twice",
    "▸levee: { in: car }",
    "rename",
  ),
  m(
    "a reserved word as id",
    "  kaia: { role: reporter, drives: car }\n",
    "  kaia: { role: reporter, drives: car }\n  all: { role: producer }\n",
    "id-reserved",
    "▸all: { role: producer",
    "another",
  ),
  m(
    "text for a map",
    "kaia: { role: reporter, drives: car }",
    "kaia: reporter",
    "value-kind",
    "kaia: ▸reporter",
    "such as {",
  ),
  m(
    "braces left out",
    "kaia: { role: reporter, drives: car }",
    "kaia: role: reporter, drives: car",
    "yaml-colon-in-text",
    "kaia: ▸role: reporter",
    "{ role: reporter, drives: car }",
  ),
  m(
    "released in the future",
    'jonas: { released: "17:45 -1d CT" }',
    'jonas: { released: "17:45 +1d CT" }',
    "release-after-call",
    'released: ▸"17:45 +1d CT"',
    "2027-03-02T17:45-06:00",
  ),
  m(
    "release without a day",
    'jonas: { released: "17:45 -1d CT" }',
    'jonas: { released: "17:45" }',
    "release-after-call",
    'released: ▸"17:45"',
    "2027-03-02T16:45-06:00",
  ),
  m("sleep as a clock time", "asleep: 7 h", "asleep: 07:00", "length-bad", "asleep: ▸07:00", "7 h"),
  m("sleep without a unit", "asleep: 7 h", "asleep: 7", "unit-missing", "asleep: ▸7 }", "7 h"),
  m("history of somebody else", "  kaia: { released", "  kaya: { released", "id-unknown", "▸kaya: { released", "kaia"),
  m(
    "a role in too many brackets",
    "kaia: { role: reporter",
    "kaia: { role: [[reporter]]",
    "value-kind",
    "role: [▸[reporter]]",
    "text",
  ),
  m("phone with a bracket", "phone: 555 0111", "phone: [555 0111]", "value-kind", "phone: ▸[555", "text"),
];

const VEHICLES: readonly PlanMistake[] = [
  m("weight without a unit", "gross: 14500 lb", "gross: 14500", "unit-missing", "gross: ▸14500,", "14500 lb"),
  m(
    "weight in pounds with a comma",
    "gross: 14500 lb",
    "gross: 14,500 lb",
    "comma-in-value",
    "gross: ▸14,500 lb",
    "14500 lb",
  ),
  m("weight in kilos misspelt", "gross: 14500 lb", "gross: 6500 kilos", "unit-wrong", "gross: ▸6500 kilos", "kg"),
  m(
    "rules of no country",
    "rules: us-property",
    "rules: us-propety",
    "word-unknown",
    "rules: ▸us-propety",
    "us-property",
  ),
  m(
    "rules left out of a truck",
    "rules: us-property, ",
    "",
    "commercial-without-rules",
    "▸truck: { gross",
    "us-property",
  ),
  m("week mistyped", "week: 70/8", "week: 70/7", "word-unknown", "week: ▸70/7", "70/8"),
  m("fuel without a sign", "fuel: 70%", "fuel: 70", "unit-missing", "fuel: ▸70 }", "70%"),
  m("fuel over the top", "fuel: 70%", "fuel: 170%", "range-wrong", "fuel: ▸170%", "100%"),
  m("range in hours", "range: 500 km", "range: 5 h", "unit-wrong", "range: ▸5 h", "km"),
  m("seats in words", "seats: 5", "seats: five", "value-bad", "seats: ▸five", "5"),
  m("half a seat", "seats: 5", "seats: 4.5", "value-bad", "seats: ▸4.5", "number of seats"),
  m("too few seats", "seats: 5", "seats: 1", "seats-too-few", "aboard: ▸[jonas, kaia]", "seats"),
  m("inverter in volts", "inverter: 300 W", "inverter: 12 V", "unit-wrong", "inverter: ▸12 V", "W"),
  m("vehicle's own typo", "  car: { seats", "  care: { seats", "id-unknown", "drives: ▸car }\n  kaia", "care"),
];

const PLACES: readonly PlanMistake[] = [
  m(
    "coordinates without brackets",
    "levee: { at: [38.68, -92.35]",
    "levee: { at: 38.68, -92.35",
    "comma-in-value",
    "levee: { at: ▸38.68",
    "[38.68, -92.35]",
  ),
  m(
    "longitude first",
    "levee: { at: [38.68, -92.35]",
    "levee: { at: [-92.35, 38.68]",
    "coordinates-swapped",
    "levee: { at: ▸[-92.35",
    "[38.68, -92.35]",
  ),
  m(
    "minus sign forgotten",
    "levee: { at: [38.68, -92.35]",
    "levee: { at: [38.68, 92.35]",
    "coordinates-doubtful",
    "levee: { at: ▸[38.68, 92.35]",
    "-92.35",
  ),
  m(
    "one coordinate",
    "levee: { at: [38.68, -92.35]",
    "levee: { at: [38.68]",
    "value-kind",
    "levee: { at: ▸[38.68]",
    "[latitude, longitude]",
  ),
  m(
    "decimal comma",
    "levee: { at: [38.68, -92.35]",
    "levee: { at: [38,68, -92,35]",
    "value-kind",
    "levee: { at: ▸[38,68",
    "38.68",
  ),
  m("signal mistyped", "signal: weak", "signal: week", "word-unknown", "signal: ▸week", "weak"),
  m("signal poor", "signal: weak", "signal: poor", "word-unknown", "signal: ▸poor", "weak"),
  m("kind mistyped", "kind: lodging", "kind: loding", "word-near", "kind: ▸loding", "lodging"),
  m("mains in words", "mains: true", "mains: yes", "value-kind", "mains: ▸yes", "true"),
  m("place id with a blank", "  levee: { at", "  the levee: { at", "id-bad", "▸the levee: { at", "theLevee"),
  m(
    "at left over as text",
    "bridge: { at: [38.59, -92.18]",
    "bridge: { at: bridge road 4",
    "value-kind",
    "bridge: { at: ▸bridge road 4",
    "[latitude, longitude]",
  ),
  m(
    "latitude beyond the pole",
    "levee: { at: [38.68, -92.35]",
    "levee: { at: [98.68, -92.35]",
    "range-wrong",
    "levee: { at: [▸98.68",
    "90",
  ),
];

const ROADS: readonly PlanMistake[] = [
  m("drive without a unit", "drive: 30 min", "drive: 30", "unit-missing", "drive: ▸30,", "30 min"),
  m("drive as a clock", "drive: 30 min", "drive: 0:30", "length-bad", "drive: ▸0:30", "30 min"),
  m("minutes misspelt", "drive: 30 min", "drive: 30 mins.", "length-bad", "drive: ▸30 mins.", "30 min"),
  m(
    "bad quicker than likely",
    "drive: 30 min, bad: 45 min",
    "drive: 45 min, bad: 30 min",
    "bad-before-drive",
    "bad: ▸30 min",
    "45 min",
  ),
  m("link of one place", "link: [motel, levee]", "link: [motel]", "value-kind", "link: ▸[motel]", "two"),
  m(
    "link to itself",
    "link: [motel, levee]",
    "link: [motel, motel]",
    "value-bad",
    "link: ▸[motel, motel]",
    "two different",
  ),
  m(
    "link to an unknown place",
    "link: [motel, levee]",
    "link: [motel, leevee]",
    "id-unknown",
    "link: [motel, ▸leevee]",
    "levee",
  ),
  m("link as text", "link: [motel, levee]", "link: motel levee", "value-kind", "link: ▸motel levee", "[motel, levee]"),
  m("km with a unit of time", "km: 28", "km: 28 min", "unit-wrong", "km: ▸28 min", "km"),
  m(
    "minutes for hours",
    "drive: 30 min, bad: 45 min, km: 28",
    "drive: 30 h, bad: 45 h, km: 28",
    "drive-implausible",
    "drive: ▸30 h",
    "correct the time",
  ),
  m(
    "the dash forgotten",
    "  - { link: [levee, bridge]",
    "  { link: [levee, bridge]",
    "yaml-indent",
    "▸{ link: [levee",
    "- ",
  ),
  m(
    "roads as a map",
    "roads:\n  - { link: [motel, levee], drive: 30 min, bad: 45 min, km: 28 }\n  - { link: [levee, bridge], drive: 28 min, bad: 40 min, km: 26 }\n  - { link: [bridge, motel], drive: 8 min, bad: 15 min, km: 5 }",
    "roads: { link: [motel, levee], drive: 30 min }",
    "value-kind",
    "roads: ▸{ link",
    "- {",
  ),
  m(
    "the same road twice",
    "link: [bridge, motel]",
    "link: [levee, motel]",
    "road-twice",
    "link: ▸[levee, motel]",
    "remove one",
  ),
];

const HITS: readonly PlanMistake[] = [
  m("a time with a full stop", 'at: "12:00"', "at: 12.00", "time-bad", "at: ▸12.00", "12:00"),
  m("a time with am", 'at: "07:00"', "at: 7 am ET", "time-bad", "at: ▸7 am ET", "07:00 ET"),
  m("noon by name", 'at: "12:00"', "at: noon", "time-bad", "at: ▸noon", "12:00"),
  m("hour 25", 'at: "12:00"', 'at: "25:00"', "time-bad", 'at: ▸"25:00"', "01:00 +1d"),
  m("minute 60", 'at: "12:00"', 'at: "11:60"', "time-bad", 'at: ▸"11:60"', "is not a time"),
  m("an unknown clock label", 'at: "12:00"', "at: 12:00 PT", "zone-unknown", "at: ▸12:00 PT", "America/Los_Angeles"),
  m("tomorrow", 'at: "12:00"', "at: 12:00 tomorrow", "time-bad", "at: ▸12:00 tomorrow", "12:00 +1d"),
  m("no length", "for: 4 min, ", "", "key-missing", "noon: ▸{ at", "for:"),
  m("a length without a unit", "for: 4 min", "for: 4", "unit-missing", "for: ▸4,", "4 min"),
  m("a length below nothing", "for: 4 min", "for: -4 min", "length-bad", "for: ▸-4 min", "4 min"),
  m("a length of nothing", "for: 4 min", "for: 0 min", "value-bad", "for: ▸0 min", "1 min or more"),
  m(
    "a place that is not there",
    "for: 4 min, place: bridge",
    "for: 4 min, place: brigde",
    "id-unknown",
    "place: ▸brigde",
    "bridge",
  ),
  m("no place", "for: 4 min, place: bridge, ", "for: 4 min, ", "either-missing", "▸noon: { at", "place:"),
  m(
    "a path that is not there",
    "place: bridge, path: dish, needs",
    "place: bridge, path: disk, needs",
    "id-unknown",
    "path: ▸disk",
    "dish",
  ),
  m(
    "a piece that is not there",
    "path: dish, needs: [camera] }\ntasks",
    "path: dish, needs: [camra] }\ntasks",
    "id-unknown",
    "needs: [▸camra]",
    "camera",
  ),
  m(
    "somebody who is not there",
    "who: [jonas], after",
    "who: [jonass], after",
    "id-unknown",
    "who: [▸jonass]",
    "jonas",
  ),
  m(
    "a person for a place",
    "for: 4 min, place: bridge",
    "for: 4 min, place: kaia",
    "id-unknown",
    "place: ▸kaia",
    "place",
  ),
  m(
    "times for hits at once",
    'early: { at: "07:00"',
    "early: { at: [07:00; 07:30]",
    "time-bad",
    "at: [▸07:00; 07:30]",
    "is not a time",
  ),
  m("lenght", "for: 4 min, place: bridge", "lenght: 4 min, place: bridge", "key-unknown", "▸lenght: 4 min", "for"),
  m(
    "duration",
    "for: 4 min, place: bridge",
    "duration: 4 min, place: bridge",
    "key-unknown",
    "▸duration: 4 min",
    "for",
  ),
  m("time for at", 'noon: { at: "12:00"', 'noon: { time: "12:00"', "key-unknown", '▸time: "12:00"', "at"),
  m(
    "location for place",
    "for: 4 min, place: bridge",
    "for: 4 min, location: bridge",
    "key-unknown",
    "▸location: bridge",
    "place",
  ),
  m("firm as a word", 'noon: { at: "12:00"', 'noon: { firm: maybe, at: "12:00"', "value-kind", "firm: ▸maybe", "true"),
  m(
    "facing as a compass point",
    'noon: { at: "12:00"',
    'noon: { facing: NW, at: "12:00"',
    "value-bad",
    "facing: ▸NW",
    "315",
  ),
  m(
    "facing beyond the circle",
    'noon: { at: "12:00"',
    'noon: { facing: 400, at: "12:00"',
    "range-wrong",
    "facing: ▸400",
    "0 to 360",
  ),
  m(
    "two hits in one place and time",
    "  noon: {",
    '  noon2: { at: "12:02", for: 4 min, place: levee, who: [jonas] }\n  noon: {',
    "order-loop",
    "aboard: [jonas, kaia], stops: [motel, ▸levee",
    "order of a `do`",
  ),
  m(
    "a hit that nobody reaches",
    'noon: { at: "12:00"',
    'noon: { at: "08:00"',
    "hit-missed",
    'noon: { at: ▸"08:00"',
    "ask the desk",
  ),
];

const TASKS_AND_RUNS: readonly PlanMistake[] = [
  m(
    "after something unknown",
    "who: [jonas], after: noon",
    "who: [jonas], after: nooon",
    "id-unknown",
    "after: ▸nooon",
    "noon",
  ),
  m("a kind mistyped", "kind: meal", "kind: meel", "word-unknown", "kind: ▸meel", "meal"),
  m("a kind of one's own", "kind: meal", "kind: lunch", "word-unknown", "kind: ▸lunch", "meal"),
  m(
    "a window of one time",
    "who: [jonas], after: noon }",
    'who: [jonas], window: ["13:00"] }',
    "value-kind",
    'window: ▸["13:00"]',
    "a pair of times",
  ),
  m(
    "a window the wrong way round",
    "who: [jonas], after: noon }",
    'who: [jonas], window: ["14:00", "13:00"] }',
    "window-backwards",
    'window: ["14:00", ▸"13:00"]',
    "13:00",
  ),
  m(
    "a window that is too short",
    "who: [jonas], after: noon }",
    'who: [jonas], window: ["12:30", "12:50"] }',
    "task-missed",
    "pictures: ▸{ for",
    "widen its window",
  ),
  m(
    "two that wait for each other",
    "who: all, after: early }",
    "who: all, after: pictures, before: early }",
    "order-loop",
    "",
    "",
  ),
  m(
    "a stop that is no place",
    "stops: [motel, levee, bridge, motel] }\n  car",
    "stops: [motel, levy, bridge, motel] }\n  car",
    "id-unknown",
    "stops: [motel, ▸levy",
    "levee",
  ),
  m(
    "a stop left out",
    "aboard: [petra], stops: [motel, levee, bridge, motel]",
    "aboard: [petra], stops: [motel, bridge, motel]",
    "cannot-attend",
    "who: ▸all",
    "aboard",
  ),
  m(
    "one stop",
    "aboard: [petra], stops: [motel, levee, bridge, motel]",
    "aboard: [petra], stops: [motel]",
    "cannot-attend",
    "who: ▸all",
    "aboard",
  ),
  m(
    "a driver who may not",
    "driver: jonas, aboard",
    "driver: petra, aboard",
    "driver-may-not",
    "driver: ▸petra, aboard: [jonas",
    "jonas",
  ),
  m(
    "a driver who is not aboard",
    "driver: jonas, aboard: [jonas, kaia]",
    "driver: jonas, aboard: [kaia]",
    "driver-not-aboard",
    "driver: ▸jonas, aboard: [kaia]",
    "aboard",
  ),
  m(
    "somebody aboard twice",
    "driver: jonas, aboard: [jonas, kaia]",
    "driver: jonas, aboard: [jonas, kaia, petra]",
    "two-vehicles-at-once",
    "aboard: ▸[jonas, kaia, petra]",
    "take `petra` out",
  ),
  m(
    "runs for a vehicle that is not there",
    "  car: { driver",
    "  cars: { driver",
    "id-unknown",
    "▸cars: { driver",
    "car",
  ),
  m(
    "stops as text",
    "aboard: [petra], stops: [motel, levee, bridge, motel]",
    "aboard: [petra], stops: motel levee bridge motel",
    "value-kind",
    "stops: ▸motel levee",
    "[motel, levee, bridge, motel]",
  ),
  m(
    "nobody aboard",
    "  car: { driver: jonas, aboard: [jonas, kaia], stops: [motel, levee, bridge, motel] }",
    "  car: [motel, levee, bridge, motel]",
    "aboard-missing",
    "car: ▸[motel, levee",
    "jonas",
  ),
  m(
    "an order of do with an unknown id",
    "aboard: [petra], stops: [motel, levee",
    "aboard: [petra], stops: [motel, { place: levee, do: [erly] }",
    "id-unknown",
    "do: [▸erly]",
    "early",
  ),
  m(
    "a hit at another stop's place",
    "aboard: [petra], stops: [motel, levee",
    "aboard: [petra], stops: [motel, { place: levee, do: [noon] }",
    "done-elsewhere",
    "do: ▸[noon]",
    "bridge",
  ),
  m(
    "leave that cannot be met",
    "aboard: [petra], stops: [motel, levee",
    'aboard: [petra], stops: [{ place: motel, leave: "06:30" }, levee',
    "hit-missed",
    'early: { at: ▸"07:00"',
    "begin earlier",
  ),
];

const GEAR: readonly PlanMistake[] = [
  m(
    "a piece in a vehicle that is not there",
    "tripod: { in: car }",
    "tripod: { in: van }",
    "id-unknown",
    "tripod: { in: ▸van",
    "car",
  ),
  m("a piece without a place", "tripod: { in: car }", "tripod: {}", "key-missing", "tripod: ▸{}", "in:"),
  m(
    "the piece left at the motel",
    "camera: { in: car",
    "camera: { in: motel",
    "kit-missing",
    "early: ▸{ at",
    "put it into",
  ),
  m(
    "a mount mistyped",
    "watts: 35, mount: wedge",
    "watts: 35, mount: wegde",
    "load-fits-no-pack",
    "mount: ▸wegde",
    "wedge",
  ),
  m("watt with the wrong unit", "watts: 35", "watts: 35 Wh", "unit-wrong", "watts: ▸35 Wh", "W"),
  m("capacity in watts", "wh: 98", "wh: 98 W", "unit-wrong", "wh: ▸98 W", "Wh"),
  m("charge without a sign", "charge: 100%", "charge: 100", "unit-missing", "charge: ▸100,", "100%"),
  m(
    "a charge too many",
    "count: 4, wh: 98, mount: wedge, charge: 100%",
    "count: 4, wh: 98, mount: wedge, charge: [100%, 90%, 80%, 70%, 60%]",
    "count-wrong",
    "charge: ▸[100%",
    "list 4",
  ),
  m("slots in words", "slots: 2", "slots: two", "value-bad", "slots: ▸two", "2"),
  m(
    "no packs for the camera",
    "brick: { count: 4, wh: 98, mount: wedge",
    "brick: { count: 4, wh: 98, mount: vlock",
    "load-fits-no-pack",
    "watts: 35, mount: ▸wedge",
    "add packs with",
  ),
  m("watts left out of a charger", "slots: 2, watts: 60, ", "slots: 2, ", "key-missing", "bench: ▸{ slots", "watts:"),
  m("a path of an unknown kind", "kind: satellite", "kind: sattelite", "word-unknown", "kind: ▸sattelite", "satellite"),
  m("slot as a number", "slot: 99 west", "slot: 99", "value-bad", "slot: ▸99,", "99 west"),
  m(
    "window as one pair",
    'windows: [["06:15", "07:30"], ["11:15", "12:30"]]',
    'windows: ["06:15", "07:30"]',
    "value-kind",
    'windows: ▸["06:15"',
    '[["06:15", "07:30"]]',
  ),
  m("temperature without a unit", "temp: 2 C", "temp: 2", "unit-missing", "temp: ▸2,", "2 C"),
  m("temperature with a degree sign", "temp: 2 C", "temp: 2 °", "unit-wrong", "temp: ▸2 °", "-14 C"),
  m("wind in knots", "wind: 25 km/h", "wind: 25 knots", "unit-wrong", "wind: ▸25 knots", "25 kn"),
  m("weather as a map", "weather:\n  - { from", "weather:\n  { from", "value-kind", '▸{ from: "05:00"', "- {"),
  m(
    "an unknown house rule",
    "rules: { turnaround: 10 h }",
    "rules: { turnarround: 10 h }",
    "key-unknown",
    "▸turnarround: 10 h",
    "turnaround",
  ),
  m(
    "a house rule without a unit",
    "rules: { turnaround: 10 h }",
    "rules: { turnaround: 10 }",
    "unit-missing",
    "turnaround: ▸10 }",
    "10 h",
  ),
  m(
    "actual of somebody unknown",
    "rules: { turnaround: 10 h }\n",
    'rules: { turnaround: 10 h }\nactual: { kaja: { released: "19:00" } }\n',
    "id-unknown",
    "▸kaja: { released",
    "kaia",
  ),
  m(
    "a charge of more than all",
    "rules: { turnaround: 10 h }\n",
    "rules: { turnaround: 10 h }\nactual: { brick.1: 350% }\n",
    "range-wrong",
    "brick.1: ▸350%",
    "0% to 100%",
  ),
  m(
    "a pack that is not there",
    "rules: { turnaround: 10 h }\n",
    "rules: { turnaround: 10 h }\nactual: { brick.7: 35% }\n",
    "id-unknown",
    "▸brick.7: 35%",
    "brick.",
  ),
  m(
    "accept of an unknown code",
    "rules: { turnaround: 10 h }\n",
    "rules: { turnaround: 10 h }\naccept: [{ code: rest-too-shrt, why: agreed }]\n",
    "accept-unknown",
    "code: ▸rest-too-shrt",
    "rest-too-short",
  ),
  m(
    "accept without a reason",
    "rules: { turnaround: 10 h }\n",
    "rules: { turnaround: 10 h }\naccept: [{ code: rest-too-short }]\n",
    "key-missing",
    "accept: [▸{ code",
    "add `why`",
  ),
  m(
    "follows a file that is not there",
    "title: Flood on the river\n",
    "title: Flood on the river\nfollows: 2027-03-02.yaml\n",
    "file-missing",
    "follows: ▸2027-03-02.yaml",
    "2027-03-02.yaml",
  ),
  m(
    "uses a file above",
    "title: Flood on the river\n",
    "title: Flood on the river\nuses: ../shared.yaml\n",
    "file-outside",
    "uses: ▸../shared.yaml",
    "below",
  ),
  m("a section mistyped", "\nvehicles:\n", "\nvehicels:\n", "key-unknown", "▸vehicels:", "vehicles"),
  m("sections of another tool", "\nhits:\n", "\nlives:\n", "key-unknown", "▸lives:", "hits"),
  m(
    "a merge left standing",
    "title: Flood on the river\n",
    "<<<<<<< HEAD\ntitle: Flood on the river\n=======\ntitle: Flood\n>>>>>>> other\n",
    "yaml-conflict",
    "▸<<<<<<< HEAD",
    "keep one",
  ),
];

export const PLAN_MISTAKES: readonly PlanMistake[] = [
  ...HEAD,
  ...PEOPLE,
  ...VEHICLES,
  ...PLACES,
  ...ROADS,
  ...HITS,
  ...TASKS_AND_RUNS,
  ...GEAR,
];
