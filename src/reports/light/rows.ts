/** What `light` says of every hit, and of the sun's and moon's day at every place: every key with its column. */
import type { ActivityTimes } from "../../day/day.ts";
import type { Id } from "../../plan/plan.ts";
import { type MoonTimes, type SunTimes, toMinute } from "../../sky/almanac.ts";
import { exposureOfLux } from "../../sky/exposure.ts";
import type { ActivityLight, MoonSky } from "../../sky/index.ts";
import { type Instant, instant as instantOf } from "../../time/index.ts";
import { DASH, named, numberCell, placeCell } from "../shared/cells.ts";
import { clockColumn, column, columns, kept, object, shown } from "../shared/columns.ts";
import {
  flagKind,
  instantKind,
  type Kind,
  keyKind,
  listKind,
  type Moment,
  moment,
  numberKind,
  orNull,
  shareKind,
  textKind,
  type Words,
} from "../shared/kinds.ts";
import type { Cell } from "../shared/view.ts";

/** The light of a hit. */
export interface LightHit {
  readonly times: ActivityTimes;
  /** When it is, or was meant to be. */
  readonly at: Instant;
  /** Null where the place has no coordinates. */
  readonly light: ActivityLight | null;
}

/** Sun and moon at a place. */
export interface LightPlace {
  readonly id: Id;
  readonly sun: SunTimes | null;
  readonly moon: MoonSky | null;
  readonly moonTimes: MoonTimes | null;
  /** The instant for which the moon is shown: the first hit or task there, else noon. */
  readonly moonAt: Instant;
}

/** Degrees to a thousandth, which is the ephemeris's own accuracy. */
const degrees = (value: number): number => Math.round(value * 1000) / 1000;

/** Four significant digits: the polynomial itself is good to some per cent. */
const figures = (value: number): number => Number(value.toPrecision(4));

/** Degrees of an angle; tables show so many digits. */
export const angle = (digits: number): Kind<number, unknown> => ({
  ...numberKind,
  json: degrees,
  cell: (value) => numberCell(value, digits, "°"),
});

/** Two digits are plenty for an eye: `11 000`, `450`, `3.4`, `0.002`. */
function luxCell(lux: number): Cell {
  const shown = Number(lux.toPrecision(2));
  const text = shown >= 10_000 ? `${Math.floor(shown / 1000)} ${String(shown % 1000).padStart(3, "0")}` : `${shown}`;
  return { text, raw: Number(lux.toPrecision(3)) };
}

const measured: Kind<number, unknown> = { ...numberKind, json: figures };
const lux: Kind<number, unknown> = { ...measured, cell: luxCell };

/** A row for each hit. */
export const LIGHT_HITS = columns<LightHit>()({
  id: kept(keyKind, ({ times }) => times.id),
  hit: shown("Hit", ({ times }) => ({ text: times.id })),
  at: kept(instantKind, ({ at, times }) => ({ at, place: times.place })),
  start: clockColumn("On air", ({ at, times }) => ({ at, place: times.place })),
  sunAltitudeDegrees: column("Sun height", orNull(angle(1)), ({ light }) => light?.sun.altitude ?? null),
  sunAzimuthDegrees: column("Sun azimuth", orNull(angle(0)), ({ light }) => light?.sun.azimuth ?? null, { spare: 1 }),
  sky: column("Sky", orNull(textKind), ({ light }) => light?.sky ?? null, {
    cell: ({ light }) => (light === null ? { text: "not known", raw: null, tone: "warn" } : { text: light.sky }),
  }),
  sunSide: column("Sun stands", orNull(textKind), ({ light }) => light?.side ?? null),
  lux: column("Lux", orNull(lux), ({ light }) => light?.lux ?? null),
  needs: kept(listKind(textKind), ({ light }) => light?.needs ?? []),
  place: column("Place", orNull(keyKind), ({ times }) => times.place, {
    cell: ({ times }, { say }) => placeCell(say, times.place),
    spare: 2,
  }),
  leastLux: kept(orNull(measured), ({ light }) => light?.leastLux ?? null),
  exposureValue: kept(orNull(measured), ({ light }) => (light === null ? null : exposureOfLux(light.lux))),
  light: kept(orNull(textKind), ({ light }) => light?.light ?? null),
  dark: kept(orNull(flagKind), ({ light }) => light?.dark ?? null),
  stopsOverWindow: kept(orNull(measured), ({ light }) => light?.stops ?? null),
  windowTo: kept(orNull(instantKind), ({ light, times }) => moment(light?.to, times.place)),
});

/** A moment, or the word that stands where the sun or the moon has no such moment that day. */
const event: Kind<Moment | string | null> = {
  schema: orNull<string, unknown>({ ...textKind, schema: { anyOf: [instantKind.schema, textKind.schema] } }).schema,
  json: (value, view) => (value === null || typeof value === "string" ? value : instantKind.json(value, view)),
  cell: (value, view) =>
    value === null ? DASH : typeof value === "string" ? { text: value } : instantKind.cell(value, view),
  figure: false,
};

const eventOf =
  (of: Exclude<keyof SunTimes, "noonAltitude">) =>
  (place: LightPlace): Moment | string | null => {
    if (place.sun === null) return null;
    const at = toMinute(place.sun[of]);
    return typeof at === "string" ? at : { at: instantOf(at), place: place.id };
  };

/** A rise or set of the moon, the word for a day without either, null for a day without this one. */
function moonEvent({ id, moonTimes }: LightPlace, at: number | null | undefined): Moment | string | null {
  if (moonTimes === null) return null;
  return at == null ? moonTimes.all : { at: instantOf(Math.round(at)), place: id };
}

/** A row for each place. */
export const PLACES = columns<LightPlace, Words>()({
  id: keyKind,
  place: shown("Place", (own, { say }) => named(say, own.id)),
  rise: column("Rise", event, eventOf("rise")),
  set: column("Set", event, eventOf("set")),
  civilDawn: column("Civil dawn", event, eventOf("civilDawn")),
  civilDusk: column("Civil dusk", event, eventOf("civilDusk")),
  nauticalDawn: kept(event, eventOf("nauticalDawn")),
  nauticalDusk: kept(event, eventOf("nauticalDusk")),
  astronomicalDawn: kept(event, eventOf("astronomicalDawn")),
  astronomicalDusk: kept(event, eventOf("astronomicalDusk")),
  noon: kept(event, eventOf("noon")),
  noonAltitudeDegrees: kept(orNull(angle(0)), ({ sun }) => sun?.noonAltitude ?? null),
  moonrise: column("Moonrise", event, (own) => moonEvent(own, own.moonTimes?.rise), { spare: 3 }),
  moonset: column("Moonset", event, (own) => moonEvent(own, own.moonTimes?.set), { spare: 3 }),
  moonPhase: column("Moon", orNull(textKind), ({ moon }) => moon?.phase ?? null, {
    cell: ({ moon }) =>
      moon === null ? DASH : { text: `${moon.phase}, ${Math.round(moon.litShare * 100)} %`, raw: moon.phase },
    spare: 1,
  }),
  moonLit: kept(orNull({ ...shareKind, json: figures }), ({ moon }) => moon?.litShare ?? null),
  moonAltitudeDegrees: column("Moon height", orNull(angle(0)), ({ moon }) => moon?.altitude ?? null, { spare: 2 }),
  moonAt: kept(orNull(instantKind), ({ moon, moonAt, id: place }) => (moon === null ? null : { at: moonAt, place })),
});

/** `data` of `light`. */
export const LIGHT_DATA = object<{ readonly hits: readonly LightHit[]; readonly places: readonly LightPlace[] }>()({
  hits: listKind(LIGHT_HITS),
  places: listKind(PLACES),
});
