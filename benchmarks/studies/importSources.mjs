import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "tsup";

/**
 * TypeScript modules of this repository for a script: what no door of the package shows. Each path from the root is
 * bundled into a folder that is gone again when this returns; the modules come back in the order of the paths.
 */
export async function importSources(...paths) {
  const outDir = await mkdtemp(join(tmpdir(), "masstone-"));
  try {
    await build({
      config: false,
      silent: true,
      entry: Object.fromEntries(paths.map((path, i) => [`module${i}`, path])),
      outDir,
      format: ["esm"],
      outExtension: () => ({ js: ".mjs" }),
      target: "es2022",
      splitting: true,
      noExternal: [/./],
    });
    return await Promise.all(paths.map((_, i) => import(pathToFileURL(join(outDir, `module${i}.mjs`)).href)));
  } finally {
    await rm(outDir, { recursive: true });
  }
}
