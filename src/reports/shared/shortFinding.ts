/** A finding by what it is about, without its chain: as reports list it that compare versions of a plan. */
import type { Finding, Say } from "../../findings/finding.ts";
import { dotted } from "../../plan/text/pathtext.ts";
import { kept, object } from "./columns.ts";
import { keyKind, orNull, textKind, wordKind } from "./kinds.ts";

interface View {
  readonly say: Say;
  /** Takes numbers and addresses out of a plan's own words. */
  readonly clean: (text: string) => string;
}

/** A finding in three keys, for reports that only point at it. */
export const SHORT_FINDING = object<Finding, View>({
  code: kept(textKind, ({ code }) => code),
  level: kept(wordKind("error", "warning", "note"), ({ level }) => level),
  message: kept(textKind, (finding, { say, clean }) => clean(finding.sentence(say))),
  who: kept(orNull(keyKind), ({ who }) => who),
  path: kept(orNull(textKind), ({ path }) => (path === null ? null : dotted(path))),
});
