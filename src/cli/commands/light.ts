/** `light PLAN…`. */
import { makeReport } from "../../index.ts";
import { planCommand } from "../plan/planCommand.ts";

export const light = planCommand({
  name: "light",
  summary: "print sun and sky at each hit, rise and set, what to pack",
  more: "Forms: text, list, markdown, csv, json, svg (the chart alone).",
  forms: {
    svg: async (asked) =>
      (await import("../../render/svg.ts")).toSvg(await makeReport("light", asked.judged, asked.options)),
  },
});
