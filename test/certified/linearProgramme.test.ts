import { describe, expect, it } from "vitest";
import { linearProgramme } from "../../src/numeric/programmes/linearProgramme.js";
import { expectProved } from "../numeric/provedProgramme.js";
import { KNOWN_PROGRAMMES } from "./linearProgrammes.js";

describe("linear programmes with published answers", () => {
  it.each(KNOWN_PROGRAMMES)("$name ($source)", ({ objective, matrix, atMost, status, value, x }) => {
    const programme = {
      objective,
      matrix: Float64Array.from(matrix.flat()),
      atMost: Float64Array.from(atMost),
    };
    const result = linearProgramme(programme);
    expect(result.status).toBe(status);
    if (value !== undefined)
      expect(Math.abs(result.value - value)).toBeLessThanOrEqual(2e-9 * Math.abs(value));
    x?.forEach((wanted, j) => {
      expect(Math.abs(result.x[j] - wanted)).toBeLessThanOrEqual(1e-8 * Math.max(1, Math.abs(wanted)));
    });
    expectProved(programme, result);
  });
});
