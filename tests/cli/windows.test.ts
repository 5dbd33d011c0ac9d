/**
 * What Windows does otherwise, by its rules for paths and by stand-ins for its file system. Not tried on Windows itself: the
 * rename over an open file, PowerShell's completion, colours of its console.
 */
import { readdirSync, readFileSync } from "node:fs";
import { posix, win32 } from "node:path";
import { describe, expect, it } from "vitest";
import { isBelow, nameFrom, slashed } from "../../src/cli/io/paths.ts";
import { whileBusy } from "../../src/cli/io/writeFile.ts";
import { ran } from "./fakeIo.ts";
import { MISSED, SMALLEST } from "./plans.ts";

describe("names of files", () => {
  it("have `/` in answers; a backslash stays a letter where it separates nothing", () => {
    expect(slashed("plans\\2027-01-20.yaml", win32)).toBe("plans/2027-01-20.yaml");
    expect(slashed("odd\\name.yaml", posix)).toBe("odd\\name.yaml");
    expect(nameFrom("C:\\crew\\plans", "C:\\crew\\plans\\week\\a.yaml", win32)).toBe("week/a.yaml");
    expect(nameFrom("C:\\crew\\plans", "C:\\crew\\a.yaml", win32)).toBe("../a.yaml");
    expect(nameFrom("C:\\crew", "D:\\a.yaml", win32)).toBe("D:/a.yaml");
  });

  it("lie in a folder by the system's own rules: letter case, drives, shares", () => {
    const below = (folder: string, path: string) => isBelow(folder, path, win32);
    expect(below("C:\\crew\\plans", "C:\\crew\\plans\\week\\a.yaml")).toBe(true);
    expect(below("C:\\Crew\\Plans", "c:\\crew\\plans\\a.yaml")).toBe(true);
    expect(below("C:\\crew\\plans", "C:\\crew\\plans")).toBe(true);
    expect(below("C:\\crew\\plans", "C:\\crew\\plans..\\a.yaml")).toBe(false);
    expect(below("C:\\crew\\plans", "C:\\crew\\plans\\..notes\\a.yaml")).toBe(true);
    expect(below("C:\\crew\\plans", "C:\\crew\\other\\a.yaml")).toBe(false);
    expect(below("C:\\crew\\plans", "D:\\crew\\plans\\a.yaml")).toBe(false);
    expect(below("\\\\server\\crew\\plans", "\\\\server\\crew\\plans\\a.yaml")).toBe(true);
    expect(below("\\\\server\\crew\\plans", "\\\\server\\other\\a.yaml")).toBe(false);
    expect(isBelow("/crew/plans", "/crew/plans2/a.yaml", posix)).toBe(false);
  });
});

describe("a rename over a file that another program holds open", () => {
  const busy = (times: number, code: string) => {
    let tries = 0;
    return {
      rename() {
        tries += 1;
        if (tries <= times) throw Object.assign(new Error(code), { code });
      },
      tries: () => tries,
    };
  };

  it.each(["EPERM", "EACCES", "EBUSY"])("is tried again on Windows: %s", (code) => {
    const file = busy(3, code);
    let waits = 0;
    whileBusy(file.rename, "win32", () => {
      waits += 1;
    });
    expect([file.tries(), waits]).toEqual([4, 3]);
  });

  it("is given up after ten more tries, and at once elsewhere or for another reason", () => {
    const always = busy(Number.POSITIVE_INFINITY, "EBUSY");
    expect(() => whileBusy(always.rename, "win32", () => {})).toThrow("EBUSY");
    expect(always.tries()).toBe(11);
    const elsewhere = busy(1, "EPERM");
    expect(() => whileBusy(elsewhere.rename, "linux", () => {})).toThrow("EPERM");
    const full = busy(1, "ENOSPC");
    expect(() => whileBusy(full.rename, "win32", () => {})).toThrow("ENOSPC");
    expect([elsewhere.tries(), full.tries()]).toEqual([1, 1]);
  });
});

describe("lines that end with CR and LF", () => {
  const CRLF = SMALLEST.replaceAll("\n", "\r\n");
  const alone = /(?<!\r)\n/;

  it.each([
    ["log", ["log", "day.yaml", "wren", "released", "08:30"], "day.yaml"],
    ["log of a section that is new", ["log", "day.yaml", "dawn", "at", "07:01"], "day.yaml"],
    ["next", ["next", "day.yaml", "--hit", "noon 12:00 pier 3 min"], "2027-01-21.yaml"],
    ["next without hits", ["next", "day.yaml"], "2027-01-21.yaml"],
  ])("stay so: %s", async (_, argv, name) => {
    const { code, files } = await ran(argv, { files: { "day.yaml": CRLF } });
    expect(code).toBe(0);
    const text = files.get(`/plans/${name}`) ?? "";
    expect(text).not.toBe("");
    expect(text).not.toBe(CRLF);
    expect(text).not.toMatch(alone);
  });

  it("stay so where a repair is written", async () => {
    const files = { "day.yaml": MISSED.replaceAll("\n", "\r\n") };
    const { code, files: after } = await ran(["repair", "day.yaml", "--write", "1"], { files });
    const text = after.get("/plans/day.yaml") ?? "";
    expect([code, text === files["day.yaml"], alone.test(text)]).toEqual([0, false, false]);
  });

  it("take the same edit as lines that end with LF", async () => {
    const logged = async (text: string) =>
      (await ran(["log", "day.yaml", "wren", "released", "08:30"], { files: { "day.yaml": text } })).files.get(
        "/plans/day.yaml",
      );
    expect((await logged(CRLF))?.replaceAll("\r\n", "\n")).toBe(await logged(SMALLEST));
  });
});

it("prints no command in single quotes, which the older shell of Windows takes as letters", () => {
  const files = readdirSync("src", { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".ts"));
  const quoted = files.filter((name) =>
    /--(?:set|with|hit|person|drive|vehicle|released) '/.test(readFileSync(`src/${name}`, "utf8")),
  );
  expect(quoted).toEqual([]);
});
