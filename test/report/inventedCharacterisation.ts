import type {
  Characterisation,
  SampleQuality,
  TonerQuality,
} from "../../src/characterisation/characterisation.js";
import type { Sample } from "../../src/characterisation/sample.js";
import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import { labFromXyz } from "../../src/colorimetry/lab.js";
import { tristimulusWeights } from "../../src/colorimetry/weights.js";
import { xyzFromReflectance } from "../../src/colorimetry/xyz.js";
import { createRandom } from "../../src/numeric/probability/random.js";
import { predict } from "../../src/prediction/predict.js";
import type { TonerSet } from "../../src/toners/tonerSet.js";
import { horseboxToners } from "../fixtures/horsebox.js";

const geometry = "d:8 specular excluded";

export const toners: TonerSet = (() => {
  const set = horseboxToners();
  const used = ["white", "black", "yellow", "red-oxide", "blue"];
  return { ...set, toners: set.toners.filter(({ id }) => used.includes(id)) };
})();

const predictedFrom = (recipe: Sample["recipe"]): readonly number[] => {
  const viewing = { observer: "1964-10", illuminants: [{ name: "D65", weight: 1 }] } as const;
  return Array.from(predict({ toners, viewing, pot: recipe }).readings[0].reflectance);
};

/** Samples made by the model from the example's toners, with invented noise: pictures to look at, not evidence. */
export const samples: readonly Sample[] = (() => {
  const random = createRandom(7);
  const steps = [0.005, 0.02, 0.05, 0.15, 0.4, 0.8];
  return toners.toners
    .filter(({ id }) => id !== "white")
    .flatMap(({ id, name }) =>
      [...steps, 1].map((share): Sample => {
        const recipe = share === 1 ? { [id]: 1 } : { [id]: share, white: 1 - share };
        const reflectance = predictedFrom(recipe).map((value) =>
          Math.max(0, value + 0.002 * random.normal() + 0.01 * value * random.normal()),
        );
        return {
          name: share === 1 ? `${name} masstone` : `${name} ${100 * share} %`,
          recipe,
          readings: [{ geometry, grid: toners.grid, reflectance }],
        };
      }),
    );
})();

const labOf = (reflectance: ArrayLike<number>) => {
  const weights = tristimulusWeights({ grid: toners.grid, illuminant: "D65", observer: "1964-10" });
  return labFromXyz(xyzFromReflectance(reflectance, weights), weights.white);
};

const sampleQuality = (sample: Sample, i: number): SampleQuality => {
  const predicted = predictedFrom(sample.recipe);
  const measured = Array.from(sample.readings[0].reflectance);
  const darker = measured.map((value) => 0.92 * value);
  const deltaE00 = ciede2000(labOf(predicted), labOf(measured));
  return {
    name: sample.name,
    readings: [
      { geometry, backing: "white", measured, predicted, deltaE00, deltaE00LeftOut: 1.3 * deltaE00 },
      {
        geometry,
        backing: "black",
        measured: darker,
        predicted: predicted.map((value) => 0.925 * value),
        deltaE00: 0.8 * deltaE00,
        deltaE00LeftOut: deltaE00,
      },
    ],
    ...(i % 5 === 0 && { thickness: { value: 1 + 0.02 * i, sdOfLog: 0.03 } }),
    ...(i === 9 && { outlier: "lies 4.1 standard deviations off; was it stirred?" }),
  };
};

const tonerQuality = (id: string, j: number): TonerQuality => {
  const nm = Array.from({ length: toners.grid.count }, (_, i) => toners.grid.start + i * toners.grid.step);
  const dark = nm.filter((value) => value < 440);
  const hidden = nm.filter((value) => value > 600 && value < 660);
  return {
    id,
    geometry,
    sdOfLogK: nm.map((value) => 0.04 + 0.2 * Math.exp(-((value - 560) ** 2) / 5000) * (j / 4)),
    sdOfLogS: nm.map((value) =>
      j === 2 && dark.includes(value) ? Number.POSITIVE_INFINITY : 0.06 + 0.02 * j,
    ),
    notIdentifiable: [
      ...(j === 2 ? [{ what: "s", wavelengths: dark, reason: "too dark" } as const] : []),
      ...(j === 4 ? [{ what: "k", wavelengths: hidden, reason: "hides fully" } as const] : []),
      ...(j === 1 ? [{ what: "s", wavelengths: nm, reason: "does not scatter" } as const] : []),
    ],
  };
};

export const characterisation: Characterisation = {
  format: "masstone/characterisation",
  version: 1,
  method: "joint",
  basis: "relative",
  toners,
  quality: toners.toners.map(({ id }, j) => tonerQuality(id, j)),
  samples: samples.map(sampleQuality),
  rank: 309,
  unknowns: 310,
  condition: 12345.678,
  stopReason: "small-step",
  iterations: 14,
  noiseScale: 1.4,
  surfaceEstimates: [{ geometry, what: "k2", value: 0.6123, sd: 0.004, identifiable: true }],
  densities: { black: { value: 1.05, sdOfLog: 0.02 } },
  nextMeasurements: [
    { recipe: { black: 5, white: 95 }, backing: "black and white", shrinksTo: 0.62 },
    { recipe: { blue: 1, white: 1 }, backing: "opaque", shrinksTo: 0.88 },
  ],
  warnings: [
    {
      code: "censored-bands",
      message: "Two bands lie below the surface's own reflection.",
      path: "samples[6]",
    },
  ],
};
