import { createHash } from "node:crypto";
import { readFile, rm, writeFile } from "node:fs/promises";
import { defineConfig } from "tsup";

const doors = [
  "index",
  "spectra",
  "colorimetry",
  "optics",
  "characterisation",
  "certificate",
  "planning",
  "formats",
  "report",
];

/** Puts the playground's script into its page: one file, which a browser opens from the disk as from any host. */
async function writePlayground() {
  const script = await readFile("dist/playground.global.js", "utf8");
  const page = await readFile("docs/playground/index.html", "utf8");
  const hash = createHash("sha256").update(script).digest("base64");
  const parts = { "SCRIPT-HASH": `sha256-${hash}`, "/* SCRIPT */": script };
  const whole = Object.entries(parts).reduce((text, [mark, part]) => text.replace(mark, () => part), page);
  await writeFile("dist/playground.html", whole);
  await rm("dist/playground.global.js");
}

export default defineConfig([
  {
    entry: Object.fromEntries(doors.map((door) => [door, `src/doors/${door}.ts`])),
    format: ["esm", "cjs"],
    dts: { compilerOptions: { ignoreDeprecations: "6.0" } },
    target: "es2022",
    splitting: true,
    sourcemap: false,
    clean: true,
  },
  {
    entry: { cli: "src/cli/main.ts" },
    format: ["esm"],
    minify: true,
    splitting: true,
    esbuildOptions(options) {
      options.chunkNames = "cli/[name]-[hash]";
    },
    target: "es2022",
    platform: "node",
    banner: { js: "#!/usr/bin/env node" },
  },
  {
    entry: { playground: "docs/playground/playground.mjs" },
    format: ["iife"],
    minify: true,
    noExternal: [/./],
    esbuildOptions(options) {
      options.alias = {
        masstone: "./src/doors/index.ts",
        "masstone/formats": "./src/doors/formats.ts",
        "masstone/report": "./src/doors/report.ts",
      };
    },
    loader: { ".json": "text" },
    target: "es2022",
    platform: "browser",
    onSuccess: writePlayground,
  },
]);
