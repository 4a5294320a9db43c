import { describe, expect, it } from "vitest";
import { LAYERS, ROOMS } from "./layers.js";
import * as rules from "./rules.js";
import { parseSourceFile, readSourceFiles } from "./sourceFile.js";

const files = readSourceFiles();

describe("src", () => {
  it("is read at all", () => {
    expect(files.length).toBeGreaterThan(20);
    expect(files.find(({ path }) => path === "optics/film.ts")?.exported).toContain("film");
  });

  it.each<[string, rules.Rule]>([
    ["every file stands in a layer", rules.knownFolder],
    ["a layer imports only the layers it may", rules.allowedLayer],
    ["every file of a layer with rooms stands in a room", rules.knownRoom],
    ["a room imports only what its wall lets through", rules.wallsOfRooms],
    ["a room of records holds nothing but types", rules.onlyTypes],
    ["packages come in through their gates, node: in the command line alone", rules.packageAtItsGate],
    ["only the command line knows the process", rules.processInCommandLineOnly],
    ["relative imports end in .js", rules.importsEndInJs],
    ["no file imports itself by a round way", rules.withoutCycles],
    ["no file is too long", rules.shortEnough],
    ["no function has many parameters", rules.fewParameters],
    ["a file is named after one of its exports", rules.namedAfterExport],
    ["nothing is passed on outside the doors", rules.passesNothingOn],
    ["nothing happens on import", rules.quietWhenLoaded],
  ])("%s", (_, rule) => {
    expect(rule(files)).toEqual([]);
  });
});

describe("the table of layers", () => {
  it("names each folder once and lets a layer import only what stands before it", () => {
    const before: string[] = [];
    for (const { folder, imports } of LAYERS) {
      expect(before).not.toContain(folder);
      for (const other of imports) expect(before, folder).toContain(other);
      before.push(folder);
    }
  });

  it("lets nobody import the doors or the command line", () => {
    const imported = LAYERS.flatMap(({ imports }) => imports);
    expect(imported).not.toContain("doors");
    expect(imported).not.toContain("cli");
  });
});

describe("the rooms", () => {
  it("stand in layers that there are, and let through what there is", () => {
    for (const { folder, imports } of ROOMS) {
      expect(
        files.some(({ path }) => path.startsWith(`${folder}/`)),
        folder,
      ).toBe(true);
      for (const [layer, allowed] of Object.entries(imports)) {
        for (const other of allowed) {
          expect(other.startsWith(`${layer}/`), other).toBe(true);
          expect(
            files.some(({ path }) => path === other || path.startsWith(`${other}/`)),
            other,
          ).toBe(true);
        }
      }
    }
  });
});

describe("the rules can fail", () => {
  const broken = (rule: rules.Rule, path: string, text: string) => rule([parseSourceFile(path, text)]).length;

  it.each<[rules.Rule, string, string]>([
    [rules.knownFolder, "film.ts", ""],
    [rules.knownFolder, "helpers/film.ts", ""],
    [rules.allowedLayer, "optics/film.ts", 'import { mix } from "../toners/coefficients.js";'],
    [rules.allowedLayer, "optics/film.ts", 'import type { Lab } from "../colorimetry/lab.js";'],
    [rules.allowedLayer, "optics/film.ts", 'type Lab = import("../colorimetry/lab.js").Lab;'],
    [rules.allowedLayer, "optics/film.ts", 'const lab = () => import("../colorimetry/lab.js");'],
    [rules.allowedLayer, "core/check.ts", 'export { film } from "../optics/film.js";'],
    [rules.allowedLayer, "correction/a.ts", 'import { correctionText } from "../report/correctionText.js";'],
    [rules.allowedLayer, "report/a.ts", 'import { correct } from "../doors/index.js";'],
    [rules.knownRoom, "certificate/certify.ts", ""],
    [rules.wallsOfRooms, "certificate/checker/a.ts", 'import { certify } from "../prover/certify.js";'],
    [rules.wallsOfRooms, "certificate/checker/a.ts", 'import type { Reach } from "../prover/reach.js";'],
    [rules.wallsOfRooms, "certificate/checker/a.ts", 'import { nnls } from "../../numeric/nnls.js";'],
    [
      rules.wallsOfRooms,
      "certificate/checker/a.ts",
      'import { correct } from "../../correction/correct.js";',
    ],
    [
      rules.wallsOfRooms,
      "certificate/prover/a.ts",
      'import { isShown } from "../checker/differenceClaim.js";',
    ],
    [rules.wallsOfRooms, "certificate/records/a.ts", 'import type { Reach } from "../prover/reach.js";'],
    [rules.onlyTypes, "certificate/records/a.ts", "export const LEVEL = 1;"],
    [rules.onlyTypes, "certificate/records/a.ts", 'import { labFromXyz } from "../../colorimetry/lab.js";'],
    [rules.packageAtItsGate, "numeric/leastSquares/nnls.ts", 'import { Matrix } from "ml-matrix";'],
    [rules.packageAtItsGate, "colorimetry/lab.ts", 'import { to } from "colorjs.io/fn";'],
    [rules.packageAtItsGate, "colorimetry/colorjs.ts", 'import fc from "fast-check";'],
    [rules.packageAtItsGate, "formats/json.ts", 'import { readFileSync } from "node:fs";'],
    [rules.packageAtItsGate, "cli/run.ts", 'import { readFileSync } from "fs";'],
    [rules.processInCommandLineOnly, "report/a.ts", "export const a = () => process.env.HOME;"],
    [rules.importsEndInJs, "optics/film.ts", 'import { a } from "./a";'],
    [rules.withoutCycles, "optics/film.ts", 'import { film } from "./film.js";'],
    [rules.shortEnough, "optics/film.ts", "\n".repeat(251)],
    [rules.fewParameters, "optics/film.ts", "const f = (a, b, c, d, e, g) => a;"],
    [rules.namedAfterExport, "optics/film.ts", "export const paint = 1;"],
    [rules.namedAfterExport, "optics/film.ts", "const film = 1;"],
    [rules.namedAfterExport, "numeric/linear/householder.ts", "export const householderStep = () => 1;"],
    [rules.passesNothingOn, "optics/film.ts", 'export * from "./stack.js";'],
    [rules.quietWhenLoaded, "optics/film.ts", 'console.log("loaded");'],
    [rules.quietWhenLoaded, "optics/film.ts", "let count = 0;"],
    [rules.quietWhenLoaded, "optics/film.ts", "const scratch = new Float64Array(31);"],
    [rules.quietWhenLoaded, "optics/film.ts", "const table = { a: [1, build()] };"],
    [rules.quietWhenLoaded, "optics/film.ts", "const frozen = Object.freeze(build());"],
    [rules.quietWhenLoaded, "optics/film.ts", "for (const x of [1]) use(x);"],
  ])("%o refuses, in %s, %s", (rule, path, text) => {
    expect(broken(rule, path, text)).toBe(1);
  });

  it.each<[rules.Rule, string, string]>([
    [rules.allowedLayer, "optics/film.ts", 'import { Grid } from "../spectra/grid.js";'],
    [rules.allowedLayer, "optics/film.ts", 'import { check } from "../core/check.js";'],
    [rules.allowedLayer, "correction/a.ts", 'import { type Surface } from "../surface/surface.js";'],
    [rules.knownRoom, "certificate/checker/a.ts", ""],
    [rules.knownRoom, "optics/film.ts", ""],
    [rules.wallsOfRooms, "certificate/checker/a.ts", 'import { isShown } from "./differenceClaim.js";'],
    [rules.wallsOfRooms, "certificate/checker/a.ts", 'import type { Proof } from "../records/proof.js";'],
    [rules.wallsOfRooms, "certificate/checker/a.ts", 'import { checkJob } from "../../problem/job.js";'],
    [rules.wallsOfRooms, "certificate/checker/a.ts", 'import { checksum } from "../../core/checksum.js";'],
    [rules.onlyTypes, "certificate/records/a.ts", 'import type { Lab } from "../../colorimetry/lab.js";'],
    [rules.packageAtItsGate, "colorimetry/colorjs.ts", 'import { to } from "colorjs.io/fn";'],
    [rules.packageAtItsGate, "cli/run.ts", 'import { readFileSync } from "node:fs";'],
    [rules.processInCommandLineOnly, "report/a.ts", "export const a = (job: { process: 1 }) => job.process;"],
    [
      rules.quietWhenLoaded,
      "optics/film.ts",
      "export const DEFAULTS = Object.freeze({ a: 1, b: [2 ** -53] });",
    ],
    [
      rules.quietWhenLoaded,
      "optics/film.ts",
      "const root = Math.sqrt(Number.EPSILON); const f = () => build();",
    ],
    [
      rules.quietWhenLoaded,
      "optics/film.ts",
      'import { list } from "../core/shape/list.js"; const films = list({ check: () => 1 });',
    ],
    [
      rules.quietWhenLoaded,
      "optics/film.ts",
      "export const KINDS = { a: { b: 1 } } as const satisfies object;",
    ],
  ])("%o lets pass, in %s, %s", (rule, path, text) => {
    expect(broken(rule, path, text)).toBe(0);
  });

  it("a cycle of three files is told once, as it runs", () => {
    const cycle = [
      parseSourceFile("optics/a.ts", 'import { b } from "./b.js";'),
      parseSourceFile("optics/b.ts", 'import { c } from "./c.js";'),
      parseSourceFile("optics/c.ts", 'import type { a } from "./a.js";'),
    ];
    expect(rules.withoutCycles(cycle)).toEqual(["optics/a.ts → optics/b.ts → optics/c.ts → optics/a.ts"]);
  });
});
