import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Grid } from "../../src/spectra/grid.js";
import type { TonerSet } from "../../src/toners/tonerSet.js";

/** A measured hand-made oil paint: reflectance of its film over black and over white, and what was weighed in. */
export interface Film {
  readonly sample: string;
  readonly paint: string;
  readonly grid: Grid;
  readonly overBlack: readonly number[];
  readonly overWhite: readonly number[];
}

/** Ten acrylic paints as toners, and the measured films. Neither is part of the package. */
export interface OpenData {
  readonly toners: TonerSet;
  readonly films: readonly Film[];
}

export const FOLDER_VARIABLE = "MASSTONE_OPEN_DATA";

const FILES = {
  k: "artist-paint-ks/k.csv",
  s: "artist-paint-ks/s.csv",
  mixtures: "revigo/mixtures.csv",
  spectra: "revigo/spectra.csv",
} as const;

/** Why the data cannot be read, or nothing when they can. */
export function whatIsMissing(folder: string | undefined): string | undefined {
  if (!folder) return `${FOLDER_VARIABLE} does not name a folder with the open data`;
  const absent = Object.values(FILES).filter((file) => !existsSync(join(folder, file)));
  return absent.length > 0 ? `${FOLDER_VARIABLE} names a folder without ${absent.join(", ")}` : undefined;
}

export function readOpenData(folder: string): OpenData {
  const table = (file: keyof typeof FILES) =>
    readFileSync(join(folder, FILES[file]), "utf8")
      .trim()
      .split(/\r?\n/)
      .map((line) => line.split(","));
  return {
    toners: tonersFrom(table("k"), table("s")),
    films: filmsFrom(table("spectra"), table("mixtures")),
  };
}

/** One column per paint; k1 and k2 are those that the K and S were fitted with, specular read as excluded. */
function tonersFrom([header, ...k]: string[][], [, ...s]: string[][]): TonerSet {
  const geometry = "d:8 specular excluded";
  const spectrum = (rows: readonly string[][], column: number) => ({
    [geometry]: rows.map((row) => Number(row[column])),
  });
  return {
    grid: gridOf(k.map(([nm]) => Number(nm))),
    surfaces: [{ geometry, k1: 0.03, k2: 0.65 }],
    toners: header.slice(1).map((id, i) => ({ id, k: spectrum(k, i + 1), s: spectrum(s, i + 1) })),
  };
}

/** Rows of four readings a sample, in per cent; samples without the film readings are left out. */
function filmsFrom([header, ...spectra]: string[][], [, ...mixtures]: string[][]): readonly Film[] {
  const grid = gridOf(header.slice(2).map(Number));
  const reading = (sample: string, name: string) =>
    spectra
      .find((row) => row[0] === sample && row[1] === name)
      ?.slice(2)
      .map((text) => Number(text) / 100);
  const weighedIn = (sample: string) =>
    mixtures
      .filter((row) => row[0] === sample && Number(row[2]) > 0)
      .map(([, component, percent]) => `${component} ${percent}`)
      .join(", ");
  return [...new Set(spectra.map(([sample]) => sample))].flatMap((sample) => {
    const overBlack = reading(sample, "film over black");
    const overWhite = reading(sample, "film over white");
    return overBlack && overWhite ? [{ sample, paint: weighedIn(sample), grid, overBlack, overWhite }] : [];
  });
}

function gridOf(nm: readonly number[]): Grid {
  return { start: nm[0], step: nm[1] - nm[0], count: nm.length };
}
