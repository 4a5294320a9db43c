import type { SampleQuality } from "../../characterisation/characterisation.js";

/** Colour differences of many samples in a few numbers. */
export interface DifferenceSummary {
  readonly median: number;
  readonly p90: number;
  readonly max: number;
}

/** A sample by the worst of its readings. */
export interface JudgedSample {
  readonly sample: SampleQuality;
  readonly deltaE00: number;
  /** With the sample left out of the fit, where every reading has that. */
  readonly deltaE00LeftOut?: number;
}

export interface FitSummary {
  /** Worst first; samples without a finite difference last. */
  readonly samples: readonly JudgedSample[];
  /** Over the samples that have a finite difference; NaN where none has. */
  readonly fitted: DifferenceSummary;
  readonly leftOut?: DifferenceSummary;
}

/** How well characterised toners explain the samples; each sample counts once, with its worst reading. */
export function fitSummary(samples: readonly SampleQuality[]): FitSummary {
  const judged = samples.map((sample): JudgedSample => {
    const leftOut = sample.readings.flatMap(({ deltaE00LeftOut }) => deltaE00LeftOut ?? []);
    const complete = leftOut.length === sample.readings.length && leftOut.length > 0;
    return {
      sample,
      deltaE00: worst(sample.readings.map(({ deltaE00 }) => deltaE00)),
      ...(complete && { deltaE00LeftOut: worst(leftOut) }),
    };
  });
  const leftOut = judged.flatMap(({ deltaE00LeftOut }) => deltaE00LeftOut ?? []);
  const rank = (value: number) => (Number.isFinite(value) ? value : -1);
  return {
    samples: judged.sort((a, b) => rank(b.deltaE00) - rank(a.deltaE00)),
    fitted: summary(judged.map(({ deltaE00 }) => deltaE00)),
    ...(leftOut.length > 0 && { leftOut: summary(leftOut) }),
  };
}

/** The smallest value that at least this share of the finite values does not exceed (nearest rank); NaN of none. */
export function nearestRank(values: readonly number[], share: number): number {
  const sorted = values.filter(Number.isFinite).sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
}

function summary(values: readonly number[]): DifferenceSummary {
  return { median: nearestRank(values, 0.5), p90: nearestRank(values, 0.9), max: nearestRank(values, 1) };
}

function worst(values: readonly number[]): number {
  return nearestRank(values, 1);
}
