import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import packageJson from "../../package.json";
import { verifyCertificate } from "../../src/certificate/checker/verifyCertificate.js";
import { appendToRecord, readRecordTexts } from "../../src/cli/recordTexts.js";
import { run } from "../../src/cli/run.js";
import type { Terminal } from "../../src/cli/terminal.js";
import { horseboxJob } from "../fixtures/horsebox.js";

const example = fileURLToPath(new URL("../../examples/horsebox/job.json", import.meta.url));

/** Runs a command line on the real disk, with `files` laid over it, and catches what it prints and writes. */
async function masstone(
  args: readonly string[],
  files: Readonly<Record<string, string>> = {},
  { isWatched = false, isStyled = false } = {},
) {
  let out = "";
  let error = "";
  const written: Record<string, string> = {};
  const terminal: Terminal = {
    readFile: (path) => files[path] ?? readFileSync(path, "utf8"),
    willWrite: () => {},
    writeFile: (path, text) => {
      written[path] = text;
    },
    write: (text) => {
      out += text;
    },
    isRead: () => true,
    *readLines(path) {
      for (const text of files[path].split("\n")) {
        yield { readFile: (other, named) => (named ? terminal.readFile(other) : text) };
      }
    },
    writeError: (text) => {
      error += text;
    },
    isWatched,
    isStyled,
    readRecord: readRecordTexts,
    appendToRecord,
    program: "masstone",
    now: () => "2026-03-31T14:05:00.000Z",
  };
  return { code: await run(args, terminal), out, error, written };
}

describe("masstone correct", () => {
  it("tells the painter pours in order, grams, the running total, what each does, and the cautions last", async () => {
    const { code, out, error } = await masstone(["correct", example]);
    expect({ code, error }).toEqual({ code: 0, error: "" });
    expect(out).toMatch(/^Not there yet: /);
    const pours = [...out.matchAll(/^ {2}\d {2}(.+?) {2,}([\d.]+) {2,}([\d.]+) {2}(.+)$/gm)];
    expect(pours.length).toBeGreaterThan(0);
    let total = 0;
    for (const [, , grams, shown, words] of pours) {
      total += Number(grams);
      expect(Number(shown)).toBeCloseTo(total, 3);
      expect(words).toMatch(/lighter|darker|redder|greener|yellower|bluer|chromatic|no change/);
    }
    expect(out.trimEnd().split("\n\n").at(-1)).toMatch(/isocyanates.*breathing.*safety data sheet/s);
  });

  it("prints the whole answer as JSON, the same numbers as the text", async () => {
    const { code, out } = await masstone(["correct", example, "--json"]);
    const answer = JSON.parse(out);
    expect(code).toBe(0);
    expect(answer).toMatchObject({ format: "masstone/correction", version: 1, status: "corrected" });
    const text = (await masstone(["correct", example])).out;
    for (const { grams } of answer.additions) expect(text).toContain(` ${grams.toFixed(1)} `);
  });

  it("writes a sheet for the bench on request, with the names of the toners", async () => {
    const { code, written } = await masstone(["correct", example, "--report", "sheet.html"]);
    expect(code).toBe(0);
    expect(written["sheet.html"]).toMatch(/^<!doctype html>/);
    expect(written["sheet.html"]).toContain("Bright yellow");
  });

  it("writes what is proved of the answer on request, for the checker", async () => {
    const { code, out, written } = await masstone([
      "correct",
      example,
      "--json",
      "--certificate",
      "proof.json",
    ]);
    expect(code).toBe(0);
    const certificate = JSON.parse(written["proof.json"]);
    expect(certificate).toMatchObject({ format: "masstone/certificate", version: 1, verdict: "matched" });
    expect(verifyCertificate(horseboxJob(), JSON.parse(out), certificate)).toEqual({ isValid: true });
  });

  it("shows amounts in the unit asked for, in the text and on the sheet; JSON keeps grams", async () => {
    const job = JSON.parse(readFileSync(example, "utf8"));
    job.limits.gramsPerDrop = { green: 0.1 };
    const files = { [example]: JSON.stringify(job) };
    const { additions } = JSON.parse((await masstone(["correct", example, "--json"], files)).out);
    const { drops } = additions.find(({ toner }: { toner: string }) => toner === "green");
    expect(Number.isInteger(drops)).toBe(true);
    const args = ["correct", example, "--unit", "drops", "--report", "sheet.html"];
    const { out, written } = await masstone(args, files);
    expect(out).toMatch(new RegExp(`^  \\d  Bluish green +${drops} drops +[\\d.]+ g  `, "m"));
    expect(out).toMatch(/^ {2}\d {2}Bright yellow +[\d.]+ g /m);
    expect(out).toContain("In grams: what has no drop weight (gramsPerDrop) or is no whole 1–60 drops.");
    expect(written["sheet.html"]).toContain(`${drops} drops`);
    const ounces = (await masstone(["correct", example, "--unit", "oz"])).out;
    expect(ounces).toMatch(/Bright yellow +0\.\d{3} oz +1\.\d{3} oz {2}/);
    expect(ounces).not.toMatch(/\d g\b/);
  });

  it("shows the caution where nothing is to be poured and all is to be sprayed", async () => {
    const job = JSON.parse(readFileSync(example, "utf8"));
    job.targets = [{ name: "the card itself", readings: job.card.readings }];
    const { out } = await masstone(["correct", example], { [example]: JSON.stringify(job) });
    expect(out).toMatch(/^Good enough: /);
    expect(out).toContain("isocyanates");
  });

  it("reads the job from the standard input", async () => {
    const job = JSON.parse(readFileSync(example, "utf8"));
    job.toners = JSON.parse(readFileSync(example.replace("job.json", "toners.json"), "utf8"));
    expect((await masstone(["correct", "-"], { "-": JSON.stringify(job) })).code).toBe(0);
  });
});

describe("masstone predict", () => {
  it("needs neither card nor targets", async () => {
    const { card: _card, targets: _targets, ...job } = JSON.parse(readFileSync(example, "utf8"));
    const files = { [example]: JSON.stringify(job) };
    const { code, out } = await masstone(["predict", example], files);
    expect(code).toBe(0);
    expect(out).toContain("Strong white");
    const { predictions } = JSON.parse((await masstone(["predict", example, "--json"], files)).out);
    expect(predictions).toHaveLength(2);
    expect(out).toContain(predictions[0].lab[0].toFixed(2));
  });
});

describe("masstone directions", () => {
  it("needs no targets, nor a card, and prints the same numbers as text and as JSON", async () => {
    const { targets: _targets, ...job } = JSON.parse(readFileSync(example, "utf8"));
    const { card: _card, ...mix } = job;
    for (const [one, isAnchored] of [
      [job, true],
      [mix, false],
    ]) {
      const files = { [example]: JSON.stringify(one) };
      const { code, out, error } = await masstone(["directions", example, "--details"], files);
      expect({ code, error }).toEqual({ code: 0, error: "" });
      const answer = JSON.parse((await masstone(["directions", example, "--json"], files)).out);
      expect(answer).toMatchObject({ format: "masstone/directions", version: 1, isAnchored });
      for (const { deltaE00PerGram } of answer.directions) expect(out).toContain(deltaE00PerGram.toFixed(3));
      expect(out).toContain("Strong white");
    }
  });
});

describe("masstone characterise", () => {
  const samples = fileURLToPath(new URL("../../examples/ladder/samples.json", import.meta.url));

  it("prints what a person can judge, and writes toners that the other verbs can use and a report on request", async () => {
    const { code, out, error, written } = await masstone([
      "characterise",
      samples,
      "--out",
      "t.json",
      "--report",
      "r.html",
    ]);
    expect({ code, error }).toEqual({ code: 0, error: "" });
    expect(out).toMatch(/Strong white/);
    expect(written["r.html"]).toMatch(/^<!doctype html>/i);
    const toners = JSON.parse(written["t.json"]);
    expect(toners).toMatchObject({ format: "masstone/toners", version: 1 });
    const job = {
      format: "masstone/job",
      version: 1,
      toners,
      viewing: { observer: "1964-10", illuminants: [{ name: "D65" }] },
      pot: { white: 80, green: 20 },
    };
    expect((await masstone(["predict", "-"], { "-": JSON.stringify(job) })).code).toBe(0);
  });

  it("shows progress on a terminal only, and wipes it", async () => {
    expect((await masstone(["characterise", samples])).error).toBe("");
    const watched = (await masstone(["characterise", samples], {}, { isWatched: true })).error;
    expect(watched).toContain("fitting: iteration 1");
    expect(watched.endsWith("\r\u001b[K")).toBe(true);
  });

  it("refuses to write what a verb does not have", async () => {
    const { code, error, written } = await masstone(["correct", example, "--out", "t.json"]);
    expect(code).toBe(2);
    expect(error).toContain("correct has nothing for --out");
    expect(written).toEqual({});
  });
});

describe("masstone hold-back", () => {
  const plan = example.replace("job.json", "plan.json");

  it("tells what to pour now and what to keep back, as text in grams or ounces and as the record it shows", async () => {
    const { code, out } = await masstone(["hold-back", plan]);
    expect(code).toBe(0);
    expect(out).toMatch(/^Planned from /);
    const answer = JSON.parse((await masstone(["hold-back", plan, "--json"])).out);
    expect(answer).toMatchObject({ format: "masstone/hold-back", version: 1, status: "planned" });
    for (const { grams } of answer.pots[0].pourNow) expect(out).toContain(` ${grams.toFixed(1)} `);
    expect((await masstone(["hold-back", plan, "--unit", "oz"])).out).toMatch(/\d\.\d{3} oz/);
  });

  it("shows drops where the limits say what one weighs", async () => {
    const answer = JSON.parse((await masstone(["hold-back", plan, "--json"])).out);
    const { grams } = answer.pots[0].pourNow.find(({ toner }: { toner: string }) => toner === "green");
    const job = JSON.parse(readFileSync(plan, "utf8"));
    const files = {
      [plan]: JSON.stringify({ ...job, limits: { ...job.limits, gramsPerDrop: { green: grams / 40 } } }),
    };
    const { out } = await masstone(["hold-back", plan, "--unit", "drops"], files);
    expect(out).toMatch(/^ {2}\d {2}Bluish green +40 drops/m);
    expect(out).toMatch(/^ {2}\d {2}Strong white +[\d.]+ g/m);
    expect(out).toMatch(/In grams: what has no drop weight \(gramsPerDrop\)/);
  });

  it("refuses units that there are not, and for verbs that show none", async () => {
    expect((await masstone(["hold-back", plan, "--unit", "stone"])).error).toMatch(
      /--unit is one of g, oz, drops.*\[usage\]/s,
    );
    expect((await masstone(["predict", example, "--unit", "oz"])).error).toMatch(
      /predict has nothing for --unit/,
    );
  });
});

describe("masstone verify", () => {
  it("takes no file and prints the same totals as text and as JSON", async () => {
    const { code, out, error } = await masstone(["verify"]);
    expect({ code, error }).toEqual({ code: 0, error: "" });
    const { passed, total } = JSON.parse((await masstone(["verify", "--json"])).out);
    expect(passed).toBe(true);
    expect(out).toContain(`All ${total.checks} checks of ${total.figures} figures hold.`);
  });
});

describe("a hyphen for a file that is written", () => {
  it("prints that instead of the text", async () => {
    const samples = fileURLToPath(new URL("../../examples/ladder/samples.json", import.meta.url));
    const { out, written } = await masstone(["characterise", samples, "--out", "-", "--report", "r.html"]);
    expect(JSON.parse(out)).toMatchObject({ format: "masstone/toners" });
    expect(Object.keys(written)).toEqual(["r.html"]);
  });
});

describe("bold", () => {
  it("is for the first line alone, on a terminal that shows it", async () => {
    const plain = (await masstone(["predict", example])).out;
    const styled = (await masstone(["predict", example], {}, { isStyled: true })).out;
    expect(plain).not.toContain("\u001b");
    expect(styled).toBe(plain.replace(/^(.*)\n/, "\u001b[1m$1\u001b[22m\n"));
    expect((await masstone(["predict", example, "--json"], {}, { isStyled: true })).out).not.toContain(
      "\u001b",
    );
  });
});

describe("what is refused goes to standard error with code and place, and exits with 2", () => {
  it.each([
    ["nothing at all", [], /which verb\?.*\[usage\]/],
    ["an unknown verb", ["mix", example], /no verb "mix".*\[usage\]/],
    [
      "a verb that is a property of every object",
      ["constructor", example],
      /no verb "constructor".*\[usage\]/,
    ],
    [
      "a verb that is nearly one",
      ["corect", example],
      /no verb "corect"\. Did you mean "correct"\? Try: .*\[usage\]/,
    ],
    ["a verb without a file", ["correct"], /correct needs a FILE: a masstone\/job.*\[usage\]/],
    ["a file for a verb without", ["verify", example], /verify takes no FILE.*\[usage\]/],
    [
      "an option that is nearly one",
      ["correct", example, "--jsn"],
      /no option --jsn\. Did you mean "--json"\?/,
    ],
    ["an option that is a property of every object", ["correct", example, "--constructor"], /no option/],
    ["an option without its file", ["characterise", example, "--out"], /--out needs the name of a file/],
    [
      "an option as the file of another",
      ["characterise", example, "--out", "--json"],
      /--out needs the name/,
    ],
    ["a flag with a value", ["correct", example, "--json=yes"], /--json takes no value/],
    [
      "two things on one output",
      ["characterise", example, "--out", "-", "--json"],
      /only one of --out - and --json/,
    ],
    ["an unknown option", ["correct", example, "--grams"], /no option --grams.*Try: masstone.*\[usage\]/],
    ["two files", ["correct", example, example], /one FILE, not 2.*\[usage\]/],
    [
      "a file that is not there",
      ["correct", "nowhere.json"],
      /nowhere\.json: there is no such file or folder \[unreadable-file\]/,
    ],
  ])("%s", async (_, args, message) => {
    const { code, out, error } = await masstone(args);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(error).toMatch(message);
  });

  it("tells nearly right words in a file too", async () => {
    const spoilt = async (change: (job: Record<string, unknown>) => void) => {
      const job = JSON.parse(readFileSync(example, "utf8"));
      change(job);
      return (await masstone(["correct", example], { [example]: JSON.stringify(job) })).error;
    };
    expect(await spoilt((job) => Object.assign(job, { limits: { maxPour: 3 } }))).toMatch(
      /Did you mean "maxPours"\?/,
    );
    expect(await spoilt((job) => Object.assign(job, { pot: { whit: 3 } }))).toMatch(/Did you mean "white"\?/);
    expect(
      await spoilt((job) =>
        Object.assign(job, { viewing: { observer: "1964-10", illuminants: [{ name: "d65" }] } }),
      ),
    ).toMatch(/Did you mean "D65"\?/);
  });

  it("says in words why a file cannot be read or written", async () => {
    const folder = fileURLToPath(new URL(".", import.meta.url));
    expect((await masstone(["correct", folder])).error).toContain("this is a folder, not a file");
  });

  it("names the verb that takes a file of another kind, a record too", async () => {
    const plan = example.replace("job.json", "plan.json");
    const toCorrect = await masstone(["correct", plan]);
    expect(toCorrect.code).toBe(2);
    expect(toCorrect.error).toMatch(
      /\[wrong-format\]\nThis is a masstone\/plan: masstone hold-back takes it, and record and next with --plan\.\n$/,
    );
    for (const file of [plan, example])
      expect((await masstone(["record", file])).error).toMatch(/take it|takes it/);
    const table = example.replace("horsebox/job.json", "script/readings.csv");
    expect((await masstone(["record", table])).error).toMatch(/wrong-format.*--card FILE/s);
  });

  it("names the file and the place in it, the toner file's own when the fault is there", async () => {
    const inJob = await masstone(["correct", "job.json"], {
      "job.json": '{"format":"masstone/job","version":9}',
    });
    expect(inJob.error).toMatch(
      /^masstone: job\.json: version: .*\[wrong-version\]\n.*masstone --version\.\n$/,
    );
    const toners = example.replace("job.json", "toners.json");
    const inToners = await masstone(["correct", example], {
      [toners]: '{"format":"masstone/toners","version":1}',
    });
    expect(inToners.error).toMatch(/^masstone: .*toners\.json: grid: .*\[missing\]\n.*schemas\/toners\.json/);
  });
});

describe("help and version", () => {
  it("are answers", async () => {
    expect(await masstone(["--help"])).toMatchObject({ code: 0, error: "" });
    expect((await masstone(["--help"])).out).toMatch(/^ {2}masstone correct FILE {3,}/m);
    expect((await masstone(["--version"])).out).toBe(`${packageJson.version}\n`);
  });
});

describe("a defect", () => {
  it("is not blamed on the input and exits with 1", async () => {
    const broken: Terminal = {
      readFile: () => "",
      willWrite: () => {},
      writeFile: () => {},
      readLines: () => [],
      isRead: () => true,
      isWatched: false,
      isStyled: false,
      write: () => {
        throw new TypeError("broken pipe of our own");
      },
      writeError: () => {},
      readRecord: readRecordTexts,
      appendToRecord,
      program: "masstone",
      now: () => "",
    };
    expect(await run(["--help"], broken)).toBe(1);
  });
});
