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
]);
