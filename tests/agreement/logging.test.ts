/** What the program prints as planned it also takes as logged: nothing changes but the mark. */
import { describe, expect, it } from "vitest";
import { everythingLogged, figures, lastDay, lastOf, linksOf, logging, oneByOne } from "./days.ts";
import { ALL, plansOf } from "./fixtures.ts";

describe.each(ALL)("%s", (file) => {
  it("is the same day with everything logged as planned, and with each fact alone", async () => {
    const links = await linksOf(await plansOf(file));
    const plan = lastOf(links.plans);
    const day = lastDay(links);
    const expected = figures(day);
    expect(figures(lastDay(links, logging(plan, everythingLogged(day)))), "all together").toEqual(expected);
    for (const one of oneByOne(day)) {
      const what = JSON.stringify([...one.activities, ...one.stops]);
      expect(figures(lastDay(links, logging(plan, one))), what).toEqual(expected);
    }
  });
});
