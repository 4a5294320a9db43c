import { describe, expect, it } from "vitest";
import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import type { Lab } from "../../src/colorimetry/lab.js";
import { toleranceEllipse } from "../../src/report/plots/toleranceEllipse.js";

const targets: readonly Lab[] = [
  [50, 40, 20],
  [70, -8, 8],
  [30, 5, -60],
  [85, 2, 80],
  [45, 0.5, -0.3],
];

describe("toleranceEllipse", () => {
  it.each(targets)("around %d, %d, %d is where true CIEDE2000 is what is allowed (computed)", (...target) => {
    const allowed = 0.01;
    const [lightness, a, b] = target;
    const hue = Math.atan2(b, a);
    const { ab, cl } = toleranceEllipse(target, allowed);
    for (const [x, y] of ab) expect(ciede2000(target, [lightness, x, y]) / allowed).toBeCloseTo(1, 1);
    for (const [chroma, l] of cl) {
      const there: Lab = [l, chroma * Math.cos(hue), chroma * Math.sin(hue)];
      expect(ciede2000(target, there) / allowed).toBeCloseTo(1, 1);
    }
  });

  it("grows with what is allowed and is centred on the target", () => {
    const [one, three] = [1, 3].map((allowed) => toleranceEllipse([50, 40, 20], allowed));
    one.ab.forEach(([a, b], i) => {
      expect(three.ab[i][0] - 40).toBeCloseTo(3 * (a - 40), 10);
      expect(three.ab[i][1] - 20).toBeCloseTo(3 * (b - 20), 10);
    });
    expect(one.cl.reduce((sum, [, l]) => sum + l, 0) / one.cl.length).toBeCloseTo(50, 10);
  });

  it("never has negative chroma", () => {
    for (const [chroma] of toleranceEllipse([50, 0.1, 0], 2).cl) expect(chroma).toBeGreaterThanOrEqual(0);
  });
});
