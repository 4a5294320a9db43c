import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import packageJson from "../../package.json";
import { type Consumer, doors, makeConsumer, runtimePackages } from "./consumer.js";

let consumer: Consumer;

beforeAll(() => {
  consumer = makeConsumer();
}, 120_000);

afterAll(() => consumer?.remove());

const example = "node_modules/masstone/examples/horsebox/";
const command = "node_modules/.bin/masstone";

describe("the installed package", () => {
  it("brings along only what the lock file calls a runtime dependency", () => {
    const installed = JSON.parse(
      readFileSync(join(consumer.folder, "node_modules/.package-lock.json"), "utf8"),
    ) as { readonly packages: object };
    expect(Object.keys(installed.packages).sort()).toEqual(
      [...runtimePackages(), "node_modules/masstone"].sort(),
    );
  });

  it("gives the same names through import and require at every door", () => {
    const list = JSON.stringify(doors);
    const show = (load: string) =>
      `for (const d of ${list}) console.log(d, Object.keys(${load}).sort().join());`;
    const esm = consumer.node({ "esm.mjs": show("await import(d)") }, "esm.mjs");
    const cjs = consumer.node({ "cjs.cjs": show("require(d)") }, "cjs.cjs");
    expect(esm.stderr + cjs.stderr).toBe("");
    expect(cjs.stdout).toBe(esm.stdout);
    expect(esm.stdout.split("\n").filter(Boolean)).toHaveLength(doors.length);
    expect(esm.stdout).toMatch(/^masstone .*correct.*predict/m);
  });

  it("solves the example alike through import, require and the command line", () => {
    const solve = (head: string) => `${head}
      const read = (name) => readFileSync("${example}" + name, "utf8");
      const job = readJob(read("job.json"), (name) => readToners(read(name)));
      console.log(JSON.stringify(correct(job, { forecast: true })));`;
    const names = (how: (name: string, door: string) => string) =>
      `${how("correct", "masstone")} ${how("readJob, readToners", "masstone/formats")} ${how("readFileSync", "node:fs")}`;
    const esm = consumer.node(
      { "solve.mjs": solve(names((name, door) => `import { ${name} } from "${door}";`)) },
      "solve.mjs",
    );
    const cjs = consumer.node(
      { "solve.cjs": solve(names((name, door) => `const { ${name} } = require("${door}");`)) },
      "solve.cjs",
    );
    const cli = consumer.node({}, command, "correct", `${example}job.json`, "--json");
    expect(esm.stderr + cjs.stderr + cli.stderr).toBe("");
    expect(cjs.stdout).toBe(esm.stdout);
    const { nextStep, caution, ...correction } = JSON.parse(cli.stdout);
    expect(correction).toEqual(JSON.parse(esm.stdout));
    expect(correction.status).toBe("corrected");
    expect(nextStep.step).toBe("pour");
    expect(caution).toMatch(/isocyanates/);
  });

  it("answers a job and an instrument's CSV of one's own from the command line, without a clone", () => {
    const script = (name: string) =>
      readFileSync(join(consumer.folder, "node_modules/masstone/examples/script", name), "utf8");
    const job = { ...JSON.parse(script("job.json")), toners: `${example}toners.json` };
    const own = { "own.json": JSON.stringify(job), "readings.csv": script("readings.csv") };
    const { status, stdout, stderr } = consumer.node(
      own,
      command,
      "correct",
      "own.json",
      "--report",
      "own.html",
    );
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    expect(stdout).toMatch(/^Not there yet: near-side door .*scale shows/s);
    expect(readFileSync(join(consumer.folder, "own.html"), "utf8")).toContain("near-side door");
  });

  it("has errors that are known across ESM, CommonJS and doors, where instanceof is not", () => {
    const code = `
      import * as esm from "masstone";
      import { ciede2000 } from "masstone/colorimetry";
      import { readToners } from "masstone/formats";
      import { createRequire } from "node:module";
      const require = createRequire(import.meta.url);
      const cjs = require("masstone");
      const thrown = (act) => { try { act(); } catch (error) { return error; } };
      const errors = [
        () => esm.correct({}), () => cjs.correct({}), () => readToners("{}"), () => ciede2000([1]),
        () => require("masstone/formats").readToners("{}"), () => require("masstone/colorimetry").ciede2000([1]),
      ].map(thrown);
      console.log(errors.every((error) => esm.isInputError(error) && cjs.isInputError(error)));
      console.log(errors.every((error) => error instanceof esm.InputError));
      console.log(thrown(() => null.x), esm.isInputError(thrown(() => null.x)));`;
    const { stdout } = consumer.node({ "brand.mjs": code }, "brand.mjs");
    expect(stdout).toMatch(/^true\nfalse\nTypeError.* false\n$/s);
  });

  it("hands out its schemas and keeps its inside to itself", () => {
    const schema = consumer.node(
      { "schema.cjs": `console.log(require("masstone/schemas/job.json").title);` },
      "schema.cjs",
    );
    expect(schema.stdout).toBe("masstone job\n");
    const inside = consumer.node({ "inside.mjs": `await import("masstone/dist/index.js");` }, "inside.mjs");
    expect(inside.stderr).toContain("ERR_PACKAGE_PATH_NOT_EXPORTED");
  });

  it("has a command that says its version and tells bad input by its exit code", () => {
    expect(readFileSync(join(consumer.folder, command), "utf8")).toMatch(/^#!\/usr\/bin\/env node\n/);
    expect(consumer.node({}, command, "--version").stdout).toBe(`${packageJson.version}\n`);
    const refused = consumer.node({ "broken.json": "{" }, command, "correct", "broken.json");
    expect(refused.status).toBe(2);
    expect(refused.stderr).toMatch(
      /^masstone: broken\.json: line 1, column 2: not readable as JSON .*\[unreadable-json\]\n.*comma.*\n$/s,
    );
  });

  it("does nothing when imported, where code from strings is forbidden and deprecated calls throw", () => {
    const code = `const seen = () => JSON.stringify([
        Reflect.ownKeys(globalThis).map(String), process.eventNames(), process.getActiveResourcesInfo(),
        [Object, Array, Number, Math, Float64Array].map((one) => Reflect.ownKeys(one.prototype ?? one).length),
      ]);
      const before = seen();
      for (const door of ${JSON.stringify(doors)}) await import(door);
      if (seen() !== before) console.log(before, seen());`;
    const flags = ["--throw-deprecation", "--disallow-code-generation-from-strings"];
    const { stdout, stderr } = consumer.node({ "quiet.mjs": code }, ...flags, "quiet.mjs");
    expect(stdout + stderr).toBe("");
  });
});
