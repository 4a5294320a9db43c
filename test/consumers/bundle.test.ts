import { readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import packageJson from "../../package.json";
import { doors, root } from "../package/consumer.js";
import { bundle } from "./bundle.js";

const dependencies = Object.keys(packageJson.dependencies);
const whole = (door: string) => `export * from "${door}";`;

describe("a bundle for the browser", () => {
  it("is empty when all doors are imported and nothing is used", async () => {
    const { code, warnings } = await bundle(doors.map((door) => `import "${door}";`).join("\n"));
    expect(code).toBe("");
    expect(warnings).toEqual([]);
    const unused = doors.map((door, i) => `import * as door${i} from "${door}";`).join("\n");
    expect((await bundle(unused)).code).toBe("");
  });

  it.each(doors)("takes all of %s, with dependencies, and asks for nothing of Node", async (door) => {
    const { code, warnings, packages } = await bundle(whole(door));
    expect(warnings).toEqual([]);
    expect(code).not.toMatch(/\brequire\(|["']node:|\bprocess\.|\b__dirname\b|\bBuffer\b/);
    expect(packages.filter((name) => name.startsWith("node:"))).toEqual([]);
  });

  it.each(["masstone/spectra", "masstone/colorimetry", "masstone/optics"])(
    "of %s has no other package in it",
    async (door) => {
      expect((await bundle(whole(door))).packages).toEqual([]);
    },
  );

  it.each(doors)("of %s brings in the dependencies that the guide says", async (door) => {
    const guide = readFileSync(join(root, "docs/guides/embed.md"), "utf8");
    const rows = [...guide.matchAll(/^\| `(\S+)` \| .* \| (.*) \|$/gm)];
    const said = rows.find(([, name]) => name === door)?.[2];
    const { packages } = await bundle(whole(door), dependencies);
    expect(said).toBe(packages.length === 0 ? "nothing" : packages.join(", "));
  });

  it("of one verb leaves the others' packages out", async () => {
    expect((await bundle(`export { predict } from "masstone";`)).packages).toEqual([]);
    expect((await bundle(`export { correct } from "masstone";`)).packages).not.toContain("colorjs.io");
    expect((await bundle(`export { correctionText } from "masstone/report";`)).packages).toEqual([]);
  });
});

/**
 * kB (1000 bytes), minified and zipped, of all that a door gives, without dependencies: most bundles take less. What
 * they were, with a tenth or two to grow; 30 was promised for the root door (docs/decisions.md says what came between).
 */
const BUDGETS: Readonly<Record<string, number>> = {
  masstone: 71.5,
  "masstone/spectra": 4,
  "masstone/colorimetry": 11.5,
  "masstone/optics": 5,
  "masstone/characterisation": 39,
  "masstone/certificate": 63,
  "masstone/planning": 87,
  "masstone/formats": 22.5,
  "masstone/report": 79,
};

describe("the size of a door", () => {
  it("has a budget for every door", () => {
    expect(Object.keys(BUDGETS)).toEqual([...doors]);
  });

  it.each(doors)("%s keeps to it", async (door) => {
    const { code } = await bundle(whole(door), dependencies);
    expect(gzipSync(code, { level: 9 }).length / 1000).toBeLessThanOrEqual(BUDGETS[door]);
  });
});
