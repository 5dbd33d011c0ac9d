/** The exact engine against the minute-by-minute reading: 49 CFR Part 395 and the house rules. */
import { agreeOn } from "./naive/agree.ts";

agreeOn(["us-property", "us-passenger", "us-production", "house"]);
