import type { CharacterisationJob } from "../../src/characterisation/job.js";
import type { Sample } from "../../src/characterisation/sample.js";
import type { Grid } from "../../src/spectra/grid.js";
import { arithmetic, kubelkaFilm } from "../oracles/kubelka.js";

/*
 * Films of invented toners, made by the textbook's own formulas (Kubelka 1948 in hyperbolic functions, Saunderson
 * 1942), written a second time: nothing of the code under test makes the data it is tested on. Such tests check
 * arithmetic and statistics, not whether paint obeys the formulas.
 */

export const GRID: Grid = { start: 500, step: 20, count: 5 };
export const GEOMETRY = "d:8 specular included";
export const K1 = 0.04;
export const K2 = 0.6;

/** K and S by band, per unit of thickness. */
export interface Paint {
  readonly k: readonly number[];
  readonly s: readonly number[];
}

export const PAINTS: Readonly<Record<string, Paint>> = {
  white: { k: [0.03, 0.02, 0.01, 0.005, 0.003], s: [6, 5.8, 5.6, 5.4, 5.2] },
  red: { k: [4, 3, 1.2, 0.3, 0.1], s: [0.8, 0.9, 1.1, 1.3, 1.4] },
  blue: { k: [0.3, 0.8, 2, 3, 3.4], s: [0.5, 0.5, 0.4, 0.4, 0.4] },
};

export interface Drawdown {
  readonly recipe: Readonly<Record<string, number>>;
  readonly thickness: number;
  /** Measured reflectances of bare backings; "opaque" for a film so thick that none shows. */
  readonly backings: readonly number[] | "opaque";
}

const inside = (measured: number) => (measured - K1) / ((1 - K1) * (1 - K2) + K2 * (measured - K1));
const outside = (internal: number) => K1 + ((1 - K1) * (1 - K2) * internal) / (1 - K2 * internal);

type Film = (k: number, s: number, thickness: number, backing: number) => number;

/** R = [1 − Rg(a − b·coth bSX)]/[a + b·coth bSX − Rg] in doubles: good to about 1e−13 for the paints here. */
export const doubleFilm: Film = (k, s, thickness, backing) => {
  const a = 1 + k / s;
  const b = Math.sqrt(a * a - 1);
  const bCoth = b / Math.tanh(b * s * thickness);
  return (1 - backing * (a - bCoth)) / (a + bCoth - backing);
};

/** The same to 40 digits. */
export const preciseFilm: Film = (k, s, thickness, backing) =>
  kubelkaFilm(arithmetic(40), k, s, thickness, backing).r.toNumber();

/** The readings of a drawdown; `noise` is added to every reflectance. */
export function drawDown(
  name: string,
  { recipe, thickness, backings }: Drawdown,
  film: Film = preciseFilm,
  noise: () => number = () => 0,
): Sample {
  const total = Object.values(recipe).reduce((sum, mass) => sum + mass, 0);
  const mixed = (what: keyof Paint, band: number) =>
    Object.entries(recipe).reduce((sum, [id, mass]) => sum + (mass / total) * PAINTS[id][what][band], 0);
  const reading = (backing: number, depth: number) =>
    Array.from({ length: GRID.count }, (_, band) => {
      const internal = film(mixed("k", band), mixed("s", band), depth, inside(backing));
      return outside(internal) + noise();
    });
  const common = { geometry: GEOMETRY, grid: GRID } as const;
  const readings =
    backings === "opaque"
      ? [{ ...common, reflectance: reading(0.5, 100) }]
      : backings.map((backing) => ({
          ...common,
          reflectance: reading(backing, thickness),
          backing: new Array<number>(GRID.count).fill(backing),
        }));
  return { name, recipe, readings };
}

export function jobOf(
  samples: readonly Sample[],
  more: Partial<CharacterisationJob> = {},
): CharacterisationJob {
  const used = Object.keys(PAINTS).filter((id) => samples.some(({ recipe }) => id in recipe));
  return {
    grid: GRID,
    surfaces: [{ geometry: GEOMETRY, k1: K1, k2: K2 }],
    toners: used.map((id) => ({ id })),
    samples,
    reference: "white",
    ...more,
  };
}

/** Options for readings whose only error is rounding. */
export const EXACT = { reflectanceSd: { floor: 1e-7, relative: 0 } } as const;
