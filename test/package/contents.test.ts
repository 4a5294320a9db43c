import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { join, posix } from "node:path";
import { describe, expect, it } from "vitest";
import packageJson from "../../package.json";
import { doors, root } from "./consumer.js";

interface Packed {
  readonly files: readonly { readonly path: string; readonly mode: number }[];
  readonly bundled: readonly string[];
}

const listing = spawnSync("npm", ["pack", "--dry-run", "--json", "--ignore-scripts"], {
  cwd: root,
  encoding: "utf8",
});
const [{ files, bundled }] = JSON.parse(listing.stdout) as readonly [Packed];
const paths = files.map(({ path }) => path);

const names = doors.map((door) => (door === "masstone" ? "index" : door.replace("masstone/", ""))).join("|");

/** Everything that may be in the tarball, and nothing of which may be missing. */
const KINDS: readonly (readonly [string, RegExp])[] = [
  ["what npm always packs", /^(package\.json|README\.md|LICENSE)$/],
  ["changelog and notes for developers", /^(CHANGELOG|DEVELOPERS)\.md$/],
  ["pages, and figures in them", /^docs\/[a-z-]+\.(md|png|svg)$/],
  ["the guides", /^docs\/guides\/[a-z-]+\.md$/],
  ["benchmarks in words", /^benchmarks\/README\.md$/],
  ["the doors", new RegExp(`^dist/(${names})\\.(js|cjs|d\\.ts|d\\.cts)$`)],
  ["code that doors share", /^dist\/chunk-[A-Z0-9]{8}\.(js|cjs)$/],
  ["types that doors share", /^dist\/[a-zA-Z]+-[\w-]{8}\.d\.(ts|cts)$/],
  ["the command", /^dist\/cli\.js$/],
  ["code that the command loads", /^dist\/cli\/[a-zA-Z]+-[A-Z0-9]{8}\.js$/],
  ["the playground", /^dist\/playground\.html$/],
  ["the schemas", /^docs\/schemas\/[a-z-]+\.json$/],
  ["the examples", /^examples\/(README\.md$|(?!.*node_modules)[a-z-]+\/)/],
];

/** Links of a page to other files, without the anchor; those to other sites are not followed. */
const relativeLinks = (page: string): readonly string[] =>
  [
    ...readFileSync(join(root, page), "utf8")
      .replace(/^```[\s\S]*?^```/gm, "")
      .replace(/`[^`\n]*`/g, "code")
      .matchAll(/\]\(([^)\s#]+)[^)]*\)/g),
  ]
    .map(([, link]) => link)
    .filter((link) => !/^[a-z]+:/.test(link));

describe("the tarball", () => {
  it.each(KINDS)("has %s", (_, kind) => {
    expect(paths.filter((path) => kind.test(path))).not.toEqual([]);
  });

  it("has nothing else", () => {
    expect(paths.filter((path) => !KINDS.some(([, kind]) => kind.test(path)))).toEqual([]);
    expect(bundled).toEqual([]);
  });

  it("has every door as ESM, as CJS, and with types for both", () => {
    for (const name of names.split("|")) {
      for (const kind of ["js", "cjs", "d.ts", "d.cts"]) expect(paths).toContain(`dist/${name}.${kind}`);
    }
  });

  it("has the types of every door for compilers that know no exports map", () => {
    const listed = Object.entries(packageJson.typesVersions["*"]).map(([door, [file]]) => ({ door, file }));
    const wanted = names.split("|").filter((name) => name !== "index");
    expect(listed).toEqual(wanted.map((door) => ({ door, file: `./dist/${door}.d.cts` })));
  });

  it("has what its pages link to", () => {
    const broken = paths
      .filter((path) => path.endsWith(".md"))
      .flatMap((page) => relativeLinks(page).map((link) => ({ page, link })))
      .filter(({ page, link }) => {
        const target = posix.join(posix.dirname(page), link);
        return !paths.includes(target) && !paths.some((path) => path.startsWith(target.replace(/\/?$/, "/")));
      });
    expect(broken).toEqual([]);
    expect(relativeLinks("README.md").length).toBeGreaterThan(10);
  });

  it("has every schema", () => {
    for (const name of readdirSync(join(root, "docs/schemas"))) {
      expect(paths).toContain(`docs/schemas/${name}`);
    }
  });
});
