/** Amounts with a unit: lengths, masses, powers, energies, temperatures, shares. Each is kept in one unit. */
import { rangeWrong, unitMissing, unitWrong, valueBad } from "../findings.ts";
import { LONGEST_VALUE, mistaken, type Parsed, parsed } from "./parsed.ts";
import { plainWord } from "./signs.ts";
import { numberMeant, plainNumber, unitMeant } from "./spelled.ts";

/** One kind of amount: what it is called, its units as factors (with an offset for °C), and its lawful range. */
export interface Quantity {
  /** As in "takes a distance": with its article. */
  readonly what: string;
  readonly example: string;
  readonly units: ReadonlyMap<string, Unit>;
  /** The unit that a bare number has because the key says it (`watts: 38`); null asks for one. */
  readonly bare: string | null;
  readonly least: number;
  readonly most: number;
}

interface Unit {
  readonly factor: number;
  readonly offset?: number;
}

const units = (list: Readonly<Record<string, number>>): ReadonlyMap<string, Unit> =>
  new Map(Object.entries(list).map(([name, factor]) => [name, { factor }]));

const METERS = { m: 1, km: 1000, mi: 1609.344, ft: 0.3048, cm: 0.01 };
const scaled = (factors: Readonly<Record<string, number>>, by: number): Readonly<Record<string, number>> =>
  Object.fromEntries(Object.entries(factors).map(([name, factor]) => [name, factor / by]));

const quantity = (
  what: string,
  example: string,
  list: ReadonlyMap<string, Unit>,
  range: { least?: number; most: number; bare?: string },
): Quantity => ({ what, example, units: list, bare: range.bare ?? null, least: range.least ?? 0, most: range.most });

/** International foot, mile and pound: exact by definition (1959 agreement; also NIST Special Publication 811, B.8). */
export const POUND_KG = 0.45359237;

/** Kilometres. */
export const distanceKm = quantity("a distance", "41 km", units(scaled(METERS, 1000)), { most: 20_000 });
/** Kilometres, where the key itself says so. */
export const roadKm = quantity("a distance", "41", units(scaled(METERS, 1000)), { most: 20_000, bare: "km" });
/** Kilometres on the clock of a vehicle. */
export const odometer = quantity("an odometer reading", "48210", units(scaled(METERS, 1000)), {
  most: 5_000_000,
  bare: "km",
});
/** Metres. */
export const lengthMeters = quantity("a length", "70 m", units(METERS), { most: 100_000 });
/** Kilograms. */
export const massKg = quantity("a weight", "16000 lb", units({ kg: 1, lb: POUND_KG, lbs: POUND_KG, t: 1000 }), {
  most: 200_000,
});
/** Watts. */
export const powerWatts = quantity("a power", "600 W", units({ W: 1, kW: 1000 }), { most: 1_000_000 });
/** Watts, where the key itself says so. */
export const wattsNumber = quantity("a power", "38", units({ W: 1, kW: 1000 }), { most: 1_000_000, bare: "W" });
/** Watt-hours. */
export const energyWh = quantity("an energy", "15 Wh", units({ Wh: 1, kWh: 1000 }), { most: 1_000_000 });
/** Watt-hours, where the key itself says so. */
export const whNumber = quantity("an energy", "98", units({ Wh: 1, kWh: 1000 }), { most: 1_000_000, bare: "Wh" });
/** Kilometres an hour. */
export const speedKmh = quantity(
  "a speed",
  "90 km/h",
  units({ "km/h": 1, kmh: 1, mph: 1.609344, "m/s": 3.6, kn: 1.852, kt: 1.852 }),
  { most: 500 },
);
/** Degrees Celsius. */
export const celsius = quantity(
  "a temperature",
  "-14 C",
  new Map([
    ["C", { factor: 1 }],
    ["°C", { factor: 1 }],
    ["F", { factor: 5 / 9, offset: -32 }],
    ["°F", { factor: 5 / 9, offset: -32 }],
  ]),
  { least: -90, most: 70 },
);
/** Megabits a second; what carries nothing is no path. */
export const rateMegabits = quantity(
  "a rate",
  "20 Mbit/s",
  units({ "kbit/s": 0.001, "Mbit/s": 1, "Gbit/s": 1000, kbps: 0.001, Mbps: 1, Gbps: 1000 }),
  { least: 0.001, most: 1_000_000 },
);
/** Megabytes. */
export const sizeMegabytes = quantity("a size", "2 GB", units({ kB: 0.001, MB: 1, GB: 1000, TB: 1_000_000 }), {
  most: 100_000_000,
});
/** Gigahertz. */
export const gigahertz = quantity("a frequency", "11.95 GHz", units({ GHz: 1, MHz: 0.001 }), { most: 300 });
/** Shares, 0 to 1. */
export const share = quantity("a share", "80%", units({ "%": 0.01 }), { most: 1 });

const NUMBER_THEN_UNIT = /^([-+−]?\d{1,9}(?:\.\d{1,20})?)\s?([^\s\d.][^\s]{0,9})?$/u;

/** The value in the quantity's own unit. */
export function parseQuantity(text: string, kind: Quantity): Parsed<number> {
  const match = text.length > LONGEST_VALUE ? null : NUMBER_THEN_UNIT.exec(text.trim());
  const fix = (): string | null => amountMeant(text, kind);
  if (match === null)
    return mistaken((c) => valueBad.raise({ text, what: kind.what, example: fix(), form: kind.example }, c));
  const [, digits = "", stated] = match;
  const name = stated ?? kind.bare;
  if (name === null) {
    const usual = NUMBER_THEN_UNIT.exec(kind.example)?.[2] ?? "";
    // `0.8` is no one's 0.8 %.
    const number = usual === "%" && /^0?\.\d+$|^1\.0+$/.test(digits) ? tidy(Number(digits) * 100) : digits;
    const facts = { text, what: kind.what, units: [...kind.units.keys()], fix: `${number}${gap(usual)}${usual}` };
    return mistaken((c) => unitMissing.raise(facts, c));
  }
  const unit = kind.units.get(name) ?? caseless(kind.units, name);
  if (unit === undefined) {
    const known = { units: [...kind.units.keys()], example: kind.example };
    return mistaken((c) => unitWrong.raise({ text, unit: name, what: kind.what, ...known, fix: fix() }, c));
  }
  return inRange(tidy((Number(digits.replace("−", "-")) + (unit.offset ?? 0)) * unit.factor), text, kind);
}

/** Shares in words. */
const SHARES: ReadonlyMap<string, string> = new Map([
  ["full", "100%"],
  ["half", "50%"],
  ["empty", "0%"],
]);

/** `28 miles` as `28 mi`, `minus 2 C` as `-2 C`, `9,800 lb` as `9800 lb`: what was probably meant, where it can be read. */
function amountMeant(text: string, kind: Quantity): string | null {
  const said = plainWord(text).replace(/^(?:minus|negative)\s+(?=\d)/i, "-");
  if (kind.units.has("%")) {
    const share = SHARES.get(said.toLowerCase()) ?? fractionMeant(said);
    if (share !== null) return share;
  }
  const [, digits, name = ""] = /^([-+]?\d[\d.,' ]{0,20}?)\s*([^\d\s.,'].*)?$/.exec(said) ?? [];
  if (digits === undefined) return null;
  const unit = name === "" ? "" : unitMeant(name, [...kind.units.keys()]);
  if (unit === null) return null;
  const made = `${plainNumber(digits)}${unit === "" ? "" : gap(unit)}${unit}`;
  return parseQuantity(made, kind).ok ? made : null;
}

/** `3/4` as `75%`: how a fuel gauge is read. Null of what is no fraction of a whole. */
function fractionMeant(said: string): string | null {
  const [, part, whole] = /^(\d{1,3})\s?\/\s?(\d{1,3})$/.exec(said) ?? [];
  const share = Number(part) / Number(whole);
  return share <= 1 ? `${Math.round(share * 100)}%` : null;
}

const gap = (unit: string): string => (unit === "%" ? "" : " ");

/** Rounds away what binary fractions add (`30 %` is 0.3, not 0.30000000000000004). */
const tidy = (value: number): number => Number(value.toPrecision(12));

function inRange(value: number, text: string, kind: Quantity): Parsed<number> {
  if (value >= kind.least && value <= kind.most) return parsed(value);
  const range = `${spell(kind.least, kind)} to ${spell(kind.most, kind)}`;
  return mistaken((c) => rangeWrong.raise({ text, what: kind.what, range }, c));
}

function spell(value: number, kind: Quantity): string {
  const [name = "", unit] = [...kind.units][0] ?? [];
  return `${tidy(value / (unit?.factor ?? 1))}${gap(name)}${name}`;
}

/** `KM`, `w`, `kwh`: one reading only, since no two units of a kind differ by case alone. */
function caseless(list: ReadonlyMap<string, Unit>, name: string): Unit | undefined {
  for (const [known, unit] of list) if (known.toLowerCase() === name.toLowerCase()) return unit;
  return undefined;
}

const PLAIN_NUMBER = /^[-+]?\d{1,12}(?:\.\d{1,20})?$/;

/** The bounds of a number without a unit. */
export interface NumberRange {
  readonly what: string;
  readonly least: number;
  readonly most: number;
  readonly whole?: boolean;
  readonly example: string;
}

/** A number without a unit. */
export function parseNumber(
  text: string,
  range: NumberRange,
  mended: (text: string) => string = numberMeant,
): Parsed<number> {
  const plain = text.trim();
  const value = Number(plain);
  const meant = (): string | null => {
    const made = mended(plainWord(text));
    return made !== plain && parseNumber(made, range).ok ? made : null;
  };
  const bad = !PLAIN_NUMBER.test(plain) || (range.whole === true && !Number.isInteger(value));
  if (bad) return mistaken((c) => valueBad.raise({ text, what: range.what, example: meant(), form: range.example }, c));
  if (value >= range.least && value <= range.most) return parsed(value);
  return mistaken((c) => rangeWrong.raise({ text, what: range.what, range: `${range.least} to ${range.most}` }, c));
}
