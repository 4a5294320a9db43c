import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import packageJson from "../../package.json";
import { root } from "../package/consumer.js";

const OWN = ["README.md", "DEVELOPERS.md", "CHANGELOG.md"];
const FOLDERS = ["docs", "examples", "benchmarks"];
const SKIPPED = ["api", "node_modules"];
const pagesIn = (folder: string): readonly string[] =>
  readdirSync(join(root, folder), { withFileTypes: true })
    .filter(({ name }) => !SKIPPED.includes(name))
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      return entry.isDirectory() ? pagesIn(path) : entry.name.endsWith(".md") ? [path] : [];
    });
const pages = [...OWN, ...FOLDERS.flatMap(pagesIn)];

/** Text without code, where brackets are no links. */
const proseOf = (path: string): string =>
  readFileSync(path, "utf8")
    .replace(/^```[\s\S]*?^```/gm, "")
    .replace(/`[^`\n]*`/g, "code");

const linksOf = (page: string): readonly string[] =>
  [...proseOf(join(root, page)).matchAll(/\]\(([^)\s]+)\)/g)].map(([, link]) => link);

/** The anchors of a page: its headings, as sites that show Markdown make anchors of them. */
function anchorsOf(path: string): ReadonlySet<string> {
  const headings = [...readFileSync(path, "utf8").matchAll(/^#+ (.+)$/gm)].map(([, heading]) =>
    heading
      .replace(/`/g, "")
      .replace(/\[([^\]]*)\]\([^)]*\)/g, "$1")
      .toLowerCase()
      .replace(/[^\p{L}\p{N}\s_-]/gu, "")
      .trim()
      .replace(/\s/g, "-"),
  );
  const explicit = [...readFileSync(path, "utf8").matchAll(/<a id="([^"]+)"/g)].map(([, id]) => id);
  return new Set([...headings, ...explicit]);
}

/** Why a link leads nowhere; nothing for one that leads somewhere. */
function brokenBecause(page: string, link: string): string | undefined {
  const [name, anchor] = link.split("#");
  const target = name === "" ? join(root, page) : resolve(root, dirname(page), name);
  if (relative(root, target).startsWith("..")) return "leads out of the project";
  if (!existsSync(target)) return "there is no such file";
  if (anchor && target.endsWith(".md") && !anchorsOf(target).has(anchor)) return "there is no such heading";
  return undefined;
}

describe("links of the pages", () => {
  it("are found", () => {
    expect(linksOf("README.md").length).toBeGreaterThan(10);
    expect(brokenBecause("README.md", "docs/nowhere.md")).toBeDefined();
    expect(brokenBecause("README.md", "docs/theory.md#nowhere")).toBeDefined();
  });

  it.each(pages)("of %s lead to a file of the project and a heading in it", (page) => {
    const broken = linksOf(page)
      .filter((link) => !/^[a-z]+:/.test(link))
      .flatMap((link) => {
        const why = brokenBecause(page, link);
        return why === undefined ? [] : [`${link}: ${why}`];
      });
    expect(broken).toEqual([]);
  });
});

describe("the version", () => {
  it.each(["docs/CITATION.cff", "README.md", "docs/guides/embed.md"])(
    "in %s is that of the package",
    (page) => {
      const text = readFileSync(join(root, page), "utf8");
      const said = [...text.matchAll(/^version: (\S+)|masstone-(\d\S*?)\.tgz/gm)].map(
        ([, one, other]) => one ?? other,
      );
      expect(said).toEqual([packageJson.version]);
    },
  );
});
