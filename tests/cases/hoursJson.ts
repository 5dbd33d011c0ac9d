/** `hours FILE --json` over the fixtures, for what a case should say of each person. */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { ran } from "../cli/fakeIo.ts";

interface LimitJson {
  readonly id: string;
  readonly usedMinutes: number | null;
  readonly leftMinutes: number | null;
  readonly atLeast: boolean;
  readonly short: boolean;
  readonly extensionsLeft: number | null;
}

interface PersonJson {
  readonly id: string;
  readonly rules: readonly string[];
  readonly restBeforeMinutes: number | null;
  readonly restAtLeast: boolean;
  readonly restSoFarMinutes: number | null;
  readonly restNeededMinutes: number;
  readonly limits: readonly LimitJson[];
  readonly breaches: readonly {
    readonly limit: string;
    readonly clause: string;
    readonly from: string;
    readonly to: string;
    readonly minutes: number;
  }[];
  readonly drivingMustStopAt: string | null;
  readonly houseDrivingStopsAt: string | null;
  readonly earliestNextCall: string | null;
  readonly earliestNextDrive: string | null;
  readonly earliestDriveFromBerth: string | null;
}

interface FindingJson {
  readonly code: string;
  readonly level: string;
  readonly who: string | null;
  readonly message: string;
  readonly hint: string | null;
  readonly source: { readonly title: string; readonly clause: string | null } | null;
}

export interface HoursCase {
  readonly exit: number;
  readonly text: string;
  readonly people: readonly PersonJson[];
  readonly fitness: readonly {
    readonly id: string;
    readonly sleepMinutes: number | null;
    readonly upAssumed: boolean;
    readonly up: string | null;
    readonly wheel: readonly { readonly awakeMinutes: number | null; readonly sleepMinutes: number | null }[];
  }[];
  readonly findings: readonly FindingJson[];
  person(id: string): PersonJson;
  limit(id: string, limit: string): LimitJson;
  /** `us-property.window 18:35-19:30 55`: the breaches of law of a person, with the minutes of each. */
  law(id: string): readonly string[];
  /** Sentences of the findings with this code. */
  said(code: string): readonly string[];
}

/** The files of a folder, by their path below it. */
export function filesIn(folder: string, below = ""): Record<string, string> {
  const files: Record<string, string> = {};
  for (const name of readdirSync(`${folder}/${below}`)) {
    const path = `${below}${name}`;
    if (statSync(`${folder}/${path}`).isDirectory()) Object.assign(files, filesIn(folder, `${path}/`));
    else files[path] = readFileSync(`${folder}/${path}`, "utf8");
  }
  return files;
}

const clock = (iso: string): string => iso.slice(11, 16);

/** `hours` of one of `files`. */
export async function hoursOf(file: string, files: Readonly<Record<string, string>>): Promise<HoursCase> {
  const [{ out, code }, { out: text }] = await Promise.all([
    ran(["hours", file, "--json"], { files: { ...files } }),
    ran(["hours", file, "--width", "80"], { files: { ...files } }),
  ]);
  const { data, findings } = JSON.parse(out);
  const people: readonly PersonJson[] = data?.people ?? [];
  const person = (id: string): PersonJson => {
    const found = people.find((one) => one.id === id);
    if (found === undefined) throw new Error(`no ${id}: ${out.slice(0, 400)}`);
    return found;
  };
  return {
    exit: code,
    text,
    people,
    fitness: data?.fitness ?? [],
    findings,
    person,
    limit(id, limit) {
      const found = person(id).limits.find((one) => one.id === limit);
      if (found === undefined) throw new Error(`no limit ${limit}`);
      return found;
    },
    law: (id) =>
      person(id)
        .breaches.filter(({ limit }) => !limit.startsWith("house."))
        .map(({ limit, from, to, minutes }) => `${limit} ${clock(from)}-${clock(to)} ${minutes}`),
    said: (one) =>
      findings.filter((finding: FindingJson) => finding.code === one).map(({ message }: FindingJson) => message),
  };
}

export const fixture = (group: string) => filesIn(`fixtures/cases/${group}`);
