import { list } from "../core/shape/list.js";
import { number } from "../core/shape/number.js";
import { oneOf } from "../core/shape/oneOf.js";
import { record } from "../core/shape/record.js";
import { withDefaults } from "../core/shape/withDefaults.js";

/** How well things were measured and what else may be fitted; standard deviations unless said otherwise. */
export interface CharacterisationOptions {
  /** Of a reflectance R: √(floor² + (relative·R)²). Scaled by the residuals where there are enough of them. */
  readonly reflectanceSd?: { readonly floor: number; readonly relative: number };
  /** Of ln thickness among films whose thickness was not measured. */
  readonly thicknessSd?: number;
  /** Of ln thickness where it was measured; 0 takes it as exact. */
  readonly measuredThicknessSd?: number;
  /** Of a weighed mass m: √(absolute² + (relative·m)²), absolute in the unit of the recipe; both 0 takes it as exact. */
  readonly weighingSd?: { readonly absolute: number; readonly relative: number };
  /** Of ln density of a toner against the reference; 0 takes shares of mass for shares of volume. */
  readonly densitySd?: number;
  /** Constants of every surface that are fitted along; what is given is the start and a weak prior. */
  readonly fitSurface?: readonly SurfaceConstant[];
  /** 1 ÷ the sd of the step of ln K and of ln S over 10 nm, as a random walk; 0 leaves every band to itself. */
  readonly smoothness?: { readonly k: number; readonly s: number };
  /** "none" stops after the linear stage. */
  readonly refine?: "joint" | "none";
  /** "each sample" fits again without every sample in turn, and hands the misfit on with the toners. */
  readonly leaveOneOut?: "none" | "each sample";
  readonly maxIterations?: number;
}

/** Constants of a surface that may be fitted along. */
export const SURFACE_CONSTANTS = ["k1", "k2", "specularRest"] as const;
/** One of `SURFACE_CONSTANTS`. */
export type SurfaceConstant = (typeof SURFACE_CONSTANTS)[number];

/** Design values, for readings of a portable instrument and films drawn down by hand. */
export const CHARACTERISATION_DEFAULTS: Required<CharacterisationOptions> = Object.freeze({
  reflectanceSd: { floor: 0.002, relative: 0.01 },
  thicknessSd: 0.3,
  measuredThicknessSd: 0,
  weighingSd: { absolute: 0, relative: 0 },
  densitySd: 0,
  fitSurface: [],
  smoothness: { k: 0.3, s: 3 },
  refine: "joint",
  leaveOneOut: "none",
  maxIterations: 100,
});

const NOT_NEGATIVE = number({ min: 0 });
const POSITIVE = number({ min: 0, aboveMin: true });

/** What is left out keeps its default. */
export const CHARACTERISATION_OPTIONS = withDefaults<Required<CharacterisationOptions>>(
  CHARACTERISATION_DEFAULTS,
  {
    reflectanceSd: record<Required<CharacterisationOptions>["reflectanceSd"]>({
      floor: POSITIVE,
      relative: NOT_NEGATIVE,
    }),
    thicknessSd: POSITIVE,
    measuredThicknessSd: NOT_NEGATIVE,
    weighingSd: record<Required<CharacterisationOptions>["weighingSd"]>({
      absolute: NOT_NEGATIVE,
      relative: NOT_NEGATIVE,
    }),
    densitySd: NOT_NEGATIVE,
    fitSurface: list(oneOf(SURFACE_CONSTANTS), { max: 3 }),
    smoothness: record<Required<CharacterisationOptions>["smoothness"]>({ k: NOT_NEGATIVE, s: NOT_NEGATIVE }),
    refine: oneOf(["joint", "none"]),
    leaveOneOut: oneOf(["none", "each sample"]),
    maxIterations: number({ min: 1, max: 10_000, whole: true }),
  },
);
