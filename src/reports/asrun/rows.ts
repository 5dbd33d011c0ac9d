/** What `asrun` says of each hit, person, vehicle and pack: every key with its column. */

import type { Id } from "../../plan/plan.ts";
import { DASH } from "../shared/cells.ts";
import { column, columns, object } from "../shared/columns.ts";
import type { DayView } from "../shared/dayView.ts";
import {
  flagKind,
  idKind,
  instantKind,
  type Kind,
  keyKind,
  listKind,
  type Moment,
  minutesKind,
  numberKind,
  orNull,
  signedMinutes,
  textKind,
  wholeKind,
} from "../shared/kinds.ts";
import type { Cell } from "../shared/view.ts";

/** A hit as it was planned and as it went; minutes late, null where not logged. */
export interface AsrunHit {
  readonly date: string;
  readonly id: Id;
  readonly planned: Moment;
  readonly start: Moment | null;
  readonly lengthMinutes: number | null;
  readonly lateMinutes: number | null;
  readonly path: Id | null;
  readonly made: boolean;
  readonly logged: boolean;
  readonly note: string | null;
}

/** A person as logged: minutes on duty without meals. */
export interface AsrunPerson {
  readonly date: string;
  readonly id: Id;
  readonly call: Moment | null;
  readonly release: Moment | null;
  readonly dutyMinutes: number | null;
  readonly meals: number | null;
  readonly note: string | null;
}

/** A vehicle as logged: kilometres, fuel 0 to 1, engine hours. */
export interface AsrunVehicle {
  readonly date: string;
  readonly id: Id;
  readonly place: Id | null;
  readonly odometerKm: number | null;
  /** Since the last reading; null where there is none. */
  readonly km: number | null;
  readonly fuelPercent: number | null;
  readonly engineHours: number | null;
  readonly note: string | null;
}

/** A pack as it was found, in percent. */
export interface AsrunPack {
  readonly date: string;
  readonly id: Id;
  readonly percent: number;
  /** Less than the rotation gave, of a full charge; null where no moment is logged, and on days before the last. */
  readonly shortPercent: number | null;
  readonly at: Moment | null;
  readonly note: string | null;
}

/** The rows of `asrun`. */
export interface AsrunRows {
  readonly hits: readonly AsrunHit[];
  readonly people: readonly AsrunPerson[];
  readonly vehicles: readonly AsrunVehicle[];
  readonly packs: readonly AsrunPack[];
}

const NOT_LOGGED: Cell = { text: "not logged", raw: null, tone: "muted" };

/** A value of a kind that may not have been logged: the cell then says so. */
const logged = <T>(kind: Kind<T, DayView>): Kind<T | null, DayView> => ({
  ...orNull(kind),
  cell: (value, view) => (value === null ? NOT_LOGGED : kind.cell(value, view)),
});

/** Numbers with their unit behind them. */
const figures = (unit: string, kind: Kind<number, unknown> = wholeKind): Kind<number, unknown> => ({
  ...kind,
  cell: (value) => ({ text: `${value} ${unit}`, raw: value }),
});

const noteField = <Row extends { readonly note: string | null }>() =>
  column<Row, string | null, DayView>("Note", orNull(textKind), ({ note }, { clean }) =>
    note === null ? null : clean(note),
  );

const dateField = <Row extends { readonly date: string }>() =>
  column<Row, string, DayView>("Day", textKind, ({ date }) => date);

/** A row for each hit. */
export const ASRUN_HITS = columns<AsrunHit, DayView>()({
  date: dateField<AsrunHit>(),
  id: column("Hit", keyKind, { tone: "strong" }),
  planned: column("Planned", instantKind),
  start: column("On air", orNull(instantKind), {
    cell: ({ start, made }, view) =>
      made ? logged(instantKind).cell(start, view) : { text: "not made", raw: null, tone: "bad" },
  }),
  lengthMinutes: column("Length", logged(minutesKind)),
  lateMinutes: column("Late by", signedMinutes("how late it went on air; negative: so many minutes early"), {
    cell: ({ lateMinutes }) => lateCell(lateMinutes),
  }),
  path: column("Path", logged(keyKind)),
  made: flagKind,
  logged: flagKind,
  note: noteField<AsrunHit>(),
});

const lateCell = (late: number | null): Cell =>
  late === null
    ? NOT_LOGGED
    : late === 0
      ? { text: "on time", raw: 0, tone: "good" }
      : { text: late > 0 ? `${late} min` : `${-late} min early`, raw: late, tone: "warn" };

/** A row for each person. */
export const ASRUN_PEOPLE = columns<AsrunPerson, DayView>()({
  date: dateField<AsrunPerson>(),
  id: column("Who", idKind, { tone: "strong" }),
  call: column("Called", logged(instantKind)),
  release: column("Released", logged(instantKind)),
  dutyMinutes: column("On duty", logged(minutesKind)),
  meals: column("Meals", logged(wholeKind)),
  note: noteField<AsrunPerson>(),
});

/** A row for each vehicle. */
export const ASRUN_VEHICLES = columns<AsrunVehicle, DayView>()({
  date: dateField<AsrunVehicle>(),
  id: column("Vehicle", idKind, { tone: "strong" }),
  place: column("Stands at", logged(idKind)),
  odometerKm: column("Odometer", logged(figures("km", numberKind))),
  km: column("Driven", logged(figures("km"))),
  fuelPercent: column("Fuel", logged(figures("%"))),
  engineHours: column("Engine", logged(figures("h", numberKind))),
  note: noteField<AsrunVehicle>(),
});

const shortCell = (short: number | null): Cell =>
  short === null
    ? DASH
    : short === 0
      ? { text: "as computed", raw: 0, tone: "good" }
      : { text: `${Math.abs(short)} % ${short > 0 ? "less" : "more"}`, raw: short, tone: short > 0 ? "warn" : "plain" };

/** A row for each pack that was found. */
export const ASRUN_PACKS = columns<AsrunPack, DayView>()({
  date: dateField<AsrunPack>(),
  id: column("Pack", keyKind),
  percent: column("Charge found", figures("%")),
  shortPercent: column("Against the rotation", orNull(wholeKind), {
    cell: ({ shortPercent }) => shortCell(shortPercent),
  }),
  at: column("At", orNull(instantKind)),
  note: noteField<AsrunPack>(),
});

/** The JSON of `asrun`. */
export const ASRUN_DATA = object<AsrunRows, DayView>()({
  hits: listKind(ASRUN_HITS),
  people: listKind(ASRUN_PEOPLE),
  vehicles: listKind(ASRUN_VEHICLES),
  packs: listKind(ASRUN_PACKS),
});
