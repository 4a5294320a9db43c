import { expect } from "vitest";
import type { LinearProgramme, LinearProgrammeResult } from "../../src/numeric/programmes/linearProgramme.js";

/** Holds a result to what proves it: duality, Farkas' lemma or a ray, whatever method found it. */
export function expectProved(
  { objective, matrix, atMost }: LinearProgramme,
  { status, x, value, multipliers, ray }: LinearProgrammeResult,
): void {
  const columns = objective.length;
  const rows = atMost.length;
  const size = Math.max(
    1,
    ...Array.from(matrix, Math.abs),
    ...Array.from(atMost, Math.abs),
    ...Array.from(x, Math.abs),
  );
  const near = 1e-7 * size;
  const times = (i: number, v: ArrayLike<number>) =>
    Array.from({ length: columns }, (_, j) => matrix[i * columns + j] * v[j]).reduce((a, b) => a + b, 0);
  const combined = (j: number) =>
    Array.from({ length: rows }, (_, i) => multipliers[i] * matrix[i * columns + j]).reduce(
      (a, b) => a + b,
      0,
    );
  const right = Array.from(multipliers, (y, i) => y * atMost[i]).reduce((a, b) => a + b, 0);
  const along = (v: ArrayLike<number>) =>
    Array.from({ length: columns }, (_, j) => objective[j] * v[j]).reduce((a, b) => a + b, 0);
  for (const y of multipliers) expect(y).toBeGreaterThanOrEqual(0);
  if (status === "infeasible") {
    const weight = Math.max(...multipliers);
    for (let j = 0; j < columns; j++) expect(combined(j)).toBeGreaterThanOrEqual(-near * weight);
    expect(right).toBeLessThan(0);
    return;
  }
  for (let i = 0; i < rows; i++) expect(times(i, x)).toBeLessThanOrEqual(atMost[i] + near);
  for (const amount of x) expect(amount).toBeGreaterThanOrEqual(-near);
  if (status === "unbounded") {
    for (let i = 0; i < rows; i++) expect(times(i, ray)).toBeLessThanOrEqual(near);
    for (const amount of ray) expect(amount).toBeGreaterThanOrEqual(-near);
    expect(along(ray)).toBeGreaterThan(0);
    return;
  }
  expect(status).toBe("optimal");
  const weight = Math.max(1, ...multipliers);
  for (let j = 0; j < columns; j++) expect(combined(j)).toBeGreaterThanOrEqual(objective[j] - near * weight);
  expect(Math.abs(along(x) - value)).toBeLessThanOrEqual(near * Math.max(1, Math.abs(value)));
  expect(Math.abs(right - value)).toBeLessThanOrEqual(near * weight * Math.max(1, Math.abs(value)));
}
