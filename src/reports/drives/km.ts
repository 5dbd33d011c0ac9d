/** Kilometres to a tenth; tables show whole ones. */
import { numberCell } from "../shared/cells.ts";
import { type Kind, numberKind } from "../shared/kinds.ts";

/** Kilometres with one digit. */
export const km: Kind<number, unknown> = {
  ...numberKind,
  json: (value) => Math.round(value * 10) / 10,
  cell: (value) => numberCell(value, 0, " km"),
};
