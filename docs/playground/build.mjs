// Builds the playground into a folder: node docs/playground/build.mjs [FOLDER]. It needs the package built.
import { copyFile, mkdir } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = (path) => fileURLToPath(new URL(path, import.meta.url));

export async function buildPlayground(folder) {
  await mkdir(folder, { recursive: true });
  await build({
    entryPoints: [here("playground.mjs")],
    outfile: join(folder, "playground.js"),
    bundle: true,
    minify: true,
    format: "esm",
    platform: "browser",
    loader: { ".json": "text" },
    logLevel: "error",
  });
  await copyFile(here("index.html"), join(folder, "index.html"));
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await buildPlayground(process.argv[2] ?? here("../api/playground"));
}
