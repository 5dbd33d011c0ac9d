/** Writing a file: whole or not at all, and what belongs to the place stays. */
import { spawn, spawnSync } from "node:child_process";
import * as fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { IoError } from "../../src/cli/io/io.ts";
import { writeFile } from "../../src/cli/io/writeFile.ts";
import { runs } from "../fuzz.ts";

let folder = "";
const inFolder = (name: string): string => join(folder, name);
const text = (path: string): string => fs.readFileSync(path, "utf8");
const bytes = (written: string): Uint8Array => new TextEncoder().encode(written);

beforeEach(() => {
  folder = fs.mkdtempSync(join(tmpdir(), "daywright-write-"));
});

afterEach(() => fs.rmSync(folder, { recursive: true }));

/** No helper file may be left behind. */
const leftovers = (): readonly string[] => fs.readdirSync(folder).filter((name) => name.endsWith(".tmp"));

describe("a new file", () => {
  it("is written where nothing is", () => {
    writeFile(inFolder("new.yaml"), "a: 1\n", "nothing");
    expect(text(inFolder("new.yaml"))).toBe("a: 1\n");
    expect(fs.statSync(inFolder("new.yaml")).mode & 0o777).toBe(0o666 & ~process.umask());
    expect(leftovers()).toEqual([]);
  });

  it("never takes the place of one that is there, nor of a link that points nowhere", () => {
    fs.writeFileSync(inFolder("old.yaml"), "old\n");
    fs.symlinkSync(inFolder("nowhere"), inFolder("dangling"));
    for (const name of ["old.yaml", "dangling"]) {
      expect(() => writeFile(inFolder(name), "new\n", "nothing"), name).toThrow("there is already a file");
    }
    expect(text(inFolder("old.yaml"))).toBe("old\n");
    expect(leftovers()).toEqual([]);
  });
});

describe("a file that is there", () => {
  it("keeps its mode", () => {
    fs.writeFileSync(inFolder("mode"), "old");
    for (const mode of [0o600, 0o640, 0o755, 0o666]) {
      fs.chmodSync(inFolder("mode"), mode);
      writeFile(inFolder("mode"), "new", "anything");
      expect(fs.statSync(inFolder("mode")).mode & 0o7777).toBe(mode);
    }
  });

  it("is written through its links, which stay links", () => {
    fs.mkdirSync(inFolder("elsewhere"));
    fs.writeFileSync(inFolder("elsewhere/plan"), "old");
    fs.symlinkSync("elsewhere/plan", inFolder("link"));
    fs.symlinkSync("link", inFolder("second"));
    writeFile(inFolder("second"), "new", bytes("old"));
    expect(text(inFolder("elsewhere/plan"))).toBe("new");
    expect(fs.readlinkSync(inFolder("link"))).toBe("elsewhere/plan");
    expect(fs.readdirSync(inFolder("elsewhere"))).toEqual(["plan"]);
  });

  it("keeps its owner where root writes it", (context) => {
    if (process.getuid?.() !== 0) return context.skip();
    fs.writeFileSync(inFolder("theirs"), "old");
    fs.chownSync(inFolder("theirs"), 1234, 1235);
    writeFile(inFolder("theirs"), "new", "anything");
    const { uid, gid } = fs.statSync(inFolder("theirs"));
    expect([uid, gid]).toEqual([1234, 1235]);
  });

  it("is left alone where it is not what was read", () => {
    fs.writeFileSync(inFolder("changed"), "someone else was here");
    expect(() => writeFile(inFolder("changed"), "new", bytes("old"))).toThrow(IoError);
    expect(() => writeFile(inFolder("gone"), "new", bytes("old"))).toThrow("changed meanwhile");
    expect(text(inFolder("changed"))).toBe("someone else was here");
    expect(fs.existsSync(inFolder("gone"))).toBe(false);
    expect(leftovers()).toEqual([]);
  });

  it("is not a folder, and a folder is not written", () => {
    fs.mkdirSync(inFolder("folder"));
    expect(() => writeFile(inFolder("folder"), "new", "anything")).toThrow();
    expect(leftovers()).toEqual([]);
  });

  it("may be a device, which stays one", () => {
    writeFile("/dev/null", "new", "anything");
    expect(fs.statSync("/dev/null").isCharacterDevice()).toBe(true);
  });
});

/** Writes two long texts in turn, for ever; `ready` once the first stands. */
const WRITER = `
  const { writeFile } = require("./write-file.cjs");
  const texts = ["o", "n"].map((letter) => (letter.repeat(63) + "\\n").repeat(4096));
  for (let i = 0; ; i++) {
    writeFile(process.argv[2], texts[i % 2], "anything");
    if (i === 0) require("node:fs").writeSync(1, "ready");
  }`;

/** Starts the writer, kills it `delay` milliseconds after its first text, and waits for its end. */
const killed = (path: string, delay: number): Promise<void> =>
  new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [inFolder("writer.cjs"), path], { stdio: ["ignore", "pipe", "inherit"] });
    child.stdout.once("data", () => setTimeout(() => child.kill("SIGKILL"), delay));
    child.once("error", reject);
    child.once("close", () => resolve());
  });

describe("a write that is killed", () => {
  it("leaves the old text or the new one, at any moment", async () => {
    const entry = new URL("../../src/cli/io/writeFile.ts", import.meta.url).pathname;
    const options = { bundle: true, platform: "node", format: "cjs", logLevel: "silent" } as const;
    await build({ entryPoints: [entry], outfile: inFolder("write-file.cjs"), ...options });
    fs.writeFileSync(inFolder("writer.cjs"), WRITER);
    const whole = new Set(["o", "n"].map((letter) => `${letter.repeat(63)}\n`.repeat(4096)));
    const times = runs(200, 5000);
    // Multiples of the golden ratio spread the kills evenly over the time of several writes.
    const attempt = async (i: number): Promise<boolean> => {
      const path = inFolder(`killed-${i % 4}`);
      await killed(path, ((i * 0.618_034) % 1) * 8);
      return whole.has(text(path));
    };
    const kept: boolean[] = [];
    for (let i = 0; i < times; i += 4) kept.push(...(await Promise.all([i, i + 1, i + 2, i + 3].map(attempt))));
    expect(kept.filter((ok) => !ok)).toHaveLength(0);
    expect(kept).toHaveLength(times);
    // Two hundred processes take their time on a busy machine.
  }, 300_000);
});

describe("a second name of a file", () => {
  it.each(["longer than before\n", "s\n", ""])("still names it afterwards: %j", (now) => {
    fs.rmSync(inFolder("second-name"), { force: true });
    fs.writeFileSync(inFolder("first-name"), "before\n");
    fs.linkSync(inFolder("first-name"), inFolder("second-name"));
    writeFile(inFolder("first-name"), now, bytes("before\n"));
    expect([text(inFolder("first-name")), text(inFolder("second-name"))]).toEqual([now, now]);
    expect(fs.statSync(inFolder("first-name")).nlink).toBe(2);
    expect(leftovers().filter((name) => name.includes("first-name"))).toEqual([]);
  });
});

describe("what a killed write left", () => {
  /** The id of a process that has ended. */
  const gone = (): number => spawnSync(process.execPath, ["-e", ""]).pid;

  it("is removed at the next write of the same file, and nothing else is", () => {
    fs.writeFileSync(inFolder("killed.yaml"), "old\n");
    const own = `.killed.yaml.${gone()}.1x2y3z.tmp`;
    const kept = [
      `.killed.yaml.${process.pid}.1x2y3z.tmp`,
      `.other.yaml.${gone()}.1x2y3z.tmp`,
      ".killed.yaml.swp",
      ".killed.yaml.notes.tmp",
      "killed.yaml.1.2.tmp",
    ];
    for (const name of [own, ...kept]) fs.writeFileSync(inFolder(name), "half");
    writeFile(inFolder("killed.yaml"), "new\n", "anything");
    expect(text(inFolder("killed.yaml"))).toBe("new\n");
    expect(fs.existsSync(inFolder(own))).toBe(false);
    for (const name of kept) {
      expect(fs.existsSync(inFolder(name)), name).toBe(true);
      fs.rmSync(inFolder(name));
    }
  });
});

it("of two runs that write one file at once, one refuses: it sees what the other writes beside it", () => {
  const own = fs.mkdtempSync(join(tmpdir(), "daywright-two-"));
  const [path, other] = [join(own, "day.yaml"), join(own, `.day.yaml.${process.pid}.0.tmp`)];
  fs.writeFileSync(path, "before");
  fs.writeFileSync(other, "what another run writes");
  const write = (): void => writeFile(path, "after", Buffer.from("before"));
  expect(write).toThrow("another run is writing the file");
  // One that was killed, its id now another program's, would refuse for ever: its file is named.
  expect(write).toThrow(`.day.yaml.${process.pid}.0.tmp`);
  expect(fs.readFileSync(path, "utf8")).toBe("before");
  fs.rmSync(other);
  write();
  expect(fs.readFileSync(path, "utf8")).toBe("after");
  fs.rmSync(own, { recursive: true });
});
