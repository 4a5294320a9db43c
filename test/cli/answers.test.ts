import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Ajv from "ajv/dist/2020.js";
import { afterAll, describe, expect, it } from "vitest";
import packageJson from "../../package.json";
import { USES } from "../../src/cli/whatHelps.js";
import { root } from "../package/consumer.js";

const ajv = new Ajv({ strict: true, allowUnionTypes: true });
const folder = mkdtempSync(join(tmpdir(), "masstone-answers-"));
cpSync(`${root}/examples/horsebox`, folder, { recursive: true });
cpSync(`${root}/examples/ladder`, folder, { recursive: true });
afterAll(() => rmSync(folder, { recursive: true }));

const schemaFile = (format: string) => `docs/schemas/${format.split("/")[1]}.json`;

/** Looks whether a text fits the schema that the package ships for the format that it says it is of. */
function expectFit(text: string): void {
  const answer = JSON.parse(text) as { readonly format: string };
  const schema = JSON.parse(readFileSync(`${root}/${schemaFile(answer.format)}`, "utf8"));
  const fits = ajv.getSchema(schema.$id) ?? ajv.compile(schema);
  expect(fits(answer), `${answer.format}: ${JSON.stringify(fits.errors)}`).toBe(true);
}

describe("what the command line prints and writes fits the schemas in the package", () => {
  it.each([
    ["masstone/correction", ["correct", "job.json", "--certificate", "proof.json"], "proof.json"],
    ["masstone/prediction", ["predict", "job.json"], undefined],
    ["masstone/directions", ["directions", "job.json"], undefined],
    ["masstone/hold-back", ["hold-back", "plan.json"], undefined],
    ["masstone/characterisation", ["characterise", "samples.json", "--out", "found.json"], "found.json"],
    ["masstone/learning", ["learn", "job.record", "--out", "learnt.json"], "learnt.json"],
    ["masstone/job-state", ["record", "job.record"], undefined],
    ["masstone/verification", ["verify"], undefined],
  ] as const)("%s", (format, args, written) => {
    const options = { cwd: folder, encoding: "utf8", maxBuffer: 1e8 } as const;
    const { stdout } = spawnSync(process.execPath, [`${root}/dist/cli.js`, ...args, "--json"], options);
    expect(JSON.parse(stdout).format).toBe(format);
    expectFit(stdout);
    if (written) expectFit(readFileSync(join(folder, written), "utf8"));
  });

  it("the record of the example does, line by line", () => {
    const lines = readFileSync(join(folder, "job.record"), "utf8").trimEnd().split("\n");
    for (const line of lines) expectFit(line);
    expectFit(readFileSync(join(folder, "job.record.end"), "utf8"));
  });
});

describe("schemas that are named", () => {
  it("in messages are in the package, where the package says", () => {
    expect(packageJson.exports["./schemas/*.json"]).toBe("./docs/schemas/*.json");
    const there = readdirSync(`${root}/docs/schemas`).map((name) => `docs/schemas/${name}`);
    for (const format of Object.keys(USES)) expect(there).toContain(schemaFile(format));
  });

  it("in the documents are there too", () => {
    const there = readdirSync(`${root}/docs/schemas`);
    for (const page of ["README.md", "CHANGELOG.md", "docs/file-formats.md", "docs/guides/embed.md"]) {
      const named = [
        ...readFileSync(`${root}/${page}`, "utf8").matchAll(/masstone\/schemas\/([\w-]+\.json)/g),
      ];
      for (const [, name] of named) expect(there, page).toContain(name);
    }
  });
});
