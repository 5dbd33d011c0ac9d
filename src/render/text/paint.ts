/** Tones as colours: the one place that knows chalk. Loaded only where a stream takes colour. */
import { Chalk } from "chalk";
import type { Tone } from "../../reports/shared/view.ts";
import type { Paint } from "./style.ts";

/** Colours by meaning with the sixteen base colours, so that a terminal's own theme keeps the contrast. */
export function makePaint(): Paint {
  const chalk = new Chalk({ level: 1 });
  const tones: Readonly<Record<Tone, (text: string) => string>> = {
    plain: (text) => text,
    good: chalk.green,
    warn: chalk.yellow,
    bad: chalk.red.bold,
    muted: chalk.dim,
    strong: chalk.bold,
  };
  return (text, tone) => (text === "" ? text : tones[tone](text));
}
