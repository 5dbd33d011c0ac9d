/** The plan on which everyday mistakes are laid, one at a time. */
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

/** One replacement in the plan, and what is expected to be said of it. */
export interface PlanMistake {
  readonly what: string;
  readonly from: string;
  readonly to: string;
  readonly code: string;
  readonly spot: string;
  readonly advice: string;
}

/** A mistake: what it is, what is replaced by what, the code, the spot (behind `▸`, in context), a piece of the advice. */
export const m = (what: string, from: string, to: string, code: string, spot: string, advice: string): PlanMistake => ({
  what,
  from,
  to,
  code,
  spot,
  advice,
});
