/** A finding by what it is about, without its chain: as reports list it that compare versions of a plan. */
import type { Finding, Say } from "../../findings/finding.ts";
import { dotted } from "../../plan/text/pathtext.ts";
import { kept, object } from "./columns.ts";
import { key, orNull, text, word } from "./kinds.ts";

interface View {
  readonly say: Say;
  /** Takes numbers and addresses out of a plan's own words. */
  readonly clean: (text: string) => string;
}

export const SHORT_FINDING = object<Finding, View>({
  code: kept(text, ({ code }) => code),
  level: kept(word("error", "warning", "note"), ({ level }) => level),
  message: kept(text, (finding, { say, clean }) => clean(finding.sentence(say))),
  who: kept(orNull(key), ({ who }) => who),
  path: kept(orNull(text), ({ path }) => (path === null ? null : dotted(path))),
});
