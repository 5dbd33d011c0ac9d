/** The line that says who decides, under every report that carries a caution, however it shows it. */
import { DEFERRAL } from "../cautions/deferral.ts";
import type { Block } from "./view.ts";

export const deferralLine = (): Block => ({ kind: "line", cells: [{ text: DEFERRAL, tone: "muted" }] });
