/** Scales by which an eye grades a difference. */
export const EYE_SCALES = ["iso-3668", "iso-105-a02"] as const;

/** One of `EYE_SCALES`. */
export type EyeScale = (typeof EYE_SCALES)[number];

/** ΔE (CIELAB) of the pairs of the grey scale for change in colour, by grade, best first. Source: ISO 105-A02. */
export const GREY_SCALE: readonly { readonly grade: number; readonly deltaE: number }[] = Object.freeze([
  { grade: 5, deltaE: 0 },
  { grade: 4.5, deltaE: 0.8 },
  { grade: 4, deltaE: 1.7 },
  { grade: 3.5, deltaE: 2.5 },
  { grade: 3, deltaE: 3.4 },
  { grade: 2.5, deltaE: 4.8 },
  { grade: 2, deltaE: 6.8 },
  { grade: 1.5, deltaE: 9.6 },
  { grade: 1, deltaE: 13.6 },
]);

/**
 * ISO 3668 rates a component from 0, no difference, over 1 very slight, 2 slight, 3 moderate, 4 considerable to 5, very
 * large (words from memory), and gives no ΔE. That grade n stands for these pairs of the grey scale is our convention.
 */
const BY_WORD = [0, 0.8, 1.7, 3.4, 6.8, 13.6] as const;

/** What the grades of a scale stand for, in ΔE, least first; the largest difference has the last place. */
export function stepsOf(scale: EyeScale): readonly { readonly grade: number; readonly deltaE: number }[] {
  if (scale === "iso-105-a02") return GREY_SCALE;
  return BY_WORD.map((deltaE, grade) => ({ grade, deltaE }));
}

/** Beyond the largest grade the differences it stands for end at twice its own (our convention). */
const LAST = 2;

/**
 * The differences that a signed grade stands for: from half way to the next smaller grade to half way to the next
 * larger; no difference at all: up to half of the smallest on either side. Undefined for a grade that the scale has not.
 */
export function rangeOfGrade(
  scale: EyeScale,
  signed: number,
): { readonly low: number; readonly high: number } | undefined {
  const steps = stepsOf(scale);
  const place = steps.findIndex(({ grade }) => grade === Math.abs(signed));
  if (place < 0) return undefined;
  const at = (i: number) => (i < steps.length ? steps[i].deltaE : (2 * LAST - 1) * steps[i - 1].deltaE);
  const upper = (at(place) + at(place + 1)) / 2;
  if (place === 0) return { low: -upper, high: upper };
  const lower = (at(place - 1) + at(place)) / 2;
  return signed > 0 ? { low: lower, high: upper } : { low: -upper, high: -lower };
}
