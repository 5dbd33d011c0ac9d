/** Days that went wrong where facts, the past and missing instants meet; each with what it should say and why. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { figures } from "../agreement/days.ts";
import { dayOfFile } from "../day/read.ts";
import { clock, clocks } from "./clock.ts";

describe("a run of which only the end is open", () => {
  it("is placed, though a task before the only fixed hit has nothing to wait for", async () => {
    // Wren does `fix` while Ilse is on air at 07:00, and nothing says when the wagon goes: as soon as it is packed.
    const day = await dayOfFile("fixtures/cases/hostile/placed-min.yaml");
    // 07:03, clear 10, strike 20, and 30 to load where somebody checks out: wren and ilse end at the pier.
    expect(clocks(day, "dawn.start", "wagon.1.loading", "wagon.1.leave")).toEqual(["07:00", "07:33", "08:03"]);
    expect(day.findings.filter(({ level }) => level === "error")).toEqual([]);
  });
});

describe("a lunch that was logged", () => {
  it("at 11:30 runs for its 45 minutes beyond its window to 12:00, and what follows comes after it", async () => {
    const day = await dayOfFile("fixtures/cases/facts/late1.yaml");
    // 12:15 + 30 of work, 30 of road and 10 to unload.
    const expected = ["11:30", "12:15", "12:15", "12:45", "13:25"];
    expect(clocks(day, "lunch.start", "lunch.end", "work.start", "work.end", "wren.release")).toEqual(expected);
    expect(day.activities.map(({ state }) => state)).not.toContain("missed");
    expect(day.findings.map(({ code, facts }) => [code, facts["what"], facts["rule"]])).toEqual([
      ["logged-otherwise", "lunch", "window"],
    ]);
  });

  it("leaves work that ended at 13:30 to begin as planned, and the release follows from its end", async () => {
    const day = await dayOfFile("fixtures/cases/facts/late2.yaml");
    const expected = ["11:45", "13:30", "14:10"];
    expect(clocks(day, "work.start", "work.end", "wren.release")).toEqual(expected);
  });
});

describe("an arrival and a departure logged as planned", () => {
  it("change nothing between them", async () => {
    const [logged, planned] = await Promise.all([
      dayOfFile("fixtures/cases/facts/logged-as-planned.yaml"),
      dayOfFile("fixtures/smallest.yaml"),
    ]);
    expect(figures(logged)).toEqual(figures(planned));
    expect(clocks(logged, "dawn.inPosition", "dawn.start", "dawn.end")).toEqual(["05:50", "06:00", "06:03"]);
  });

  it("leave a stand-down between them as it is: two duties, the first to its start", async () => {
    const file = "fixtures/cases/facts/logged-standdown.yaml";
    const logged = await dayOfFile(file);
    const [text = ""] = readFileSync(file, "utf8").split("actual:");
    expect(figures(logged)).toEqual(figures(await dayOfFile(file, text)));
    // 09:00 to 10:40 in London is 10:00 to 11:40 in Berlin.
    for (const { duties } of logged.people)
      expect(duties.map(({ call, release }) => [clock(logged, call), clock(logged, release)])).toEqual([
        ["06:35", "10:00"],
        ["11:40", "12:17"],
      ]);
  });
});

describe("an order that only the file states", () => {
  const notes = async (name: string) => {
    const { findings } = await dayOfFile(`fixtures/cases/hostile/${name}.yaml`);
    return findings.flatMap(({ code, facts }) => (code === "order-unstated" ? [facts] : []));
  };

  it("of two tasks of one person is named, with the edit that settles it", async () => {
    // The same two entries in the other order: the release differs, and each says what decided.
    expect(await notes("perm-2-tasks-a")).toMatchObject([{ tasks: ["h5", "h6"], stop: "v0.3", order: ["h5", "h6"] }]);
    expect(await notes("perm-2-tasks-b")).toMatchObject([{ tasks: ["h6", "h5"], stop: "v0.3", order: ["h6", "h5"] }]);
  });

  it("of forty entries decides nothing: the same answer in either", async () => {
    const [a, b] = await Promise.all(
      ["a", "b"].map((one) => dayOfFile(`fixtures/cases/hostile/perm-40-tasks-${one}.yaml`)),
    );
    expect([...(a?.instants ?? [])].toSorted()).toEqual([...(b?.instants ?? [])].toSorted());
    expect(a?.findings.map(({ code }) => code)).toEqual(b?.findings.map(({ code }) => code));
    // 17:28 less line check 10 and in position 10, h1 72, set-up 30, park 5, the drives 64 and 60, loading 30 and h0 65:
    // 11:42, which is 1 h 28 min before its window opens at 13:10.
    const short = [a, b].map((day) => day?.findings.find(({ code }) => code === "task-missed")?.facts["short"]);
    expect(short).toEqual([88, 88]);
  });

  it("of two tasks that do not fit together names which is missed", async () => {
    const file = "fixtures/cases/facts/late1.yaml";
    const [head = ""] = readFileSync(file, "utf8").split("tasks:");
    const task = (id: string) => `  ${id}: { for: 40 min, place: pier, window: ["11:00", "12:00"] }\n`;
    const rest = "runs:\n  wagon: [lodge, { place: pier, do: [noon, first, second] }, lodge]\n";
    const missed = async (...ids: readonly string[]) => {
      const day = await dayOfFile(file, `${head}tasks:\n${ids.map(task).join("")}${rest}`);
      return day.findings.flatMap(({ code, facts }) => (code === "order-unstated" ? [facts["missed"]] : []));
    };
    expect([await missed("first", "second"), await missed("second", "first")]).toEqual([["second"], ["first"]]);
  });
});
