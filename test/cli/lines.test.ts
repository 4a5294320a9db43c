import { spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import { writeFileSync } from "node:fs";
import { createInterface } from "node:readline";
import { afterAll, describe, expect, it } from "vitest";
import { readLines } from "../../src/cli/readLines.js";
import { workFolder } from "./workFolder.js";

const folder = workFolder();
afterAll(() => folder.remove());

const job = JSON.parse(folder.read("job.json"));
const line = (pot: object) => JSON.stringify({ ...job, pot: { ...job.pot, ...pot } });
const parsed = (stdout: string) =>
  stdout
    .trimEnd()
    .split("\n")
    .map((text) => JSON.parse(text));

describe("--lines", () => {
  it("answers each line in order as --json does, and a refused one by its place and code", () => {
    const lines = [line({ ochre: 13 }), "{", line({ ochre: -1 }), "", line({ ochre: 15 })];
    folder.write("jobs.jsonl", `${lines.join("\n")}\n`);
    const { status, stdout, stderr } = folder.masstone(["predict", "jobs.jsonl", "--lines"]);
    expect({ status, stderr }).toEqual({ status: 2, stderr: "" });
    const answers = parsed(stdout);
    expect(answers).toHaveLength(lines.length);
    for (const at of [0, 4]) {
      const alone = folder.masstone(["predict", "-", "--json"], { input: lines[at] });
      expect(answers[at]).toEqual(JSON.parse(alone.stdout));
    }
    expect(answers.slice(1, 4)).toMatchObject([
      { format: "masstone/refusal", version: 1, line: 2, code: "unreadable-json" },
      { line: 3, code: "out-of-range", path: "jobs.jsonl, line 3: pot.ochre" },
      { line: 4, code: "unreadable-json" },
    ]);
  });

  it("reads files that a line names under the same rules as ever", () => {
    folder.write("../elsewhere.json", folder.read("toners.json"));
    const input = `${JSON.stringify({ ...job, toners: "../elsewhere.json" })}\n${line({})}`;
    const kept = parsed(folder.masstone(["predict", "-", "--lines"], { input }).stdout);
    expect(kept).toMatchObject([{ code: "outside-folder" }, { format: "masstone/prediction" }]);
    const open = folder.masstone(["predict", "-", "--lines", "--allow-outside"], { input });
    expect({ status: open.status, answers: parsed(open.stdout).length }).toEqual({ status: 0, answers: 2 });
  });

  it("answers a line before the next one is sent", async () => {
    const child = spawn(process.execPath, [folder.command, "predict", "-", "--lines"], { cwd: folder.path });
    const answers = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
    for (const ochre of [13, 14, 15]) {
      child.stdin.write(`${line({ ochre })}\n`);
      expect(JSON.parse((await answers.next()).value)).toMatchObject({ format: "masstone/prediction" });
    }
    const closed = once(child, "close");
    child.stdin.end();
    expect(await closed).toEqual([0, null]);
  });

  it("ends on endless input when its reader stops", () => {
    folder.write("line.json", line({}));
    const script = `yes "$(cat line.json)" | "${process.execPath}" "${folder.command}" predict - --lines | head -2`;
    const ran = spawnSync("bash", ["-c", script], { cwd: folder.path, encoding: "utf8", timeout: 60_000 });
    expect({ signal: ran.signal, stderr: ran.stderr }).toEqual({ signal: null, stderr: "" });
    expect(parsed(ran.stdout)).toHaveLength(2);
  });

  it.each([
    [["verify", "--lines"], "verify has nothing for --lines"],
    [["learn", "job.json", "--lines"], "learn has nothing for --lines"],
    [["correct", "job.json", "--lines", "--report", "r.html"], "--lines and --report do not go together"],
    [["correct", "job.json", "--lines", "--record", "r"], "--lines and --record do not go together"],
  ])("%j: %s", (args, reason) => {
    const { status, stderr } = folder.masstone(args);
    expect(status).toBe(2);
    expect(stderr).toContain(reason);
  });
});

describe("readLines", () => {
  it("keeps the text of lines across chunks, refuses one that is too long, and goes on after it", () => {
    const long = "ä".repeat(70_000);
    writeFileSync(folder.at("lines"), `one\n${long}\n\nlast`);
    const texts = (most: number) =>
      [...readLines(folder.at("lines"), most)].map((text) => {
        try {
          return text();
        } catch (error) {
          return (error as { readonly code: string }).code;
        }
      });
    expect(texts(1e6)).toEqual(["one", long, "", "last"]);
    expect(texts(100)).toEqual(["one", "too-large", "", "last"]);
  });
});
