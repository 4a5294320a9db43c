import { spawnSync } from "node:child_process";
import { root } from "../package/consumer.js";

/** The shipped example as the built command solves it in the Node that runs the tests. */
export function solveInNode(): { readonly additions: readonly { readonly grams: number }[] } {
  const args = ["dist/cli.js", "correct", "examples/horsebox/job.json", "--json"];
  return JSON.parse(spawnSync(process.execPath, args, { cwd: root, encoding: "utf8" }).stdout);
}
