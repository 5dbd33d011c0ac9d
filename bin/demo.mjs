/** The main job on the demo day, command by command as of an evening (`npm run demo`). */
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const DAY = "fixtures/days/2027-01-20.yaml";

for (const command of ["calls", "hours", "power", "drives", "check"]) {
  process.stdout.write(`\n$ daywright ${command} ${DAY}\n`);
  const { status } = spawnSync(process.execPath, ["bin/daywright.js", command, DAY], { cwd: root, stdio: "inherit" });
  process.exitCode ||= status ?? 1;
}
