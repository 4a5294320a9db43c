// An invented library of formulas, the old batch of a toner and the new one. Formula n is the same in every process.
import { readFileSync } from "node:fs";
import { readToners } from "masstone/formats";

export const oldToners = readToners(
  readFileSync(new URL("../horsebox/toners.json", import.meta.url), "utf8"),
);

/** The new batch of green is stronger, and a little bluer. */
export const newToners = {
  ...oldToners,
  toners: oldToners.toners.map((toner) => (toner.id === "green" ? newBatch(toner) : toner)),
};

function newBatch(toner) {
  const change = (spectra, of) =>
    Object.fromEntries(
      Object.entries(spectra).map(([geometry, values]) => [
        geometry,
        Array.from(values, (value, band) => value * of(band)),
      ]),
    );
  return { ...toner, k: change(toner.k, (band) => 1.04 + 0.004 * band), s: change(toner.s, () => 1.05) };
}

/** Grams of formula `number`, all with some of the green: fractions of multiples of roots spread evenly. */
export function formula(number) {
  const part = (root) => ((number + 1) * Math.sqrt(root)) % 1;
  const grams = (most, root) => Math.round(10 * most * part(root)) / 10;
  return {
    white: 400 - grams(250, 2),
    green: 2 + grams(30, 3),
    yellow: grams(40, 5),
    ochre: grams(30, 7),
    "weak-black": 5 + grams(45, 11),
    clear: 60,
  };
}
