/** `power` as it is printed: the keys of its JSON, and a rotation that anybody can replay from the JSON alone. */
import { expect, it, vi } from "vitest";
import type { Model, Rotation } from "../../src/power/model.ts";
import { powerReport } from "../../src/reports/power/index.ts";
import { assess as light } from "../../src/sky/index.ts";
import { instant } from "../../src/time/units.ts";
import { inputFor } from "../reports/inputFor.ts";
import { replayByMinute } from "./minuteReplay.ts";
import { demoDays } from "./plans.ts";

interface Printed {
  readonly model: {
    readonly from: string;
    readonly to: string;
    readonly bays: readonly string[];
    readonly grainWh: number;
    readonly enoughWh: number;
    readonly swapMinutes: number;
    readonly touches: readonly {
      readonly id: string;
      readonly at: string;
      readonly reach: readonly string[];
      readonly warm: string | null;
    }[];
    readonly packs: Model["packs"];
    readonly chargers: readonly (Omit<Model["chargers"][number], "on"> & {
      readonly on: readonly (readonly [string, string])[];
    })[];
    readonly loads: readonly {
      readonly id: string;
      readonly mount: string;
      readonly bay: string | readonly (readonly [string, string])[];
    }[];
    readonly demands: readonly {
      readonly id: string;
      readonly kind: Model["demands"][number]["kind"];
      readonly from: string;
      readonly to: string;
      readonly watts: Readonly<Record<string, number>>;
    }[];
  };
  readonly rotation: Omit<Rotation, "chores"> & {
    readonly chores: readonly {
      readonly touch: string;
      readonly begins: string;
      readonly ends: string;
      readonly who: readonly string[];
    }[];
  };
  readonly leastMarginWh: number;
  readonly packs: readonly {
    readonly steps: readonly { readonly from: string; readonly to: string; readonly chargeAfter: number }[];
  }[];
}

const isPrinted = (data: unknown): data is Printed => typeof data === "object" && data !== null && "rotation" in data;
const minute = (text: string) => instant(Date.parse(text) / 60_000);

/** The model as a stranger reads it from the JSON. */
function read({ model }: Printed): Model {
  return {
    ...model,
    from: minute(model.from),
    to: minute(model.to),
    touches: model.touches.map(({ id, at, reach, warm }) => ({
      ...{ id, at: minute(at), reach },
      ...(warm === null ? {} : { warm: minute(warm) }),
    })),
    chargers: model.chargers.map((one) => ({
      ...one,
      on: one.on.map(([from, to]) => ({ from: minute(from), to: minute(to) })),
    })),
    loads: model.loads.map((one) => ({
      ...one,
      bay:
        typeof one.bay === "string"
          ? [{ from: minute(model.from), bay: one.bay }]
          : one.bay.map(([from, bay]) => ({ from: minute(from), bay })),
    })),
    demands: model.demands.map((one) => ({
      ...one,
      from: minute(one.from),
      to: minute(one.to),
      watts: new Map(Object.entries(one.watts)),
    })),
  };
}

/** Its rotation, with the time that the hands take. */
const rotationIn = ({ rotation }: Printed): Rotation => ({
  ...rotation,
  chores: rotation.chores.map((one) => ({ ...one, begins: minute(one.begins), ends: minute(one.ends) })),
});

it("prints what anybody can replay, and needs no solver to cover the demo", async () => {
  // Fresh modules: another test of the same worker may have needed the solver.
  vi.resetModules();
  vi.doMock("highs", () => {
    throw new Error("the solver was needed");
  });
  const { assess } = await import("../../src/power/index.ts");
  for (const date of ["2027-01-19", "2027-01-20", "2027-01-21"]) {
    const days = await demoDays(date);
    const day = days.at(-1);
    if (day === undefined) throw new Error("no day");
    const input = { days, patience: 1, now: null };
    const { result, findings } = await assess(input, (await light(input)).result);
    const { data, blocks } = powerReport({ ...inputFor(day), findings, result });
    if (!isPrinted(data)) throw new Error("no rotation");
    expect(Object.keys(data)).toEqual([
      "model",
      "rotation",
      "packs",
      "hands",
      "covered",
      "leastMarginWh",
      "moveCount",
      "spareMoves",
      "proof",
      "missing",
    ]);
    const { faults, leastMarginWh } = replayByMinute(read(data), rotationIn(data));
    expect(faults).toEqual([]);
    expect(Math.abs((leastMarginWh ?? 0) - data.leastMarginWh)).toBeLessThan(0.2);
    expect(blocks.map((block) => block.kind)).toContain("chart");
    for (const { steps } of data.packs) {
      steps.slice(1).forEach((step, n) => {
        expect(minute(step.from)).toBe(minute(steps[n]?.to ?? ""));
      });
    }
  }
});
