import { spawnSync } from "node:child_process";
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import packageJson from "../../package.json";

const root = fileURLToPath(new URL("../..", import.meta.url));
const example = join(root, "examples/horsebox/job.json");

const newest = (folder: string): number =>
  Math.max(
    ...readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => statSync(join(entry.parentPath, entry.name)).mtimeMs),
  );

/** A folder in which the package is installed, as a user has it: only what package.json lets out. */
let consumer = "";

beforeAll(() => {
  // A stale build would test yesterday's code; building takes longer than looking.
  if (newest("src") > newest("dist")) throw new Error("dist is older than src: run `npm run build` first");
  consumer = mkdtempSync(join(tmpdir(), "masstone-consumer-"));
  mkdirSync(join(consumer, "node_modules"));
  symlinkSync(root, join(consumer, "node_modules", "masstone"), "dir");
});

afterAll(() => {
  if (consumer !== "") rmSync(consumer, { recursive: true });
});

function node(file: string, code: string) {
  writeFileSync(join(consumer, file), code);
  return spawnSync(process.execPath, [file], { cwd: consumer, encoding: "utf8" });
}

const doors = Object.keys(packageJson.exports)
  .filter((door) => !door.includes("json"))
  .map((door) => door.replace(/^\./, "masstone"));

describe("the built package", () => {
  it("gives the same names through import and require at every door", () => {
    const list = JSON.stringify(doors);
    const esm = node(
      "esm.mjs",
      `for (const d of ${list}) console.log(d, Object.keys(await import(d)).sort().join());`,
    );
    const cjs = node(
      "cjs.cjs",
      `for (const d of ${list}) console.log(d, Object.keys(require(d)).sort().join());`,
    );
    expect(esm.stderr + cjs.stderr).toBe("");
    expect(cjs.stdout).toBe(esm.stdout);
    expect(esm.stdout.split("\n").filter(Boolean)).toHaveLength(doors.length);
    expect(esm.stdout).toMatch(/^masstone .*correct.*predict/m);
  });

  it("solves the example alike through import, require and the command line", () => {
    const solve = (head: string) => `${head}
      const read = (name) => readFileSync(${JSON.stringify(join(root, "examples/horsebox/"))} + name, "utf8");
      const job = readJob(read("job.json"), (name) => readToners(read(name)));
      console.log(JSON.stringify(correct(job)));`;
    const names = (how: (door: string) => string) =>
      `${how("correct|masstone")} ${how("readJob, readToners|masstone/formats")} ${how("readFileSync|node:fs")}`;
    const split = (text: string) => text.split("|");
    const esm = node("solve.mjs", solve(names((t) => `import { ${split(t)[0]} } from "${split(t)[1]}";`)));
    const cjs = node(
      "solve.cjs",
      solve(names((t) => `const { ${split(t)[0]} } = require("${split(t)[1]}");`)),
    );
    const cli = spawnSync(
      process.execPath,
      [join(root, packageJson.bin.masstone), "correct", example, "--json"],
      {
        encoding: "utf8",
      },
    );
    expect(esm.stderr + cjs.stderr + cli.stderr).toBe("");
    expect(cjs.stdout).toBe(esm.stdout);
    expect(JSON.parse(cli.stdout)).toEqual(JSON.parse(esm.stdout));
    expect(JSON.parse(cli.stdout).status).toBe("corrected");
  });

  it("hands out its schemas and keeps its inside to itself", () => {
    const schema = node("schema.cjs", `console.log(require("masstone/schemas/job.json").title);`);
    expect(schema.stdout).toBe("masstone job\n");
    const inside = node("inside.mjs", `await import("masstone/dist/index.js");`);
    expect(inside.stderr).toContain("ERR_PACKAGE_PATH_NOT_EXPORTED");
  });

  it("has a command that runs when called by its path and tells bad input by its exit code", () => {
    const cli = join(root, packageJson.bin.masstone);
    expect(readFileSync(cli, "utf8")).toMatch(/^#!\/usr\/bin\/env node\n/);
    const piped = spawnSync(cli, ["correct", "-"], { input: "{", encoding: "utf8" });
    expect(piped.status).toBe(2);
    expect(piped.stderr).toMatch(/^masstone: -: not readable as JSON .*\[unreadable-json\]\n$/s);
  });
});
