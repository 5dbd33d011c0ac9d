/** `log` over real files: what another program writes meanwhile is never lost, and the mode and links of the file stay. */
import * as fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { nodeIo } from "../../src/cli/io/nodeIo.ts";
import { runCommandLine } from "../../src/cli/run.ts";
import { SMALLEST } from "../cli/plans.ts";

let folder = "";
beforeEach(() => {
  folder = fs.mkdtempSync(join(tmpdir(), "daywright-log-"));
});
afterEach(() => fs.rmSync(folder, { recursive: true }));

/** Runs over real files; `between` happens after the plan was read last and before it is written. */
async function logging(words: readonly string[], between: () => void = () => undefined) {
  let err = "";
  const real = nodeIo();
  const code = await runCommandLine(["log", ...words], {
    ...real,
    cwd: folder,
    stderr: {
      isTty: false,
      columns: null,
      write(text) {
        err += text;
      },
    },
    writeFile(...args) {
      between();
      real.writeFile(...args);
    },
  });
  return { code, err };
}

describe("log over a real file", () => {
  it("is refused where the file changed meanwhile", async () => {
    const path = join(folder, "day.yaml");
    fs.writeFileSync(path, SMALLEST);
    const theirs = `${SMALLEST}# the desk moved dawn\n`;
    const { code, err } = await logging(["day.yaml", "wren", "released", "21:10"], () =>
      fs.writeFileSync(path, theirs),
    );
    expect([code, fs.readFileSync(path, "utf8")]).toEqual([3, theirs]);
    expect(err).toBe("error: cannot write `day.yaml`: the file changed meanwhile; nothing was written\n");
    expect(fs.readdirSync(folder)).toEqual(["day.yaml"]);
  });

  it("keeps mode and links", async () => {
    fs.writeFileSync(join(folder, "real.yaml"), SMALLEST, { mode: 0o600 });
    fs.symlinkSync("real.yaml", join(folder, "link.yaml"));
    expect((await logging(["link.yaml", "wren", "released", "21:10"])).code).toBe(0);
    expect(fs.lstatSync(join(folder, "link.yaml")).isSymbolicLink()).toBe(true);
    expect(fs.statSync(join(folder, "real.yaml")).mode & 0o777).toBe(0o600);
    expect(fs.readFileSync(join(folder, "real.yaml"), "utf8")).toContain('wren: { released: "21:10" }');
  });
});
