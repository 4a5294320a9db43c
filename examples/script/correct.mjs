// Readings as an instrument's program saves them (CSV, per cent) to the grams to pour.
// Run: node examples/script/correct.mjs
import { readFileSync } from "node:fs";
import { correct } from "masstone";
import { readReadingsCsv, readToners } from "masstone/formats";
import { correctionText } from "masstone/report";

const file = (path) => readFileSync(new URL(path, import.meta.url), "utf8");

// What a CSV of readings does not say must be said here: nothing is guessed.
const how = { geometry: "d:8 specular excluded", scale: "percent" };
const { readings } = readReadingsCsv(file("readings.csv"), how);
const read = (name) => readings.filter((one) => one.name === name).map(({ reading }) => reading);

const correction = correct({
  toners: readToners(file("../horsebox/toners.json")),
  viewing: { observer: "1964-10", illuminants: [{ name: "D65" }] },
  pot: { white: 180, ochre: 14, green: 9, "weak-black": 20, clear: 30 },
  card: { readings: read("card") },
  targets: [{ name: "near-side door", readings: read("near-side door") }],
});
console.log(correctionText(correction));
