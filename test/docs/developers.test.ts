import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { LAYERS } from "../architecture/layers.js";

const page = readFileSync(new URL("../../DEVELOPERS.md", import.meta.url), "utf8");
const rows = [...page.matchAll(/^\| (\w+) \| (.+?) \| (.+?) \|$/gm)].map(([, folder, , imports]) => ({
  folder,
  imports,
}));

describe("the layer table of DEVELOPERS.md", () => {
  it("says of every layer there is what the architecture test holds it to", () => {
    const lowest = LAYERS.map(({ folder }) => folder);
    const said = rows.filter(({ folder }) => lowest.includes(folder));
    expect(said.map(({ folder }) => folder)).toEqual(lowest);
    for (const { folder, imports } of said) {
      const layer = LAYERS.find((candidate) => candidate.folder === folder);
      const below = lowest
        .slice(1, lowest.indexOf(folder))
        .filter((name) => name !== "cli" && name !== "doors");
      const [, but] = /^everything above(?: but (\w+))?$/.exec(imports) ?? [undefined, undefined];
      const all = below.filter((name) => name !== but);
      const meant = imports.startsWith("everything above") ? all : imports === "–" ? [] : imports.split(", ");
      const built = (names: readonly string[]) =>
        names.filter((name) => name !== "core" && said.some((row) => row.folder === name)).sort();
      expect({ folder, imports: built(meant) }).toEqual({ folder, imports: built(layer?.imports ?? []) });
    }
  });
});
