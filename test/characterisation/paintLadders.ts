import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Characterisation } from "../../src/characterisation/characterisation.js";
import type { CharacterisationOptions } from "../../src/characterisation/characterisationOptions.js";
import type { CharacterisationJob } from "../../src/characterisation/job.js";
import type { Sample } from "../../src/characterisation/sample.js";
import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import { labFromXyz } from "../../src/colorimetry/lab.js";
import { tristimulusWeights } from "../../src/colorimetry/weights.js";
import { xyzFromReflectance } from "../../src/colorimetry/xyz.js";
import { film, overBacking } from "../../src/optics/film.js";
import { internalReflectance, measuredReflectance, surfaceTerms } from "../../src/surface/saunderson.js";
import type { Surface } from "../../src/surface/surface.js";

/*
 * The ladders of hand-made oil paints of Geldof et al. 2018 (not part of the package) as a job of `characterise`,
 * and ways to predict films that were left out of it.
 */

export const GEOMETRY = "d:8 specular excluded";
const FILES = ["revigo/mixtures.csv", "revigo/spectra.csv"] as const;

export function whatIsMissing(folder: string | undefined): string | undefined {
  if (!folder) return "MASSTONE_OPEN_DATA does not name a folder with the open data";
  const absent = FILES.filter((file) => !existsSync(join(folder, file)));
  return absent.length > 0 ? `MASSTONE_OPEN_DATA names a folder without ${absent.join(", ")}` : undefined;
}

/** All films with their four readings but those of the fluorescent series 01–03. */
export function readLadders(folder: string): readonly Sample[] {
  const [[, ...mixtures], [header, ...spectra]] = FILES.map((file) =>
    readFileSync(join(folder, file), "utf8")
      .trim()
      .split(/\r?\n/)
      .map((line) => line.split(",")),
  );
  const nm = header.slice(2).map(Number);
  const grid = { start: nm[0], step: nm[1] - nm[0], count: nm.length };
  return [...new Set(spectra.map(([name]) => name))].flatMap((name): readonly Sample[] => {
    if (/^0[123]/.test(name)) return [];
    const read = (what: string) =>
      spectra
        .find((row) => row[0] === name && row[1] === what)
        ?.slice(2)
        .map((text) => Number(text) / 100);
    const readings = ["black", "white"].flatMap((backingName) => {
      const reflectance = read(`film over ${backingName}`);
      const backing = read(`bare ${backingName}`);
      return reflectance && backing
        ? [{ geometry: GEOMETRY, grid, reflectance, backing, backingName } as const]
        : [];
    });
    const held = mixtures.filter((row) => row[0] === name && Number(row[2]) > 0);
    const recipe = Object.fromEntries(held.map(([, id, percent]) => [id, Number(percent)]));
    return readings.length === 2 ? [{ name, recipe, readings }] : [];
  });
}

/** Levels of the ladders that are left out as a whole. */
export const LEVELS = {
  "50 % tints in white": (name: string) => /^(0[4569]|1[01234])C$/.test(name),
  "black in colour": (name: string) => /^(0[4569]|1[01245])[DE]$/.test(name),
} as const;

export const SURFACE: Surface = { geometry: GEOMETRY, k1: 0.04, k2: 0.6, specularRest: 0.5 };

/**
 * Percentages are given to 0.1; how evenly the films were drawn and the paints stirred is not said, so the other
 * numbers are guesses. K and S of these paints were fitted with several of them before these were kept.
 */
export const OPTIONS: CharacterisationOptions = {
  reflectanceSd: { floor: 0.005, relative: 0.03 },
  thicknessSd: 0.2,
  densitySd: 0.5,
  weighingSd: { absolute: 0.05, relative: 0.02 },
  fitSurface: ["k2", "specularRest"],
  smoothness: { k: 0.3, s: 10 },
};

export function jobFrom(
  samples: readonly Sample[],
  surface: Surface,
  options: CharacterisationOptions,
): CharacterisationJob {
  const ids = [...new Set(samples.flatMap(({ recipe }) => Object.keys(recipe)))];
  return {
    grid: samples[0].readings[0].grid,
    surfaces: [surface],
    toners: ids.map((id) => ({ id })),
    reference: "ZincWhite",
    samples,
    options,
  };
}

/** ΔE00 (D65, 10°) of a film that was not in the fit. */
export interface Prediction {
  readonly sample: string;
  readonly overBlack: number;
  readonly overWhite: number;
}

/**
 * Σ over the 31 bands of a reading against (ln thickness)²: sd 0.01 of reflectance, all bands taken as one observation
 * since a wrong colour is wrong at all of them, against sd 0.2 of ln thickness.
 */
const THICKNESS_WEIGHT = (31 * 0.01 ** 2) / 0.2 ** 2;

/**
 * A film predicted from its recipe alone: as thick as the mean film, or of the thickness that fits its reading over
 * black best, so that the reading over white is what is judged.
 */
export function predictFilm(
  found: Characterisation,
  sample: Sample,
  thickness: "mean" | "from the reading over black",
): Prediction {
  const [black, white] = sample.readings;
  const at = (x: number, { backing = [] }: Sample["readings"][number]) => filmOver(found, sample, x, backing);
  const lnX =
    thickness === "mean"
      ? 0
      : minimise((x) => squares(at(x, black), black.reflectance) + x * x * THICKNESS_WEIGHT, -2.5, 2.5);
  const difference = colourDifference(found);
  return {
    sample: sample.name,
    overBlack: difference(black.reflectance, at(lnX, black)),
    overWhite: difference(white.reflectance, at(lnX, white)),
  };
}

function filmOver(
  { toners, densities = {} }: Characterisation,
  { recipe }: Sample,
  lnThickness: number,
  backing: ArrayLike<number>,
): Float64Array {
  const total = Object.values(recipe).reduce((sum, mass) => sum + mass, 0);
  const shares = Object.entries(recipe).map(([id, mass]) => [id, mass / total] as const);
  const volume = shares.reduce((sum, [id, share]) => sum + share / (densities[id]?.value ?? 1), 0);
  const terms = surfaceTerms(toners.surfaces[0]);
  const mixed = (what: "k" | "s", band: number) =>
    shares.reduce((sum, [id, share]) => {
      const toner = toners.toners.find((candidate) => candidate.id === id);
      return sum + share * (toner?.[what][GEOMETRY]?.[band] ?? Number.NaN);
    }, 0);
  return Float64Array.from({ length: toners.grid.count }, (_, band) => {
    const layer = film(mixed("k", band), mixed("s", band), Math.exp(lnThickness) / volume);
    const under = Math.min(1, Math.max(0, internalReflectance(backing[band], terms)));
    return measuredReflectance(overBacking(layer, under), terms);
  });
}

/** ΔE00 under D65 for the 10° observer. */
export function colourDifference({ toners }: Pick<Characterisation, "toners">) {
  const weights = tristimulusWeights({ grid: toners.grid, illuminant: "D65", observer: "1964-10" });
  const lab = (reflectance: ArrayLike<number>) =>
    labFromXyz(xyzFromReflectance(reflectance, weights), weights.white);
  return (a: ArrayLike<number>, b: ArrayLike<number>) => ciede2000(lab(a), lab(b));
}

function squares(a: ArrayLike<number>, b: ArrayLike<number>): number {
  return Array.from(a, (value, i) => (value - b[i]) ** 2).reduce((sum, square) => sum + square, 0);
}

/** The best of a fine comb, then golden section around it. */
function minimise(f: (x: number) => number, low: number, high: number): number {
  const teeth = Array.from({ length: 51 }, (_, i) => low + ((high - low) * i) / 50);
  const best = teeth.reduce((a, b) => (f(b) < f(a) ? b : a));
  let [a, b] = [best - (high - low) / 50, best + (high - low) / 50];
  for (let i = 0; i < 40; i++) {
    const [c, d] = [a + 0.382 * (b - a), a + 0.618 * (b - a)];
    if (f(c) < f(d)) b = d;
    else a = c;
  }
  return (a + b) / 2;
}
