import { build } from "esbuild";
import { checkBuildIsFresh, root } from "../package/consumer.js";

/** What a bundler for the browser makes of a module that imports the built package by its name. */
export interface Bundle {
  readonly code: string;
  readonly warnings: readonly string[];
  /** Packages of which something is in the bundle, or would be looked up when it runs. */
  readonly packages: readonly string[];
}

/** Minified ESM for the browser; `external` packages are left for the page to find. */
export async function bundle(contents: string, external: readonly string[] = []): Promise<Bundle> {
  checkBuildIsFresh();
  const { outputFiles, warnings, metafile } = await build({
    stdin: { contents, resolveDir: root },
    bundle: true,
    minify: true,
    format: "esm",
    platform: "browser",
    external: [...external],
    write: false,
    metafile: true,
    logLevel: "silent",
  });
  const [{ inputs, imports }] = Object.values(metafile.outputs);
  const used = Object.keys(inputs).filter((path) => inputs[path].bytesInOutput > 0);
  const packageOf = (path: string) => /^(?:.*node_modules\/)?((?:@[^/]+\/)?[^/]+)/.exec(path)?.[1] ?? path;
  const bundled = used.filter((path) => path.includes("node_modules/")).map(packageOf);
  return {
    code: outputFiles[0].text,
    // A bare import of a package without side effects is dropped, and the bundler says so: that is what we ask for.
    warnings: warnings.filter(({ id }) => id !== "ignored-bare-import").map(({ text }) => text),
    packages: [...new Set([...bundled, ...imports.map(({ path }) => packageOf(path))])].sort(),
  };
}
