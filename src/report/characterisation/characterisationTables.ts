import type {
  Characterisation,
  NextMeasurement,
  SampleQuality,
  TonerQuality,
} from "../../characterisation/characterisation.js";
import { wavelengthsText } from "../../spectra/wavelengthRanges.js";
import { decimals } from "../words/decimals.js";
import type { Table } from "../words/table.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";
import { type DifferenceSummary, type FitSummary, fitSummary, nearestRank } from "./fitSummary.js";

/** Most pieces of advice. */
const MOST_NEXT = 5;

/** All tables of a characterisation. */
export interface CharacterisationTables {
  /** Median, 90th percentile and largest colour difference of the samples, in the fit and left out of it. */
  readonly differences: Table;
  /** One row per toner and geometry: how well K and S are known, and where they are not. */
  readonly toners: Table;
  /** One row per sample, the worst first. */
  readonly samples: Table;
  /** One row per number that the fit found besides K and S: constants of surfaces, densities. */
  readonly shared: Table;
  /** A few drawdowns worth making, the most telling first. */
  readonly next: Table;
}

/** The tables of a characterisation; an id stands for itself where there is no name. */
export function characterisationTables(
  characterisation: Characterisation,
  names: TonerNames,
): CharacterisationTables {
  const summary = fitSummary(characterisation.samples);
  return {
    differences: differencesTable(summary),
    toners: tonersTable(characterisation, names),
    samples: samplesTable(summary),
    shared: sharedTable(characterisation, names),
    next: nextTable(characterisation, names),
  };
}

function differencesTable({ fitted, leftOut }: FitSummary): Table {
  const row = (name: string, { median, p90, max }: DifferenceSummary) => [
    name,
    ...[median, p90, max].map((value) => decimals(value, 2)),
  ];
  return {
    head: ["samples", "median", "90 %", "largest"],
    rows: [row("in the fit", fitted), ...(leftOut ? [row("left out of it", leftOut)] : [])],
    right: [1, 2, 3],
  };
}

function tonersTable({ quality, toners }: Characterisation, names: TonerNames): Table {
  return {
    head: ["toner", "geometry", "sd of K", "sd of S", "cannot be told"],
    rows: quality.map((toner) => [
      tonerName(names, toner.id),
      toner.geometry,
      typicalSd(toner.sdOfLogK),
      typicalSd(toner.sdOfLogS),
      notIdentifiableText(toner, toners.grid.step),
    ]),
    right: [2, 3],
  };
}

function samplesTable({ samples }: FitSummary): Table {
  const leftOut = samples.some(({ deltaE00LeftOut }) => deltaE00LeftOut !== undefined);
  return {
    head: ["sample", "ΔE00", ...(leftOut ? ["left out"] : []), "film", "remark"],
    rows: samples.map(({ sample, deltaE00, deltaE00LeftOut = Number.NaN }) => [
      sample.name,
      decimals(deltaE00, 2),
      ...(leftOut ? [decimals(deltaE00LeftOut, 2)] : []),
      filmText(sample),
      sample.outlier ?? "",
    ]),
    right: leftOut ? [1, 2, 3] : [1, 2],
  };
}

function sharedTable({ surfaceEstimates = [], densities = {} }: Characterisation, names: TonerNames): Table {
  return {
    head: ["what", "value", "sd", "remark"],
    rows: [
      ...surfaceEstimates.map(({ what, geometry, value, sd, identifiable }) => [
        `${what} of the surface, ${geometry}`,
        decimals(value, 3),
        decimals(sd, 3),
        identifiable ? "" : "hardly more than was assumed",
      ]),
      ...Object.entries(densities).map(([id, { value, sdOfLog }]) => [
        `density of ${tonerName(names, id)} against the reference`,
        decimals(value, 3),
        decimals(value * sdOfLog, 3),
        "",
      ]),
    ],
    right: [1, 2],
  };
}

function nextTable({ nextMeasurements }: Characterisation, names: TonerNames): Table {
  return {
    head: ["no.", "drawdown", "over", "uncertainty falls to"],
    rows: nextMeasurements
      .slice(0, MOST_NEXT)
      .map((next, i) => [
        `${i + 1}`,
        recipeText(next, names),
        next.backing === "opaque" ? "anything, opaque" : next.backing,
        percent(next.shrinksTo),
      ]),
    right: [3],
  };
}

function recipeText({ recipe }: NextMeasurement, names: TonerNames): string {
  const parts = Object.entries(recipe).filter(([, mass]) => mass > 0);
  const total = parts.reduce((sum, [, mass]) => sum + mass, 0);
  return parts.map(([id, mass]) => `${percent(mass / total)} ${tonerName(names, id)}`).join(" + ");
}

/** The median over the bands of the sd of the logarithm, as a share of the value. */
function typicalSd(sdOfLog: readonly number[]): string {
  const known = sdOfLog.filter(Number.isFinite).length;
  if (2 * known < sdOfLog.length || known === 0) return "unknown";
  const median = nearestRank(sdOfLog, 0.5);
  return median > 1 ? "over 100 %" : percent(median);
}

function notIdentifiableText({ notIdentifiable }: TonerQuality, step: number): string {
  return notIdentifiable
    .filter(({ wavelengths }) => wavelengths.length > 0)
    .map(
      ({ what, wavelengths, reason }) =>
        `${what.toUpperCase()} at ${wavelengthsText(wavelengths, step)} (${reason})`,
    )
    .join("; ");
}

/** Film relative to the mean of the fit, or in µm: the value and its standard deviation. */
function filmText({ thickness }: SampleQuality): string {
  if (!thickness) return "";
  return `${decimals(thickness.value, 2)} ±${percent(thickness.sdOfLog)}`;
}

function percent(share: number): string {
  return `${decimals(100 * share, share < 0.1 ? 1 : 0).replace(/\.0$/, "")} %`;
}
