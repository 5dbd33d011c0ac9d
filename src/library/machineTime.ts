/** Times as scripts write them: `now`, and seconds or milliseconds since 1970 began, UTC. */
import { type Instant, instant, inTable } from "../time/index.ts";

/** Ten digits, with a fraction or not, are seconds (from 2001 on), thirteen are milliseconds. */
const EPOCH = /^(\d{10})(?:[.,]\d{1,9})?$|^(\d{13})$/;

/** The instant of `text`, cut to whole minutes; null where it is neither. `milliseconds` is the moment of the call. */
export function machineInstant(text: string, milliseconds: number): Instant | null {
  const [, seconds, thousandths] = EPOCH.exec(text.trim()) ?? [];
  const at =
    text.trim().toLowerCase() === "now"
      ? milliseconds
      : seconds !== undefined
        ? Number(seconds) * 1000
        : Number(thousandths ?? Number.NaN);
  const found = Number.isFinite(at) ? instant(Math.floor(at / 60_000)) : null;
  return found !== null && inTable(found) ? found : null;
}
