import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { checkBuildIsFresh, root } from "../package/consumer.js";
import { runNotebook, storedOutputs } from "./notebook.js";

checkBuildIsFresh();

const text = (path: string) => readFileSync(join(root, "examples", path), "utf8");

function run(...args: readonly string[]): string {
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { cwd: root, encoding: "utf8" });
  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  return stdout;
}

/** Toner and grams of every line that is poured. */
const pours = (said: string) =>
  [...said.matchAll(/^ +\d+ {2}(\S.*?) {2,}(\d+\.\d+) {2,}\d+\.\d+ {2}/gm)].map(([, toner, grams]) => ({
    toner,
    grams: Number(grams),
  }));

describe("the example of a script", () => {
  it("goes from a CSV file of readings to pours and the caution", () => {
    const said = run("examples/script/correct.mjs");
    expect(pours(said).length).toBeGreaterThan(0);
    expect(said).toMatch(/^Not there yet: /);
    expect(said).toContain("isocyanates");
  });

  it("comes to the same pours from the command line, by a job that names the CSV file", () => {
    const said = run("dist/cli.js", "correct", "examples/script/job.json", "--allow-outside");
    const grams = (text: string) => pours(text).map((one) => one.grams);
    expect(grams(said)).toEqual(grams(run("examples/script/correct.mjs")));
  });

  it("reads the same colours as the job of the horsebox", () => {
    const job = JSON.parse(text("horsebox/job.json"));
    const [, card] = text("script/readings.csv").split("\n");
    const percent = job.card.readings[0].reflectance.map((value: number) => (100 * value).toFixed(2));
    expect(card).toBe(["card", ...percent].join(","));
  });
});

describe("the example of a shop's stock file", () => {
  it("never asks for more than is left", () => {
    const said = run("examples/stock-file/correct.mjs");
    const { toners } = JSON.parse(text("horsebox/toners.json")) as {
      readonly toners: readonly { readonly id: string; readonly name: string }[];
    };
    const stock = new Map(
      text("stock-file/stock.csv")
        .trim()
        .split("\n")
        .map((line) => line.split(","))
        .map(([id, grams]) => [toners.find((toner) => toner.id === id)?.name, Number(grams)]),
    );
    const poured = pours(said);
    expect(poured.length).toBeGreaterThan(0);
    for (const { toner, grams } of poured) expect(grams).toBeLessThanOrEqual(stock.get(toner) ?? Infinity);
    // Without the file the strong black would be poured, of which there is none left.
    expect(stock.get("Deep black")).toBe(0);
    expect(said).not.toMatch(/^ +\d+ {2}Deep black/m);
  });
});

describe("the example from Python", () => {
  const hasPython = spawnSync("python3", ["--version"]).status === 0;
  if (!hasPython) console.warn("SKIPPED: no python3 here to pipe jobs from");

  it.skipIf(!hasPython)("gets an answer to each job, the same as from a process of its own", () => {
    const { status, stdout, stderr } = spawnSync("python3", ["examples/python/lines.py", "12", "2"], {
      cwd: root,
      encoding: "utf8",
    });
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    expect(stdout).toMatch(/^12 answers to 12 jobs, 0 refused\n2 of 2 the same/);
  });
});

describe("the example of worker threads", () => {
  it("does every job once and says how fast", () => {
    const said = run("examples/worker-thread/main.mjs", "60");
    expect(said).toMatch(/^60 jobs in \d+\.\d s: \d+\.\d a second\n\d+ ms of processor time each/m);
    const counts = [...said.matchAll(/^[a-z-]+ (\d+)$/gm)].map(([, count]) => Number(count));
    expect(counts.reduce((sum, count) => sum + count, 0)).toBe(60);
  });

  it("ends a worker's job soon after the host asks it to stop, and says what was cut off", () => {
    expect(run("examples/worker-thread/stop.mjs", "30")).toMatch(
      /^[a-z-]+; .*the host asked to stop, before all was looked at of: /,
    );
  });

  it("refuses a number of jobs that is none", () => {
    const { status, stderr } = spawnSync(process.execPath, ["examples/worker-thread/main.mjs", "many"], {
      cwd: root,
      encoding: "utf8",
    });
    expect(status).toBe(1);
    expect(stderr).toContain("not many");
  });
});

describe("the example of a record", () => {
  const bin = "dist/cli.js";
  const record = "examples/horsebox/job.record";

  it("says what is in the pot and what is next, and takes no harm from being looked at", () => {
    const before = text("horsebox/job.record");
    const said = run(bin, "record", record);
    expect(said).toMatch(
      /^Next: let it be worked out from the card:[\s\S]*\nmasstone next \S+job\.record\n$/,
    );
    expect(said).toMatch(/Bluish green +11\.3 {2}can G-7/);
    expect(text("horsebox/job.record")).toBe(before);
  });

  it("teaches the strength of the cans that make.mjs made it with, and gives the wrong pour away", () => {
    const { strengths, cards } = JSON.parse(run(bin, "learn", record, "--json"));
    const of = (toner: string) => strengths.find((one: { readonly toner: string }) => one.toner === toner);
    // What make.mjs says is in the cans; its toners are of the same two-constant model, so this is no test of that.
    for (const [toner, truth] of Object.entries({ yellow: 1.12, green: 0.93, "weak-black": 1.1 })) {
      const { strength, sdInPot } = of(toner);
      expect(Math.abs(Math.log(strength / truth))).toBeLessThan(2 * sdInPot);
    }
    expect(cards.map(({ verdict }: { readonly verdict: string }) => verdict)).toEqual([
      "believed",
      "believed",
      "doubted",
    ]);
    // Noted were 0.4 g of green; in truth 2.4 g went in.
    const [{ fault }] = cards[2].explanations;
    expect(fault).toMatchObject({ kind: "mis-pour", toner: "green" });
    expect(Math.abs(fault.grams - 2)).toBeLessThan(0.5);
  });
});

describe.each([
  { notebook: "characterisation.ipynb", says: /Characterised 4 toners/, figures: 5 },
  {
    notebook: "effect.ipynb",
    says: /flakes lie flatter on the panel[\s\S]*Pour nothing\. From this pot spray a card/,
    figures: 3,
  },
])("the notebook $notebook", ({ notebook, says, figures }) => {
  it("shows what its cells say today", () => {
    const stored = storedOutputs(notebook);
    const today = runNotebook(notebook);
    expect(stored.text).toMatch(says);
    expect(today.text).toBe(stored.text);
    // A line may be drawn better without the notebook being wrong; what it says it shows is in its description.
    const described = (svg: string) => /<title>.*<\/title>\s*<desc>.*<\/desc>/s.exec(svg)?.[0];
    expect(stored.figures.length).toBeGreaterThanOrEqual(figures);
    expect(today.figures.map(described)).toEqual(stored.figures.map(described));
  });
});

describe("the makers of example data", () => {
  it.each(readdirSync(join(root, "examples")).filter((name) => /^(horsebox|ladder)$/.test(name)))(
    "make.mjs writes the files of %s that are there",
    (name) => {
      const folder = mkdtempSync(join(tmpdir(), "masstone-examples-"));
      try {
        cpSync(join(root, "examples", name), join(folder, name), { recursive: true });
        run(join(folder, name, "make.mjs"));
        for (const file of readdirSync(join(folder, name))) {
          expect(readFileSync(join(folder, name, file), "utf8"), file).toBe(text(`${name}/${file}`));
        }
      } finally {
        rmSync(folder, { recursive: true });
      }
    },
  );
});
