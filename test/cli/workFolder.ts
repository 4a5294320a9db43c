import { spawnSync } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { runInProcess } from "./runInProcess.js";

const cli = fileURLToPath(new URL("../../dist/cli.js", import.meta.url));
const example = (name: string) => fileURLToPath(new URL(`../../examples/horsebox/${name}`, import.meta.url));

export interface Ran {
  readonly status: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** A folder of its own with a job and its toners in it, and the command to run there: the sources, or as it is built. */
export interface WorkFolder {
  readonly path: string;
  /** The built command. */
  readonly command: string;
  readonly at: (name: string) => string;
  readonly read: (name: string) => string;
  readonly write: (name: string, content: unknown) => void;
  /** A job like the example's but for what is changed. */
  readonly writeJob: (name: string, change: object) => void;
  /** The command in this process. */
  readonly run: (...args: readonly string[]) => Promise<Pick<Ran, "status" | "stdout" | "stderr">>;
  /** The built command in a process of its own. */
  readonly masstone: (args: readonly string[], how?: How) => Ran;
  readonly remove: () => void;
}

interface How {
  readonly before?: readonly string[];
  readonly env?: Readonly<Record<string, string>>;
  readonly input?: string;
}

export function workFolder(): WorkFolder {
  // The folder above is its own too, so that a way out of it leads to nobody else.
  const above = mkdtempSync(join(tmpdir(), "masstone-work-"));
  const path = join(above, "shop");
  mkdirSync(path);
  for (const name of ["job.json", "toners.json"]) copyFileSync(example(name), join(path, name));
  const at = (name: string) => join(path, name);
  const write = (name: string, content: unknown) =>
    writeFileSync(at(name), typeof content === "string" ? content : JSON.stringify(content));
  return {
    path,
    command: cli,
    at,
    read: (name) => readFileSync(at(name), "utf8"),
    write,
    writeJob: (name, change) =>
      write(name, { ...JSON.parse(readFileSync(example("job.json"), "utf8")), ...change }),
    async run(...args) {
      const before = process.cwd();
      process.chdir(path);
      try {
        const { code, out, error } = await runInProcess(...args);
        return { status: code, stdout: out, stderr: error };
      } finally {
        process.chdir(before);
      }
    },
    masstone(args, { before = [], env = {}, input = "" } = {}) {
      const { status, signal, stdout, stderr } = spawnSync(process.execPath, [...before, cli, ...args], {
        cwd: path,
        encoding: "utf8",
        env: { ...process.env, ...env },
        input,
        // Whoever waits for a pipe or reads a device without end is stopped.
        timeout: 20_000,
        maxBuffer: 1e8,
      });
      return { status, signal, stdout, stderr };
    },
    remove: () => rmSync(above, { recursive: true }),
  };
}
