import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import packageJson from "../../package.json";

export const root = fileURLToPath(new URL("../..", import.meta.url));

/** The names by which users import: `masstone`, `masstone/optics`, … */
export const doors: readonly string[] = Object.keys(packageJson.exports)
  .filter((door) => !door.includes("json"))
  .map((door) => door.replace(/^\./, "masstone"));

/** Where packages stand that come along with ours, relative to the checkout: `node_modules/saxes`, … */
export function runtimePackages(): readonly string[] {
  const { packages } = JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8")) as {
    readonly packages: Readonly<Record<string, { readonly dev?: true; readonly devOptional?: true }>>;
  };
  return Object.keys(packages).filter((path) => path && !packages[path].dev && !packages[path].devOptional);
}

/** Somebody else's project, with the packed package installed in it by npm. */
export interface Consumer {
  readonly folder: string;
  /** Writes files into the folder and runs node with these arguments there. */
  readonly node: (files: Readonly<Record<string, string>>, ...args: readonly string[]) => Ran;
  readonly remove: () => void;
}

/** What a program said and how it ended. */
export interface Ran {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/**
 * Packs the checkout and installs the tarball in an empty project. No network: the runtime dependencies are laid out
 * first as the lock file has them, and npm, held offline, finds that they are all that the tarball asks for.
 */
export function makeConsumer(): Consumer {
  checkBuildIsFresh();
  const folder = mkdtempSync(join(tmpdir(), "masstone-consumer-"));
  const npm = (cwd: string, ...args: readonly string[]) => {
    const { status, stdout, stderr } = spawnSync("npm", args, { cwd, encoding: "utf8" });
    if (status !== 0) throw new Error(`npm ${args.join(" ")} failed: ${stderr}`);
    return stdout.trim();
  };
  const tarball = npm(root, "pack", "--silent", "--ignore-scripts", "--pack-destination", folder);
  writeFileSync(join(folder, "package.json"), JSON.stringify({ name: "consumer", private: true }));
  for (const path of runtimePackages()) cpSync(join(root, path), join(folder, path), { recursive: true });
  npm(folder, "install", "--offline", "--ignore-scripts", "--no-audit", "--no-fund", `./${tarball}`);
  return {
    folder,
    node: (files, ...args) => {
      for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
      return spawnSync(process.execPath, args, { cwd: folder, encoding: "utf8" });
    },
    remove: () => rmSync(folder, { recursive: true }),
  };
}

/** A stale build would test yesterday's code; building takes longer than looking. */
export function checkBuildIsFresh(): void {
  const newest = (path: string): number =>
    Math.max(
      ...readdirSync(join(root, path), { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map((entry) => statSync(join(entry.parentPath, entry.name)).mtimeMs),
    );
  if (newest("src") > newest("dist")) throw new Error("dist is older than src: run `npm run build` first");
}
