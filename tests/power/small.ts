/** Days made by hand for the search: a van with a lamp, packs of one mount, touches that reach the van. */
import type { Demand, Model, ModelCharger, ModelPack, Touch } from "../../src/power/model.ts";
import { instant } from "../../src/time/units.ts";

/** A full pack of 100 Wh in the van, 15 of them its reserve. */
export const packOf = (id: string, more: Partial<ModelPack> = {}): ModelPack => ({
  ...{ id, mount: "v", wh: 100, startWh: 100, reserveWh: 15, at: "van" },
  ...more,
});

/** A charger for one pack in the van, 60 W to the end, on from one minute to another. */
export const benchOf = (from: number, to: number, more: Partial<ModelCharger> = {}): ModelCharger => ({
  ...{ id: "bench", mount: "v", bay: "van", slots: 1, watts: 60, taper: 1, totalWatts: null },
  on: [{ from: instant(from), to: instant(to) }],
  ...more,
});

/** A touch at a minute, named after it. */
export const touchOf = (at: number, more: Partial<Touch> = {}): Touch => ({
  ...{ id: `t${at}`, at: instant(at), reach: ["van"] },
  ...more,
});

/** The lamp is wanted from one minute to another, with so many watts. */
export const useOf = (from: number, to: number, watts: number, more: Partial<Demand> = {}): Demand => ({
  ...{ id: `use${from}`, kind: "firm", from: instant(from), to: instant(to), watts: new Map([["lamp", watts]]) },
  ...more,
});

/** A day of so many minutes with one pack and nothing else but the van and its lamp. */
export const smallDay = (minutes: number, more: Partial<Model> = {}): Model => ({
  ...{ from: instant(0), to: instant(minutes), bays: ["van"], grainWh: 1, swapMinutes: 0, enoughWh: 0 },
  ...{ touches: [], packs: [packOf("one")], chargers: [], demands: [] },
  loads: [{ id: "lamp", mount: "v", bay: [{ from: instant(0), bay: "van" }] }],
  ...more,
});
