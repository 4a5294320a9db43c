import { describe, expect, it } from "vitest";
import { absorptionRatio, reflectivity } from "../../src/optics/infiniteFilm.js";
import { measuredReflectance, surfaceTerms } from "../../src/surface/saunderson.js";
import { mix, packCoefficients } from "../../src/toners/coefficients.js";
import type { TonerSet } from "../../src/toners/tonerSet.js";
import {
  MIXTURES_K,
  MIXTURES_MASSTONES,
  MIXTURES_OF_ONE_CONSTANT,
  MIXTURES_OF_TWO_CONSTANTS,
  MIXTURES_S,
  MIXTURES_SURFACE,
  MIXTURES_UNDER_A_SURFACE,
} from "../../src/verification/data/mixtures.js";
import { relativeDifference } from "../support/relativeDifference.js";

const GEOMETRY = "d:8 specular excluded";
const SURFACE = { geometry: GEOMETRY, ...MIXTURES_SURFACE } as const;

type Paints = readonly (readonly number[])[];

/** K and S of the mixture, straight through the toner layer. */
function mixture(ks: Paints, ss: Paints, grams: readonly number[]) {
  const set: TonerSet = {
    grid: { start: 400, step: 50, count: 5 },
    surfaces: [SURFACE],
    toners: ks.map((k, j) => ({ id: `${j}`, k: { [GEOMETRY]: k }, s: { [GEOMETRY]: ss[j] } })),
  };
  const [k, s] = [new Float64Array(5), new Float64Array(5)];
  mix(packCoefficients(set, [GEOMETRY]), grams, k, s);
  return { k, s };
}

const reflectivities = ({ k, s }: ReturnType<typeof mixture>) =>
  Array.from(k, (kb, b) => reflectivity(kb, s[b]));

function expectAll(actual: readonly number[], expected: readonly number[]): void {
  expect(actual).toHaveLength(expected.length);
  for (let b = 0; b < actual.length; b++) {
    expect(relativeDifference(actual[b], expected[b])).toBeLessThan(1e-12);
  }
}

describe("mixture of two constants: published (seen: tests of the Unicolour library, 15 decimals)", () => {
  it.each(MIXTURES_OF_TWO_CONSTANTS)("%o g", (grams, expected) => {
    expectAll(reflectivities(mixture(MIXTURES_K, MIXTURES_S, grams)), expected);
  });
});

describe("the same seen through a surface of k1 0.033, k2 0.66, specular excluded: published (seen: same)", () => {
  it.each(MIXTURES_UNDER_A_SURFACE)("%o g", (grams, expected) => {
    const terms = surfaceTerms(SURFACE);
    const seen = reflectivities(mixture(MIXTURES_K, MIXTURES_S, grams)).map((r) =>
      measuredReflectance(r, terms),
    );
    expectAll(seen, expected);
  });
});

describe("mixture of one constant, S = 1 throughout: published (seen: same)", () => {
  const ratios = MIXTURES_MASSTONES.map((masstone) => masstone.map(absorptionRatio));
  const ones = MIXTURES_MASSTONES.map((masstone) => masstone.map(() => 1));

  it.each(MIXTURES_OF_ONE_CONSTANT)("%o g", (grams, expected) => {
    expectAll(reflectivities(mixture(ratios, ones, grams)), expected);
  });
});
