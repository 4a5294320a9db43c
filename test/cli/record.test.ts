import { spawn, spawnSync } from "node:child_process";
import {
  copyFileSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { readRecord, readRecordEnd } from "../../src/formats/jobRecord.js";
import { writeReadingsCsv } from "../../src/formats/readingsCsv.js";
import { runInProcess } from "./runInProcess.js";

const cli = fileURLToPath(new URL("../../dist/cli.js", import.meta.url));
const example = (name: string) => fileURLToPath(new URL(`../../examples/horsebox/${name}`, import.meta.url));

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "masstone-record-"));
  for (const name of ["job.json", "toners.json"]) copyFileSync(example(name), join(folder, name));
});
afterEach(() => rmSync(folder, { recursive: true }));

const masstone = (args: readonly string[], before: readonly string[] = []) =>
  spawnSync(process.execPath, [...before, cli, ...args], { cwd: folder, encoding: "utf8" });
const told = (...args: readonly string[]) => {
  const { status, stdout, stderr } = masstone(args);
  expect({ args, status, stderr }).toEqual({ args, status: 0, stderr: "" });
  return stdout;
};
/** The same on the same disk, without a process of its own. */
const inProcess = async (...args: readonly string[]) => {
  const { code, out, error } = await runInProcess(...args);
  expect({ args, code, error }).toEqual({ args, code: 0, error: "" });
  return out;
};
const here = (name: string) => readFileSync(join(folder, name), "utf8");
const recorded = () => readRecord(here("job.record"), readRecordEnd(here("job.record.end")));

describe("masstone record", () => {
  it("keeps a job from the first pour to the last card, and says what is next", () => {
    expect(told("record", "job.record", "--job", "job.json")).toMatch(
      /^Next: let it be worked out from the card:[\s\S]*\nmasstone next job\.record\n$/,
    );
    expect(told("correct", "job.json", "--record", "job.record")).toMatch(/^Not there yet: /);
    const asked = /^Next: pour ([\d.]+) g (.+?)[,.]/.exec(told("record", "job.record"));
    expect(asked).not.toBeNull();
    const state = JSON.parse(told("record", "job.record", "--json"));
    for (const { toner, grams } of state.next.pours) {
      told("record", "job.record", "--pour", `${toner}=${grams}`, "--can", `${toner}=K 7`);
    }
    const stirred = masstone(["correct", "job.json", "--record", "job.record"]);
    expect(stirred.status).toBe(2);
    expect(stirred.stderr).toMatch(/something was poured since the last card/);
    const { readings } = JSON.parse(here("job.json")).card;
    writeFileSync(
      join(folder, "card.csv"),
      writeReadingsCsv(readings.map((reading: object) => ({ name: "card 2", reading })) as never),
    );
    expect(told("record", "job.record", "--card", "card.csv")).toMatch(/card 2, read/);
    expect(told("learn", "job.record", "--out", "learnt.json")).toMatch(/card 2/);
    expect(JSON.parse(here("learnt.json")).learnt.cans).not.toEqual({});
    expect(recorded().entries.at(-1)?.entry).toMatchObject({ kind: "card", name: "card 2" });
  }, 60_000);

  it("shows drops of the job's limits, in the record and in what is learnt", async () => {
    const job = JSON.parse(here("job.json"));
    const record = join(folder, "job.record");
    job.limits.gramsPerDrop = { green: 0.2 };
    writeFileSync(join(folder, "job.json"), JSON.stringify(job));
    const said = await inProcess("record", record, "--job", join(folder, "job.json"), "--unit", "drops");
    expect(said).toContain(`${job.pot.green / 0.2} drops`);
    expect(said).toContain("In grams: what has no drop weight (gramsPerDrop)");
    await inProcess("record", record, "--pour", "green=20drops");
    writeFileSync(
      join(folder, "card.csv"),
      writeReadingsCsv(job.card.readings.map((reading: object) => ({ name: "card 2", reading })) as never),
    );
    await inProcess("record", record, "--card", join(folder, "card.csv"));
    expect(await inProcess("learn", record, "--unit", "drops")).toMatch(/^Learnt|^Nothing learnt/);
  }, 30_000);

  it("refuses what is not there and writes nothing of it", () => {
    told("record", "job.record", "--job", "job.json");
    const before = here("job.record");
    for (const args of [
      ["--pour", "mauve=3"],
      ["--pour", "white=3", "--pour", "white"],
      ["--pour", "white=-3"],
      ["--pour", "white=three"],
      ["--withdraw", "99"],
      ["--card", "nowhere.csv"],
      ["--job", "job.json"],
    ]) {
      const { status, stderr } = masstone(["record", "job.record", ...args]);
      expect({ args, status }).toEqual({ args, status: 2 });
      expect(stderr).toMatch(/^masstone: .*\[[a-z-]+\]\n([A-Z].*\.\n)?$/s);
    }
    expect(here("job.record")).toBe(before);
    expect(masstone(["record", "new.record", "--pour", "white=3"]).stderr).toMatch(/begins with its job/);
    expect(existsSync(join(folder, "new.record"))).toBe(false);
  }, 60_000);

  it("refuses a record that is shorter than it was, or changed", () => {
    told("record", "job.record", "--job", "job.json");
    const text = here("job.record");
    const lines = text.trimEnd().split("\n");
    writeFileSync(join(folder, "job.record"), `${lines.slice(0, -1).join("\n")}\n`);
    const short = masstone(["record", "job.record"]);
    expect({ status: short.status, stderr: short.stderr }).toEqual({
      status: 2,
      stderr: expect.stringMatching(/entries were written.*\[damaged-record\]/s),
    });
    writeFileSync(join(folder, "job.record"), text.replace('"grams":180', '"grams":181'));
    expect(masstone(["record", "job.record"]).stderr).toMatch(/\[damaged-record\]/);
    rmSync(join(folder, "job.record.end"));
    writeFileSync(join(folder, "job.record"), text);
    expect(told("record", "job.record")).toMatch(/whether the last entries are missing cannot be\s+told/);
  }, 60_000);

  it("writers at the same time: every pour that was told as noted is there, once, and nothing is overwritten", async () => {
    told("record", "job.record", "--job", "job.json");
    const start = recorded().entries.length;
    const results = await Promise.all(
      Array.from(
        { length: 5 },
        (_, i) =>
          new Promise<{ readonly grams: number; readonly status: number | null; readonly stderr: string }>(
            (done) => {
              const grams = 1 + i / 10;
              const child = spawn(
                process.execPath,
                [cli, "record", "job.record", "--pour", `white=${grams}`],
                {
                  cwd: folder,
                },
              );
              let stderr = "";
              child.stderr.on("data", (chunk) => {
                stderr += chunk;
              });
              child.on("close", (status) => done({ grams, status, stderr }));
            },
          ),
      ),
    );
    const noted = results.filter(({ status }) => status === 0).map(({ grams }) => grams);
    expect(noted.length).toBeGreaterThan(0);
    const found = recorded()
      .entries.slice(start)
      .map(({ entry }) => (entry.kind === "pour" ? entry.grams : 0));
    expect([...found].sort()).toEqual([...noted].sort());
    for (const { status, stderr } of results) {
      if (status !== 0) expect(stderr).toMatch(/\[record-in-use\]/);
    }
    expect(readdirSync(folder).filter((name) => /lock|\.new/.test(name))).toEqual([]);
  }, 60_000);
});

describe("masstone record, killed", () => {
  /** Kills the process at the n-th thing that it does to the disk; of a write, half is done. */
  const KILLER = `
    import fs from "node:fs";
    import { syncBuiltinESMExports } from "node:module";
    let left = Number(process.env.KILL_AT);
    const die = () => { process.kill(process.pid, "SIGKILL"); for (;;) {} };
    for (const name of ["openSync", "writeSync", "fsyncSync", "closeSync", "renameSync", "rmSync", "writeFileSync"]) {
      const real = fs[name];
      fs[name] = (...args) => {
        const isOurs = name !== "openSync" && name !== "closeSync" ? true : /record/.test(String(args[0])) || name === "closeSync";
        if (isOurs && --left < 0) {
          if (name === "writeSync") real(args[0], args[1].subarray(args[2] ?? 0, (args[2] ?? 0) + (args[1].length >> 1)));
          die();
        }
        return real(...args);
      };
    }
    syncBuiltinESMExports();
  `;

  it("at every write: the pour is there or it is not, the rest is whole, and the next command goes on", async () => {
    writeFileSync(join(folder, "killer.mjs"), KILLER);
    const path = join(folder, "job.record");
    let killed = 0;
    let torn = 0;
    for (let at = 0; at < 40; at++) {
      for (const name of ["job.record", "job.record.end", "job.record.lock", "job.record.end.new"]) {
        rmSync(join(folder, name), { force: true });
      }
      await inProcess("record", path, "--job", join(folder, "job.json"));
      const { entries } = recorded();
      const { signal, status } = spawnSync(
        process.execPath,
        ["--import", join(folder, "killer.mjs"), cli, "record", "job.record", "--pour", "white=50"],
        { cwd: folder, encoding: "utf8", env: { ...process.env, KILL_AT: String(at) } },
      );
      if (signal === null) {
        expect(status).toBe(0);
        break;
      }
      killed++;
      const looked = JSON.parse(await inProcess("record", path, "--json"));
      if (/broke off/.test(String(looked.remarks))) torn++;
      expect([180, 230]).toContain(looked.pot.white);
      // The lock of a process that is no more does not hold anybody up.
      await inProcess("record", path, "--pour", "white=1");
      expect(JSON.parse(await inProcess("record", path, "--json")).pot.white).toBe(looked.pot.white + 1);
      expect(recorded().entries.slice(0, entries.length)).toEqual(entries);
    }
    expect(killed).toBeGreaterThan(6);
    expect(torn).toBeGreaterThan(0);
  }, 240_000);
});
