import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import packageJson from "../../package.json";
import { root, runtimePackages } from "./consumer.js";

interface Manifest {
  readonly name: string;
  readonly version: string;
  readonly license: string;
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly scripts?: Readonly<Record<string, string>>;
}

const read = (path: string) => readFileSync(join(root, path), "utf8");
const packages = runtimePackages().map((path) => ({
  path,
  manifest: JSON.parse(read(`${path}/package.json`)) as Manifest,
}));

const rows = [...read("docs/dependencies.md").matchAll(/^\| ([@\w./-]+) \| (\d\S*) \| (\S+) \| (\S+) \|/gm)];

describe("docs/dependencies.md", () => {
  it("lists what is installed, by version, licence and by whom it is brought", () => {
    const said = rows.map(([, name, version, license]) => ({ name, version, license }));
    const there = packages.map(({ manifest: { name, version, license } }) => ({ name, version, license }));
    const byName = (a: { readonly name: string }, b: { readonly name: string }) => (a.name < b.name ? -1 : 1);
    expect(said.sort(byName)).toEqual(there.sort(byName));
    const dependenciesOf = (name: string) =>
      name === packageJson.name
        ? packageJson.dependencies
        : packages.find(({ manifest }) => manifest.name === name)?.manifest.dependencies;
    for (const [, name, , , by] of rows) expect(dependenciesOf(by), by).toHaveProperty([name]);
  });
});

describe("a runtime dependency", () => {
  it.each(packages)("$manifest.name runs nothing when installed", ({ manifest }) => {
    const hooks = ["preinstall", "install", "postinstall"];
    expect(Object.keys(manifest.scripts ?? {}).filter((name) => hooks.includes(name))).toEqual([]);
  });

  it.each(packages)("$manifest.name opens nothing and runs no code from strings", ({ path }) => {
    const sources = readdirSync(join(root, path), { recursive: true, encoding: "utf8" })
      .map((file) => join(path, file))
      .filter((file) => /\.[cm]?js$/.test(file) && !/(^|\/)(__tests__|test|tests)\//.test(file));
    expect(sources).not.toEqual([]);
    const forbidden =
      /\beval\(|new Function\(|\bfetch\((?!\w*\) \{)|XMLHttpRequest|WebSocket|(?:require\(|from )["'](?:node:)?(?:fs|net|http|https|child_process|dns|tls|vm)["']/;
    expect(sources.filter((file) => forbidden.test(read(file)))).toEqual([]);
  });
});
