/** The page on figures: which rule or publication each rests on, from the declarations, and what is not modelled. */
import { catalogue } from "../../findings/catalogue.ts";
import { ALL_SETS, type RuleSetId, ruleSet } from "../../hours/rules/index.ts";
import { NO_OPTIONS } from "../../hours/rules/options.ts";
import { houseDefaults } from "../../plan/houseRules.ts";
import {
  commandBlock,
  type DeclaredPage,
  heading,
  type PageTerm,
  type PageText,
  pageTerm,
  terms,
  textBlock,
} from "../page.ts";

const METHODS = [
  pageTerm(
    "calls and wheels",
    "worked back from the hits in whole minutes: every length between two moments is a line of the plan or a house rule, and `calls --why` prints the chain. Into a firm hit or a ride by others a drive counts with its `bad` time.",
  ),
  pageTerm(
    "drives",
    "as stated; what is not stated is estimated from coordinates and says so. `bad` is what 19 of 20 drives beat. A ferry takes the time stated for it, and a vehicle that is late at the quay misses it.",
  ),
  pageTerm(
    "hours",
    "from the published texts below, clause by clause; where those leave a question open, the program asks it.",
  ),
  pageTerm("fatigue", "averages of groups from the studies below; not a legal limit and not a clearance."),
  pageTerm(
    "packs",
    "energy in Wh, minute by minute: use, cold, health, taper of the charger, the people who swap; the rotation is proved as far as it says.",
  ),
  pageTerm(
    "sun, moon, dish",
    "positions from an astronomical almanac computed in the program, angles true, not magnetic.",
  ),
];

const NOT_MODELLED = [
  "Breaks, meals and relief are judged, not inserted; the order of hits and rides is what the plan says, never searched.",
  "Water, mountains and borders break an estimate of a drive.",
  "Of ferries only the sailing that the plan states: a later one is not counted when a vehicle misses it.",
  "Of a pack's chemistry only what `power` names.",
  "Zone rules are those of the table that `daywright --version --json` names, to the end of 2037; times are whole minutes.",
  "Which laws apply to a crew, a trip or a vehicle is for you and your advisers; exceptions are off until the plan claims them.",
];

/** The page on how each figure is computed, with its source. */
async function numbersPage(): Promise<PageText> {
  const entries = [...(await catalogue()).values()];
  const sourced = entries.flatMap(({ code, title, source }) =>
    source ? [pageTerm(code, `${title}: ${source.title}${source.clause === null ? "" : `, ${source.clause}`}`)] : [],
  );
  const setTerm = (id: RuleSetId): PageTerm => {
    const { title, source, limits } = ruleSet(id, NO_OPTIONS, houseDefaults());
    const clauses = [...new Set(limits.map(({ clause }) => clause))].filter((clause) => clause !== title);
    return pageTerm(id, [title, source, clauses.join("; ")].filter((part) => part !== "").join("; "));
  };
  return {
    title: "Where each figure is from",
    blocks: [
      heading("How they are computed"),
      terms(METHODS),
      commandBlock("daywright calls day.yaml --why wren.call", 0, ["in all"]),
      heading("Rule sets"),
      terms(ALL_SETS.map(setTerm)),
      heading("Findings that rest on a publication"),
      textBlock("`daywright explain CODE` has each at length."),
      terms(sourced),
      heading("What is not modelled"),
      ...NOT_MODELLED.map(textBlock),
      heading("Cautions"),
      textBlock(
        "A planning aid; local law, the contract and licensed people decide. If a text leaves a question open, the program states it (`review`) and gives no verdict. Law and fitness are two views: being within the hours is not being fit to drive. Masts, dishes, exhaust, ice, cold and roadside work raise one-line cautions with their source, `daywright explain CODE` has the full text. Follow your own codes, permits and training.",
      ),
    ],
  };
}

/** The page for the table. */
export const numbersEntry: DeclaredPage = {
  name: "numbers",
  place: 60,
  about: "where each figure is from, and what is not modelled",
  page: numbersPage,
};
