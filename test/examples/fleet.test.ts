import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { setTimeout } from "node:timers/promises";
import { describe, expect, it, onTestFinished } from "vitest";
import { checkBuildIsFresh, root } from "../package/consumer.js";

checkBuildIsFresh();

const missing = [
  ...(spawnSync("redis-server", ["--version"]).status === 0 ? [] : ["redis-server"]),
  ...(existsSync(join(root, "examples/fleet/node_modules/bullmq"))
    ? []
    : ["bullmq (npm ci --ignore-scripts --prefix examples/fleet)"]),
];
if (missing.length > 0) console.warn(`SKIPPED: the fleet: there is no ${missing.join(" and no ")}`);

const FORMULAS = 300;
const SILENT_MS = 1000;

/** Runs the fleet with two processes; `meanwhile` gets their ids once the first slices are done. */
async function fleet(folder: string, meanwhile: (workers: readonly number[]) => Promise<void>) {
  const args = ["examples/fleet/main.mjs", String(FORMULAS), "2", folder];
  const main = spawn(process.execPath, args, {
    cwd: root,
    env: { ...process.env, FLEET_SILENT_MS: String(SILENT_MS) },
  });
  const workers: number[] = [];
  const said: string[] = [];
  createInterface({ input: main.stdout }).on("line", (line) => {
    said.push(line);
    const [, id] = /^worker (\d+)$/.exec(line) ?? [];
    if (id) workers.push(Number(id));
  });
  let once: Promise<void> | undefined;
  createInterface({ input: main.stderr }).on("line", (line) => {
    if (Number.parseInt(line, 10) > 0) once ??= meanwhile([...workers]);
  });
  const status = await new Promise<number | null>((ended) => main.on("close", ended));
  await once;
  return { status, said: said.join("\n") };
}

describe.skipIf(missing.length > 0)("the example of a fleet", () => {
  it("makes every formula once, as one process alone would, though one worker is killed and one held up", async () => {
    const folder = mkdtempSync(join(tmpdir(), "masstone-fleet-"));
    onTestFinished(() => rmSync(folder, { recursive: true }));
    const { status, said } = await fleet(folder, async ([first, second]) => {
      process.kill(first, "SIGKILL");
      // Long enough for its slice to go to another; then it wakes up and offers an answer that nobody waits for.
      process.kill(second, "SIGSTOP");
      await setTimeout(3 * SILENT_MS);
      process.kill(second, "SIGCONT");
    });
    expect({ status, said }).toMatchObject({ status: 0 });
    expect(said).toContain(`${FORMULAS} formulas, 2 processes, 1 dead ones replaced`);

    const alone = spawnSync(
      process.execPath,
      [
        "--input-type=module",
        "--eval",
        `import { solve } from "./examples/fleet/solve.mjs";
         for (let n = 0; n < ${FORMULAS}; n++) console.log(JSON.stringify(solve(n)));`,
      ],
      { cwd: root, encoding: "utf8" },
    );
    expect(readFileSync(join(folder, "library.jsonl"), "utf8")).toBe(alone.stdout);

    const again = await fleet(folder, async () => {});
    expect(again.said).toContain("\n0 made now");
  }, 120_000);
});
