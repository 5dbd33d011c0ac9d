/** A small day of two people with parts of its own, and what is said of it. */
import { judgedText } from "../cases/judged.ts";

export interface Parts {
  readonly crew?: string;
  readonly vehicles?: string;
  readonly a?: string;
  readonly b?: string;
  readonly places?: string;
  readonly roads?: string;
  readonly hits?: string;
  readonly runs?: string;
  readonly more?: string;
}

/** Two people drive from a shelter to a place 20 min away for one hit at 19:00, and back. */
export const day = (parts: Parts): string => `daywright: 1
date: 2027-01-20
clock: UTC
crew: ${parts.crew ?? "{ wren: { role: camera, drives: [car] }, bo: { role: engineer } }"}
vehicles: ${parts.vehicles ?? "{ car: {} }"}
places: ${parts.places ?? `{ a: { at: [46.6, -90.8], zone: UTC, shelter: true${parts.a ?? ""} }, b: { at: [46.7, -90.8], zone: UTC${parts.b ?? ""} } }`}
roads: ${parts.roads ?? "[ { link: [a, b], drive: 20 min, bad: 30 min } ]"}
hits: ${parts.hits ?? '{ h: { at: "19:00", for: 3 min, place: b } }'}
runs: ${parts.runs ?? "{ car: { driver: wren, aboard: [wren, bo], stops: [a, b, a] } }"}
${parts.more ?? ""}`;

export const said = async (code: string, parts: Parts): Promise<readonly string[]> =>
  (await judgedText(day(parts))).said(code);
export const levels = async (code: string, parts: Parts): Promise<readonly string[]> =>
  (await judgedText(day(parts))).found(code).map(({ level }) => level);
export const TWO_CARS: Parts = {
  crew: "{ wren: { role: camera, drives: [car, van] }, bo: { role: engineer, drives: [car, van] } }",
  vehicles: "{ car: { gross: 4000 lb }, van: { gross: 7000 lb } }",
  runs: "{ car: { driver: wren, stops: [a, b, a] }, van: { driver: bo, stops: [a, b, a] } }",
  hits: '{ h: { at: "19:00", for: 3 min, place: b, who: [wren, bo] } }',
};
export const weather = (rows: string): string => `weather: [ ${rows} ]`;
