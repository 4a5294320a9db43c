import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));
const pages = [
  ...readdirSync(root),
  ...["benchmarks", "docs", "docs/guides", "examples"].flatMap((folder) =>
    readdirSync(join(root, folder)).map((name) => join(folder, name)),
  ),
].filter((name) => name.endsWith(".md"));
const textOf = (page: string) => readFileSync(join(root, page), "utf8");

const blocks = pages.flatMap((page) =>
  [...textOf(page).matchAll(/^```ts\n([\s\S]*?)^```$/gm)].map(([, code], i) => ({
    page,
    code,
    name: `${page}, block ${i + 1}`,
  })),
);

describe("code in the docs", () => {
  it("is there", () => {
    expect(blocks.length).toBeGreaterThan(1);
  });

  it.each(blocks)("runs: $name", ({ code }) => {
    // Inside the checkout, so that the package finds itself by its own name.
    const folder = mkdtempSync(join(root, "test", "docs", "run-"));
    try {
      // The blocks are TypeScript without types in them, which is JavaScript.
      writeFileSync(join(folder, "block.mjs"), code);
      const { status, stdout, stderr } = spawnSync(process.execPath, [join(folder, "block.mjs")], {
        cwd: root,
        encoding: "utf8",
      });
      expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
      expect(stdout).not.toBe("");
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

/** Commands for a shell, and the text block right behind them, which is (a part of) what they print. */
const commands = pages.flatMap((page) =>
  [...textOf(page).matchAll(/^```sh\n([\s\S]*?)^```$(?:\s+^```text\n([\s\S]*?)^```$)?/gm)]
    .map(([, lines, shown], i) => ({ page, lines, shown, name: `${page}, commands ${i + 1}` }))
    .filter(({ lines }) => lines.split("\n").every((line) => /^($|#|npx masstone )/.test(line))),
);

interface Said {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** What each block of commands said: pages repeat one another's. */
const said = new Map<string, Said>();

/** Runs commands in a folder of their own, with the examples in it as in a clone. */
function runCommands(lines: string): Said {
  const folder = mkdtempSync(join(tmpdir(), "masstone-docs-"));
  try {
    cpSync(join(root, "examples"), join(folder, "examples"), {
      recursive: true,
      filter: (path) => !path.endsWith("node_modules"),
    });
    const built = `"${process.execPath}" "${join(root, "dist", "cli.js")}"`;
    const script = `set -e\n${lines.replaceAll("npx masstone", built)}`;
    const env = { ...process.env, npm_command: "exec", npm_lifecycle_script: "masstone" };
    return spawnSync("sh", ["-c", script], { cwd: folder, encoding: "utf8", env });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

describe("commands in the docs", () => {
  it("are there", () => {
    expect(commands.length).toBeGreaterThan(1);
  });

  it.each(commands)("run: $name", ({ lines, shown }) => {
    const { status, stdout, stderr } = said.get(lines) ?? runCommands(lines);
    said.set(lines, { status, stdout, stderr });
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    expect(stdout).not.toBe("");
    if (shown !== undefined) expect(stdout).toContain(shown.trimEnd());
  });
});

describe("output shown in README.md", () => {
  const [, shown] = /^```text\n([\s\S]*?)^```$/m.exec(textOf("README.md")) ?? [];

  it("is what the command prints", () => {
    const lines = "npx masstone correct examples/horsebox/job.json\n";
    const { stdout } = said.get(lines) ?? runCommands(lines);
    expect(shown).toMatch(/scale shows/);
    expect(stdout).toContain(shown.trimEnd());
  });
});
