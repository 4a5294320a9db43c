import { absorptionRatio, reflectivity } from "../optics/infiniteFilm.js";
import { measuredReflectance, surfaceTerms } from "../surface/saunderson.js";
import { mix, packCoefficients } from "../toners/coefficients.js";
import type { CheckGroup } from "./check.js";
import {
  MIXTURES_K,
  MIXTURES_MASSTONES,
  MIXTURES_OF_ONE_CONSTANT,
  MIXTURES_OF_TWO_CONSTANTS,
  MIXTURES_S,
  MIXTURES_SURFACE,
  MIXTURES_UNDER_A_SURFACE,
} from "./data/mixtures.js";

const SOURCE = "tests of the Unicolour library, PigmentTests.cs, 15 decimals";
const GEOMETRY = "d:8 specular excluded";
const SURFACE = { geometry: GEOMETRY, ...MIXTURES_SURFACE } as const;

type Paints = readonly (readonly number[])[];
type Table = typeof MIXTURES_OF_TWO_CONSTANTS;

/** Mixtures by the sums of K and S (Duncan 1940), bare and under a surface, and by K/S alone. */
export function mixtureChecks(): readonly CheckGroup[] {
  const group = (
    title: string,
    table: Table,
    reflectances: (grams: readonly number[]) => readonly number[],
  ) => ({
    title,
    source: SOURCE,
    known: "seen" as const,
    checks: table.map(([grams, expected]) => ({
      name: `${grams.join(" : ")}`,
      measure: "relative" as const,
      allowed: 1e-12,
      figures: () => {
        const got = reflectances(grams);
        return expected.map((value, b) => ({ name: `band ${b + 1}`, expected: value, got: got[b] }));
      },
    })),
  });
  const bare = (grams: readonly number[]) => reflectivities(MIXTURES_K, MIXTURES_S, grams);
  const terms = surfaceTerms(SURFACE);
  const ratios = MIXTURES_MASSTONES.map((masstone) => masstone.map(absorptionRatio));
  const ones = MIXTURES_MASSTONES.map((masstone) => masstone.map(() => 1));
  return [
    group("Mixtures of three paints, two constants", MIXTURES_OF_TWO_CONSTANTS, bare),
    group(
      "The same through a surface, k1 0.033, k2 0.66, specular excluded",
      MIXTURES_UNDER_A_SURFACE,
      (grams) => bare(grams).map((r) => measuredReflectance(r, terms)),
    ),
    group("Mixtures of three masstones, one constant", MIXTURES_OF_ONE_CONSTANT, (grams) =>
      reflectivities(ratios, ones, grams),
    ),
  ];
}

/** Reflectivity of a mixture in its five bands, through the toner layer. */
function reflectivities(ks: Paints, ss: Paints, grams: readonly number[]): readonly number[] {
  const bands = ks[0].length;
  const set = {
    grid: { start: 400, step: 50, count: bands },
    surfaces: [SURFACE],
    toners: ks.map((k, j) => ({ id: `${j}`, k: { [GEOMETRY]: k }, s: { [GEOMETRY]: ss[j] } })),
  };
  const [k, s] = [new Float64Array(bands), new Float64Array(bands)];
  mix(packCoefficients(set, [GEOMETRY]), grams, k, s);
  return Array.from(k, (absorption, b) => reflectivity(absorption, s[b]));
}
