import { spawnSync } from "node:child_process";
import { linkSync, mkdirSync, symlinkSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { type WorkFolder, workFolder } from "./workFolder.js";

let folder: WorkFolder;
beforeEach(() => {
  folder = workFolder();
});
afterEach(() => folder.remove());

const SECRET = "hunter2";
const named = (name: string, kind?: string) => ({
  files: [{ name, ...(kind && { kind }) }],
  card: { name: "card" },
});

describe("a file that a job names", () => {
  const outside: readonly [string, object][] = [
    ["a system file for toners", { toners: "/etc/passwd" }],
    ["a system file for readings", named("/etc/passwd", "csv")],
    ["a file in the folder above", { toners: "../secret.json" }],
    ["a file above that is not there", { toners: "../nothing.json" }],
    ["a way down and up", { toners: "down/../../secret.json" }],
    ["a device without end", { toners: "/dev/zero" }],
    ["a link that leads outside", { toners: "link.json" }],
    ["a file in a folder that leads outside", { toners: "leads/secret.json" }],
  ];

  it.each(outside)("is not read outside its folder: %s", async (_, change) => {
    const above = join(dirname(folder.path), "secret.json");
    writeFileSync(above, SECRET);
    mkdirSync(folder.at("down"));
    symlinkSync("/etc/passwd", folder.at("link.json"));
    symlinkSync("..", folder.at("leads"));
    folder.writeJob("bad.json", change);
    const { status, stdout, stderr } = await folder.run("correct", "bad.json");
    expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
    expect(stderr).toMatch(/\[outside-folder\]\n.*--allow-outside\.\n$/);
    expect(stderr).not.toMatch(/hunter2|root:|no such file/);
  });

  it("may lie below the folder, and anywhere where a person says so", async () => {
    mkdirSync(folder.at("jobs"));
    folder.write("jobs/inner.json", folder.read("toners.json"));
    folder.writeJob("job.json", { toners: "jobs/inner.json" });
    expect((await folder.run("correct", "job.json")).status).toBe(0);
    folder.writeJob("jobs/job.json", { toners: "../toners.json" });
    expect((await folder.run("correct", "jobs/job.json")).status).toBe(2);
    expect((await folder.run("correct", "jobs/job.json", "--allow-outside")).status).toBe(0);
  }, 30_000);

  it("is a regular file even so: no pipe is waited for and no device read", () => {
    expect(spawnSync("mkfifo", [folder.at("pipe")]).status).toBe(0);
    for (const name of ["pipe", "/dev/zero", "/dev/tty"]) {
      folder.writeJob("bad.json", { toners: name });
      const { status, signal, stderr } = folder.masstone(["correct", "bad.json", "--allow-outside"]);
      expect({ name, status, signal }).toEqual({ name, status: 2, signal: null });
      expect(stderr).toMatch(/a device, a pipe or a socket.*\[unreadable-file\]/);
    }
  }, 60_000);

  it("is not repeated where it is refused", async () => {
    folder.write(".env", `SECRET=${SECRET}\n`);
    for (const change of [
      { toners: ".env" },
      ...["csv", "cgats", "cxf3", "json"].map((kind) => named(".env", kind)),
    ]) {
      folder.writeJob("bad.json", change);
      const { status, stderr } = await folder.run("correct", "bad.json");
      expect(status).toBe(2);
      expect(stderr).toMatch(/\[[a-z-]+\]/);
      expect(stderr).not.toMatch(/SECRET|hunter2/);
    }
  }, 60_000);

  it("may be large, but not together with others without end", async () => {
    const reading = {
      geometry: "d:8 specular excluded",
      grid: { start: 400, step: 10, count: 31 },
      reflectance: new Array(31).fill(0.5),
    };
    const table = { format: "masstone/readings", version: 1, readings: [{ name: "x", reading }] };
    folder.write("table.json", JSON.stringify(table) + "\n".repeat(3_000_000));
    const files = new Array(100).fill({ name: "table.json" });
    folder.writeJob("bad.json", { ...named("table.json"), files: files.slice(0, 5) });
    expect((await folder.run("correct", "bad.json")).stderr).not.toMatch(/too-large/);
    folder.writeJob("bad.json", { ...named("table.json"), files });
    const { status, stderr } = await folder.run("correct", "bad.json");
    expect(status).toBe(2);
    expect(stderr).toMatch(/over 20 MB.*\[too-large\]/);
  }, 60_000);
});

describe("a file that a person names", () => {
  it("may be a pipe, and a device without end is given up", () => {
    const job = { ...JSON.parse(folder.read("job.json")), toners: JSON.parse(folder.read("toners.json")) };
    folder.write("whole.json", job);
    const line = `"${process.execPath}" "${folder.command}" correct <(cat whole.json) --json`;
    const { status, stdout } = spawnSync("bash", ["-c", line], { cwd: folder.path, encoding: "utf8" });
    expect({ status, answer: JSON.parse(stdout) }).toMatchObject({
      status: 0,
      answer: { status: "corrected" },
    });
    const learnt = folder.masstone(["learn", "-"], { input: folder.read("job.json") });
    expect(learnt).toMatchObject({ status: 0, stderr: "" });
    expect(folder.masstone(["correct", "/dev/zero"]).stderr).toMatch(/\/dev\/zero: over 50 MB \[too-large\]/);
  }, 60_000);

  it("is never written over by what it asks for, whatever it is called", async () => {
    const before = folder.read("job.json");
    linkSync(folder.at("job.json"), folder.at("hard.json"));
    symlinkSync("job.json", folder.at("soft.json"));
    for (const output of [
      "job.json",
      "./job.json",
      folder.at("job.json"),
      "hard.json",
      "soft.json",
      "toners.json",
    ]) {
      const { status, stdout, stderr } = await folder.run("correct", "job.json", "--report", output);
      expect({ output, status, stdout }).toEqual({ output, status: 2, stdout: "" });
      expect(stderr).toMatch(/\[unwritable-file\]/);
    }
    expect(folder.masstone(["correct", "-", "--report", "job.json"], { input: before }).status).toBe(0);
    folder.write("job.json", before);
    for (const output of ["new.record", "new.record.end", "new.record.lock"]) {
      const args = ["correct", "job.json", "--record", "new.record", "--report", output];
      expect((await folder.run(...args)).stderr).toMatch(/\[unwritable-file\]/);
    }
    expect(folder.read("job.json")).toBe(before);
    const twice = await folder.run("characterise", "job.json", "--out", "x", "--report", "./x");
    expect(twice.stderr).toMatch(/two things cannot be written to one file \[unwritable-file\]/);
  }, 120_000);
});

describe("the terminal", () => {
  const WEAPONS = "\u001b]0;owned\u0007\u009b2J\u202egnp\r";

  it("shows no escape sequences and no marks that turn the direction, from names, notes, arguments and files", async () => {
    const weapon = JSON.stringify(WEAPONS).slice(1, -1);
    folder.write("toners2.json", folder.read("toners.json").replace('"Strong white"', `"${weapon}"`));
    folder.writeJob("bad.json", { toners: "toners2.json" });
    folder.writeJob("bad2.json", { targets: [{ name: WEAPONS, readings: [] }] });
    folder.writeJob("bad3.json", { format: WEAPONS });
    folder.writeJob("bad4.json", { pot: { [WEAPONS]: 3 } });
    const begun = await folder.run("record", "r", "--job", "job.json", "--note", `a\n${WEAPONS}`);
    expect(begun.status).toBe(0);
    const runs = [
      ["correct", "bad.json"],
      ["correct", "bad2.json"],
      ["correct", "bad3.json"],
      ["correct", "bad4.json"],
      [WEAPONS],
      ["correct", `${WEAPONS}.json`],
      ["record", "r"],
      ["record", "r", "--json"],
    ];
    for (const args of runs) {
      const { stdout, stderr } = await folder.run(...args);
      expect(stdout + stderr).not.toMatch(/(?!\n)[\p{Cc}\p{Bidi_Control}]/u);
    }
    expect((await folder.run("correct", "bad.json")).stderr).toMatch(/toners\[0\]\.name: .*\[wrong-type\]/);
    expect((await folder.run("correct", "bad2.json")).stderr).toMatch(/targets\[0\]\.name: .*\[wrong-type\]/);
  }, 60_000);
});
