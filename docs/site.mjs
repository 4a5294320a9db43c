// Finishes the site that typedoc has made: the playground, the way to it on every page, then every link is followed.
// Run from the root, after the build and typedoc: node docs/site.mjs
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";

const site = fileURLToPath(new URL("api", import.meta.url));
const playground = readFileSync(fileURLToPath(new URL("../dist/playground.html", import.meta.url)), "utf8");
mkdirSync(join(site, "playground"), { recursive: true });
writeFileSync(
  join(site, "playground/index.html"),
  playground.replace("<!-- WAY BACK -->", ' <a href="../index.html">Guides and API</a>'),
);

const pages = readdirSync(site, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".html"))
  .map((name) => join(site, name));

for (const page of pages) {
  const way = relative(dirname(page), join(site, "playground/index.html"));
  const before = readFileSync(page, "utf8");
  const after = before.replaceAll('href="playground:"', `href="${way}"`);
  if (after !== before) writeFileSync(page, after);
}

const anchors = new Map();
const anchorsOf = (path) => {
  if (!anchors.has(path)) {
    const ids = [...readFileSync(path, "utf8").matchAll(/ (?:id|name)="([^"]+)"/g)].map(([, id]) => id);
    anchors.set(path, new Set(ids));
  }
  return anchors.get(path);
};
const broken = [];
let followed = 0;
for (const page of pages) {
  const text = readFileSync(page, "utf8").replaceAll(/<script>[\s\S]*?<\/script>/g, "");
  for (const [, link] of text.matchAll(/ (?:href|src)="([^"]+)"/g)) {
    if (/^(https?:|data:|mailto:)/.test(link) || link === "#") continue;
    followed++;
    const [name, anchor] = link.replaceAll("&amp;", "&").split("#");
    const file = name === "" ? page : join(dirname(page), decodeURIComponent(name.split("?")[0]));
    const isThere = existsSync(file) && statSync(file).isFile();
    if (!isThere || (anchor && file.endsWith(".html") && !anchorsOf(file).has(decodeURIComponent(anchor)))) {
      broken.push(`${relative(site, page)}: ${link}`);
    }
  }
}
for (const one of broken) console.error(`broken link in the site: ${one}`);
console.log(`${followed} links of ${pages.length} pages followed, ${broken.length} broken`);
if (broken.length > 0) process.exitCode = 1;
