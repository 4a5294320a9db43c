import { cpSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { VERBS } from "../../src/cli/verbs.js";
import { runInProcess } from "./runInProcess.js";

const root = fileURLToPath(new URL("../..", import.meta.url));
const before = process.cwd();
let folder = "";

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "masstone-newcomer-"));
  for (const name of ["script/readings.csv", "horsebox/toners.json", "ladder/readings.csv"]) {
    cpSync(join(root, "examples", name), join(folder, "examples", name));
  }
  process.chdir(folder);
});
afterEach(() => {
  process.chdir(before);
  rmSync(folder, { recursive: true });
});

/** The commands of README for an own file of readings, word by word. */
function commandsOfReadme(): readonly (readonly string[])[] {
  const [, section] =
    /\n## Correct\n([\s\S]*?)\n## /.exec(readFileSync(join(root, "README.md"), "utf8")) ?? [];
  const [, block] = /```sh\n([\s\S]*?)```/.exec(section) ?? [];
  return block
    .replaceAll("\\\n", " ")
    .trim()
    .split("\n")
    .map((line) => (line.match(/'[^']*'|\S+/g) ?? []).map((word) => word.replaceAll("'", "")).slice(2));
}

const told = async (...args: readonly string[]) => {
  const { code, out, error } = await runInProcess(...args);
  expect({ args, code, error }).toEqual({ args, code: 0, error: "" });
  return out;
};

const SHOP = ["--geometry", "d:8 specular excluded", "--scale", "percent"];
const TONERS = ["--toners", "examples/horsebox/toners.json"];
const CSV = ["--readings", "examples/script/readings.csv", ...SHOP, ...TONERS];

describe("who has never seen it", () => {
  it("comes from README alone to a first correction of an own CSV, in two commands and twelve typed values", async () => {
    const commands = commandsOfReadme();
    expect(commands.length).toBeLessThanOrEqual(2);
    const typed = commands.flat().filter((word) => !word.startsWith("--") && !Object.hasOwn(VERBS, word));
    expect(typed.length).toBeLessThanOrEqual(12);
    // The own file: other panels, and they lie otherwise.
    const [head, card, ...panels] = readFileSync("examples/script/readings.csv", "utf8")
      .trimEnd()
      .split("\n");
    writeFileSync("own.csv", [head, ...panels.map((row) => row.replace(/^[^,]*/, "my $&")), card].join("\n"));
    const own = (word: string) => (word.endsWith("readings.csv") ? "own.csv" : word);
    const answers: string[] = [];
    for (const command of commands) answers.push(await told(...command.map(own)));
    expect(answers.at(-1)).toMatch(/^Not there yet: my near-side door/);
    expect(answers.at(-1)).toMatch(/\n {2}1 {2}\S.* {2,}\d+\.\d {2,}\d+\.\d/);
    for (const answer of answers) expect(answer.split("\n").length).toBeLessThanOrEqual(26);
  }, 30_000);
});

describe("masstone begin", () => {
  it("writes a job with notes, whose answer is that of a job made by hand; nobody's file is written over", async () => {
    const pour = ["white=180", "ochre=14", "green=9", "weak-black=20", "clear=30"].flatMap((one) => [
      "--pour",
      one,
    ]);
    const said = await told("begin", "job.json", ...CSV, ...pour);
    expect(said).toMatch(/light D65[\s\S]*masstone correct job\.json\n$/);
    const job = JSON.parse(readFileSync("job.json", "utf8"));
    expect(Object.keys(job.notes)).toEqual(["pot", "viewing", "limits", "tolerance", "targets"]);
    expect(job.targets).toEqual([{ name: "near-side door" }, { name: "tail ramp" }]);
    expect(JSON.parse(await told("correct", "job.json", "--json")).status).toBe("corrected");
    expect((await runInProcess("begin", "job.json", ...CSV, ...pour)).error).toMatch(
      /there already.*\[unwritable-file\]/,
    );
  }, 30_000);

  it("writes a plan and samples, which their verbs take", async () => {
    const formula = ["white=180", "ochre=14", "green=9", "weak-black=20"].flatMap((one) => [
      "--formula",
      one,
    ]);
    await told("begin", "plan.json", ...CSV, ...formula, "--wanted", "14oz", "--target", "tail ramp");
    const plan = JSON.parse(await told("hold-back", "plan.json", "--json"));
    expect(plan.panels.map(({ panel }: { panel: string }) => panel)).toEqual(["tail ramp"]);
    const mixes = ["white: white=100", "black: black=1", "grey 20: white=80 black=20"];
    const backings = ["black=bare black", "white=bare white"].flatMap((one) => ["--backing", one]);
    await told(
      ...["begin", "samples.json", "--readings", "examples/ladder/readings.csv", ...SHOP],
      ...mixes.flatMap((mix) => ["--mix", mix]),
      ...backings,
    );
    const { toners } = JSON.parse(await told("characterise", "samples.json", "--json"));
    expect(toners.toners.map(({ id }: { id: string }) => id)).toEqual(["white", "black"]);
  }, 60_000);

  it("says of files that lie elsewhere that they have to be allowed", async () => {
    const elsewhere = `../${basename(folder)}-elsewhere`;
    renameSync("examples", elsewhere);
    try {
      const csv = CSV.map((word) => word.replace(/^examples/, elsewhere));
      const said = await told("begin", "job.json", ...csv, "--pour", "white=180", "--pour", "green=9");
      expect(said).toMatch(/masstone correct job\.json --allow-outside\n$/);
    } finally {
      renameSync(elsewhere, "examples");
    }
  });

  it.each([
    [["--pour", "white=1"], /--readings: say the instrument's file.*\[usage\]/],
    [[...CSV], /one of --pour.*\[usage\]/],
    [[...CSV, "--pour", "white=1", "--mix", "a: white=1"], /one of --pour.*\[usage\]/],
    [
      [...CSV, "--pour", "white=1", "--card", "roof"],
      /no reading "roof"; it has card, near-side door.*\[missing\]/,
    ],
    [[...CSV, "--pour", "mauve=1"], /mauve.*\[unknown-toner\]/],
    [[...CSV, "--pour", "white=1", "--pour", "white=2"], /said twice.*\[duplicate\]/],
    [[...CSV, "--formula", "white=1"], /--wanted: say how much.*\[usage\]/],
    [
      ["--readings", "examples/script/readings.csv", ...TONERS, "--pour", "white=1"],
      /fractions or per cent|no geometry/,
    ],
    [[...CSV, "--mix", "white=1"], /write it as.*\[usage\]/],
  ])("refuses %j and writes nothing", async (args, message) => {
    const { code, error } = await runInProcess("begin", "job.json", ...args);
    expect(code).toBe(2);
    expect(error).toMatch(message);
    expect(() => readFileSync("job.json")).toThrow();
  });
});
