import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { VERBS } from "../../src/cli/verbs.js";
import { runInProcess } from "./runInProcess.js";

const root = fileURLToPath(new URL("../..", import.meta.url));
const cli = join(root, "dist", "cli.js");
const example = join(root, "examples/horsebox/job.json");

/** A working folder of its own, with the examples in it as in a clone. */
let folder = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "masstone-cli-"));
  cpSync(join(root, "examples"), join(folder, "examples"), { recursive: true });
});

afterAll(() => {
  rmSync(folder, { recursive: true });
});

/** Runs a line of shell in which `masstone` is the built command. */
function shell(
  line: string,
  { input = "", env = {} }: { input?: string; env?: Record<string, string> } = {},
) {
  const script = `masstone() { "${process.execPath}" "${cli}" "$@"; }\n${line}`;
  const { NO_COLOR: _, ...outer } = process.env;
  const { status, stdout, stderr } = spawnSync("bash", ["-o", "pipefail", "-c", script], {
    cwd: folder,
    input,
    encoding: "utf8",
    env: { ...outer, ...env },
  });
  return { status, stdout, stderr };
}

describe("help", () => {
  const verbs = Object.keys(VERBS);

  it("lists every verb", () => {
    const { status, stdout, stderr } = shell("masstone --help");
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    for (const verb of verbs) expect(stdout).toContain(`  masstone ${verb}`);
  });

  it.each(verbs)("of %s: what it takes, its options, exit codes, and an example that runs", async (verb) => {
    const { code, out: stdout, error } = await runInProcess(verb, "--help");
    expect({ code, error }).toEqual({ code: 0, error: "" });
    expect(stdout).toMatch(new RegExp(`^masstone ${verb}`));
    expect(stdout).toContain("Exit codes:");
    expect(stdout).toContain("--json");
    const [, line] = /^Example.*:\n {2}(.+)$/m.exec(stdout) ?? [];
    expect(line).toMatch(new RegExp(`^masstone ${verb}`));
    const before = process.cwd();
    process.chdir(folder);
    const words = (line.match(/'[^']*'|\S+/g) ?? []).map((word) => word.replaceAll("'", ""));
    const ran = await runInProcess(...words.slice(1)).finally(() => process.chdir(before));
    expect({ code: ran.code, error: ran.error }).toEqual({ code: 0, error: "" });
    expect(ran.out).not.toBe("");
  });

  it("is there by three ways of asking", () => {
    const [one, ...others] = ["correct --help", "correct -h", "help correct"].map(
      (args) => shell(`masstone ${args}`).stdout,
    );
    expect(others).toEqual([one, one]);
  });
});

describe("pipes", () => {
  it("a reader that stops early is no fault", () => {
    const { status, stdout, stderr } = shell("masstone verify --json | head -1");
    expect({ status, stdout, stderr }).toEqual({ status: 0, stdout: "{\n", stderr: "" });
    const closed = shell("masstone correct examples/horsebox/job.json --json | true");
    expect(closed).toEqual({ status: 0, stdout: "", stderr: "" });
  });

  it("a job comes in and JSON goes out", () => {
    const job = JSON.parse(readFileSync(example, "utf8"));
    const toners = JSON.parse(readFileSync(example.replace("job.json", "toners.json"), "utf8"));
    const { status, stdout, stderr } = shell("cat | masstone correct - --json", {
      input: JSON.stringify({ ...job, toners }),
    });
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    expect(JSON.parse(stdout)).toMatchObject({ format: "masstone/correction" });
  });

  it("a file that is asked for on a hyphen goes out", () => {
    const { status, stdout } = shell(
      "masstone characterise examples/ladder/samples.json --out - 2>/dev/null",
    );
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({ format: "masstone/toners" });
  });
});

describe("exit codes", () => {
  it.each([
    ["masstone correct examples/horsebox/job.json", 0],
    ["masstone correct nowhere.json", 2],
    ["masstone corect examples/horsebox/job.json", 2],
    ["masstone characterise examples/ladder/samples.json --out nowhere/at/all.json", 2],
  ])("%s: %d", (line, code) => {
    const { status, stdout, stderr } = shell(line);
    expect(status).toBe(code);
    expect(stdout === "").toBe(code !== 0);
    expect(stderr).toMatch(code === 0 ? /^$/ : /^masstone: .*\[[a-z-]+\]\n([A-Z].*\.\n)?$/);
  });
});

describe("a terminal", () => {
  const hasScript = spawnSync("script", ["--version"]).status === 0;
  if (!hasScript) console.warn("skipped: no `script` here to lend the command a terminal (Debian: bsdutils)");

  /** Runs a command line on a terminal of its own; what it prints there, standard error included. */
  const onTerminal = (args: string, env: Record<string, string> = {}) =>
    shell(`script -qec '"${process.execPath}" "${cli}" ${args}' /dev/null`, {
      env: { TERM: "xterm", ...env },
    }).stdout.replaceAll("\r\n", "\n");
  const bold = "\u001b[1m";

  it.skipIf(!hasScript)("shows the headline in bold, without NO_COLOR and where the terminal can", () => {
    const line = "predict examples/horsebox/job.json";
    expect(onTerminal(line)).toContain(bold);
    expect(onTerminal(line, { NO_COLOR: "1" })).not.toContain(bold);
    expect(onTerminal(line, { TERM: "dumb" })).not.toContain(bold);
    expect(onTerminal(`${line} --json`)).not.toContain(bold);
    expect(shell(`masstone ${line}`).stdout).not.toContain(bold);
  });

  it.skipIf(!hasScript)("shows progress; a pipe gets none", () => {
    const line = "characterise examples/ladder/samples.json";
    expect(onTerminal(line)).toContain("fitting: iteration 1");
    expect(shell(`masstone ${line}`).stderr).toBe("");
  });
});
