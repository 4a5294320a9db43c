import type { Check, CheckGroup, Figure, Known, Measure } from "./check.js";
import { publishedChecks } from "./publishedChecks.js";

/** How one check went, by the figure that is furthest off. */
export interface CheckResult {
  readonly name: string;
  readonly figures: number;
  /** Which figure is the furthest off. */
  readonly worst: string;
  readonly expected: number | null;
  readonly got: number | null;
  /** |got − expected|, divided by |expected| where the measure is relative. */
  readonly deviation: number | null;
  readonly measure: Measure;
  readonly allowed: number;
  readonly passed: boolean;
  /** What was thrown instead of a figure. */
  readonly thrown?: string;
}

/** How the checks of one source went. */
export interface CheckGroupResult extends Omit<CheckGroup, "checks"> {
  readonly checks: readonly CheckResult[];
}

/** How many checks and figures there are of one kind. */
export interface Count {
  readonly checks: number;
  readonly figures: number;
}

/** What became of all checks. */
export interface Verification {
  readonly format: "masstone/verification";
  readonly version: 1;
  readonly passed: boolean;
  readonly failedChecks: number;
  readonly total: Count;
  readonly byKnown: Readonly<Record<Known, Count>>;
  readonly groups: readonly CheckGroupResult[];
}

/** Works every published figure out anew with the code at hand and compares. Never throws: what throws has failed. */
export function verify(groups: readonly CheckGroup[] = publishedChecks()): Verification {
  const results = groups.map(({ checks, ...group }) => ({ ...group, checks: checks.map(tryCheck) }));
  const all = results.flatMap(({ checks, known }) => checks.map((check) => ({ ...check, known })));
  const count = (checks: readonly CheckResult[]): Count => ({
    checks: checks.length,
    figures: checks.reduce((sum, { figures }) => sum + figures, 0),
  });
  const of = (known: Known) => count(all.filter((check) => check.known === known));
  const failedChecks = all.filter(({ passed }) => !passed).length;
  return {
    format: "masstone/verification",
    version: 1,
    passed: failedChecks === 0 && all.length > 0,
    failedChecks,
    total: count(all),
    byKnown: { seen: of("seen"), computed: of("computed"), memory: of("memory") },
    groups: results,
  };
}

function tryCheck(check: Check): CheckResult {
  const { name, measure, allowed } = check;
  const failed = { name, measure, allowed, worst: "", expected: null, got: null, deviation: null };
  try {
    const figures = check.figures();
    if (figures.length === 0) return { ...failed, figures: 0, passed: false, thrown: "nothing to compare" };
    const deviations = figures.map((figure) => deviationOf(figure, measure));
    const furthest = deviations.reduce((worst, value, i) => (value > deviations[worst] ? i : worst), 0);
    const { name: worst, expected, got } = figures[furthest];
    const deviation = deviations[furthest];
    return {
      ...failed,
      figures: figures.length,
      worst,
      expected,
      got: Number.isFinite(got) ? got : null,
      deviation: Number.isFinite(deviation) ? deviation : null,
      passed: deviation <= allowed,
    };
  } catch (error) {
    const thrown = error instanceof Error ? error.message : String(error);
    return { ...failed, figures: 1, passed: false, thrown };
  }
}

/** Infinite for what is not a number, so that it is the furthest off. */
function deviationOf({ expected, got }: Figure, measure: Measure): number {
  const off = Math.abs(got - expected);
  const deviation = measure === "relative" && off > 0 ? off / Math.abs(expected) : off;
  return Number.isNaN(deviation) ? Number.POSITIVE_INFINITY : deviation;
}
