/** Text as in a pipe: nothing fitted, nothing coloured. */
import type { TextStyle } from "../../src/render/text/style.ts";

export const plainStyle: TextStyle = { width: null, paint: (text) => text, ascii: false, rule: "-", tables: "columns" };
