/** When driving must stop where that moment is already behind: which past moments count, and from which shift. */
import { expect, it } from "vitest";
import { answerTo, logText } from "./logs.ts";

/** A log in UTC of spans given as `kind minutes`, from 2027-01-18 00:00 on. */
function log(rules: string, spans: string): string {
  let at = Date.parse("2027-01-18T00:00Z");
  const written = spans.split(", ").map((span) => {
    const [is = "", minutes = "0"] = span.split(" ");
    const from = new Date(at).toISOString().slice(0, 16);
    at += Number(minutes) * 60_000;
    return { from, to: new Date(at).toISOString().slice(0, 16), is };
  });
  return logText({ zone: "UTC", rules, spans: written });
}
const mustStop = async (text: string) => (await answerTo(text, null)).person.drivingMustStopAt;

it("70 hours that ran out in an earlier shift forbid driving from this one's first minute (49 CFR 395.3(b)(2))", async () => {
  // Five days of 13 h are 65 h; on the sixth the 70 h are full after 5 of 8 h. Each day begins at 10:00.
  const five = Array.from({ length: 5 }, () => "off 600, duty 780, off 60").join(", ");
  const sixth = `${five}, off 600, duty 480`;
  expect(await mustStop(log("us-property", sixth))).toBe("2027-01-23T15:00+00:00");
  // 10 h off from 18:00 on: the next shift begins at 04:00, at the wheel.
  expect(await mustStop(log("us-property", `${sixth}, off 600, driving 60`))).toBe("2027-01-24T04:00+00:00");
});

it("a break that is not complete does not bring driving back, a complete one does (49 CFR 395.3(a)(3)(ii))", async () => {
  // 8 h of driving from 10:00 to 18:00, then 29 of the 30 minutes that are asked for.
  expect(await mustStop(log("us-property", "off 600, driving 480, duty 29"))).toBe("2027-01-18T18:00+00:00");
  // The 30th makes it: of 11 h of driving 3 are left.
  expect(await mustStop(log("us-property", "off 600, driving 480, duty 30"))).toBe("2027-01-18T21:30+00:00");
});

it("driving on after a pause too short was forbidden from the pause on (49 CFR 395.3(a)(3)(ii))", async () => {
  // The 8 h are used up at 18:00; the breach is the hour from 18:10 on; a whole break afterwards does not undo it.
  const on = "off 600, driving 480, off 10, driving 60";
  expect(await mustStop(log("us-property", on))).toBe("2027-01-18T18:00+00:00");
  expect(await mustStop(log("us-property", `${on}, off 30`))).toBe("2027-01-18T18:00+00:00");
  // The next shift knows nothing of it: 8 h from 05:40 on.
  expect(await mustStop(log("us-property", `${on}, off 630, driving 60`))).toBe("2027-01-19T13:40+00:00");
});
