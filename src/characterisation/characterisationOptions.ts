import {
  checkInteger,
  checkKeys,
  checkList,
  checkNumber,
  checkOneOf,
  checkRecord,
  pathTo,
} from "../core/check.js";

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

/** Fills in the defaults; unknown keys and numbers out of range are refused. */
export function checkOptions(value: unknown, path: string): Required<CharacterisationOptions> {
  if (value === undefined) return CHARACTERISATION_DEFAULTS;
  const record = checkRecord(value, path);
  checkKeys(record, path, Object.keys(CHARACTERISATION_DEFAULTS));
  const given = { ...CHARACTERISATION_DEFAULTS, ...record };
  const number = (key: string, min: number) =>
    checkNumber(Reflect.get(given, key), pathTo(path, key), { min });
  const pair = <A extends string, B extends string>(key: string, first: A, second: B) => {
    const place = pathTo(path, key);
    const both = checkRecord(Reflect.get(given, key), place);
    checkKeys(both, place, [first, second]);
    const part = (name: string) => checkNumber(both[name], pathTo(place, name), { min: 0 });
    return { [first]: part(first), [second]: part(second) } as Record<A | B, number>;
  };
  const reflectanceSd = pair("reflectanceSd", "floor", "relative");
  checkNumber(reflectanceSd.floor, `${path}.reflectanceSd.floor`, { min: 0, aboveMin: true });
  const fitSurface = checkList(given.fitSurface, pathTo(path, "fitSurface"), { max: 3 });
  return {
    reflectanceSd,
    thicknessSd: checkNumber(given.thicknessSd, pathTo(path, "thicknessSd"), { min: 0, aboveMin: true }),
    measuredThicknessSd: number("measuredThicknessSd", 0),
    weighingSd: pair("weighingSd", "absolute", "relative"),
    densitySd: number("densitySd", 0),
    fitSurface: Array.from(fitSurface, (what, i) =>
      checkOneOf(what, `${path}.fitSurface[${i}]`, SURFACE_CONSTANTS),
    ),
    smoothness: pair("smoothness", "k", "s"),
    refine: checkOneOf(given.refine, pathTo(path, "refine"), ["joint", "none"]),
    leaveOneOut: checkOneOf(given.leaveOneOut, pathTo(path, "leaveOneOut"), ["none", "each sample"]),
    maxIterations: checkInteger(given.maxIterations, pathTo(path, "maxIterations"), { min: 1, max: 10000 }),
  };
}
