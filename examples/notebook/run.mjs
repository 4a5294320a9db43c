// Runs the notebooks from beginning to end in Jupyter and writes what they show into them. Needs `jupyter nbconvert`
// (Debian: jupyter-nbconvert) and the npm registry, from which the JavaScript kernel comes into a throw-away folder.
// Run: npm run build && node examples/notebook/run.mjs [FOLDER to write to instead]
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { fileURLToPath } from "node:url";

const KERNEL = "tslab@1.0.22";
const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const NOTEBOOKS = ["characterisation.ipynb", "effect.ipynb"];
const out = resolve(process.argv[2] ?? here("."));
const folder = mkdtempSync(join(tmpdir(), "masstone-notebook-"));
const run = (command, args, options) =>
  execFileSync(command, args, { stdio: ["ignore", "pipe", "inherit"], ...options });

try {
  // Where the notebook stands, so that it finds the files beside it; and the package as a user has it.
  const place = join(folder, "examples", "notebook");
  run("cp", ["-r", here(".."), folder]);
  const pack = run("npm", ["pack", "--silent", "--ignore-scripts", "--pack-destination", folder], {
    cwd: here("../.."),
  });
  writeFileSync(join(folder, "package.json"), JSON.stringify({ private: true }));
  const install = [
    "install",
    "--no-audit",
    "--no-fund",
    "--loglevel=error",
    KERNEL,
    `./${pack.toString().trim()}`,
  ];
  run("npm", install, { cwd: folder });

  const spec = join(folder, "kernels", "jslab");
  mkdirSync(spec, { recursive: true });
  const argv = [join(folder, "node_modules/.bin/tslab"), "kernel", "--js", "--config-path={connection_file}"];
  const kernel = { argv, display_name: "JavaScript", language: "javascript" };
  writeFileSync(join(spec, "kernel.json"), JSON.stringify(kernel));

  const convert = [
    "nbconvert",
    "--to",
    "notebook",
    "--execute",
    "--output",
    "done.ipynb",
    "--log-level=ERROR",
  ];
  for (const notebook of NOTEBOOKS) {
    run("jupyter", [...convert, notebook], {
      cwd: place,
      env: { ...process.env, JUPYTER_PATH: folder, PYTHONWARNINGS: "ignore" },
    });
    writeFileSync(join(out, notebook), tidied(readFileSync(join(place, "done.ipynb"), "utf8")));
  }
} finally {
  rmSync(folder, { recursive: true });
}

/** Without the times at which cells ran: the file changes only where the notebook shows something else. */
function tidied(text) {
  const { cells, ...rest } = JSON.parse(text);
  const lasting = cells.map(({ metadata: { execution, ...metadata }, ...cell }) => ({ ...cell, metadata }));
  return `${JSON.stringify({ cells: lasting, ...rest }, undefined, 1)}\n`;
}
