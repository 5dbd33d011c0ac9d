/** Progress of a long `check`: a line every two seconds at a terminal, none elsewhere. */
import { expect, it } from "vitest";
import type { Io } from "../../src/cli/io/io.ts";
import { Progress } from "../../src/cli/io/progress.ts";
import { commonOptions } from "../../src/cli/options.ts";

/** Each look at the clock is half a second later. */
function told(
  terminals: { readonly out: boolean; readonly err: boolean },
  flags: Readonly<Record<string, unknown>> = {},
) {
  let [now, text] = [0, ""];
  const stream = (isTty: boolean) => ({
    isTty,
    columns: null,
    write(more: string) {
      text += more;
    },
  });
  const outside: Pick<Io, "stdout" | "stderr" | "env" | "now"> = {
    stdout: stream(terminals.out),
    stderr: stream(terminals.err),
    env: {},
    now() {
      now += 500;
      return now;
    },
  };
  const progress = new Progress(outside, commonOptions(flags, outside), 12);
  for (let done = 1; done <= 12; done++) progress.tell(done);
  return text;
}

it("is told where the answer goes elsewhere", () => {
  expect(told({ out: false, err: true })).toBe("checked 4 of 12\nchecked 8 of 12\n");
  expect(told({ out: true, err: true }, { output: "all.txt" })).toBe("checked 4 of 12\nchecked 8 of 12\n");
});

it("is not told into a pipe, over the answer, or with --quiet", () => {
  expect(told({ out: false, err: false })).toBe("");
  expect(told({ out: true, err: true })).toBe("");
  expect(told({ out: false, err: true }, { quiet: true })).toBe("");
});
