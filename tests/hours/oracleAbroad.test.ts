/** The exact engine against the minute-by-minute reading: Canada, the European Union and Great Britain. */
import { agreeOn, agreeOverWeeks } from "./naive/agree.ts";

agreeOn(["ca-south", "eu", "eu-working-time", "gb-domestic"]);
agreeOverWeeks("eu");
