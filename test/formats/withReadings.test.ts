import Ajv from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import jobSchema from "../../docs/schemas/job.json";
import { readJob, readMix, readMixOnCard } from "../../src/formats/jobFile.js";
import { writeReadingsCsv } from "../../src/formats/readingsCsv.js";
import { horseboxJob, horseboxJson, horseboxToners } from "../fixtures/horsebox.js";
import { refusal } from "../support/refusal.js";

const whole = horseboxJob();
const named = [{ name: "card", readings: whole.card.readings }, ...whole.targets];
const csv = writeReadingsCsv(
  named.flatMap(({ name, readings }) => readings.map((reading) => ({ name, reading }))),
);
type Json = Record<string, unknown>;
const { targets, ...json } = horseboxJson();
const short: Json = {
  ...json,
  files: [{ name: "readings.csv" }],
  card: {},
  targets: (targets as Json[]).map(({ readings: _, ...target }) => target),
};
const read = (job: Json, text = csv) =>
  readJob(JSON.stringify(job), horseboxToners, (name) => (name === "readings.csv" ? text : ""));

describe("a job whose readings stand in files", () => {
  it("is the same job as one that holds them", () => {
    expect(JSON.stringify(read(short))).toBe(JSON.stringify(whole));
    const onCard = readMixOnCard(JSON.stringify(short), horseboxToners, () => csv);
    expect(JSON.stringify(onCard.card)).toBe(JSON.stringify(whole.card));
    expect(readMix(JSON.stringify(short), horseboxToners).pot).toEqual(whole.pot);
  });

  it("may name its card, and keeps readings that it has itself", () => {
    const own = whole.targets[0].readings;
    const job = read({
      ...short,
      card: { name: "near-side door" },
      targets: [{ name: "gate", readings: own }],
    });
    expect(JSON.stringify(job.card?.readings)).toBe(JSON.stringify(own));
    expect(JSON.stringify(job.targets[0].readings)).toBe(JSON.stringify(own));
  });

  it("fits the schema, which without files wants the readings themselves", () => {
    const fits = new Ajv({ strict: true, allowUnionTypes: true }).compile(jobSchema);
    expect(fits(short), JSON.stringify(fits.errors)).toBe(true);
    expect(fits({ ...short, files: undefined })).toBe(false);
  });

  it.each([
    ["a target that is in none", { targets: [{ name: "roof" }] }, csv, "missing", "targets[0].readings"],
    ["a card that is in none", { card: { name: "card 7" } }, csv, "missing", "card.readings"],
    ["a target without a name", { targets: [{}] }, csv, "missing", "targets[0].name"],
    ["targets that are no list", { targets: "all" }, csv, "wrong-type", "targets"],
    [
      "a key it does not know",
      { files: [{ name: "readings.csv", unit: "%" }] },
      csv,
      "unknown-key",
      "files[0].unit",
    ],
  ])("refuses %s, with the place", (_, change, text, code, path) => {
    expect(refusal(() => read({ ...short, ...change }, text))).toEqual({ code, path });
  });

  it("tells what the file does not say with the file's name, and guesses nothing", () => {
    const bare = csv.replace(/^(.*)$/gm, (line) => line.split(",").slice(0, 1).join());
    expect(refusal(() => read(short, bare)).path).toMatch(/^readings\.csv/);
  });

  it("is refused where nothing brings the files", () => {
    expect(refusal(() => readJob(JSON.stringify(short), horseboxToners))).toEqual({
      code: "unreadable-file",
      path: "files",
    });
  });
});
