import { spawnSync } from "node:child_process";
import fs, { mkdirSync, readdirSync, rmSync, symlinkSync } from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { type WorkFolder, workFolder } from "./workFolder.js";

let folder: WorkFolder;
beforeEach(() => {
  folder = workFolder();
});
afterEach(() => folder.remove());

const leftovers = () => readdirSync(folder.path).filter((name) => /lock|\.tmp|\.new/.test(name));

const WRITING = ["writeSync", "fsyncSync", "linkSync", "renameSync", "writeFileSync"] as const;

/** Runs where the n-th write, flush, link or renaming fails as on a full disk, half of a write done before, and all after it. */
async function onFullDisk(failAt: number, ...args: readonly string[]) {
  const real = Object.fromEntries(WRITING.map((name) => [name, fs[name]]));
  let left = failAt;
  for (const name of WRITING) {
    Object.assign(fs, {
      [name]: (...given: readonly unknown[]) => {
        if (--left >= 0) return Reflect.apply(real[name], fs, given);
        if (name === "writeSync" && left === -1) {
          const [file, bytes, from = 0] = given as [number, Uint8Array, number?];
          fs.writevSync(file, [bytes.subarray(from, from + (bytes.length >> 1))]);
        }
        const code = "ENOSPC";
        throw Object.assign(new Error(`${code}: no space left on device`), {
          code,
          errno: -28,
          syscall: "write",
        });
      },
    });
  }
  syncBuiltinESMExports();
  try {
    return await folder.run(...args);
  } finally {
    Object.assign(fs, real);
    syncBuiltinESMExports();
  }
}

describe("on a disk that is full from some write on", () => {
  it("a record is as it was, no lock is left, and the reason is told", async () => {
    await folder.run("record", "job.record", "--job", "job.json");
    const before = [folder.read("job.record"), folder.read("job.record.end")];
    let failed = 0;
    for (let at = 0; at < 30; at++) {
      const { status, stderr } = await onFullDisk(at, "record", "job.record", "--pour", "white=5");
      expect(leftovers()).toEqual([]);
      if (status === 0) break;
      failed++;
      expect(status).toBe(2);
      expect(stderr).toMatch(
        /^masstone: job\.record: there is no room left on the disk \[unwritable-file\]\n/,
      );
      expect([folder.read("job.record"), folder.read("job.record.end")]).toEqual(before);
    }
    expect(failed).toBeGreaterThan(5);
    expect(folder.read("job.record").startsWith(before[0])).toBe(true);
    expect(folder.read("job.record")).not.toBe(before[0]);
  }, 120_000);

  it("a report is the old one or the new one, and the answer is shown either way", async () => {
    folder.write("sheet.html", "the old one");
    const { stdout } = await folder.run("correct", "job.json");
    let failed = 0;
    for (let at = 0; at < 10; at++) {
      const run = await onFullDisk(at, "correct", "job.json", "--report", "sheet.html");
      expect(leftovers()).toEqual([]);
      expect(run.stdout).toBe(stdout);
      if (run.status === 0) break;
      failed++;
      expect(run.status).toBe(4);
      expect(run.stderr).toBe("masstone: sheet.html: there is no room left on the disk [unwritable-file]\n");
      expect(folder.read("sheet.html")).toBe("the old one");
    }
    expect(failed).toBeGreaterThan(2);
    expect(folder.read("sheet.html")).toMatch(/^<!doctype html>.*<\/html>\s*$/s);
  }, 120_000);

  it("an answer that cannot be added to its record is shown all the same", async () => {
    await folder.run("record", "job.record", "--job", "job.json");
    const before = folder.read("job.record");
    const { status, stdout, stderr } = await onFullDisk(2, "correct", "job.json", "--record", "job.record");
    expect({ status, leftovers: leftovers() }).toEqual({ status: 4, leftovers: [] });
    expect(stdout).toMatch(/^Not there yet: /);
    expect(stderr).toMatch(/job\.record: .*\[unwritable-file\]/);
    expect(folder.read("job.record")).toBe(before);
  }, 60_000);
});

describe("a disk that is really full", () => {
  const asRoot = process.getuid?.() === 0;
  const mount = (at: string) =>
    asRoot && spawnSync("mount", ["-t", "tmpfs", "-o", "size=48k", "tmpfs", at]).status === 0;

  it("is told with the name of the file, and nothing half is left", (context) => {
    mkdirSync(folder.at("tiny"));
    if (!mount(folder.at("tiny"))) {
      console.warn("skipped: no small disk can be mounted here (it takes root)");
      context.skip();
    }
    try {
      for (const name of ["job.json", "toners.json"]) folder.write(`tiny/${name}`, folder.read(name));
      const first = folder.masstone(["record", "tiny/r", "--job", "tiny/job.json"]);
      expect(first.status).toBe(0);
      folder.write("tiny/filler", "x".repeat(16_000));
      const before = folder.read("tiny/r");
      const there = readdirSync(folder.at("tiny")).sort();
      const note = folder.masstone([
        "record",
        "tiny/r",
        "--note",
        "x".repeat(9000),
        "--note",
        "x".repeat(9000),
      ]);
      expect(note.status).toBe(2);
      expect(note.stderr).toMatch(
        /^masstone: tiny\/r: there is no room left on the disk \[unwritable-file\]\n/,
      );
      expect(folder.read("tiny/r")).toBe(before);
      const report = folder.masstone(["correct", "job.json", "--report", "tiny/sheet.html"]);
      expect({ status: report.status, told: report.stderr }).toEqual({
        status: 4,
        told: "masstone: tiny/sheet.html: there is no room left on the disk [unwritable-file]\n",
      });
      expect(report.stdout).toMatch(/^Not there yet: /);
      expect(readdirSync(folder.at("tiny")).sort()).toEqual(there);
      rmSync(folder.at("tiny/filler"));
      expect(folder.masstone(["record", "tiny/r", "--note", "again"]).status).toBe(0);
    } finally {
      spawnSync("umount", [folder.at("tiny")]);
    }
  }, 60_000);

  it("takes no answer on the standard output, which is told with an exit code of its own", () => {
    const run = (line: string) =>
      spawnSync("bash", ["-c", line], {
        cwd: folder.path,
        encoding: "utf8",
        env: { ...process.env, NODE: process.execPath },
      });
    for (const args of ["correct job.json", "correct job.json --json", "--help"]) {
      const { status, stderr } = run(`"$NODE" "${folder.command}" ${args} > /dev/full`);
      expect({ status, stderr }).toEqual({
        status: 4,
        stderr: "masstone: standard output: there is no room left on the disk [unwritable-file]\n",
      });
    }
    expect(run(`"$NODE" "${folder.command}" correct job.json --report /dev/full`).status).toBe(4);
  }, 60_000);
});

describe("what the system refuses is reported with the name of the file, never as a defect", () => {
  const long = "x".repeat(300);
  const nearlyLong = "x".repeat(250);

  it.each<[string, readonly string[], RegExp]>([
    ["a record on a folder", ["record", "folder"], /^masstone: folder: this is a folder/],
    [
      "a record begun on a folder",
      ["record", "folder", "--job", "job.json"],
      /^masstone: folder: this is a folder/,
    ],
    ["a name too long", ["record", long, "--job", "job.json"], /x: this name is too long/],
    ["a name too long for its end", ["record", nearlyLong, "--job", "job.json"], /x: this name is too long/],
    ["a link to itself", ["record", "loop", "--job", "job.json"], /^masstone: loop: this link leads back/],
    ["a record below a file", ["record", "job.json/r", "--job", "job.json"], /a part of this path is a file/],
    ["a record on a device", ["record", "/dev/null", "--job", "job.json"], /a device, a pipe or a socket/],
    [
      "a record nowhere",
      ["record", "nowhere/r", "--job", "job.json", "--allow-outside"],
      /nowhere\/r: there is no such file or folder/,
    ],
    [
      "a report on a folder",
      ["correct", "job.json", "--report", "folder"],
      /^masstone: folder: this is a folder/,
    ],
    ["a report nowhere", ["correct", "job.json", "--report", "nowhere/x"], /nowhere\/x: there is no such/],
    ["a report of too long a name", ["correct", "job.json", "--report", long], /x: this name is too long/],
    ["a job that is a folder", ["correct", "folder"], /^masstone: folder: this is a folder/],
    [
      "a card from a link to itself",
      ["record", "r", "--card", "loop"],
      /^masstone: loop: this link leads back/,
    ],
  ])("%s", async (_, args, message) => {
    mkdirSync(folder.at("folder"));
    symlinkSync("loop", folder.at("loop"));
    const before = readdirSync(folder.path).sort();
    const { status, stdout, stderr } = await folder.run(...args);
    expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
    expect(stderr).toMatch(message);
    expect(stderr).toMatch(/\[un(read|writ)able-file\]\n/);
    expect(stderr).not.toMatch(/defect|\n {4}at /);
    expect(readdirSync(folder.path).sort()).toEqual(before);
  });
});

describe("a record that was spoilt", () => {
  it("cut off or with a bit turned, anywhere: it is refused, or reads as it did before, and no lock is left", async () => {
    await folder.run("record", "job.record", "--job", "job.json", "--note", "first");
    const whole = folder.read("job.record");
    const state = (await folder.run("record", "job.record", "--json")).stdout;
    const spoilt = Array.from({ length: 24 }, (_, i) => {
      const at = Math.floor(((i + 0.5) / 24) * whole.length);
      const turned = String.fromCharCode(whole.charCodeAt(at) ^ (1 << (i % 6)));
      return i % 2 === 0 ? whole.slice(0, at) : whole.slice(0, at) + turned + whole.slice(at + 1);
    });
    for (const text of spoilt) {
      folder.write("job.record", text);
      const { status, stdout, stderr } = await folder.run("record", "job.record", "--json");
      if (status === 0) expect(stdout).toBe(state);
      else expect({ status, stderr }).toEqual({ status: 2, stderr: expect.stringMatching(/\[[a-z-]+\]\n/) });
      const poured = await folder.run("record", "job.record", "--pour", "white=1");
      if (poured.status !== 0) expect(folder.read("job.record")).toBe(text);
      expect(leftovers()).toEqual([]);
    }
  }, 120_000);
});
